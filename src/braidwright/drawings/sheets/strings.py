"""strings: the string of every cord, one under the other."""

from functools import partial

from braidwright.domain.strings import strings_of
from braidwright.drawings.pen import Drawing, Pen
from braidwright.drawings.sheet import Look, Sheet, Subject
from braidwright.drawings.string_line import StringLine, draw_string, draw_strings_key, string_line, strings_key
from braidwright.drawings.style import HAIR, drawn
from braidwright.drawings.words import string_words


def draw(subject: Subject, look: Look) -> tuple[Drawing, ...]:
    """All strings, as many drawings as the height of a page asks for; none for a rope of cord only."""
    if not subject.is_beaded:
        return ()
    lines = [string_line(subject, string, look.width_mm, look.text_scale) for string in strings_of(subject.design)]
    pages: list[list[StringLine]] = [[]]
    used = strings_key(look.text_scale)
    for line in lines:
        if pages[-1] and used + line.height > look.height_mm:
            pages.append([])
            used = strings_key(look.text_scale)
        pages[-1].append(line)
        used += line.height
    return tuple(_drawing(tuple(page), number, look) for number, page in enumerate(pages, 1))


def _drawing(page: tuple[StringLine, ...], number: int, look: Look) -> Drawing:
    said = [f"Slot {line.string.slot}: {string_words(line.subject.design, line.string)}." for line in page]
    return Drawing(
        name=f"strings-{number}",
        width_mm=look.width_mm,
        height_mm=strings_key(look.text_scale) + sum(line.height for line in page) + 0.5,
        title=f"The strings of slots {page[0].string.slot} to {page[-1].string.slot}",
        description="Strings, first strung first. " + " ".join(said),
        paint=partial(_paint, page, look),
    )


def _paint(page: tuple[StringLine, ...], look: Look, pen: Pen) -> None:
    draw_strings_key(pen, (0.0, 0.0), look.text_scale)
    y = strings_key(look.text_scale)
    for line in page:
        pen.line((0.0, y), (look.width_mm, y), drawn(HAIR, 0.15))
        draw_string(pen, line, (0.0, y))
        y += line.height


SHEET = Sheet(name="strings", title="The strings", draw=draw)
