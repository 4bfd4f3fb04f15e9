"""silhouette: the outline of a bead's solid, seen from anywhere.

A round bead is a spherodisc (physics.md, section 2): a flat disc square to the hole, made thicker by a ball that rolls
over it. Its shadow is the shadow of the disc, an ellipse, made wider by the radius of the ball all round. A bead longer
than wide is a rod along the hole, made thicker in the same way.
"""

from functools import lru_cache
from math import atan2, cos, degrees, hypot, pi, radians, sin, sqrt, tan

from braidwright.drawings.pen import Curve, Outline, Point

FLAT = 1e-3  # an angle, or a share of the radius, too small to be seen
QUARTERS = ((1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0))


def spherodisc(size: tuple[float, float], hole: tuple[float, float, float]) -> Outline:
    """The outline of a round bead at the origin, in its own mm.

    Args:
        size: Outside diameter, and length along the hole.
        hole: The direction of the hole: to the right, down the page, toward the reader; a unit vector.
    """
    return _outline(size, round(degrees(atan2(hole[1], hole[0])), 1), round(abs(hole[2]), 3))


@lru_cache(maxsize=4096)
def _outline(size: tuple[float, float], turned_deg: float, toward: float) -> Outline:
    """The same, for a hole that runs in this direction on the page and so much toward the reader."""
    diameter, length = size
    ball = min(diameter, length) / 2.0
    lying = sqrt(max(0.0, 1.0 - toward * toward))
    disc = diameter / 2.0 - ball
    if disc > 0.0:  # wide across the hole; the disc is foreshortened along it
        wide, narrow, turn = disc, disc * toward, turned_deg + 90.0
    else:
        wide, narrow, turn = (length / 2.0 - ball) * lying, 0.0, turned_deg
    cosine, sine = cos(radians(turn)), sin(radians(turn))
    return Outline(
        pieces=tuple(
            (letter, tuple((x * cosine - y * sine, x * sine + y * cosine) for x, y in points))
            for letter, points in widened(wide, narrow, ball)
        )
    )


def widened(wide: float, narrow: float, by: float) -> tuple[tuple[str, Curve], ...]:
    """The outline of an ellipse lying along x, made wider by a distance all round: cubic curves, eight at most.

    Args:
        wide: Half its length.
        narrow: Half its width, at most `wide`; 0 for a straight line.
        by: The distance.
    """
    nodes: list[tuple[Point, float]] = []  # a point, and the angle of the normal there
    for index, mirror in enumerate(QUARTERS):
        own = _quarter(wide, narrow, by)
        for (x, y), normal in own[:-1] if index % 2 == 0 else own[:0:-1]:
            nodes.append(((x * mirror[0], y * mirror[1]), atan2(sin(normal) * mirror[1], cos(normal) * mirror[0])))
    pieces: list[tuple[str, Curve]] = [("M", (nodes[0][0],))]
    for (start, leaves), (end, arrives) in zip(nodes, [*nodes[1:], nodes[0]], strict=True):
        if hypot(end[0] - start[0], end[1] - start[1]) > FLAT * (wide + by):
            pieces.append(_arc(start, end, leaves, (arrives - leaves) % (2.0 * pi)))
    return (*pieces, ("Z", ()))


def _quarter(wide: float, narrow: float, by: float) -> list[tuple[Point, float]]:
    """Three points of the first quarter, the middle one where the flat side goes over into the round end."""
    flatness = narrow / wide if wide > 0.0 else 1.0
    place = pi / 4.0 * sqrt(flatness)
    normal = atan2(wide * sin(place), narrow * cos(place)) if flatness > 0.0 else pi / 2.0
    if wide == 0.0:
        normal = pi / 4.0
    middle = (wide * cos(place) + by * cos(normal), narrow * sin(place) + by * sin(normal))
    return [((wide + by, 0.0), 0.0), (middle, normal), ((0.0, narrow + by), pi / 2.0)]


def _arc(start: Point, end: Point, leaves: float, turn: float) -> tuple[str, Curve]:
    """A piece that turns by an angle, as near to an ellipse's as a cubic comes; straight where nothing turns."""
    if not FLAT < turn < pi - FLAT:
        return "L", (end,)
    arrives = leaves + turn
    gone = ((end[0] - start[0]) * cos(arrives) + (end[1] - start[1]) * sin(arrives)) / sin(turn)
    back = ((end[0] - start[0]) * cos(leaves) + (end[1] - start[1]) * sin(leaves)) / sin(turn)
    share = 4.0 / 3.0 * tan(turn / 4.0) / tan(turn / 2.0)
    first = (start[0] - share * gone * sin(leaves), start[1] + share * gone * cos(leaves))
    second = (end[0] - share * back * sin(arrives), end[1] + share * back * cos(arrives))
    return "C", (first, second, end)
