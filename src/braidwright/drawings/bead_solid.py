"""bead_solid: what a bead looks like from the side: its outline, its light and its place round the rope.

Round beads are drawn as the exact projection of the solid that physics.md, section 2, reckons with; beads that stand
out as the hull of a few spheres; tubes and cut beads in the box of their spheroid.
"""

from dataclasses import dataclass
from math import atan2, cos, degrees, hypot, pi, sin, sqrt

from braidwright.domain.bead import REACHES, Bead
from braidwright.drawings.pen import Curve, Gradient, Outline, Paint, Pen, Point
from braidwright.drawings.silhouette import spherodisc
from braidwright.drawings.style import WHITE, darker, edge_of, hue_turned, lighter, mixed

# The upper left quarter of the outline of tubes and cut beads, in shares of half the width and height.
CORNERS: dict[str, Curve] = {
    "cylinder": ((-1.0, -0.86), (-0.82, -1.0)),
    "bicone": ((-1.0, -0.3), (-0.08, -1.0)),
    "fire-polished": ((-1.0, -0.4), (-0.6, -0.9), (0.0, -1.0)),
}
# The edges that catch the light on a cut bead, in the same shares.
FACETS: dict[str, tuple[tuple[Point, Point], ...]] = {
    "cylinder": (),
    "bicone": (((0.0, -1.0), (0.0, 1.0)), ((-1.0, 0.0), (0.0, -0.35)), ((0.0, -0.35), (1.0, 0.0))),
    "fire-polished": (
        ((-0.6, -0.9), (-0.25, 0.0)),
        ((-0.25, 0.0), (-0.6, 0.9)),
        ((0.6, -0.9), (0.25, 0.0)),
        ((0.25, 0.0), (0.6, 0.9)),
        ((-0.25, 0.0), (0.25, 0.0)),
    ),
}
SHINY = frozenset({"opaque", "transparent", "silver-lined", "metallic", "rainbow"})
LIGHT: Point = (0.34, 0.28)  # where the light falls on every bead, in shares of its box


Space = tuple[float, float, float]  # to the right, down the page, toward the reader


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where a bead sits, as the reader sees it.

    Attributes:
        at: The middle of its hole on the page, mm.
        depth: How far that lies toward the reader, mm of the rope.
        hole: The direction of its hole, a unit vector.
        out: The direction in which it reaches out when its hole is off its centre, a unit vector.
        zoom: Millimetres on the page for one of the rope.
    """

    at: Point
    depth: float
    hole: Space
    out: Space
    zoom: float

    def point(self, out: float = 0.0, along: float = 0.0) -> Point:
        """A point of the page: so far outward and so far along the hole, mm of the rope."""
        x, y = (self.out[n] * out + self.hole[n] * along for n in (0, 1))
        return self.at[0] + self.zoom * x, self.at[1] + self.zoom * y


def fill_of(colour: str, finish: str) -> Gradient:
    """The light on a bead of a colour and finish."""
    return Gradient(kind="radial", stops=_stops(colour, finish), start=(0.5, 0.5), end=(1.02, 0.5), focus=LIGHT)


def _stops(colour: str, finish: str) -> tuple[tuple[float, str], ...]:
    deep = darker(mixed(colour, "#20182a", 0.25), 0.3)
    if finish == "matte":
        return ((0.0, lighter(colour, 0.22)), (0.6, colour), (1.0, mixed(colour, deep, 0.6)))
    if finish == "transparent":
        glow = lighter(colour, 0.32)
        return (
            (0.0, lighter(colour, 0.55)),
            (0.3, darker(colour, 0.12)),
            (0.78, glow),
            (1.0, mixed(colour, deep, 0.7)),
        )
    if finish == "silver-lined":
        bright = lighter(colour, 0.62)
        return ((0.0, WHITE), (0.22, bright), (0.42, colour), (0.62, lighter(colour, 0.4)), (0.82, colour), (1.0, deep))
    if finish == "metallic":
        band = lighter(colour, 0.45)
        return ((0.0, lighter(colour, 0.8)), (0.3, band), (0.55, colour), (0.8, deep), (0.92, colour), (1.0, deep))
    if finish == "rainbow":
        first, second = lighter(hue_turned(colour, 70.0), 0.25), lighter(hue_turned(colour, -60.0), 0.1)
        return ((0.0, lighter(colour, 0.7)), (0.35, first), (0.6, colour), (0.84, second), (1.0, deep))
    if finish == "pearl":
        return ((0.0, WHITE), (0.4, lighter(colour, 0.5)), (0.8, colour), (1.0, mixed(colour, deep, 0.35)))
    return (
        (0.0, lighter(colour, 0.62)),
        (0.28, lighter(colour, 0.14)),
        (0.72, mixed(colour, deep, 0.12)),
        (1.0, mixed(colour, deep, 0.8)),
    )


def draw_bead(pen: Pen, bead: Bead, look: tuple[str, str], place: Place, of: str = "") -> None:
    """Draw one bead.

    Args:
        pen: Drawn onto.
        bead: Its measures.
        look: Its colour and finish.
        place: Where it sits.
        of: The stitch it belongs to.
    """
    colour, finish = look
    paint = Paint(fill=fill_of(colour, finish), edge=edge_of(colour), width=max(0.05, 0.045 * place.zoom))
    if bead.shape in REACHES:
        hull = _reaching(bead, place)
        pen.polygon(hull, paint, of)
        _draw_glint(pen, finish, place.point(0.62 * _bulb(bead)), 0.4 * bead.diameter_mm * place.zoom, place)
        return
    radii, angle = _ellipse(bead, place)
    if bead.shape in CORNERS:
        pen.path(_cut_solid(bead.shape, place.at, radii, angle), paint, of)
        _draw_facets(pen, bead.shape, place, radii, angle)
    else:
        pen.path(spherodisc((bead.diameter_mm, bead.length_mm), place.hole).placed(place.at, place.zoom), paint, of)
    _draw_glint(pen, finish, place.at, radii[1], place)


def _bulb(bead: Bead) -> float:
    """How far the outer, thick end of a bead that stands out lies from its hole, mm."""
    share, radius = max(REACHES[bead.shape], key=lambda part: part[1])
    return share * max(0.0, bead.reach_mm - radius * bead.diameter_mm / 2.0)


def _ellipse(bead: Bead, place: Place) -> tuple[Point, float]:
    """The box of a tube or a cut bead: half its axes on the page and how it is turned there, degrees clockwise.

    The shadow of b^2 I + (a^2 - b^2) u u^T, with u the hole seen on the page: its length along u is
    sqrt(b^2 + (a^2 - b^2) |u|^2), across it b.
    """
    a, b = place.zoom * bead.length_mm / 2.0, place.zoom * bead.diameter_mm / 2.0
    x, y, _ = place.hole
    return (sqrt(b * b + (a * a - b * b) * (x * x + y * y)), b), degrees(atan2(y, x))


def _reaching(bead: Bead, place: Place) -> Curve:
    """The outline of a bead that stands out from its hole, seen from where the reader is."""
    half = bead.diameter_mm / 2.0
    profile = REACHES[bead.shape]
    far = max(0.0, bead.reach_mm - half * profile[-1][1])
    points: list[Point] = []
    for share, radius in profile:
        x, y = place.point(share * far)
        size = place.zoom * half * radius
        points += [(x + size * cos(pi * n / 14), y + size * sin(pi * n / 14)) for n in range(28)]
    return hull_of(points)


def hull_of(points: list[Point]) -> Curve:
    """The convex outline round points. Source: A. M. Andrew's monotone chain (1979), from memory."""
    ordered = sorted(set(points))
    return (*_chain(ordered), *_chain(ordered[::-1]))


