"""Sizes fitted to wrists, necklines and end caps."""

from dataclasses import replace

import pytest

from braidwright.app.sizes import (
    end_cap_of,
    fit_length,
    fit_neckline,
    fit_wrist,
    size,
    worn_by_whom,
)
from braidwright.domain.cord import Cord
from braidwright.domain.design import CordChoice, Findings
from braidwright.domain.errors import RequestError
from braidwright.domain.swatch import Swatch
from rope import SHELF, rope

FULL = ("aaaa",) * 72


def test_fitting_a_wrist_gives_rows_that_fit_it() -> None:
    design = rope(FULL, findings=Findings(clasp="toggle", clasp_mm=14.0))
    measured = size(design, SHELF)
    cap = end_cap_of(design, SHELF, measured)
    assert cap is not None
    assert cap.inside_mm == 7
    fit = fit_wrist(design, measured, cap, 7 * 25.4, "comfort")
    worn = worn_by_whom(
        replace(design, rows=("aaaa",) * fit.rows), size(design.with_rows(("aaaa",) * fit.rows), SHELF), cap
    )
    assert worn is not None
    assert worn.comfort_mm == pytest.approx(7 * 25.4, abs=2.3)
    assert worn.smallest_mm < 7 * 25.4 < worn.largest_mm
    assert fit.end_cap == "cap-7"


def test_fitting_a_neckline() -> None:
    design = rope(FULL)
    measured = size(design, SHELF)
    fit = fit_neckline(design, measured, None, "princess")
    assert fit.finished_mm == pytest.approx(18 * 25.4, abs=1.2)
    assert fit.notes


def test_fitting_keeps_the_bare_rows_and_adds_beaded_ones() -> None:
    design = rope((*("....",) * 10, *FULL, *("....",) * 10))
    fit = fit_length(design, size(design, SHELF), None, 300.0)
    longer = size(rope((*("....",) * 10, *("aaaa",) * (fit.rows - 20), *("....",) * 10)), SHELF)
    assert longer.length_mm is not None
    assert longer.length_mm == pytest.approx(fit.rows_mm)
    assert longer.length_mm + fit.findings_mm == pytest.approx(300.0, abs=1.2)


def test_a_satin_braid_takes_the_cap_a_teacher_used() -> None:
    """[FOC]: eight cords of 1.5 mm satin, 6 mm caps; measured by its maker, the rule of [WEIR] serves alone."""
    satin = Cord(name="satin-1.5", english="satin", diameter_mm=1.5)
    design = rope(("....",) * 60, cords=CordChoice(kind=satin, colours=("#222222",)))
    cap = end_cap_of(design, SHELF, size(design, SHELF))
    assert cap is not None
    assert cap.inside_mm == 6
    measured = replace(design, swatch=Swatch(rows=20, length_mm=50.0, diameter_mm=5.4))
    cap = end_cap_of(measured, SHELF, size(measured, SHELF))
    assert cap is not None
    assert cap.inside_mm == 5


def test_a_named_end_cap_is_the_one_used() -> None:
    design = rope(FULL, findings=Findings(end_cap="cap-8"))
    cap = end_cap_of(design, SHELF, size(design, SHELF))
    assert cap is not None
    assert cap.name == "cap-8"


def test_what_has_no_size_cannot_be_fitted() -> None:
    design = rope(("a.a.",) * 20)
    measured = size(design, SHELF)
    with pytest.raises(RequestError, match="swatch"):
        fit_wrist(design, measured, None, 170.0, "snug")
    with pytest.raises(RequestError, match="swatch"):
        fit_length(design, measured, None, 170.0)
    assert worn_by_whom(design, measured, None) is None
    assert end_cap_of(design, SHELF, measured) is None
