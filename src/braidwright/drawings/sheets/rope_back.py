"""rope back: the rope in bands, larger than life, seen from the back."""

from braidwright.drawings.pen import Drawing
from braidwright.drawings.rope_bands import draw_bands
from braidwright.drawings.sheet import Look, Sheet, Subject


def draw(subject: Subject, look: Look) -> tuple[Drawing, ...]:
    """The rope from the back; none while it is not predicted."""
    return draw_bands(subject, look, from_back=True)


SHEET = Sheet(name="rope-back", title="The rope, back", draw=draw)
