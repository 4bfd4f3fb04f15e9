"""The tightened predictor: what it solves, what it leaves to the quick formula, and that it is a Predictor."""

from dataclasses import replace

import pytest

from braidwright.app import tightened
from braidwright.app.keeping import STOPPED, Keeper, Watch
from braidwright.app.kept_shapes import ROUND_BRAIDS
from braidwright.app.ports import Predictor
from braidwright.app.quick import NOT_KNOWN, Quick
from braidwright.app.sizes import asked_drift, materials_of, predict, size
from braidwright.app.tightened import Solved
from braidwright.domain.braid import Braid, mirrored
from braidwright.domain.design import CordChoice, Design
from braidwright.domain.prediction import Prediction, Spread
from braidwright.physics.round_braid import RoundBraid, Shape, settle
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
    found = solved(rope(("aaaaaa",) * 30, braid=kongoh(12)))
    assert found.basis == "solved"
    assert any("hollow" in note for note in found.notes)


@pytest.mark.parametrize(
    "design",
    [
        pytest.param(rope(("aaaa",) * 20, braid=maru_yotsu()), id="another braid"),
        pytest.param(rope(("aaaa", "aa.a") * 20), id="missed beads"),
        pytest.param(rope(("aaaa", "a.a.") * 20), id="half-bare rows"),
        pytest.param(rope(("akaa",) * 20), id="stacks"),
        pytest.param(rope(("aaaa", "adaa") * 20), id="accents"),
        pytest.param(rope(("aaaa", "....", "aaaa") * 9), id="gaps"),
        pytest.param(rope(("abab",) * 20, beads={"a": "round-8/0", "b": "round-11/0"}), id="two sizes"),
        pytest.param(rope(FULL, beads={"a": "cylinder-11/0"}), id="cylinders"),
    ],
)
def test_what_is_not_solved_yet_stays_as_the_quick_formula_has_it(design: Design) -> None:
    assert solved(design) == quick(design)


def test_a_shape_that_does_not_settle_leaves_the_estimate_and_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    design = rope(FULL)
    shape = settle(RoundBraid(columns=4, cord_mm=1.0, bead=None, drift_deg=11.25), most_steps=3)
    assert not shape.outcome.is_settled
    monkeypatch.setattr(tightened, "SHAPES", Keeper(ROUND_BRAIDS, lambda *_: shape, SolvedStore(None)))
    found = solved(design)
    assert found == replace(quick(design), notes=(*quick(design).notes, shape.outcome.sentence))


@pytest.mark.parametrize("reached", [0.0, 0.1])
def test_a_stopped_solve_leaves_the_estimate_and_says_so(reached: float, monkeypatch: pytest.MonkeyPatch) -> None:
    """Before it began, and on its way; afterwards the same design is solved as if nothing had been."""
    monkeypatch.setattr(tightened, "SHAPES", Keeper(ROUND_BRAIDS, settle, SolvedStore(None)))
    design = rope(FULL)
    stopped = predict(design, SHELF, Solved(watch=lambda share: share < reached))
    assert stopped == replace(quick(design), notes=(*quick(design).notes, STOPPED.sentence))
    assert stopped.basis == "estimated"
    assert solved(design).basis == "solved"


def test_an_impossible_drift_leaves_the_estimate_and_says_so() -> None:
    design = rope(FULL)
    found = Solved().predict(design, materials_of(design, SHELF), 95.0)
    assert found.basis == "not predicted yet"
    assert any("turn" in note for note in found.notes)
    assert Quick().predict(design, materials_of(design, SHELF), asked_drift(design)).basis == "estimated"


def test_the_same_braid_is_solved_once(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[object] = []

    def counted(braid: RoundBraid, watch: Watch | None) -> Shape:
        asked.append(braid)
        return settle(braid, watch, most_steps=50)

    monkeypatch.setattr(tightened, "SHAPES", Keeper(ROUND_BRAIDS, counted, SolvedStore(None)))
    first = solved(rope(FULL))
    assert solved(rope(("aaaa",) * 20)) == first
    assert len(asked) == 2  # with beads, and bare for the leads


def test_sizes_take_it_as_they_take_the_quick_formula() -> None:
    found = size(rope(FULL), SHELF, Solved())
    assert found.basis == "solved"
    assert found.length_mm == pytest.approx(72 * 2.30, rel=0.01)
    assert found.warnings == ()
