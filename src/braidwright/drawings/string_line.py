"""string_line: the string of one cord as a line of beads, first strung at the left, equal neighbours counted once."""

from dataclasses import dataclass

from braidwright.domain.strings import String, phrases
from braidwright.domain.tray import BARE
from braidwright.drawings.bead_mark import Box, draw_mark
from braidwright.drawings.pen import Pen, Point
from braidwright.drawings.sheet import Subject
from braidwright.drawings.style import INK, PAPER, PLAIN_TYPE, SMALL_TYPE, SOFT_INK, drawn, edge_of, filled, type_
from braidwright.drawings.words import counted

HEAD = 24.5
BEAD = 4.4
DIGIT = 0.52  # width of a figure, as a share of its size
GAP = 2.3
LINE = 8.2
LONGEST_NAME = 11
TIMES = "\u00d7"


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """Equal beads in a row: how many, of which key, and how wide their mark is, mm."""

    count: int
    key: str
    width: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Sign:
    """Lettering between the beads: how many times a group comes, or where it ends."""

    text: str
    width: float


@dataclass(frozen=True, slots=True, kw_only=True)
class StringLine:
    """The string of one cord, broken into lines that fit a width."""

    subject: Subject
    string: String
    lines: tuple[tuple[Run | Sign, ...], ...]
    scale: float
    width: float

    @property
    def height(self) -> float:
        """Height of all its lines, mm."""
        return LINE * self.scale * max(1, len(self.lines)) + 1.2 * self.scale


def string_line(subject: Subject, string: String, width: float, scale: float) -> StringLine:
    """Break a string into lines; a group that comes again straight away is drawn once, in brackets."""
    room = width - (HEAD + 4.0) * scale
    lines: list[list[Run | Sign]] = [[]]
    used = 0.0
    for together in _pieces(string, scale):
        wide = sum(piece.width for piece in together)
        if lines[-1] and used + wide > room:
            lines.append([])
            used = 0.0
        lines[-1].extend(together)
        used += wide
    return StringLine(
        subject=subject, string=string, lines=tuple(tuple(line) for line in lines), scale=scale, width=width
    )


def _pieces(string: String, scale: float) -> list[list[Run | Sign]]:
    """What is drawn, in order; what must not be torn apart at the end of a line is together."""
    found: list[list[Run | Sign]] = []
    for phrase in phrases(tuple(key for key in string.drops if key != BARE)):
        beads: list[list[Run | Sign]] = [[_run(count, key, scale)] for count, key in phrase.runs]
        if phrase.times > 1:
            beads[0].insert(0, _sign(f"{phrase.times} {TIMES} (", scale))
            beads[-1].append(_sign(")", scale))
        found += beads
    return found


def _run(count: int, key: str, scale: float) -> Run:
    digits = 0.0 if count == 1 else 1.2 + DIGIT * PLAIN_TYPE * len(str(count))
    return Run(count=count, key=key, width=(BEAD + digits + GAP) * scale)


def _sign(text: str, scale: float) -> Sign:
    return Sign(text=text, width=(1.4 + DIGIT * PLAIN_TYPE * len(text)) * scale)


def draw_string(pen: Pen, line: StringLine, corner: Point) -> None:
    """Draw the slot, the cord and the beads; `corner` is the upper left one."""
    scale, (x, top) = line.scale, corner
    design = line.subject.design
    colour = design.cords.colour(line.string.cord)
    pen.begin(f"Slot {line.string.slot}", f"string-{line.string.slot}")
    y = top + LINE * scale / 2.0
    pen.text((x, y + 1.5 * scale), str(line.string.slot), type_(5.2 * scale, bold=True))
    total = sum(key != BARE for key in line.string.drops)
    letter, name = line.subject.cord_letter(line.string.cord), design.cords.colour_name(line.string.cord)
    notes = [f"{letter} {name}"[:LONGEST_NAME].strip(), counted(total, "drop")]
    notes = [words for words in notes if words]
    for index, words in enumerate(notes):
        low = (3.1 * index - 1.55 * len(notes) + 2.5) * scale
        pen.text((x + 8.2 * scale, y + low), words, type_(2.5 * scale, colour=SOFT_INK))
    for index, part in enumerate(line.lines):
        _draw_line(pen, line, part, (x + HEAD * scale, y + index * LINE * scale), colour)
    pen.end()


