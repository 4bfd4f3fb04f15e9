"""hold: a rope is held straight and at its twist, as it was by the weight while it was braided.

Without it a long rope coils up like a telephone cord, which costs next to nothing and takes for ever; friction keeps a
real one from it. Twist is what the maker gives, row by row, not what a rope of no friction would turn to
(physics.md, section 5). So for every row the mean of its points stays on the axis and does not turn:
E = stiffness / 2 times the square of how far the mean has gone each way.
"""

import numpy as np

from braidwright.physics.compiled import compiled
from braidwright.physics.state import Cell, Floats


@compiled
def hold(cell: Cell, points: Floats, gradient: Floats) -> float:
    """The pull on the rows of a cell toward where they were laid."""
    groups, sideways, counts = cell.groups, cell.sideways, cell.group_counts
    means = np.zeros((len(counts), 3))
    for index in range(len(groups)):
        group, x, y = groups[index], points[index, 0], points[index, 1]
        means[group, 0] += x
        means[group, 1] += y
        means[group, 2] += x * sideways[index, 0] + y * sideways[index, 1]
    energy = 0.0
    for group in range(len(counts)):
        for way in range(3):
            means[group, way] /= counts[group]
            energy += 0.5 * cell.hold * means[group, way] ** 2
            means[group, way] *= cell.hold / counts[group]
    for index in range(len(groups)):
        group = groups[index]
        gradient[index, 0] += means[group, 0] + means[group, 2] * sideways[index, 0]
        gradient[index, 1] += means[group, 1] + means[group, 2] * sideways[index, 1]
    return energy
