"""rope front: the rope in bands, larger than life, seen from the front."""

from braidwright.drawings.pen import Drawing
from braidwright.drawings.rope_bands import draw_bands
from braidwright.drawings.sheet import Look, Sheet, Subject


def draw(subject: Subject, look: Look) -> tuple[Drawing, ...]:
    """The rope from the front; none while it is not predicted."""
    return draw_bands(subject, look, from_back=False)


SHEET = Sheet(name="rope-front", title="The rope, front", draw=draw)
