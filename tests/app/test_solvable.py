"""Whether a design can be tightened at all, and why a size rests on no solved shape."""

from dataclasses import replace

import pytest

from braidwright.app.keeping import STOPPED
from braidwright.app.quick import Quick
from braidwright.app.sizes import materials_of
from braidwright.app.solvable import why_not_solved, why_not_threaded
from braidwright.app.tightened import Solved
from braidwright.domain.design import Design
from braidwright.domain.swatch import Swatch
from braidwright.domain.tray import Tray, TrayBead
from rope import SHELF, rope

FULL = ("aaaa",) * 20


def with_hole(hole_mm: float, rows: tuple[str, ...] = FULL) -> Design:
    """A rope of Tex 210 (0.5 mm) whose beads "b" have this hole."""
    bead = replace(SHELF.bead("round-8/0"), hole_mm=hole_mm)
    design = rope(FULL)
    tray = Tray(entries=(*design.tray.entries, TrayBead(key="b", bead=bead, colour="#112233")))
    return replace(design, tray=tray, rows=rows)


@pytest.mark.parametrize(("hole_mm", "is_threaded"), [(0.3, False), (0.5, False), (0.7, True), (1.2, True)])
def test_a_bead_narrower_than_its_cord_is_not_threaded(hole_mm: float, is_threaded: bool) -> None:
    design = with_hole(hole_mm, ("aaab",) * 20)
    reason = why_not_threaded(design, materials_of(design, SHELF))
    assert (reason is None) is is_threaded
    assert reason is None or (f"hole is {hole_mm:g} mm" in reason and "0.5 mm" in reason)


def test_a_bead_that_is_not_used_need_not_be_threaded() -> None:
    design = with_hole(0.3)
    assert why_not_threaded(design, materials_of(design, SHELF)) is None


def test_what_was_solved_has_no_reason_and_what_was_not_tells_its_own_alone() -> None:
    assert why_not_solved(rope(FULL), SHELF, Solved()) == ()
    assert why_not_solved(rope(FULL), SHELF, Quick()) == ()
    (reason,) = why_not_solved(with_hole(0.3, ("bbbb",) * 20), SHELF, Solved())
    assert "cannot be threaded" in reason


def test_a_swatch_does_not_hide_the_reason() -> None:
    """A twist of 120 degrees a row, measured, is more than any first shape holds."""
    design = replace(rope(FULL), swatches=(Swatch(rows=20, length_mm=46.0, turn_rows=3.0),))
    (reason,) = why_not_solved(design, SHELF, Solved())
    assert "A column cannot turn by" in reason


def test_a_stopped_solve_is_a_reason() -> None:
    design = replace(rope(FULL), swatches=(Swatch(rows=20, turn_rows=29.5),))  # a twist nobody else solves here
    assert why_not_solved(design, SHELF, Solved(watch=lambda _: False)) == (STOPPED.sentence,)
