"""disk: the slotted disk seen from above, numbers rising clockwise, north at the top."""

from dataclasses import dataclass
from math import cos, pi, radians, sin

from braidwright.domain.braid import Braid
from braidwright.drawings.pen import Outline, Paint, Pen, Point
from braidwright.drawings.style import ACCENT, HAIR, INK, PAPER, SOFT_INK, drawn, edge_of, filled, type_

RIM = "#faf6ef"
WINDS = ("N", "E", "S", "W")


@dataclass(frozen=True, slots=True, kw_only=True)
class Disk:
    """A disk on the page.

    Attributes:
        braid: Its braid, for slots and angles.
        centre: Its middle.
        radius: To the rim, mm.
    """

    braid: Braid
    centre: Point
    radius: float

    def at(self, slot: float, share: float) -> Point:
        """A point on the ray of a slot, at a share of the radius; 1 is the rim."""
        return self.ray((slot - 0.5) * 360.0 / self.braid.slots, share)

    def ray(self, angle_deg: float, share: float) -> Point:
        """A point at an angle clockwise from north."""
        angle = radians(angle_deg)
        return self.centre[0] + self.radius * share * sin(angle), self.centre[1] - self.radius * share * cos(angle)

    @property
    def spacing(self) -> float:
        """From slot to slot along the rim, mm."""
        return 2.0 * pi * self.radius / self.braid.slots


def draw_plate(pen: Pen, disk: Disk, *, hole: float = 0.2) -> None:
    """The round itself: rim, slots, hole, and a mark at north."""
    pen.circle(disk.centre, disk.radius, Paint(fill=RIM, edge=INK, width=0.012 * disk.radius))
    for slot in range(1, disk.braid.slots + 1):
        pen.line(disk.at(slot, 1.0), disk.at(slot, 0.93), drawn(INK, 0.009 * disk.radius))
    pen.circle(disk.centre, hole * disk.radius, Paint(fill=PAPER, edge=HAIR, width=0.01 * disk.radius))
    tip, left, right = disk.ray(0.0, 0.975), disk.ray(-3.0, 0.88), disk.ray(3.0, 0.88)
    pen.polygon((tip, right, left), filled(ACCENT))


def draw_winds(pen: Pen, disk: Disk, size: float, share: float = 0.33) -> None:
    """N, E, S and W near the middle."""
    for index, wind in enumerate(WINDS):
        x, y = disk.ray(90.0 * index, share)
        pen.text((x, y + 0.34 * size), wind, type_(size, colour=ACCENT, anchor="middle", bold=True))


def draw_number(pen: Pen, disk: Disk, slot: int, size: float, *, bold: bool, share: float = 0.85) -> None:
    """The number of a slot, inside the rim."""
    x, y = disk.at(slot, share)
    colour = INK if bold else SOFT_INK
    pen.text((x, y + 0.34 * size), str(slot), type_(size, colour=colour, anchor="middle", bold=bold))


def draw_spoke(pen: Pen, disk: Disk, slot: int, colour: str, width: float) -> None:
    """A cord from the point of braiding to its slot."""
    pen.line(disk.centre, disk.at(slot, 0.97), drawn(edge_of(colour), width + 0.25))
    pen.line(disk.centre, disk.at(slot, 0.97), drawn(colour, width))


def path_over(disk: Disk, take: int, put: int) -> tuple[Outline, Point, Point]:
    """The way of a moved cord through the inside: the curve, its last handle and its end.

    A move straight through the middle is bent a little, so that two opposite moves do not lie on each other.
    """
    start, end = disk.at(take, 0.88), disk.at(put, 0.86)
    middle = ((start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0)
    pull = 0.45
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = (dx * dx + dy * dy) ** 0.5 or 1.0
    bend = 0.13 * disk.radius * min(1.0, length / disk.radius)
    knee = (
        middle[0] + pull * (disk.centre[0] - middle[0]) + bend * dy / length,
        middle[1] + pull * (disk.centre[1] - middle[1]) - bend * dx / length,
    )
    first = (start[0] + 2.0 / 3.0 * (knee[0] - start[0]), start[1] + 2.0 / 3.0 * (knee[1] - start[1]))
    last = (end[0] + 2.0 / 3.0 * (knee[0] - end[0]), end[1] + 2.0 / 3.0 * (knee[1] - end[1]))
    return Outline(pieces=(("M", (start,)), ("C", (first, last, end)))), last, end


def path_along_rim(disk: Disk, take: int, put: int) -> tuple[Outline, Point, Point]:
    """The way of a re-space, along the inside of the rim by the shorter way round."""
    ahead = (put - take) % disk.braid.slots
    steps = ahead if 2 * ahead <= disk.braid.slots else ahead - disk.braid.slots
    points = [disk.at(take + steps * part / 16.0, 0.84) for part in range(17)]
    pieces = [("M", (points[0],)), *(("L", (point,)) for point in points[1:])]
    return Outline(pieces=tuple(pieces)), points[-2], points[-1]


def draw_arrow(pen: Pen, way: tuple[Outline, Point, Point], width: float, dash: tuple[float, ...] = ()) -> None:
    """A curve with a head, in the accent colour."""
    outline, before, tip = way
    dx, dy = tip[0] - before[0], tip[1] - before[1]
    length = (dx * dx + dy * dy) ** 0.5 or 1.0
    dx, dy = dx / length, dy / length
    pen.path(outline, drawn(PAPER, 2.6 * width))
    pen.path(outline, drawn(ACCENT, width, dash=dash))
    long, wide = 4.2 * width, 2.1 * width
    point = (tip[0] + dx * 1.2 * width, tip[1] + dy * 1.2 * width)
    back = (point[0] - dx * long, point[1] - dy * long)
    pen.polygon(
        (point, (back[0] - dy * wide, back[1] + dx * wide), (back[0] + dy * wide, back[1] - dx * wide)), filled(ACCENT)
    )
