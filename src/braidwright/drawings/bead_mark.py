"""bead_mark: how one bead, stack or bare stitch is marked on paper: its colour and its symbol together."""

from dataclasses import dataclass
from math import radians, tan

from braidwright.domain.tray import BARE
from braidwright.drawings.pen import Outline, Paint, Pen, Point
from braidwright.drawings.sheet import Subject
from braidwright.drawings.style import INK, PAPER, THIN, edge_of, ink_on, type_
from braidwright.drawings.symbols import draw_symbol

SYMBOL_SHARE = 0.68  # of the smaller side of the mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """Where a mark goes.

    Attributes:
        centre: Its middle.
        width: Its width.
        height: Its height.
        lean_deg: How far its top leans to the right.
    """

    centre: Point
    width: float
    height: float
    lean_deg: float = 0.0


def lozenge(box: Box) -> Outline:
    """A leaning box with generous corners, like a bead seen from the side."""
    x, y = box.centre
    slope = tan(radians(box.lean_deg))
    high, wide = box.height / 2.0, box.width / 2.0
    corners = [(x + sx * wide - sy * high * slope, y + sy * high) for sx, sy in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    return rounded(corners, 0.36 * min(box.width, box.height))


def rounded(corners: list[Point], radius: float) -> Outline:
    """A closed shape with rounded corners."""
    pieces: list[tuple[str, tuple[Point, ...]]] = []
    for index, corner in enumerate(corners):
        before, after = corners[index - 1], corners[(index + 1) % len(corners)]
        enter, leave = _toward(corner, before, radius), _toward(corner, after, radius)
        pieces.append(("L" if pieces else "M", (enter,)))
        pieces.append(("C", (_toward(corner, enter, 0.45 * radius), _toward(corner, leave, 0.45 * radius), leave)))
    return Outline(pieces=(*pieces, ("Z", ())))


def _toward(start: Point, goal: Point, distance: float) -> Point:
    dx, dy = goal[0] - start[0], goal[1] - start[1]
    length = (dx * dx + dy * dy) ** 0.5 or 1.0
    share = min(distance / length, 0.5 if distance < length else 1.0)
    return start[0] + share * dx, start[1] + share * dy


def draw_mark(pen: Pen, subject: Subject, key: str, box: Box, of: str = "") -> None:
    """A drop as a mark: a bead with its symbol, or the beads of a stack side by side under one symbol.

    A bare drop is drawn as a dash of cord; `draw_cord_mark` does that in the colour of a certain cord.
    """
    if key == BARE:
        draw_cord_mark(pen, subject, 0, box, of)
        return
    keys = subject.design.tray.beads_of(key)
    symbol, size = subject.design.tray.symbol_of(key), SYMBOL_SHARE * min(box.width, box.height)
    pen.begin(subject.design.tray.name_of(key), of)
    for index, single in enumerate(keys):
        part = _part(box, index, len(keys))
        colour = subject.colour(single)
        pen.path(lozenge(part), Paint(fill=colour, edge=edge_of(colour), width=THIN))
    ink = ink_on(subject.colour(keys[0]))
    if len(keys) > 1:
        pen.circle(box.centre, 0.6 * size, Paint(fill=PAPER, edge=INK, width=THIN))
        ink, size = INK, 0.72 * size
    draw_symbol(pen, symbol, box.centre, size, ink)
    pen.end()


def _part(box: Box, index: int, count: int) -> Box:
    """One of several equal parts of a box, from its left."""
    width = box.width / count
    x, y = box.centre
    return Box(
        centre=(x - box.width / 2.0 + (index + 0.5) * width, y),
        width=width * (0.94 if count > 1 else 1.0),
        height=box.height,
        lean_deg=box.lean_deg,
    )


def draw_cord_mark(pen: Pen, subject: Subject, cord: int, box: Box, of: str = "") -> None:
    """A bare stitch: a slim dash of the cord's own colour, wider and with its letter where cords differ."""
    colour, letter = subject.design.cords.colour(cord), subject.cord_letter(cord)
    width = 0.74 * box.width if letter else min(1.3, 0.34 * box.width)
    slim = Box(centre=box.centre, width=width, height=0.86 * box.height, lean_deg=box.lean_deg)
    pen.begin(f"bare, cord {letter}" if letter else "bare", of)
    pen.path(lozenge(slim), Paint(fill=colour, edge=edge_of(colour), width=THIN))
    if letter:
        size = 0.86 * width
        lettering = type_(size, colour=ink_on(colour), anchor="middle", bold=True)
        pen.text((box.centre[0], box.centre[1] + 0.34 * size), letter, lettering)
    pen.end()
