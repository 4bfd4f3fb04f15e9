"""Mixing: pure colours stay pure, and greys come out as bright as they should be."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.catalogue.shelf import standard
from braidwright.domain.dither import MIXINGS, IntArray, diffused, ordered, plain
from braidwright.domain.motif import Course
from braidwright.domain.oklab import FloatArray

BRAID = standard().braid("kongoh-16")
COURSE = Course(rise_mm=2.3, drift_deg=11.25, radius_mm=3.6)
BLACK_AND_WHITE: FloatArray = np.array([[0.0, 0.0, 0.0], [1.0, 1.0, 1.0]])


def mixed(mixing: str, wanted: FloatArray, choice: FloatArray) -> IntArray:
    if mixing == "diffused":
        return diffused(wanted, choice, np.ones(wanted.shape[:2], dtype=np.bool_), BRAID, COURSE)
    return (ordered if mixing == "ordered" else plain)(wanted, choice)


@pytest.mark.parametrize("mixing", MIXINGS)
@given(which=st.integers(0, 3), seed=st.integers(0, 999))
def test_a_colour_of_the_choice_is_itself_everywhere(mixing: str, which: int, seed: int) -> None:
    choice = np.random.default_rng(seed).random((4, 3))
    wanted = np.tile(choice[which], (12, 8, 1))
    assert (mixed(mixing, wanted, choice) == which).all()


@pytest.mark.parametrize("mixing", ["diffused", "ordered"])
@pytest.mark.parametrize("grey", [0.0, 0.1, 0.25, 0.5, 0.8, 1.0])
def test_of_black_and_white_as_many_are_white_as_the_grey_is_bright(mixing: str, grey: float) -> None:
    """Light adds up: the eye from afar sees the mean light. Source: any text on optics; a mean is a mean."""
    found = mixed(mixing, np.full((60, 8, 3), grey), BLACK_AND_WHITE)
    assert found.mean() == pytest.approx(grey, abs=0.04)


@pytest.mark.parametrize("mixing", ["diffused", "ordered"])
def test_half_grey_is_spread_evenly(mixing: str) -> None:
    """No eight rows hold clearly more white than the others, nor does any column."""
    found = mixed(mixing, np.full((64, 8, 3), 0.5), BLACK_AND_WHITE)
    assert np.abs(found.reshape(8, 64).mean(axis=1) - 0.5).max() < 0.15
    assert np.abs(found.mean(axis=0) - 0.5).max() < 0.25


def test_plain_gives_no_mixture() -> None:
    assert set(mixed("none", np.full((20, 8, 3), 0.4), BLACK_AND_WHITE).flat) == {1}


def test_nothing_is_handed_beyond_the_picture() -> None:
    inside = np.zeros((20, 8), dtype=np.bool_)
    inside[5:9, 2:5] = True
    found = diffused(np.full((20, 8, 3), 0.5), BLACK_AND_WHITE, inside, BRAID, COURSE)
    assert not found[~inside].any()
