"""balance: all forces added up, and where the unknowns stand in them."""

from braidwright.physics.compiled import compiled
from braidwright.physics.forces.contact import contact
from braidwright.physics.forces.core import core
from braidwright.physics.forces.hold import hold
from braidwright.physics.forces.rods import rods
from braidwright.physics.forces.tension import tension
from braidwright.physics.images import copy, gather, join, points_of, rise_of
from braidwright.physics.state import Cell, Floats, Neighbours


@compiled
def energy(cell: Cell, near: Neighbours, unknowns: Floats, gradient: Floats) -> float:
    """The energy of a cell, and its gradient on all unknowns.

    Args:
        cell: The cell.
        near: Its neighbours, found when the unknowns were about the same.
        unknowns: Points and rise; the last points of strands are put in their places.
        gradient: Overwritten, (unknowns,).
    """
    points, on_points, rise = points_of(unknowns), points_of(gradient), rise_of(cell, unknowns)
    gradient[:] = 0.0
    join(cell, points, rise)
    copy(cell, near, points, rise)
    own, pulls = near.copies[0], near.pulls[0]
    total = contact(cell, near) + tension(cell, own, pulls) + rods(cell, own, pulls)
    if cell.core_mm > 0.0:
        total += core(cell, near)
    if cell.hold > 0.0:
        total += hold(cell, own, pulls)
    gradient[-1] = cell.heave * (gather(cell, near, unknowns, on_points) - cell.weight)
    return float(total - cell.weight * rise)