def _chain(points: list[Point]) -> list[Point]:
    kept: list[Point] = []
    for x, y in points:
        while len(kept) > 1:
            (ax, ay), (bx, by) = kept[-2], kept[-1]
            if (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0:
                break
            kept.pop()
        kept.append((x, y))
    return kept[:-1]


def _cut_solid(shape: str, centre: Point, radii: Point, angle: float) -> Outline:
    """The outline of a tube or a faceted bead, in the box of its ellipse."""
    corner = CORNERS[shape]
    plan = (
        *corner,
        *((-x, y) for x, y in corner[::-1]),
        *((-x, -y) for x, y in corner),
        *((x, -y) for x, y in corner[::-1]),
    )
    points = [_turned(centre, (x * radii[0], y * radii[1]), angle) for x, y in plan]
    return Outline(pieces=(("M", (points[0],)), *(("L", (point,)) for point in points[1:]), ("Z", ())))


def _turned(centre: Point, offset: Point, angle: float) -> Point:
    turn = angle * pi / 180.0
    return (
        centre[0] + offset[0] * cos(turn) - offset[1] * sin(turn),
        centre[1] + offset[0] * sin(turn) + offset[1] * cos(turn),
    )


def _draw_facets(pen: Pen, shape: str, place: Place, radii: Point, angle: float) -> None:
    """The edges that catch the light on a cut bead."""
    paint = Paint(edge=WHITE, width=0.04 * place.zoom, opacity=0.45)
    for start, end in FACETS[shape]:
        ends = [_turned(place.at, (x * radii[0], y * radii[1]), angle) for x, y in (start, end)]
        pen.line(ends[0], ends[1], paint)


def _draw_glint(pen: Pen, finish: str, middle: Point, half: float, place: Place) -> None:
    """The small bright spot of a shiny bead that faces the light."""
    if finish not in SHINY or place.depth < 0:
        return
    size = 0.17 * half
    pen.ellipse(
        (middle[0] - 0.24 * half, middle[1] - 0.42 * half), (size, 0.6 * size), Paint(fill=WHITE, opacity=0.75), -18.0
    )


def reach_of(bead: Bead) -> float:
    """From the middle of the hole to the farthest point, mm."""
    return max(bead.reach_mm, hypot(bead.diameter_mm, 0.0) / 2.0)
