"""each move: one small disk for every move of a repeat, to be set beside its sentence."""

from braidwright.drawings.move_disk import move_drawings
from braidwright.drawings.pen import Drawing
from braidwright.drawings.sheet import Look, Sheet, Subject


def draw(subject: Subject, look: Look) -> tuple[Drawing, ...]:
    """One drawing a move, in working order."""
    return move_drawings(subject, look.text_scale)


SHEET = Sheet(name="each-move", title="The moves, one by one", draw=draw)
