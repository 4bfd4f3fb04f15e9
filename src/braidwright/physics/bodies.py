"""bodies: where a body of a bead lies, and how a push on it is shared among the points the bead hangs on.

Functions here are called for every contact, so they take arrays and numbers only: to hand a whole cell from function to
function costs more than the reckoning.
"""

from braidwright.physics.compiled import compiled
from braidwright.physics.state import Floats, Ints
from braidwright.physics.vectors import Vector, along, cross, dot, middle, minus, scaled

Laid = tuple[Vector, Vector]  # the middle of a body, and the rod of its bead from the first end to the second


@compiled
def point(table: Floats, place: int, index: int) -> Vector:
    """One point of one copy."""
    return table[place, index, 0], table[place, index, 1], table[place, index, 2]


@compiled
def add(table: Floats, place: int, index: int, a: Vector, share: float) -> None:
    """Add a share of a vector to one point of one copy."""
    table[place, index, 0] += share * a[0]
    table[place, index, 1] += share * a[1]
    table[place, index, 2] += share * a[2]


@compiled
def body_at(copies: Floats, place: int, first: int, tip: int, solid: tuple[float, float]) -> Laid:
    """Where a body lies in a copy.

    Args:
        copies: The points of the copies, (copies, points, 3).
        place: Which copy.
        first: First point of its rod.
        tip: Tip of its bead, or less than 0.
        solid: Its shares along the rod and toward the tip.
    """
    a, b = point(copies, place, first), point(copies, place, first + 1)
    centre, rod = middle(a, b), minus(b, a)
    there = along(centre, rod, solid[0])
    if tip >= 0:
        there = along(there, minus(point(copies, place, tip), centre), solid[1])
    return there, rod


@compiled
def push_body(
    pulls: Floats, place: int, hung: tuple[int, int], solid: tuple[float, float], lever: Laid, pull: Vector
) -> None:
    """Share a gradient at a point of a body among the points of its bead.

    Args:
        pulls: Where gradients are gathered, (copies, points, 3).
        place: Which copy.
        hung: First point of its rod, and the tip of its bead or less than 0.
        solid: Its shares along the rod and toward the tip.
        lever: From the middle of the body to the point, and the rod.
        pull: The gradient there.
    """
    first, tip = hung
    arm, rod = lever
    off = solid[1] if tip >= 0 else 0.0
    if tip >= 0:
        add(pulls, place, tip, pull, off)
    tipping = scaled(cross(cross(arm, pull), rod), 1.0 / dot(rod, rod))
    add(pulls, place, first, along(scaled(pull, 0.5 * (1.0 - off) - solid[0]), tipping, -1.0), 1.0)
    add(pulls, place, first + 1, along(scaled(pull, 0.5 * (1.0 - off) + solid[0]), tipping, 1.0), 1.0)


@compiled
def hung_by(rods: Ints, tips: Ints, bodies: Ints, body: int) -> tuple[int, int]:
    """First point of the rod of a body, and the tip of its bead or less than 0."""
    bead = bodies[body]
    return rods[bead], tips[bead]
