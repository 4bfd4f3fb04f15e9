"""set-up disk: the disk from above, every cord in its slot, the first beads of its string in the order they fall."""

from functools import partial
from math import floor

from braidwright.domain.strings import String, runs, strings_of
from braidwright.domain.tray import BARE
from braidwright.drawings.bead_mark import Box, draw_mark
from braidwright.drawings.disk import Disk, draw_number, draw_plate, draw_spoke, draw_winds
from braidwright.drawings.pen import Drawing, Paint, Pen
from braidwright.drawings.sheet import Look, Sheet, Subject
from braidwright.drawings.style import ACCENT, INK, PAPER, SMALL_TYPE, SOFT_INK, drawn, edge_of, type_
from braidwright.drawings.words import listed, string_words

DISK_SHARE = 0.245  # radius of the disk as a share of the width
LONGEST_ALT = 1500
WINDS_AT = 0.62  # where the compass letters stand, as a share of the radius: clear of the cords at both sides


def draw(subject: Subject, look: Look) -> tuple[Drawing, ...]:
    """One square drawing."""
    side = min(look.width_mm, look.height_mm)
    braid = subject.design.braid
    slots = listed(tuple(str(slot) for slot in braid.start))
    said = f"The disk from above, north at the top, with {braid.cord_count} cords in slots {slots}."
    strings = " ".join(f"Slot {one.slot}: {string_words(subject.design, one)}." for one in strings_of(subject.design))
    return (
        Drawing(
            name="setup-disk",
            width_mm=side,
            height_mm=side,
            title=f"Setting up, {braid.english}, {braid.hand}",
            description=f"{said} {strings}"
            if len(strings) < LONGEST_ALT
            else f"{said} The strings are listed as words.",
            paint=partial(_paint, subject, look, side),
        ),
    )


def _paint(subject: Subject, look: Look, side: float, pen: Pen) -> None:
    braid, scale = subject.design.braid, look.text_scale
    radius = DISK_SHARE * side
    disk = Disk(braid=braid, centre=(side / 2.0, side / 2.0), radius=radius)
    for string in strings_of(subject.design):
        _draw_tail(pen, subject, disk, string, look)
    draw_plate(pen, disk, hole=0.16)
    for place, slot in enumerate(braid.start):
        draw_spoke(pen, disk, slot, subject.design.cords.colour(place), 0.018 * radius)
    size = min(3.6 * scale, 0.5 * disk.spacing)
    for slot in range(1, braid.slots + 1):
        if slot in braid.start:
            _draw_start(pen, disk, slot, size)
        else:
            draw_number(pen, disk, slot, 0.8 * size, bold=False)
    pen.circle(disk.centre, 0.09 * radius, Paint(fill=PAPER, edge=INK, width=0.3))
    draw_winds(pen, disk, min(4.6 * scale, 0.66 * WINDS_AT * disk.spacing), share=WINDS_AT)
    _draw_key(pen, subject, side, scale)


def _draw_start(pen: Pen, disk: Disk, slot: int, size: float) -> None:
    """The number of a slot that holds a cord, on a disc of the accent colour."""
    x, y = disk.at(slot, 0.84)
    pen.circle((x, y), min(0.82 * size, 0.41 * disk.spacing), Paint(fill=ACCENT, edge=PAPER, width=0.2))
    words = type_(size if slot < 10 else 0.92 * size, colour=PAPER, anchor="middle", bold=True)
    pen.text((x, y + 0.33 * size), str(slot), words, f"slot-{slot}")


def _draw_tail(pen: Pen, subject: Subject, disk: Disk, string: String, look: Look) -> None:
    """A cord outside the disk with the first of its beads."""
    colour = subject.design.cords.colour(string.cord)
    far = (disk.centre[0] - 2.5 * look.text_scale) / disk.radius
    start, end = disk.at(string.slot, 0.95), disk.at(string.slot, far)
    width = 0.018 * disk.radius
    pen.line(start, end, drawn(edge_of(colour), width + 0.25))
    pen.line(start, end, drawn(colour, width))
    bead = min(5.0 * look.text_scale, 0.94 * disk.spacing)
    places = floor((far - 1.1) * disk.radius / (bead * 1.05)) - 1
    pen.begin(f"the cord in slot {string.slot}", f"string-{string.slot}")
    letter = subject.cord_letter(string.cord)
    if letter:
        _draw_count(pen, disk.at(string.slot, far), letter, min(5.0 * look.text_scale, 0.94 * disk.spacing))
    items, rest = fitted(string, places - bool(letter))
    for index, (count, key) in enumerate(items):
        x, y = disk.at(string.slot, 1.1 + (index + 0.5) * bead * 1.05 / disk.radius)
        if key:
            draw_mark(pen, subject, key, Box(centre=(x, y), width=bead * 0.84, height=bead * 0.96))
        else:
            _draw_count(pen, (x, y), str(count), bead)
    if rest and subject.is_beaded:
        x, y = disk.at(string.slot, 1.1 + (len(items) + 0.5) * bead * 1.05 / disk.radius)
        _draw_count(pen, (x, y), "…", bead)
    pen.end()


def _draw_key(pen: Pen, subject: Subject, side: float, scale: float) -> None:
    """How to read the picture, in a corner."""
    if not subject.is_beaded:
        return
    lettering = type_(SMALL_TYPE * scale, colour=SOFT_INK, italic=True)
    notes = ("The bead nearest the disk", "is strung first and falls first.", "9 before a bead: nine of it.")
    for line, words in enumerate(notes):
        pen.text((1.0, side - (1.2 + 4.0 * (len(notes) - 1 - line)) * scale), words, lettering)


def _draw_count(pen: Pen, at: tuple[float, float], words: str, bead: float) -> None:
    size = 0.7 * bead
    pen.circle(at, 0.46 * bead, Paint(fill=PAPER))
    pen.text((at[0], at[1] + 0.34 * size), words, type_(size, colour=INK, anchor="middle", bold=True))


def fitted(string: String, places: int) -> tuple[tuple[tuple[int, str], ...], bool]:
    """What fits into so many places: single beads, or a count and one bead for three and more alike.

    Returns:
        Items in order, (1, key) for a bead and (count, "") for the count of the bead after it; whether beads are left.
    """
    items: list[tuple[int, str]] = []
    for count, key in runs(tuple(key for key in string.drops if key != BARE)):
        block = [(count, ""), (1, key)] if count > 2 else [(1, key)] * count
        if len(items) + len(block) > places:
            return tuple(items), True
        items += block
    return tuple(items), False


SHEET = Sheet(name="setup-disk", title="Setting up", draw=draw)
