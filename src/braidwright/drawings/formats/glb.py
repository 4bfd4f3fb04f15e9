"""glb: the rope as a 3D model (glTF 2.0, binary), to turn about in any viewer."""

from collections.abc import Iterator

from braidwright.drawings.format import File, Format, Written
from braidwright.drawings.meshes.model import rope_model
from braidwright.drawings.meshes.worn import worn_pose
from braidwright.drawings.pattern import HandPart, Pattern

MOST_STITCHES = 12_000  # a file of some 15 MB; a viewer has trouble turning more
TOO_LONG = (
    f"There is no 3D model, because a rope of more than {MOST_STITCHES} stitches is more than a viewer can turn; "
    f"make one of a shorter piece."
)
NO_SHAPE = "There is no 3D model yet, because the shape of this rope is not predicted; measure a swatch."


def write(pattern: Pattern) -> Written:
    """A straight model for each hand, and one as worn where it goes round a wrist; none of a shape nobody knows."""
    if len(pattern.design.rows) * pattern.design.width > MOST_STITCHES:
        return Written(files=(), warnings=(TOO_LONG,))
    files = tuple(file for part in pattern.hands for file in _models(part))
    return Written(files=files, warnings=() if files else (NO_SHAPE,))


def _models(part: HandPart) -> Iterator[File]:
    geometry = part.subject.geometry
    if geometry is None:
        return
    folder = f"model/hand-{part.hand.lower()}"
    yield f"{folder}/rope.glb", rope_model(part.subject, geometry)
    bent = worn_pose(part.subject)
    if bent is not None:
        yield f"{folder}/rope-worn.glb", rope_model(part.subject, geometry, bent)


FORMAT = Format(
    name="glb",
    title="Building the model",
    note="The rope as a 3D model in its true size, straight and as worn: every bead carries its row and its place.",
    weight=0.03,
    write=write,
)
