"""lbfgs: downhill by the last few steps' lesson about how the slope changes.

Source: J. Nocedal, Updating quasi-Newton matrices with limited storage, Mathematics of Computation 35 (1980), the
two-loop recursion. No step is longer than what keeps bodies from passing each other, and none goes uphill.
"""

from typing import NamedTuple

import numpy as np

from braidwright.physics.compiled import compiled, compiled_fast
from braidwright.physics.state import Floats, Ints

REMEMBERED = 12
ENOUGH = 1e-4  # share of the fall the slope promises that a step must keep (Armijo)
MOST_HALVINGS = 12
CURVED = 1e-8  # least cosine between a step and the change of slope that teaches something


class Lessons(NamedTuple):
    """What was learned on the way.

    Attributes:
        steps: The last steps, (REMEMBERED, unknowns).
        changes: The changes of the gradient over them.
        learned: How many there have been since the last fresh start, (1,).
        longest_step: Change of one unknown in a step never exceeded, mm.
        longest_last: The same for the last unknown.
    """

    steps: Floats
    changes: Floats
    learned: Ints
    longest_step: float
    longest_last: float


def lessons(unknowns: int, longest_step: float, longest_last: float) -> Lessons:
    """A fresh start."""
    room = (REMEMBERED, unknowns)
    return Lessons(np.zeros(room), np.zeros(room), np.zeros(1, dtype=np.int64), longest_step, longest_last)


@compiled_fast
def inner(one: Floats, other: Floats) -> float:
    """The inner product of two rows of numbers; compiled numpy would want SciPy for it.

    The sum may be taken in any order, several at a time: rows are long, and there are fifty of these to a step.
    """
    total = 0.0
    for index in range(len(one)):
        total += one[index] * other[index]
    return total


@compiled
def direction(known: Lessons, gradient: Floats) -> Floats:
    """The way to go, no longer than a step may be; always downhill."""
    way = -gradient
    count = known.learned[0]
    first = max(0, count - REMEMBERED)
    shares = np.zeros(REMEMBERED)
    for lesson in range(count - 1, first - 1, -1):
        at = lesson % REMEMBERED
        step, change = known.steps[at], known.changes[at]
        shares[at] = inner(step, way) / inner(step, change)
        way -= shares[at] * change
    if count > 0:
        at = (count - 1) % REMEMBERED
        way *= inner(known.steps[at], known.changes[at]) / inner(known.changes[at], known.changes[at])
    for lesson in range(first, count):
        at = lesson % REMEMBERED
        step, change = known.steps[at], known.changes[at]
        way += (shares[at] - inner(change, way) / inner(step, change)) * step
    if not inner(way, gradient) < 0.0:
        known.learned[0] = 0
        way = -gradient
    over = max(np.abs(way[:-1]).max() / known.longest_step, abs(way[-1]) / known.longest_last)
    if over > 1.0:
        way /= over
    return way


@compiled
def learn(known: Lessons, step: Floats, change: Floats) -> None:
    """Remember a step and how the gradient changed over it, if it tells of a slope that bends upward."""
    both = np.sqrt(inner(step, step) * inner(change, change))
    if inner(step, change) > CURVED * both:
        at = known.learned[0] % REMEMBERED
        known.steps[at] = step
        known.changes[at] = change
        known.learned[0] += 1
