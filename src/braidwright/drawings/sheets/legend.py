"""legend: every entry of the tray with its mark, its name, what it is and how many there are."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from braidwright.domain.strings import bead_counts
from braidwright.domain.tray import BARE, TrayStack
from braidwright.drawings.bead_mark import Box, draw_cord_mark, draw_mark
from braidwright.drawings.pen import Drawing, Pen
from braidwright.drawings.sheet import Look, Sheet, Subject
from braidwright.drawings.style import HAIR, LARGE_TYPE, SMALL_TYPE, SOFT_INK, drawn, type_
from braidwright.drawings.words import bead_words, counted, listed

LINE = 10.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One line of the legend.

    Attributes:
        key: A key of the tray, BARE for bare stitches, or "" for a cord.
        cord: The first cord of this colour, for cords and bare stitches.
        name: What the pattern calls it.
        symbol: What its mark is, in words.
        kind: What it is, in words.
        count: How many, in words.
    """

    key: str
    cord: int = 0
    name: str
    symbol: str
    kind: str
    count: str


def entries(subject: Subject) -> tuple[Entry, ...]:
    """What the legend lists: beads and stacks in tray order, bare stitches, and cords where they differ."""
    return (*_tray_entries(subject), *_bare_entry(subject), *_cord_entries(subject))


def _tray_entries(subject: Subject) -> Iterator[Entry]:
    tray, beads, drops = subject.design.tray, bead_counts(subject.design), subject.design.drop_counts()
    for entry in tray.entries:
        is_stack = isinstance(entry, TrayStack)
        yield Entry(
            key=entry.key,
            name=tray.name_of(entry.key),
            symbol=f"symbol {tray.symbol_of(entry.key)}",
            kind=bead_words(subject, entry.key),
            count=counted(drops.get(entry.key, 0), "drop") if is_stack else counted(beads[entry.key], "bead"),
        )


def _bare_entry(subject: Subject) -> Iterator[Entry]:
    bare = subject.design.drop_counts().get(BARE, 0)
    if bare and subject.is_beaded:
        count = counted(bare, "stitch", "stitches")
        yield Entry(key=BARE, name="bare", symbol="a dash of cord", kind="no bead falls, the cord shows", count=count)


def _cord_entries(subject: Subject) -> Iterator[Entry]:
    """The cords, one line for each colour, when there is more than one or no bead to look at."""
    design = subject.design
    letters = [subject.cord_letter(cord) for cord in range(design.braid.cord_count)]
    if not any(letters) and subject.is_beaded:
        return
    for letter in dict.fromkeys(letters):
        members = [cord for cord, other in enumerate(letters) if other == letter]
        slots = listed(tuple(str(design.braid.start[cord]) for cord in members))
        name = design.cords.colour_name(members[0]) or (f"Cord {letter}" if letter else "Cord")
        yield Entry(
            key="",
            cord=members[0],
            name=name,
            symbol=f"letter {letter}" if letter else "a dash of cord",
            kind=f"{design.cords.kind_name} cord in {'slots' if len(members) > 1 else 'slot'} {slots}",
            count=counted(len(members), "cord"),
        )


def draw(subject: Subject, look: Look) -> tuple[Drawing, ...]:
    """The legend, as one drawing."""
    lines = entries(subject)
    words = [f"{entry.name}: {entry.symbol}, {entry.kind}, {entry.count}." for entry in lines]
    return (
        Drawing(
            name="legend",
            width_mm=look.width_mm,
            height_mm=max(1, len(lines)) * LINE * look.text_scale + 0.6,
            title=f"The tray of {subject.design.title}",
            description="The tray. " + " ".join(words),
            paint=partial(_paint, subject, look),
        ),
    )


def _paint(subject: Subject, look: Look, pen: Pen) -> None:
    scale = look.text_scale
    for index, entry in enumerate(entries(subject)):
        y = index * LINE * scale + 0.3
        box = Box(centre=(4.5 * scale, y + LINE * scale / 2.0), width=5.6 * scale, height=7.4 * scale)
        if entry.key in (BARE, ""):
            draw_cord_mark(pen, subject, entry.cord, box, f"tray-{index + 1}")
        else:
            draw_mark(pen, subject, entry.key, box, f"tray-{index + 1}")
        middle = y + LINE * scale / 2.0
        pen.text((12.0 * scale, middle - 0.4 * scale), entry.name, type_(LARGE_TYPE * scale, bold=True))
        pen.text((12.0 * scale, middle + 3.6 * scale), entry.kind, type_(SMALL_TYPE * scale, colour=SOFT_INK))
        pen.text((look.width_mm, middle + 1.3 * scale), entry.count, type_(LARGE_TYPE * scale, anchor="end"))
        if index:
            pen.line((0.0, y), (look.width_mm, y), drawn(HAIR, 0.15))


SHEET = Sheet(name="legend", title="The tray", draw=draw)
