"""balance: all forces added up, and where the unknowns stand in them."""

from braidwright.physics.compiled import compiled
from braidwright.physics.forces.contact import contact
from braidwright.physics.forces.rods import rods
from braidwright.physics.forces.tension import tension
from braidwright.physics.images import copy, gather, join, points_of
from braidwright.physics.state import HEAVE, Cell, Floats, Neighbours


@compiled
def energy(cell: Cell, near: Neighbours, unknowns: Floats, gradient: Floats) -> float:
    """The energy of a cell, and its gradient on all unknowns.

    Args:
        cell: The cell.
        near: Its neighbours, found when the unknowns were about the same.
        unknowns: Points and rise; the last points of strands are put in their places.
        gradient: Overwritten, (unknowns,).
    """
    points, on_points, rise = points_of(unknowns), points_of(gradient), unknowns[-1] * HEAVE
    gradient[:] = 0.0
    join(cell, points, rise)
    copy(cell, near, points, rise)
    total = contact(cell, near) + tension(cell, points, on_points) + rods(cell, points, on_points)
    gradient[-1] = HEAVE * (gather(cell, near, on_points) - cell.weight)
    return float(total - cell.weight * rise)
