"""Combining readings: weighted means against numpy, the Birge ratio by hand, and one wrong reading among several."""

from math import sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.domain.combine import Combined, Reading, combine


def read(*pairs: tuple[float, float]) -> Combined:
    found = combine(tuple(Reading(label=f"{n}", value=value, error=error) for n, (value, error) in enumerate(pairs, 1)))
    assert found is not None
    return found


def test_nothing_read_is_nothing_told() -> None:
    assert combine(()) is None


def test_one_reading_is_itself() -> None:
    one = read((2.3, 0.05))
    assert (one.value, one.ratio, one.apart) == (2.3, 0.0, ())
    assert one.error == pytest.approx(0.05)


@given(st.lists(st.tuples(st.floats(0.99, 1.01), st.floats(0.05, 0.5)), min_size=1, max_size=8))
def test_the_mean_is_numpys_weighted_average(pairs: list[tuple[float, float]]) -> None:
    # Source: numpy.average with weights 1/error^2; the error of such a mean is 1/sqrt(sum of the weights).
    found = read(*pairs)
    values, errors = np.array(pairs).T
    mean, weights = np.average(values, weights=errors**-2, returned=True)
    assert found.value == pytest.approx(mean)
    assert found.error == pytest.approx(1 / sqrt(weights))
    assert found.left_out == ()


def test_the_birge_ratio_by_hand() -> None:
    # 10 and 12, each give or take 0.5: mean 11, chi squared 4 + 4 = 8 over 1, ratio sqrt 8; error 0.5 / sqrt 2 times
    # it, which is 1: the standard error of two readings 2 apart (statistics.stdev 1.414 over sqrt 2).
    found = read((10.0, 0.5), (12.0, 0.5))
    assert found.value == 11.0
    assert found.ratio == pytest.approx(sqrt(8))
    assert found.error == pytest.approx(1.0)
    assert found.uneasy
    assert found.apart == ()  # 2 apart is 2.8 errors of their difference


@given(st.lists(st.floats(6, 8), min_size=2, max_size=7))
def test_with_equal_errors_far_too_small_the_error_is_that_of_the_scatter(values: list[float]) -> None:
    # Source: the Birge ratio times 1/sqrt(sum w) is, for equal errors, the textbook standard error of the mean.
    found = read(*((value, 1e-6) for value in values))
    kept = [reading.value for reading in found.kept]
    if len(kept) > 1 and np.ptp(kept) > 1e-3:
        assert found.error == pytest.approx(np.std(kept, ddof=1) / sqrt(len(kept)))


def test_two_that_disagree_are_told_and_both_kept() -> None:
    assert [reading.label for reading in read((2.3, 0.05), (4.6, 0.05)).apart] == ["1", "2"]
    assert read((2.3, 0.05), (2.5, 0.05)).apart == ()


def test_agreement_never_makes_the_error_smaller_than_reading_allows() -> None:
    assert read((2.3, 0.1), (2.3, 0.1), (2.3, 0.1), (2.3, 0.1)).error == pytest.approx(0.05)


@pytest.mark.parametrize("wrong", [0.0, 4.6, 100.0])
@pytest.mark.parametrize("place", [0, 1, 2])
def test_one_far_reading_among_three_is_left_out(wrong: float, place: int) -> None:
    values = [2.25, 2.35]
    values.insert(place, wrong)
    found = read(*((value, 0.05) for value in values))
    assert [reading.value for reading in found.left_out] == [wrong]
    assert found.value == pytest.approx(2.3)


def test_scattered_readings_are_no_outliers() -> None:
    assert read((6.0, 0.05), (7.0, 0.05), (8.0, 0.05)).left_out == ()


@given(st.lists(st.tuples(st.floats(0.1, 1000), st.floats(0.01, 10)), min_size=1, max_size=9))
def test_at_least_half_the_readings_are_kept(pairs: list[tuple[float, float]]) -> None:
    found = read(*pairs)
    assert 2 * len(found.kept) >= len(pairs)
    assert len(found.kept) + len(found.left_out) == len(pairs)
    low, high = min(r.value for r in found.kept), max(r.value for r in found.kept)
    assert low * (1 - 1e-9) <= found.value <= high * (1 + 1e-9)
