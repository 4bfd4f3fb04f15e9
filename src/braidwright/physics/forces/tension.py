"""tension: every cord pulls itself short."""

from math import sqrt

from braidwright.physics.compiled import compiled
from braidwright.physics.state import Cell, Floats
from braidwright.physics.vectors import dot, minus, pile, row


@compiled
def tension(cell: Cell, points: Floats, gradient: Floats) -> float:
    """The pull of the cord, over every span between two beads.

    E = sqrt(n sum d_i^2): equal to the length when the n pieces are equal, and least then, which keeps the points
    evenly spaced. Spans trade length freely, so a bead slides along its cord. A span that goes on in a copy is one with
    the span it goes on in only as far as the cord pulls; its points are shared out over each part. Source: physics.md,
    section 2.
    """
    energy = 0.0
    for span in range(len(cell.spans)):
        first, last = cell.spans[span, 0], cell.spans[span, 1]
        total = 0.0
        for index in range(first, last):
            step = minus(row(points, index + 1), row(points, index))
            total += dot(step, step)
        long = sqrt((last - first) * total)
        energy += long
        if long > 0.0:
            for index in range(first, last):
                step = minus(row(points, index + 1), row(points, index))
                pile(gradient, index + 1, step, (last - first) / long)
                pile(gradient, index, step, -(last - first) / long)
    return energy
