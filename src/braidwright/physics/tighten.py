"""tighten: let a cell roll downhill until it settles. Every solve has a bound, can be watched and can be stopped."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from braidwright.physics.balance import energy
from braidwright.physics.compiled import compiled
from braidwright.physics.images import points_of
from braidwright.physics.neighbours import find, is_stale
from braidwright.physics.outcome import Ending, Outcome
from braidwright.physics.solvers.fire import Rolling, rolling, step
from braidwright.physics.state import HEAVE, Cell, Floats

AT_A_TIME = 250  # steps between two looks at the watcher: some ms for a cell, some tenths of a second for a bracelet

Watch = Callable[[int, float], bool]  # steps taken, largest force left -> whether to go on


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """When to stop.

    Attributes:
        most_steps: Steps never exceeded.
        still: Largest component of a force that counts as balanced, in pulls of one cord.
        longest_step: Farthest that anything moves in a step, mm: it keeps bodies from passing through each other.
    """

    most_steps: int
    still: float
    longest_step: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Tightened:
    """A cell after a solve.

    Attributes:
        points: Of the cell, (points, 3) mm, read-only; the last of each strand is where the cord goes on.
        rise_mm: Height of a repeat.
        outcome: How the solve ended.
    """

    points: Floats
    rise_mm: float
    outcome: Outcome


def tighten(cell: Cell, start: Floats, limits: Limits, watch: Watch | None = None) -> Tightened:
    """Let a cell settle.

    Args:
        cell: The cell.
        start: Points and rise as one array (see `state`), left as it is.
        limits: When to stop.
        watch: Asked now and then whether to go on.
    """
    unknowns = np.array(start, dtype=np.float64)
    roll = rolling(len(unknowns), cell.stiffness, limits.longest_step)
    ending: Ending | None = None
    taken, total, force = 0, np.nan, np.inf
    while ending is None:
        more = min(AT_A_TIME, limits.most_steps - taken)
        steps, total, force = _roll_on(cell, roll, unknowns, limits.still, more)
        taken += steps
        ending = _ending(force, taken, limits)
        if ending is None and watch is not None and not watch(taken, force):
            ending = "stopped"
    points = points_of(unknowns)
    points.flags.writeable = False
    outcome = Outcome(ending=ending, steps=taken, energy=float(total), largest_force=float(force))
    return Tightened(points=points, rise_mm=float(unknowns[-1] * HEAVE), outcome=outcome)


def evaluate(cell: Cell, unknowns: Floats) -> tuple[float, Floats]:
    """The energy of a cell and its gradient, whatever was reckoned before."""
    here = np.array(unknowns, dtype=np.float64)
    gradient = np.zeros_like(here)
    return float(energy(cell, find(cell, here), here, gradient)), gradient


def _ending(force: float, taken: int, limits: Limits) -> Ending | None:
    if not np.isfinite(force):
        return "blew up"
    if force <= limits.still:
        return "settled"
    return "out of steps" if taken >= limits.most_steps else None


@compiled
def _roll_on(cell: Cell, roll: Rolling, unknowns: Floats, still: float, steps: int) -> tuple[int, float, float]:
    """At most so many steps; returns the steps taken, the energy and the largest force."""
    gradient = np.zeros_like(unknowns)
    near = find(cell, unknowns)
    for taken in range(steps):
        total = energy(cell, near, unknowns, gradient)
        force = np.abs(gradient).max()
        if not np.isfinite(force) or not np.isfinite(total):
            return taken, total, np.nan
        if force <= still:
            return taken, total, force
        step(roll, unknowns, gradient)
        if is_stale(cell, near, unknowns):
            near = find(cell, unknowns)
    total = energy(cell, near, unknowns, gradient)
    return steps, total, np.abs(gradient).max()
