"""rods: the two ends of a bead's hole stay a bead's length apart, and its tip stays where it is on the bead."""

from math import sqrt

from braidwright.physics.compiled import compiled
from braidwright.physics.state import Cell, Floats
from braidwright.physics.vectors import minus, norm, pile, row

STIFFER = 2.0  # than contact (physics.md, section 2)


@compiled
def rods(cell: Cell, points: Floats, gradient: Floats) -> float:
    """A stiff spring along every rod, and one from each of its ends to the tip of the bead, if it has one."""
    energy = 0.0
    for bead in range(len(cell.rods)):
        first, long = cell.rods[bead], cell.rod_mm[bead]
        energy += _spring(cell, points, gradient, (first, first + 1), long)
        if cell.tips[bead] >= 0:
            side = sqrt(cell.arm_mm[bead] ** 2 + 0.25 * long * long)
            energy += _spring(cell, points, gradient, (first, cell.tips[bead]), side)
            energy += _spring(cell, points, gradient, (first + 1, cell.tips[bead]), side)
    return energy


@compiled
def _spring(cell: Cell, points: Floats, gradient: Floats, ends: tuple[int, int], long: float) -> float:
    stiffness = STIFFER * cell.stiffness
    step = minus(row(points, ends[1]), row(points, ends[0]))
    now = norm(step)
    over = now - long
    pile(gradient, ends[1], step, stiffness * over / now)
    pile(gradient, ends[0], step, -stiffness * over / now)
    return 0.5 * stiffness * over * over
