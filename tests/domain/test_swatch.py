"""A maker's swatch: impossible numbers refused, slips noticed, predictions corrected."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.domain.errors import DesignError
from braidwright.domain.prediction import Prediction
from braidwright.domain.swatch import Swatch, check, corrected, measured_drift

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
    ],
)
def test_impossible_numbers_are_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(DesignError, match="Swatch"):
        Swatch(**wrong)  # type: ignore[arg-type]


def test_what_was_measured_takes_the_place_of_what_was_predicted() -> None:
    told = corrected(EXPECTED, Swatch(rows=20, length_mm=44.0, diameter_mm=7.2, turn_rows=18.0, cord_used_mm=70.4))
    assert told.basis == "corrected by a swatch"
    assert told.rise_mm == pytest.approx(2.2)
    assert told.diameter_mm == 7.2
    assert told.drift_deg == pytest.approx(20.0)
    assert told.take_up == pytest.approx(1.6)
    assert told.bare_rise_mm == EXPECTED.bare_rise_mm
    assert told.notes[0] == "kept"


def test_what_was_not_measured_stays_predicted_and_is_named() -> None:
    told = corrected(EXPECTED, Swatch(rows=20, length_mm=44.0))
    assert (told.diameter_mm, told.drift_deg, told.take_up) == (6.9, 11.25, 1.5)
    assert "still predicted: diameter, twist, cord used" in told.notes[-1]


def test_measuring_the_twist_alone_leaves_the_size_estimated() -> None:
    told = corrected(EXPECTED, Swatch(rows=40, turn_rows=20.0))
    assert told.basis == "estimated"
    assert told.drift_deg == pytest.approx(18.0)


def test_the_twist_keeps_its_hand() -> None:
    assert measured_drift(Swatch(rows=40, turn_rows=20.0), -11.25) == pytest.approx(-18.0)
    assert measured_drift(Swatch(rows=40), -11.25) == -11.25
    assert measured_drift(None, 11.25) == 11.25


def test_a_diameter_alone_does_not_make_an_unknown_length_known() -> None:
    told = corrected(SILENT, Swatch(rows=20, diameter_mm=7.0))
    assert told.basis == "not predicted yet"
    assert told.diameter_mm == 7.0
    assert any("Neither measured nor predicted: length" in note for note in told.notes)


def test_a_swatch_tells_what_no_formula_does() -> None:
    told = corrected(SILENT, Swatch(rows=10, length_mm=30.0, cord_used_mm=48.0))
    assert told.basis == "corrected by a swatch"
    assert told.rise_mm == 3.0
    assert told.take_up == pytest.approx(1.6)


def test_cord_used_goes_with_the_predicted_rise_when_the_length_was_not_measured() -> None:
    assert corrected(EXPECTED, Swatch(rows=20, cord_used_mm=73.6)).take_up == pytest.approx(1.6)


def test_the_leads_of_a_plain_braid_are_the_same_braid() -> None:
    told = corrected(EXPECTED, Swatch(rows=20, length_mm=44.0, cord_used_mm=66.0), plain=True)
    assert told.bare_rise_mm == told.rise_mm == pytest.approx(2.2)
    assert told.bare_take_up == told.take_up == pytest.approx(1.5)


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
