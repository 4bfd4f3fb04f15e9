"""Ways downhill, on valleys whose floor is known: a solver sees unknowns and a gradient, never a braid."""

import numpy as np
import pytest

from braidwright.physics.solvers.fire import rolling, step
from braidwright.physics.solvers.lbfgs import direction, inner, learn, lessons
from braidwright.physics.state import Floats

STEEP = np.array([1.0, 4.0, 25.0, 100.0])  # of a long narrow valley
START = np.array([3.0, -2.0, 1.0, 0.5])


def slope(unknowns: Floats) -> Floats:
    """Of the valley at a point."""
    return STEEP * unknowns


def test_a_ball_rolls_to_the_floor_and_no_faster_than_allowed() -> None:
    roll, here = rolling(4, float(STEEP.max()), 0.05), START.copy()
    for _ in range(2000):
        before = here.copy()
        step(roll, here, slope(here))
        assert np.abs(here - before).max() <= 0.05 + 1e-12
    assert np.abs(here).max() < 1e-3


def test_what_was_learned_leads_to_the_floor_in_few_steps() -> None:
    """A quadratic valley of 4 unknowns is learned in little more than 4 steps, once steps may be long."""
    known, here = lessons(4, 10.0, 10.0), START.copy()
    for _ in range(30):
        way = direction(known, slope(here))
        assert inner(way, slope(here)) < 0.0
        share = -inner(way, slope(here)) / inner(way, STEEP * way)  # the best step along it
        learn(known, share * way, slope(here + share * way) - slope(here))
        here = here + share * way
        if np.abs(here).max() < 1e-9:
            break
    assert np.abs(here).max() < 1e-9
    assert known.learned[0] <= 8


def test_no_step_is_longer_than_allowed() -> None:
    known = lessons(4, 0.05, 0.05)
    assert np.abs(direction(known, slope(START))).max() == pytest.approx(0.05)


def test_a_slope_that_bends_downward_teaches_nothing() -> None:
    known = lessons(4, 0.05, 0.05)
    learn(known, START, -START)
    assert known.learned[0] == 0
    learn(known, START, START)
    assert known.learned[0] == 1
