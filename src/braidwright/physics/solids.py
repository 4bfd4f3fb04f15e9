"""solids: beads as the solver sees them: flat discs with a rounding round them, on a rod or off it.

A disc with a rounding (a spherodisc) is convex and cheap. One of them has exactly the outside diameter and the length
of a round bead; two or three of them stacked on a rod make a cylinder, and off the rod the body of a bead with an
off-centre hole. Source: physics.md, section 2.
"""

from collections.abc import Sequence
from dataclasses import dataclass

MOST_BODIES = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class BeadSolid:
    """A round bead as the solver sees it: a flat disc with a rounding round it, on a rod.

    Attributes:
        diameter_mm: Outside diameter.
        length_mm: Length along the hole.
        rod_mm: Length of cord inside, or None for the length of the bead.
    """

    diameter_mm: float
    length_mm: float
    rod_mm: float | None = None

    @property
    def rounding_mm(self) -> float:
        """Radius of the rounding. A bead longer than wide is taken for a sphere."""
        return min(self.diameter_mm, self.length_mm) / 2.0

    @property
    def disc_mm(self) -> float:
        """Radius of the flat disc."""
        return self.diameter_mm / 2.0 - self.rounding_mm

    @property
    def rod(self) -> float:
        """Length of the rod, mm."""
        return self.length_mm if self.rod_mm is None else self.rod_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """One of the discs of a bead.

    Attributes:
        disc_mm: Radius of the flat disc, which lies square to the hole.
        rounding_mm: Radius of the rounding.
        along_mm: How far from the middle of the hole along it.
        off_mm: How far from the hole toward the side the bead reaches out to.
    """

    disc_mm: float
    rounding_mm: float
    along_mm: float = 0.0
    off_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Solid:
    """A bead of any shape.

    Attributes:
        rod_mm: Length of cord inside.
        bodies: One to three discs.
    """

    rod_mm: float
    bodies: tuple[Body, ...]

    @property
    def arm_mm(self) -> float:
        """From the hole to the middle of the body farthest off it; 0 for a bead that turns about its own axis."""
        return max(body.off_mm for body in self.bodies)

    @property
    def is_plain(self) -> bool:
        """Whether it is a round bead: one disc round its hole."""
        return len(self.bodies) == 1 and self.bodies[0].off_mm == 0.0

    @property
    def reach_mm(self) -> float:
        """From the middle of the hole to the farthest point, at most."""
        return max(body.disc_mm + body.rounding_mm + body.off_mm + abs(body.along_mm) for body in self.bodies)

    @property
    def radius_mm(self) -> float:
        """Of the part round the hole: from the hole to the outside of the body nearest to it."""
        nearest = min(self.bodies, key=lambda body: body.off_mm)
        return nearest.disc_mm + nearest.rounding_mm - nearest.off_mm


def round_solid(diameter_mm: float, length_mm: float) -> Solid:
    """A round, flattened or faceted bead; one longer than wide is a stack of spheres."""
    if length_mm > diameter_mm:
        return cylinder_solid(diameter_mm, length_mm)
    rounding = length_mm / 2.0
    return Solid(rod_mm=length_mm, bodies=(Body(disc_mm=diameter_mm / 2.0 - rounding, rounding_mm=rounding),))


def cylinder_solid(diameter_mm: float, length_mm: float) -> Solid:
    """A bead with flat ends and a straight side: two thin discs at its ends, three when it is long.

    The edges are rounded by a quarter of the shorter measure. The side between the discs is open, and a flattened cord
    may lie in it; the rod stops it there.
    """
    rounding = 0.25 * min(diameter_mm, length_mm)
    count = 2 if length_mm <= 1.2 * diameter_mm else MOST_BODIES
    out = length_mm / 2.0 - rounding
    places = [-out + 2.0 * out * at / (count - 1) for at in range(count)]
    disc = diameter_mm / 2.0 - rounding
    return Solid(rod_mm=length_mm, bodies=tuple(Body(disc_mm=disc, rounding_mm=rounding, along_mm=at) for at in places))


def bicone_solid(diameter_mm: float, length_mm: float) -> Solid:
    """A bead like two cones base to base: a thin sharp disc in the middle and a small ball at each end."""
    edge, end = 0.12 * length_mm, 0.2 * min(diameter_mm, length_mm)
    ball = Body(disc_mm=0.0, rounding_mm=end, along_mm=length_mm / 2.0 - end)
    return Solid(
        rod_mm=length_mm,
        bodies=(
            Body(disc_mm=ball.disc_mm, rounding_mm=end, along_mm=-ball.along_mm),
            Body(disc_mm=diameter_mm / 2.0 - edge, rounding_mm=edge),
            ball,
        ),
    )


def reaching_solid(length_mm: float, balls: Sequence[tuple[float, float]]) -> Solid:
    """A bead that reaches out to one side: a row of balls, none thicker along the hole than the bead is long.

    Args:
        length_mm: Along the hole.
        balls: Pairs (how far off the hole, radius), the first on the hole: there the bead is as long as its rod, so
            that no other cord may slip in between.
    """
    bodies: list[Body] = []
    for off, radius in balls:
        rounding = min(radius, length_mm / 2.0)
        ends = length_mm / 2.0 - rounding if off == 0.0 else 0.0
        bodies += [
            Body(disc_mm=radius - rounding, rounding_mm=rounding, along_mm=along, off_mm=off)
            for along in ((-ends, ends) if ends > 0.0 else (0.0,))
        ]
    return Solid(rod_mm=length_mm, bodies=tuple(bodies))