def _draw_line(pen: Pen, line: StringLine, part: tuple[Run | Sign, ...], start: Point, colour: str) -> None:
    scale, (x, y) = line.scale, start
    end = x + sum(piece.width for piece in part) + 1.0 * scale
    is_last = part is line.lines[-1]
    pen.line((x - 2.0 * scale, y), (end, y), drawn(edge_of(colour), 0.75 * scale))
    pen.line((x - 2.0 * scale, y), (end, y), drawn(colour, 0.45 * scale))
    x += 0.5 * scale
    for piece in part:
        if isinstance(piece, Run):
            _draw_run(pen, line, piece, (x, y))
        else:
            _draw_sign(pen, piece, (x, y), scale)
        x += piece.width
    if not is_last:
        pen.text((end + 0.4 * scale, y + 1.0 * scale), "…", type_(PLAIN_TYPE * scale, colour=SOFT_INK))


def _draw_run(pen: Pen, line: StringLine, run: Run, start: Point) -> None:
    """A count, when there are several, and the bead."""
    scale, (x, y) = line.scale, start
    bead = BEAD * scale
    if run.count > 1:
        size, wide = PLAIN_TYPE * scale, run.width - bead - GAP * scale
        corners = ((x, y - 0.5 * size), (x + wide, y - 0.5 * size), (x + wide, y + 0.5 * size), (x, y + 0.5 * size))
        pen.polygon(corners, filled(PAPER))
        lettering = type_(size, colour=INK, anchor="middle", bold=True)
        pen.text((x + wide / 2.0, y + 0.34 * size), str(run.count), lettering)
        x += wide
    box = Box(centre=(x + bead / 2.0, y), width=bead * 0.86, height=bead * 1.16)
    draw_mark(pen, line.subject, run.key, box, f"run-{run.count}")


def _draw_sign(pen: Pen, sign: Sign, start: Point, scale: float) -> None:
    """Lettering on a patch of paper, so that the cord does not strike it through."""
    (x, y), size = start, PLAIN_TYPE * scale
    wide = sign.width - 0.6 * scale
    pen.polygon(
        ((x, y - 0.6 * size), (x + wide, y - 0.6 * size), (x + wide, y + 0.6 * size), (x, y + 0.6 * size)),
        filled(PAPER),
    )
    pen.text((x + wide / 2.0, y + 0.34 * size), sign.text, type_(size, colour=INK, anchor="middle", bold=True))


def strings_key(scale: float) -> float:
    """Height of the line that says which end is first, mm."""
    return 6.0 * scale


def draw_strings_key(pen: Pen, corner: Point, scale: float) -> None:
    """Which end comes first."""
    x, y = corner[0], corner[1] + 3.2 * scale
    pen.text((x, y), "slot", type_(SMALL_TYPE * scale, colour=SOFT_INK, italic=True))
    pen.text(
        (x + HEAD * scale, y), "first strung, first to fall", type_(SMALL_TYPE * scale, colour=SOFT_INK, italic=True)
    )
    left = x + (HEAD + 36.0) * scale
    pen.line((left, y - 0.9 * scale), (left + 12.0 * scale, y - 0.9 * scale), drawn(SOFT_INK, 0.25))
    tip = left + 12.0 * scale
    for side in (-1.0, 1.0):
        pen.line((tip, y - 0.9 * scale), (tip - 1.4 * scale, y + (-0.9 + 0.9 * side) * scale), drawn(SOFT_INK, 0.25))
    pen.text((tip + 2.0 * scale, y), "last", type_(SMALL_TYPE * scale, colour=SOFT_INK, italic=True))
