"""tighten: let a cell go downhill until it settles. Every solve has a bound, can be watched and can be stopped.

The way down is learned as one goes (`solvers.lbfgs`). Where it finds no way on, as on the ledge that the end of a list
of neighbours can be, the cell rolls for a while (`solvers.fire`).
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from braidwright.physics.balance import energy
from braidwright.physics.compiled import compiled
from braidwright.physics.images import laid, points_of, rise_of
from braidwright.physics.neighbours import find, find_again, is_stale
from braidwright.physics.outcome import Ending, Outcome
from braidwright.physics.solvers.fire import Rolling, rolling, step
from braidwright.physics.solvers.lbfgs import ENOUGH, MOST_HALVINGS, Lessons, direction, inner, learn, lessons
from braidwright.physics.state import HEAVE, Cell, Floats, Neighbours

AT_A_TIME = 100  # steps between two looks at the watcher: some ms for a cell, some tenths of a second for a bracelet
MOST_HELD = 1.0  # pulls of one cord: a larger force left is no matter of friction, however slowly the energy falls
ROLLED = 100  # steps to roll where no way down is found

Watch = Callable[[int, float], bool]  # steps taken, largest force left -> whether to go on


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """When to stop.

    Attributes:
        most_steps: Steps never exceeded; every look at the energy is one.
        still: Largest component of a force that counts as balanced, in pulls of one cord.
        longest_step: Farthest that anything moves in a step, mm: it keeps bodies from passing through each other.
        creep: Share by which the energy must still fall over `AT_A_TIME` steps, or what is left counts as held by
            friction, and the cell as settled.
        longest_strain: Largest share by which a cell with a height of its own is stretched in a step.
    """

    most_steps: int
    still: float
    longest_step: float
    creep: float = 0.0
    longest_strain: float = 0.02


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
    known = lessons(len(unknowns), limits.longest_step, _longest_rise(cell, limits))
    ending: Ending | None = None
    taken, total, force, is_stuck = 0, np.nan, np.inf, False
    while ending is None:
        left, before = limits.most_steps - taken, total
        if is_stuck:
            roll = rolling(len(unknowns), cell.stiffness, limits.longest_step)
            steps, total, force = _roll(cell, roll, unknowns, limits.still, min(ROLLED, left))
            is_stuck = False
        else:
            steps, total, force, is_stuck = _descend(cell, known, unknowns, limits.still, min(AT_A_TIME, left))
        taken += steps
        ending = _ending(force, taken, limits)
        is_creeping = not is_stuck and 0.0 <= before - total < limits.creep * abs(total)
        if ending is None and is_creeping and force < MOST_HELD:
            ending = "settled"
        if ending is None and watch is not None and not watch(taken, force):
            ending = "stopped"
    rise = rise_of(cell, unknowns)
    points = laid(cell, points_of(unknowns), rise)
    points.flags.writeable = False
    outcome = Outcome(ending=ending, steps=taken, energy=float(total), largest_force=float(force))
    return Tightened(points=points, rise_mm=rise, outcome=outcome)


def evaluate(cell: Cell, unknowns: Floats) -> tuple[float, Floats]:
    """The energy of a cell and its gradient, whatever was reckoned before."""
    here = np.array(unknowns, dtype=np.float64)
    gradient = np.zeros_like(here)
    return float(energy(cell, find(cell, here), here, gradient)), gradient


def _longest_rise(cell: Cell, limits: Limits) -> float:
    """How far the last unknown may go in a step: a stretch moves things against their neighbours only by its share."""
    if cell.tall_mm == 0.0:
        return limits.longest_step
    return limits.longest_strain * cell.tall_mm / cell.heave


def _ending(force: float, taken: int, limits: Limits) -> Ending | None:
    if not np.isfinite(force):
        return "blew up"
    if force <= limits.still:
        return "settled"
    return "out of steps" if taken >= limits.most_steps else None


class Stand(NamedTuple):
    """Where a descent stands.

    Attributes:
        near: The neighbours.
        unknowns: Points and rise.
        gradient: There.
        energy: There.
    """

    near: Neighbours
    unknowns: Floats
    gradient: Floats
    energy: float


@compiled
def _stand(cell: Cell, near: Neighbours, unknowns: Floats) -> Stand:
    """Energy and gradient at some unknowns, with neighbours that are good there."""
    if is_stale(cell, near, unknowns):
        near = find_again(cell, near, unknowns)
    gradient = np.zeros_like(unknowns)
    return Stand(near, unknowns, gradient, energy(cell, near, unknowns, gradient))


@compiled
def _descend(cell: Cell, known: Lessons, unknowns: Floats, still: float, steps: int) -> tuple[int, float, float, bool]:
    """At most so many steps; returns the steps taken, the energy, the largest force, and whether no way was found."""
    here, taken, is_stuck = _stand(cell, find(cell, unknowns), unknowns.copy()), 0, False
    force = _largest(cell, here)
    while taken < steps and force > still and not is_stuck:
        way = direction(known, here.gradient)
        tries, share, there = _search(cell, here, way, steps - taken)
        taken += tries
        if share > 0.0:
            learn(known, share * way, there.gradient - here.gradient)
            here, force = there, _largest(cell, there)
        elif taken < steps:  # forget what was learned; if nothing was, there is no way on
            is_stuck = known.learned[0] == 0
            known.learned[0] = 0
    unknowns[:] = here.unknowns
    return taken, here.energy, force, is_stuck


@compiled
def _search(cell: Cell, here: Stand, way: Floats, most: int) -> tuple[int, float, Stand]:
    """Go a way, or a half, or a quarter of it, till it leads down; returns the tries, the share gone, and where to."""
    slope, share, tries = inner(way, here.gradient), 1.0, 0
    while tries < min(most, MOST_HALVINGS):
        there = _stand(cell, here.near, here.unknowns + share * way)
        tries += 1
        if there.energy <= here.energy + ENOUGH * share * slope:
            return tries, share, there
        share *= 0.5
    return tries, 0.0, here


@compiled
def _largest(cell: Cell, here: Stand) -> float:
    """The largest force left, that on the rise as if it were as slow as 40 points; nan when it is no number."""
    force = max(np.abs(here.gradient[:-1]).max(), abs(here.gradient[-1]) * HEAVE / cell.heave)
    return float(force) if np.isfinite(here.energy) and np.isfinite(force) else np.nan


@compiled
def _roll(cell: Cell, roll: Rolling, unknowns: Floats, still: float, steps: int) -> tuple[int, float, float]:
    """At most so many steps; returns the steps taken, the energy and the largest force."""
    here = _stand(cell, find(cell, unknowns), unknowns)
    for taken in range(steps):
        force = _largest(cell, here)
        if not force > still:
            return taken, here.energy, force
        step(roll, unknowns, here.gradient)
        here = _stand(cell, here.near, unknowns)
    return steps, here.energy, _largest(cell, here)
