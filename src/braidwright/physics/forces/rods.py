"""rods: the two ends of a bead's hole stay a bead's length apart."""

from braidwright.physics.compiled import compiled
from braidwright.physics.state import Cell, Floats
from braidwright.physics.vectors import minus, norm, pile, row

STIFFER = 2.0  # than contact (physics.md, section 2)


@compiled
def rods(cell: Cell, points: Floats, gradient: Floats) -> float:
    """A stiff spring along every rod."""
    energy = 0.0
    stiffness = STIFFER * cell.stiffness
    for bead in range(len(cell.rods)):
        first = cell.rods[bead]
        step = minus(row(points, first + 1), row(points, first))
        long = norm(step)
        over = long - cell.beads[bead, 2]
        energy += 0.5 * stiffness * over * over
        pile(gradient, first + 1, step, stiffness * over / long)
        pile(gradient, first, step, -stiffness * over / long)
    return energy
