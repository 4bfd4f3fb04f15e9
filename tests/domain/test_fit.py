"""Wrist and neckline to length, length to rows, and back; findings and end caps."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.domain.cord import EndCap
from braidwright.domain.design import Findings
from braidwright.domain.errors import RequestError
from braidwright.domain.fit import (
    EASES,
    bound_satin_mm,
    bracelet_mm,
    check_wrist,
    choose_end_cap,
    ease_mm,
    findings_mm,
    fitted,
    neckline_mm,
    rows_for,
    worn_by,
    wrist_mm,
)
from rope import CAPS

INCH = 25.4


@pytest.mark.parametrize(
    ("wrist", "ease", "thickness", "finished"),
    [(7.0, 0.5, 8.0, 8.49), (6.5, 0.5, 8.0, 7.99), (7.0, 0.5, 6.0, 8.24)],
)
def test_worked_bracelets(wrist: float, ease: float, thickness: float, finished: float) -> None:
    """Check 22 and trade-facts 4.4, worked from the rule of [JIF]."""
    assert bracelet_mm(wrist * INCH, ease * INCH, thickness) / INCH == pytest.approx(finished, abs=0.005)


def test_the_rival_rule_says_nearly_the_same() -> None:
    """[FMG]: wrist with slack - clasp + 3 bead diameters; ours has pi for 3, and takes the clasp off the rows."""
    assert bracelet_mm(165.0, 12.0, 7.0) == pytest.approx(165.0 + 12.0 + 3 * 7.0, abs=1.0)


@pytest.mark.parametrize(
    ("name", "inches"),
    [
        ("choker", 16),
        ("princess", 18),
        ("matinee", 24),
        ("Matin\u00e9e", 24),
        ("opera", 32),
        ("bracelet", 7),
        ("anklet", 9),
    ],
)
def test_necklines(name: str, inches: float) -> None:
    """Check 28 [MRB]."""
    assert neckline_mm(name) == pytest.approx(inches * INCH)


def test_an_unknown_neckline_is_refused_with_the_known_ones() -> None:
    with pytest.raises(RequestError, match=r"princess, matinee"):
        neckline_mm("collarbone")


@pytest.mark.parametrize(
    ("word", "least", "most"), [("tight", 0, 0), ("snug", 0.25, 0.5), ("comfort", 0.5, 1), ("loose", 1, 1.25)]
)
def test_ease_words(word: str, least: float, most: float) -> None:
    """trade-facts 4.4 [JIF]."""
    ease = next(ease for ease in EASES if ease.name == word)
    assert (ease.least_mm, ease.most_mm) == pytest.approx((least * INCH, most * INCH))
    assert ease.least_mm <= ease_mm(word.upper()) <= ease.most_mm


def test_ease_may_be_a_length() -> None:
    assert ease_mm("1/2 in") == pytest.approx(12.7)


@pytest.mark.parametrize("wish", ["comfy", "-3 mm", "nan", "12 in"])
def test_no_ease_is_refused(wish: str) -> None:
    with pytest.raises(RequestError, match="ease"):
        ease_mm(wish)


@pytest.mark.parametrize(("mm", "hint"), [(6.5, "6.5 in"), (16.5, "16.5 cm"), (0.0, "girth"), (4000.0, "girth")])
def test_a_wrist_in_the_wrong_unit_is_refused_with_a_hint(mm: float, hint: str) -> None:
    with pytest.raises(RequestError, match=hint):
        check_wrist(mm)


@given(st.floats(90, 300), st.floats(0, 32), st.floats(2, 15))
def test_the_way_back_gives_the_wrist(wrist: float, ease: float, thickness: float) -> None:
    assert wrist_mm(bracelet_mm(wrist, ease, thickness), ease, thickness) == pytest.approx(wrist)


def test_whom_a_bracelet_fits() -> None:
    found = worn_by(8.49 * INCH, 8.0)
    assert found is not None
    assert found.largest_mm == pytest.approx(7.5 * INCH, abs=0.2)
    assert found.smallest_mm == pytest.approx(6.25 * INCH, abs=0.2)
    assert "average" in found.names  # 7 in with half an inch of ease, as worked above
    assert "XXL" not in found.names
    assert "S" in found.names


@pytest.mark.parametrize("finished", [30.0, 18 * INCH])
def test_neither_a_finger_ring_nor_a_necklace_goes_round_a_wrist(finished: float) -> None:
    assert worn_by(finished, 8.0) is None


@given(st.floats(20, 2000), st.floats(0.5, 8), st.integers(1, 8))
def test_rows_come_as_near_as_rows_can(length: float, rise: float, step: int) -> None:
    rows = rows_for(length, rise, step=step)
    assert rows % step == 0
    assert rows >= step
    if rows > step:
        assert abs(rows * rise - length) <= rise * step / 2 + 1e-6


def test_findings_longer_than_the_piece_are_refused() -> None:
    with pytest.raises(RequestError, match="findings"):
        fitted(30.0, 2.3, 40.0)


def test_a_fit_says_how_far_off_whole_rows_are() -> None:
    fit = fitted(190.0, 2.3, 25.4)
    assert fit.rows == round((190.0 - 25.4) / 2.3)
    assert fit.finished_mm == pytest.approx(fit.rows * 2.3 + 25.4)
    assert fit.off_mm == pytest.approx(fit.finished_mm - 190.0)
    assert abs(fit.off_mm) <= 2.3 / 2


@pytest.mark.parametrize(("across", "inside"), [(3.9, 3), (4.9, 4), (4.0, 4), (2.0, 3), (30.0, 10)])
def test_a_bare_braid_takes_the_smaller_cap(across: float, inside: float) -> None:
    """Check 25 [WEIR]: just under 4 mm takes the 3 mm cap, just under 5 mm the 4 mm cap."""
    cap = choose_end_cap(across, beaded=False, caps=CAPS)
    assert cap is not None
    assert cap.inside_mm == inside


def test_a_satin_braid_takes_the_cap_a_teacher_used() -> None:
    """[FOC]: eight 1.5 mm satin cords went into 6 mm caps. The formula, for firm cord, says 7.1 mm across."""
    cap = choose_end_cap(bound_satin_mm(4.75 * 1.5), beaded=False, caps=CAPS)
    assert cap is not None
    assert cap.inside_mm == 6


@pytest.mark.parametrize(("across", "inside"), [(6.9, 7), (7.6, 8), (4.8, 5), (9.3, 10)])
def test_a_beaded_rope_takes_a_cap_about_as_wide_as_itself(across: float, inside: float) -> None:
    """[GLUE]: about the outside diameter of the braid."""
    cap = choose_end_cap(across, beaded=True, caps=CAPS)
    assert cap is not None
    assert cap.inside_mm == inside


def test_without_caps_there_is_nothing_to_choose() -> None:
    assert choose_end_cap(5.0, beaded=True, caps=()) is None


@given(st.floats(1, 20), st.booleans(), st.permutations(CAPS))
def test_the_order_of_the_caps_makes_no_difference(across: float, beaded: bool, caps: list[EndCap]) -> None:
    assert choose_end_cap(across, beaded=beaded, caps=tuple(caps)) == choose_end_cap(across, beaded=beaded, caps=CAPS)


def test_the_length_of_findings() -> None:
    """Typical: 19 to 32 mm for two caps and a clasp, from memory (trade-facts 4.3)."""
    cap = CAPS[0]
    typical, notes = findings_mm(None, cap)
    assert 19.0 <= typical <= 32.0
    assert notes
    assert findings_mm(Findings(clasp_mm=14.0), cap) == (24.0, ())
    alone, notes = findings_mm(Findings(clasp_mm=14.0), None)
    assert alone == 14.0
    assert notes


def test_pi_times_the_thickness_is_what_a_thick_ring_needs() -> None:
    """No source: a ring whose inside has the girth g and whose rope is t thick has a middle line of g + pi t."""
    inside_radius = 165.0 / (2 * pi)
    assert bracelet_mm(165.0, 0.0, 8.0) == pytest.approx(2 * pi * (inside_radius + 4.0))
