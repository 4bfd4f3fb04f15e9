"""bodies: where a body of a bead lies, and how a push on it is shared among the points the bead hangs on."""

from braidwright.physics.compiled import compiled
from braidwright.physics.state import Cell, Floats
from braidwright.physics.vectors import Vector, along, cross, middle, minus, norm, pile, row, scaled


@compiled
def axis_of(cell: Cell, points: Floats, body: int) -> Vector:
    """From the first end of the rod to the second."""
    first = cell.rods[cell.bodies[body]]
    return minus(row(points, first + 1), row(points, first))


@compiled
def centre_of(cell: Cell, points: Floats, body: int) -> Vector:
    """The middle of a body's flat disc."""
    bead = cell.bodies[body]
    first = cell.rods[bead]
    a, b = row(points, first), row(points, first + 1)
    centre = middle(a, b)
    there = along(centre, minus(b, a), cell.solids[body, 2])
    if cell.tips[bead] >= 0:
        there = along(there, minus(row(points, cell.tips[bead]), centre), cell.solids[body, 3])
    return there


@compiled
def push_body(cell: Cell, table: Floats, body: int, rod: Vector, arm: Vector, pull: Vector) -> None:
    """Share a gradient at a point of a body among the points of its bead.

    Args:
        cell: The cell.
        table: Where gradients are gathered, (points, 3).
        body: Which body.
        rod: From the first end of its rod to the second.
        arm: From the middle of the body to the point.
        pull: The gradient there.
    """
    bead = cell.bodies[body]
    first, slide, off = cell.rods[bead], cell.solids[body, 2], 0.0
    if cell.tips[bead] >= 0:
        off = cell.solids[body, 3]
        pile(table, cell.tips[bead], pull, off)
    long = norm(rod)
    tip = scaled(cross(cross(arm, pull), rod), 1.0 / (long * long))
    pile(table, first, along(scaled(pull, 0.5 * (1.0 - off) - slide), tip, -1.0), 1.0)
    pile(table, first + 1, along(scaled(pull, 0.5 * (1.0 - off) + slide), tip, 1.0), 1.0)
