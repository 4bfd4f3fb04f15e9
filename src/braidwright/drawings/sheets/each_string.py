"""each string: one drawing for every cord, to be set beside its words."""

from functools import partial

from braidwright.domain.strings import strings_of
from braidwright.drawings.pen import Drawing, Pen
from braidwright.drawings.sheet import Look, Sheet, Subject
from braidwright.drawings.string_line import StringLine, draw_string, string_line
from braidwright.drawings.words import string_words


def draw(subject: Subject, look: Look) -> tuple[Drawing, ...]:
    """One drawing a cord, in the order of the start slots; none for a rope of cord only."""
    if not subject.is_beaded:
        return ()
    lines = [string_line(subject, string, look.width_mm, look.text_scale) for string in strings_of(subject.design)]
    return tuple(
        Drawing(
            name=f"string-{line.string.slot}",
            width_mm=look.width_mm,
            height_mm=line.height,
            title=f"The string of the cord in slot {line.string.slot}",
            description=f"First strung first: {string_words(subject.design, line.string)}.",
            paint=partial(_paint, line),
        )
        for line in lines
    )


def _paint(line: StringLine, pen: Pen) -> None:
    draw_string(pen, line, (0.0, 0.0))


SHEET = Sheet(name="each-string", title="The strings, one by one", draw=draw)
