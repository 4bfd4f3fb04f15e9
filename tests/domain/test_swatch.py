"""A maker's swatch: impossible numbers refused, slips noticed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.domain.errors import DesignError
from braidwright.domain.prediction import Prediction
from braidwright.domain.swatch import Swatch, check

EXPECTED = Prediction(
    rise_mm=2.3,
    diameter_mm=6.9,
    drift_deg=11.25,
    take_up=1.5,
    bare_rise_mm=1.0,
    bare_take_up=1.565,
    basis="estimated",
    notes=("kept",),
)
SILENT = Prediction(
    rise_mm=None,
    diameter_mm=None,
    drift_deg=0.0,
    take_up=None,
    bare_rise_mm=None,
    bare_take_up=None,
    basis="not predicted yet",
)


@pytest.mark.parametrize(
    "wrong",
    [
        {"rows": 0},
        {"rows": -3},
        {"rows": 10**9},
        {"rows": 20, "length_mm": 0.0},
        {"rows": 20, "length_mm": float("nan")},
        {"rows": 20, "length_mm": float("inf")},
        {"rows": 20, "diameter_mm": -7.0},
        {"rows": 20, "diameter_mm": 900.0},
        {"rows": 20, "turn_rows": 1.0},
        {"rows": 20, "length_mm": 46.0, "cord_used_mm": 40.0},  # a cord cannot make more braid than it is long
        {"rows": 20, "length_mm": 46.0, "cord_cut_mm": 100.0, "cord_left_mm": 60.0},
        {"rows": 20, "cord_cut_mm": 100.0},
        {"rows": 20, "length_mm": 1e-300},
        {"rows": 20, "cord_cut_mm": 100.0, "cord_left_mm": 99.9999999999},
        {"rows": 20, "cord_left_mm": 100.0},
        {"rows": 20, "cord_cut_mm": 100.0, "cord_left_mm": 100.0},
        {"rows": 20, "cord_cut_mm": 100.0, "cord_left_mm": float("nan")},
        {"rows": 20, "cord_cut_mm": 100.0, "cord_left_mm": -1.0},
        {"rows": 20, "cord_cut_mm": float("inf"), "cord_left_mm": 1.0},
        {"rows": 20, "cord_cut_mm": 400.0, "cord_left_mm": 262.0, "cord_used_mm": 150.0},
    ],
)
def test_impossible_numbers_are_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(DesignError, match="Swatch"):
        Swatch(**wrong)  # type: ignore[arg-type]


def test_what_was_cut_and_left_tells_the_cord_used() -> None:
    assert Swatch(rows=20, cord_cut_mm=400.0, cord_left_mm=262.0).used_mm == 138.0
    assert Swatch(rows=20, cord_cut_mm=400.0, cord_left_mm=0.0).used_mm == 400.0
    assert Swatch(rows=20, cord_cut_mm=400.0, cord_left_mm=262.0, cord_used_mm=138.4).used_mm == 138.4
    assert Swatch(rows=20, cord_used_mm=138.0).used_mm == 138.0
    assert Swatch(rows=20).used_mm is None


@pytest.mark.parametrize(
    ("swatch", "words"),
    [
        (Swatch(rows=20, length_mm=46.0 / 25.4), "inches given as millimetres"),
        (Swatch(rows=20, length_mm=4.6), "centimetres given as millimetres"),
        (Swatch(rows=20, length_mm=92.0), "about twice"),
        (Swatch(rows=20, length_mm=23.0), "about half"),
        (Swatch(rows=20, length_mm=460.0), "nought"),
        (Swatch(rows=20, length_mm=70.0), "measure again"),
        (Swatch(rows=20, diameter_mm=6.9 * 3.14159), "the way round"),
        (Swatch(rows=20, diameter_mm=3.45), "not to the middle"),
        (Swatch(rows=20, diameter_mm=0.69), "centimetres"),
        (Swatch(rows=20, length_mm=46.0, cord_used_mm=690.0), "one cord"),
        (Swatch(rows=20, turn_rows=4.0), "full turn"),
    ],
)
def test_one_wrong_measurement_is_noticed(swatch: Swatch, words: str) -> None:
    found = check(swatch, EXPECTED)
    assert len(found) == 1
    assert words in found[0]


def test_an_ordinary_swatch_passes() -> None:
    good = Swatch(rows=20, length_mm=43.0, diameter_mm=7.3, turn_rows=22.0, cord_used_mm=68.0)
    assert check(good, EXPECTED) == ()


def test_without_a_prediction_the_bead_tells_a_wrong_unit() -> None:
    assert check(Swatch(rows=20, length_mm=6.0), SILENT, 2.1)
    assert check(Swatch(rows=20, length_mm=60.0), SILENT, 2.1) == ()
    assert check(Swatch(rows=20, length_mm=6.0), SILENT) == ()


@given(st.floats(min_value=0.8, max_value=1.3), st.floats(min_value=0.8, max_value=1.3))
def test_real_variation_raises_no_alarm_and_a_wrong_unit_always_does(length: float, across: float) -> None:
    rows = 20
    good = Swatch(rows=rows, length_mm=rows * 2.3 * length, diameter_mm=6.9 * across)
    assert check(good, EXPECTED) == ()
    for factor in (1 / 25.4, 0.1, 10.0, 25.4):
        assert check(Swatch(rows=rows, length_mm=rows * 2.3 * length * factor), EXPECTED)
