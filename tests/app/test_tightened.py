"""The tightened predictor: what it solves, what it leaves to the quick formula, and that it is a Predictor."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from braidwright.app import tightened
from braidwright.app.keeping import STOPPED, Keeper
from braidwright.app.kept_ropes import WHOLES
from braidwright.app.ports import Predictor, Watch
from braidwright.app.quick import NOT_KNOWN, Quick
from braidwright.app.sizes import asked_drift, materials_of, predict, shape, size
from braidwright.app.tightened import Solved, piece_of
from braidwright.domain.braid import Braid, Move, mirrored
from braidwright.domain.design import CordChoice, CoreCord, Design
from braidwright.domain.prediction import Prediction, Spread
from braidwright.domain.swatch import Swatch
from braidwright.physics.measures import Whole
from braidwright.physics.outcome import Outcome
from braidwright.physics.whole import Piece, solve_whole
from braidwright.store.solved import SolvedStore
from rope import SHELF, kongoh, maru_yotsu, rope

FULL = ("aaaa",) * 72
PLAIN = CordChoice(kind="satin-2", colours=("#222222",))


def solved(design: Design) -> Prediction:
    """What the tightened predictor says with the disk held still."""
    solver: Predictor = Solved()
    return predict(design, SHELF, solver)


def quick(design: Design) -> Prediction:
    """What the quick formula says."""
    return predict(design, SHELF)


def twice(braid: Braid) -> Braid:
    """The same braid stated with the round in which every cord moves once: two smallest repeats a row."""
    again = tuple(
        replace(
            move,
            take=(move.take - 1 + braid.shift) % braid.slots + 1,
            put=(move.put - 1 + braid.shift) % braid.slots + 1,
        )
        for move in braid.moves
    )
    return replace(braid, moves=braid.moves + again, shift=2 * braid.shift)


def test_a_bracelet_of_8_0() -> None:
    """physics.md, section 4: rise 2.30, 6.88 mm across, take-up 1.49; within 1 %."""
    found = solved(rope(FULL))
    assert found.basis == "solved"
    assert found.rise_mm == pytest.approx(2.30, rel=0.01)
    assert found.diameter_mm == pytest.approx(6.88, rel=0.01)
    assert found.take_up == pytest.approx(1.49, rel=0.01)
    assert found.drift_deg == 11.25
    assert found.bare_rise_mm == pytest.approx(1.97 * 0.5, rel=0.01)
    assert found.notes == (NOT_KNOWN,)
    assert found.spread == Spread()


def test_a_plain_cord_braid() -> None:
    """physics.md, section 4: rise 1.97 d, 4.7 to 4.8 d across; cord of 2 mm."""
    found = solved(rope(("....",) * 50, cords=PLAIN))
    assert found.basis == "solved"
    assert found.rise_mm == found.bare_rise_mm == pytest.approx(3.94, rel=0.01)
    assert found.diameter_mm == pytest.approx(9.5, rel=0.02)
    assert any("firm cord" in note for note in found.notes)


def test_both_hands_measure_the_same() -> None:
    design = rope(FULL)
    one, other = solved(design), solved(replace(design, braid=mirrored(design.braid)))
    assert other == replace(one, drift_deg=-one.drift_deg)


def test_a_row_of_two_repeats_is_twice_as_long() -> None:
    one, both = solved(rope(FULL)), solved(rope(("aaaaaaaa",) * 36, braid=twice(kongoh(8))))
    assert one.rise_mm is not None
    assert both.rise_mm == pytest.approx(2.0 * one.rise_mm)
    assert both.diameter_mm == one.diameter_mm
    assert both.drift_deg == 2.0 * one.drift_deg


def test_a_wide_tube_is_solved_and_said_to_be_hollow() -> None:
    design = rope(("aaaaaa",) * 30, braid=kongoh(12))
    found = solved(design)
    assert found.basis == "solved"
    assert found.hollow_mm is not None
    assert 0.5 < found.hollow_mm < 1.5  # 0.8 mm as it came out on the day; no source
    assert sum("hollow" in warning for warning in size(design, SHELF, Solved()).warnings) == 1
    filled = replace(design, cords=replace(design.cords, core=CoreCord(mm=1.0)))
    assert not any("hollow" in warning for warning in size(filled, SHELF, Solved()).warnings)


@pytest.mark.parametrize(
    ("design", "rise", "across"),
    [
        pytest.param(rope(("aaaa",) * 20, braid=maru_yotsu()), (3.0, 3.6), (5.8, 6.3), id="another braid"),
        pytest.param(rope(("aaaa", "aa.a") * 20), (2.1, 2.35), (6.6, 7.2), id="missed beads"),
        pytest.param(rope(("aaaa", "a.a.") * 20), (1.6, 2.35), (5.8, 7.2), id="half-bare rows"),
        pytest.param(rope(("akaa",) * 20), (2.2, 3.5), (6.0, 9.0), id="stacks"),
        pytest.param(rope(("aaaa", "adaa") * 20), (2.2, 2.5), (6.6, 7.2), id="accents"),
        pytest.param(rope(("aaaa", "....", "aaaa") * 9), (1.5, 2.5), (6.4, 7.2), id="gaps"),
        pytest.param(rope(("abab",) * 20, beads={"a": "round-8/0", "b": "round-11/0"}), (1.8, 2.3), (5.0, 7.0),
                     id="two sizes"),
        pytest.param(rope(FULL, beads={"a": "cylinder-11/0"}), (1.4, 1.7), (3.4, 4.3), id="cylinders"),
    ],
)  # fmt: skip
def test_any_beads_and_any_braid_are_solved(
    design: Design, rise: tuple[float, float], across: tuple[float, float]
) -> None:
    """Rough windows from the sizes of the beads: no source; the closed form has nothing to say of these."""
    found = solved(design)
    assert found.basis == "solved", found.notes
    assert found.rise_mm is not None
    assert found.diameter_mm is not None
    assert found.take_up is not None
    assert rise[0] < found.rise_mm < rise[1]
    assert across[0] < found.diameter_mm < across[1]
    assert 1.0 < found.take_up < 3.0


def test_the_length_is_that_of_the_solved_rope() -> None:
    """Bare rows and beaded ones together, however they were told apart."""
    design = rope(("aaaa",) * 8 + ("....",) * 9 + ("adaa",) * 7)
    measured, drawn = size(design, SHELF, Solved()), shape(design, SHELF, Solved())
    assert drawn is not None
    assert drawn.basis == "solved"
    assert measured.length_mm == pytest.approx(drawn.length_mm)


def test_the_drawn_shape_is_as_long_and_as_thick_as_a_swatch_found_it() -> None:
    design = rope(FULL, swatch=Swatch(rows=20, length_mm=50.0, diameter_mm=7.4))
    measured, drawn = size(design, SHELF, Solved()), shape(design, SHELF, Solved())
    assert drawn is not None
    assert drawn.basis == measured.basis == "corrected by a swatch"
    assert measured.length_mm == pytest.approx(drawn.length_mm)
    assert 2.0 * float(np.median(drawn.reaches)) == pytest.approx(measured.diameter_mm, rel=0.01)


def test_accents_stand_out_as_far_as_they_were_solved() -> None:
    """In a rope with a teardrop now and then: twice the farthest reach of any bead."""
    design = rope(("aaaa", "adaa", "aaaa") * 8)
    measured, drawn = size(design, SHELF, Solved()), shape(design, SHELF, Solved())
    assert drawn is not None
    assert measured.across_accents_mm == pytest.approx(2.0 * drawn.reaches.max())
    assert measured.diameter_mm is not None
    assert 2.0 * drawn.reaches.max() > measured.diameter_mm + 2.0


def test_colours_make_no_difference_to_the_solver() -> None:
    """Physics sees sizes and shapes: two colours of one bead are one kind."""
    materials = materials_of(rope(FULL), SHELF)
    one = piece_of(rope(FULL), materials, 11.25)
    two = rope(("abba",) * 72, beads={"a": "round-8/0", "b": "round-8/0"})
    assert piece_of(two, materials_of(two, SHELF), 11.25) == one


def test_cords_that_do_not_hold_together_are_not_tightened() -> None:
    loose = Braid(
        name="loose", english="loose", slots=8, start=(1, 3, 5, 7), shift=0, hand="S",
        moves=(Move(take=1, put=2), Move(take=2, put=1)),
    )  # fmt: skip
    design = rope(("aa",) * 9, braid=loose)
    found = solved(design)
    assert found.basis == "not predicted yet"
    assert any("do not hold all cords together" in note for note in found.notes)


def with_solver(monkeypatch: pytest.MonkeyPatch, solve: Callable[[Piece, Watch | None], Whole | Outcome]) -> None:
    """Another solver, and nothing kept."""
    monkeypatch.setattr(tightened, "WHOLES_KEPT", Keeper(WHOLES, solve, SolvedStore(None)))


def test_a_shape_that_does_not_settle_leaves_the_estimate_and_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    design, outcome = rope(FULL), replace(STOPPED, ending="out of steps")
    with_solver(monkeypatch, lambda *_: outcome)
    found = solved(design)
    assert found == replace(quick(design), notes=(*quick(design).notes, outcome.sentence))
    drawn = shape(design, SHELF, Solved())
    assert drawn is not None
    assert drawn.basis == "estimated"


@pytest.mark.parametrize("reached", [0.0, 0.1])
def test_a_stopped_solve_leaves_the_estimate_and_says_so(reached: float, monkeypatch: pytest.MonkeyPatch) -> None:
    """Before it began, and on its way; afterwards the same design is solved as if nothing had been."""
    with_solver(monkeypatch, lambda piece, watch: solve_whole(piece, tightened.UNIFORMS_KEPT.found, watch))
    design = rope(("aaaa", "adaa", "aaaa", "aaaa", "akaa"))
    stopped = predict(design, SHELF, Solved(watch=lambda share: share < reached))
    assert stopped.basis != "solved"
    assert STOPPED.sentence in stopped.notes
    assert solved(design).basis == "solved"


def test_an_impossible_drift_leaves_the_estimate_and_says_so() -> None:
    design = rope(FULL)
    found = Solved().predict(design, materials_of(design, SHELF), 95.0)
    assert found.basis == "not predicted yet"
    assert any("turn" in note for note in found.notes)
    assert Quick().predict(design, materials_of(design, SHELF), asked_drift(design)).basis == "estimated"


def test_the_same_rope_is_solved_once(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[Piece] = []

    def counted(piece: Piece, watch: Watch | None) -> Whole | Outcome:
        asked.append(piece)
        return solve_whole(piece, tightened.UNIFORMS_KEPT.found, watch)

    with_solver(monkeypatch, counted)
    first = solved(rope(FULL))
    assert solved(rope(FULL)) == first
    assert shape(rope(FULL), SHELF, Solved()) is not None
    assert len(asked) == 1


def test_sizes_take_it_as_they_take_the_quick_formula() -> None:
    found = size(rope(FULL), SHELF, Solved())
    assert found.basis == "solved"
    assert found.length_mm == pytest.approx(72 * 2.30, rel=0.01)
    assert found.warnings == ()
