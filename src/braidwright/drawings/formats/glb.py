"""glb: the rope as a 3D model (glTF 2.0, binary), to turn about in any viewer."""

from braidwright.drawings.format import File, Format, Written
from braidwright.drawings.meshes.model import rope_model
from braidwright.drawings.pattern import Pattern

NO_SHAPE = "There is no 3D model yet, because the shape of this rope is not predicted; measure a swatch."


def write(pattern: Pattern) -> Written:
    """One model for each hand; none while the shape of the rope is not known."""
    files: list[File] = [
        (f"model/hand-{part.hand.lower()}/rope.glb", rope_model(part.subject, part.subject.geometry))
        for part in pattern.hands
        if part.subject.geometry is not None
    ]
    return Written(files=tuple(files), warnings=() if files else (NO_SHAPE,))


FORMAT = Format(
    name="glb",
    title="Building the model",
    note="The rope as a 3D model in its true size, to turn about in any viewer: every bead carries its row and place.",
    weight=0.03,
    write=write,
)
