"""Sizes: which formula answers, what it says, when it is silent, and what a swatch changes."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.app.shapes import estimated_geometry
from braidwright.app.sizes import (
    materials_of,
    predict,
    shape,
    size,
)
from braidwright.domain.bead import Bead
from braidwright.domain.braid import Move, mirrored, turn
from braidwright.domain.design import CordChoice, Design
from braidwright.domain.errors import CatalogueError
from braidwright.domain.geometry import Geometry
from braidwright.domain.materials import Materials, mean_bead, row_kinds
from braidwright.domain.prediction import Prediction
from braidwright.domain.swatch import Swatch
from braidwright.domain.tray import TrayBead
from rope import SHELF, kongoh, maru_yotsu, rope

FULL = ("aaaa",) * 72


def test_a_bracelet_of_8_0() -> None:
    """physics.md 4: rise 2.30, 6.88 mm across, take-up 1.49; trade-facts 4.1: 8 to 9 g for 6.5 in; 74 mm a turn."""
    found = size(rope(FULL), SHELF)
    assert found.basis == "estimated"
    assert found.length_mm == pytest.approx(72 * 2.30, rel=0.03)
    assert found.diameter_mm == pytest.approx(6.88, rel=0.023)
    assert found.take_up == pytest.approx(1.49, rel=0.06)
    assert found.drift_deg == 11.25
    assert found.turn_rows == 32
    assert found.turn_mm == pytest.approx(74, abs=1)
    assert found.weight_g == pytest.approx(8.5, abs=0.9)
    assert found.across_accents_mm == found.diameter_mm
    assert (found.lead_in_mm, found.lead_out_mm) == (15.0, 15.0)
    assert found.warnings == ()


def test_an_estimate_says_how_far_the_formula_strays() -> None:
    """physics.md 1: rise within 3 %, diameter -0.6 to +2.3 %, take-up -6 to +3 %; twist is soft, so nothing is told."""
    found = size(rope(FULL), SHELF)
    assert found.length_mm is not None
    assert found.diameter_mm is not None
    assert found.take_up is not None
    assert found.length_error_mm == pytest.approx(0.03 * found.length_mm)
    assert found.diameter_error_mm == pytest.approx(0.023 * found.diameter_mm)
    assert found.take_up_error == pytest.approx(0.06 * found.take_up)
    assert found.drift_error_deg is None
    assert any("your own tension comes on top" in note for note in found.notes)


@pytest.mark.parametrize(
    "design",
    [
        rope(("aaba",) * 40, beads={"a": "round-8/0", "b": "round-11/0"}),
        rope(("aada",) * 40),
        rope(("aaa.",) * 40),
        rope((*("aaaa", "....") * 10, "aaaa")),
        rope(("....",) * 40, cords=CordChoice(kind="satin-2", colours=("#222222",))),
        rope(("......",) * 40, braid=kongoh(12)),
    ],
    ids=["mixed sizes", "accents", "missed", "gaps", "satin", "bare 12"],
)
def test_where_nobody_compared_the_formula_its_error_is_not_known(design: Design) -> None:
    found = size(design, SHELF)
    assert found.basis == "estimated"
    assert (found.length_error_mm, found.diameter_error_mm, found.take_up_error) == (None, None, None)
    assert any("is not known for this design" in note for note in found.notes)
    told = size(replace(design, swatch=Swatch(rows=40, length_mm=90.0)), SHELF)
    assert told.length_error_mm is not None
    assert not any("is not known for this design" in note for note in told.notes)


@pytest.mark.parametrize(("cords", "share"), [(12, 0.07), (16, 0.15)])
def test_of_tubes_only_the_rise_was_compared(cords: int, share: float) -> None:
    """By our own solver (docs/decisions.md, 17): rows come out 7 % and 15 % longer than the formula says."""
    found = size(rope(("a" * (cords // 2),) * 40, braid=kongoh(cords)), SHELF)
    assert found.length_mm is not None
    assert found.length_error_mm == pytest.approx(share * found.length_mm)
    assert (found.diameter_error_mm, found.take_up_error) == (None, None)


def test_much_twist_makes_an_estimate_less_sure() -> None:
    """physics.md 5: over 11 to 30 degrees h falls 6 % and the diameter grows 6 %."""
    found = size(rope(FULL, swatch=Swatch(rows=40, turn_rows=15.0)), SHELF)
    assert found.basis == "estimated"
    assert found.rise_mm is not None
    assert found.rise_error_mm == pytest.approx(0.06 * found.rise_mm)
    assert found.take_up_error is None
    assert found.drift_error_deg == pytest.approx(360 / 15**2 * 0.5)


def test_bare_rows_add_their_own_give_or_take() -> None:
    long_gap = size(rope((*FULL, *("....",) * 10, *FULL)), SHELF)
    plain, gap = size(rope(FULL), SHELF), 10 * 2 * 0.5 * 0.03
    assert plain.length_error_mm is not None
    assert long_gap.length_error_mm == pytest.approx(2 * plain.length_error_mm + gap)


def test_several_swatches_give_the_length_its_give_or_take() -> None:
    several = (Swatch(rows=40, length_mm=91.0), Swatch(rows=40, length_mm=93.0), Swatch(rows=9, bead="round-11/0"))
    found = size(replace(rope(FULL), swatches=several), SHELF)
    assert found.basis == "corrected by a swatch"
    assert found.length_mm == pytest.approx(72 * 2.3)
    # By hand: each reading sqrt(2)/40 and 2 % of 2.3; two of them; the piece has its own 2 %.
    reading, tension = 2**0.5 / 40, 0.02 * 2.3
    assert found.length_error_mm == pytest.approx(72 * ((reading**2 + tension**2) / 2 + tension**2) ** 0.5)
    assert any("2 swatches: length (on 2)" in note for note in found.notes)
    assert any("Swatch 3 does not count here: its bead is round-11/0" in note for note in found.notes)


def test_swatches_of_other_beads_change_no_figure() -> None:
    other = size(replace(rope(FULL), swatches=(Swatch(rows=9, length_mm=30.0, bead="round-11/0"),)), SHELF)
    assert replace(other, notes=()) == replace(size(rope(FULL), SHELF), notes=())


def test_one_swatch_among_several_that_is_twice_too_long_is_told() -> None:
    several = tuple(Swatch(rows=40, length_mm=mm) for mm in (92.0, 91.0, 184.0, 93.0))
    found = size(replace(rope(FULL), swatches=several), SHELF)
    assert found.rise_mm == pytest.approx(2.3)
    assert [sentence[:9] for sentence in found.warnings] == ["Swatch 3:"]


def test_35_to_40_beads_on_each_cord_are_a_bracelet() -> None:
    """Check 17 [DBM]; with 1 to 2 inches of findings and ends they fit the wrists of [DEB]."""
    for beads in (35, 40):
        found = size(rope(("aaaa",) * (2 * beads)), SHELF)
        assert found.length_mm is not None
        assert 6.25 * 25.4 <= found.length_mm <= 7.5 * 25.4


def test_the_range_of_the_twist_is_told() -> None:
    """physics.md 5: a disk gives one slot a repeat, photographs 35 to 50 mm a turn of 8/0."""
    found = size(rope(FULL), SHELF)
    assert found.turn_rows_range == (15.0, 32.0)
    assert any("15 to 32 rows (35 to 74 mm)" in note for note in found.notes)


def test_a_measured_twist_has_no_range() -> None:
    found = size(rope(FULL, swatch=Swatch(rows=40, turn_rows=20.0)), SHELF)
    assert found.turn_rows == pytest.approx(20.0)
    assert found.turn_rows_range is None
    assert found.basis == "estimated"


def test_the_other_hand_turns_the_other_way_and_measures_the_same() -> None:
    design = rope(FULL, swatch=Swatch(rows=40, turn_rows=20.0))
    one, other = size(design, SHELF), size(replace(design, braid=mirrored(design.braid)), SHELF)
    assert other.drift_deg == -one.drift_deg
    assert replace(other, drift_deg=one.drift_deg) == one


def test_a_plain_cord_braid() -> None:
    """physics.md 4: bare cord rises 1.97 d a repeat, is 4.7 to 4.8 d across, takes 1.53 to 1.60."""
    found = size(rope(("....",) * 50, cords=CordChoice(kind="satin-2", colours=("#222222",))), SHELF)
    assert found.basis == "estimated"
    assert found.length_mm == pytest.approx(50 * 1.97 * 2.0, rel=0.03)
    assert found.diameter_mm == pytest.approx(4.75 * 2.0, rel=0.011)
    assert found.take_up == pytest.approx(1.565, abs=0.035)
    assert found.weight_g is None  # satin has no Tex, and there are no beads
    assert any("satin is softer" in note for note in found.notes)


def test_bare_rows_at_the_ends_are_bare_braid() -> None:
    full, more = size(rope(FULL), SHELF), size(rope((*("....",) * 6, *FULL)), SHELF)
    assert full.length_mm is not None
    assert more.length_mm == pytest.approx(full.length_mm + 6 * 2 * 0.5)
    assert more.rise_mm == full.rise_mm


def test_a_missed_bead_dents_and_does_not_shorten() -> None:
    full, dented = size(rope(FULL), SHELF), size(rope((*FULL[:40], "aa.a", *FULL[41:])), SHELF)
    assert dented.length_mm == full.length_mm
    assert any("bare stitch" in note for note in dented.notes)


@pytest.mark.parametrize(
    ("design", "words"),
    [
        (rope(("a.a.",) * 20), "Half-bare"),
        (rope(("aaak",) * 20), "Stacks"),
        (rope(("aaaa",) * 20, braid=maru_yotsu()), "Only kongoh"),
        (rope(("a" * 12,) * 20, braid=kongoh(24)), "24"),
        (rope(("." * 12,) * 20, braid=kongoh(24)), "24"),
        (rope(("aaaa",) * 20, swatch=Swatch(rows=20, turn_rows=9.0)), "drift"),
    ],
)
def test_where_no_formula_holds_the_answer_is_not_predicted_yet(design: Design, words: str) -> None:
    found = size(design, SHELF)
    assert found.basis == "not predicted yet"
    assert (found.rise_mm, found.length_mm, found.diameter_mm, found.take_up) == (None, None, None, None)
    assert any(words in note for note in found.notes)
    assert any("swatch" in note for note in found.notes)


@pytest.mark.parametrize(
    "design",
    [
        rope(("a.a.",) * 20),
        rope(("aaak",) * 20),
        rope(("aaaa",) * 20, braid=maru_yotsu()),
        rope(("a" * 12,) * 20, braid=kongoh(24)),
    ],
)
def test_a_swatch_tells_what_no_formula_does(design: Design) -> None:
    found = size(replace(design, swatch=Swatch(rows=10, length_mm=30.0, diameter_mm=8.0)), SHELF)
    assert found.basis == "corrected by a swatch"
    assert found.length_mm == pytest.approx(60.0)
    assert found.diameter_mm == 8.0


def test_a_swatch_of_a_pattern_with_short_gaps_stands_for_the_gaps_too() -> None:
    design = rope((*("aaaa", "....") * 10, "aaaa"), swatch=Swatch(rows=10, length_mm=20.0))
    assert size(design, SHELF).length_mm == pytest.approx(21 * 2.0)


def test_rows_of_a_whole_round_are_twice_as_long() -> None:
    """The published 8-move round is two smallest repeats (trade-facts 1.1), so the same rope has half the rows."""
    half = kongoh(8)
    moves = tuple((take, put) for move in half.moves for take, put in [(move.take, move.put)])
    after = tuple(Move(take=turn(take, 1, 32), put=turn(put, 1, 32)) for take, put in moves)
    whole = replace(half, moves=(*half.moves, *after), shift=2)
    one, other = size(rope(("aaaa",) * 60), SHELF), size(rope(("aaaaaaaa",) * 30, braid=whole), SHELF)
    assert other.length_mm == pytest.approx(one.length_mm)
    assert other.diameter_mm == pytest.approx(one.diameter_mm)
    assert other.take_up == pytest.approx(one.take_up)
    assert other.turn_mm == pytest.approx(one.turn_mm)
    assert other.weight_g == pytest.approx(one.weight_g)
    assert other.warnings == ()


def test_a_cord_that_does_not_suit_a_hole_is_told() -> None:
    found = size(rope(FULL, cords=CordChoice(kind="tex-70", colours=("#222222",))), SHELF)
    assert any("hole" in warning for warning in found.warnings)


@pytest.mark.parametrize(("cords", "across"), [(12, 8.4), (16, 10.3)])
def test_wide_tubes_are_hollow_and_say_so(cords: int, across: float) -> None:
    """physics.md 4; [CORE1]."""
    found = size(rope(("a" * (cords // 2),) * 20, braid=kongoh(cords)), SHELF)
    assert found.diameter_mm == pytest.approx(across, rel=0.023)
    assert any("hollow" in note for note in found.notes)


def test_mixed_beads_are_reckoned_by_the_mean_bead() -> None:
    design = rope(("aaas",) * 40, beads={"a": "round-8/0", "s": "round-11/0"})
    mean = mean_bead(design, materials_of(design, SHELF))
    assert mean is not None
    assert mean.diameter_mm == pytest.approx(0.75 * 3.0 + 0.25 * 2.1)
    assert mean.length_mm == pytest.approx(0.75 * 2.1 + 0.25 * 1.45)
    big, small, mixed = (
        size(rope((row,) * 40, beads={"a": "round-8/0", "s": "round-11/0"}), SHELF) for row in ("aaaa", "ssss", "aaas")
    )
    assert big.length_mm is not None
    assert mixed.length_mm is not None
    assert small.length_mm is not None
    assert small.length_mm < mixed.length_mm < big.length_mm
    assert any("mixed" in note for note in mixed.notes)
    assert not any("mixed" in note for note in big.notes)


def test_accents_reach_farther_than_the_round_beads() -> None:
    found = size(rope(("aaad",) * 40), SHELF)
    assert found.diameter_mm is not None
    assert found.across_accents_mm is not None
    mean = 0.75 * 3.0 + 0.25 * 3.4
    assert found.across_accents_mm == pytest.approx(found.diameter_mm - mean + 2 * 3.6)


def test_a_swatch_out_of_the_ordinary_is_told_in_plain_words() -> None:
    found = size(rope(FULL, swatch=Swatch(rows=20, length_mm=92.0, diameter_mm=9.0)), SHELF)
    assert any("about twice" in warning for warning in found.warnings)
    assert any("beads an inch" in warning for warning in found.warnings)
    assert any("mm across" in warning for warning in found.warnings)
    assert all(warning.endswith(".") for warning in found.warnings)


def test_a_bead_and_a_cord_written_into_the_design_need_no_shelf() -> None:
    design = rope(FULL)
    inline = replace(
        design,
        cords=replace(design.cords, kind=SHELF.cord("tex-210")),
        tray=replace(
            design.tray,
            entries=tuple(
                replace(entry, bead=SHELF.bead(entry.bead_name)) if isinstance(entry, TrayBead) else entry
                for entry in design.tray.entries
            ),
        ),
    )
    assert size(inline, SHELF) == size(design, SHELF)
    assert isinstance(inline.tray.beads[0].bead, Bead)


def test_an_unknown_bead_is_refused_by_the_shelf() -> None:
    with pytest.raises(CatalogueError, match="pebble"):
        size(rope(("aaaa",), beads={"a": "pebble"}), SHELF)


class Oracle:
    """A twin of a later solver: it says what it was told to say."""

    def predict(self, design: Design, materials: Materials, drift_deg: float) -> Prediction:
        return Prediction(
            rise_mm=2.0,
            diameter_mm=7.0,
            drift_deg=drift_deg,
            take_up=1.4,
            bare_rise_mm=1.0,
            bare_take_up=1.5,
            basis="solved",
            notes=(f"{materials.cord.name}, {len(design.rows)} rows",),
        )

    def shape(self, design: Design, materials: Materials, prediction: Prediction, drift_deg: float) -> Geometry | None:
        assert prediction.drift_deg == drift_deg
        return estimated_geometry(design, materials, prediction)


def test_another_predictor_comes_in_by_the_same_seam() -> None:
    found = size(rope(FULL), SHELF, Oracle())
    assert (found.basis, found.length_mm, found.diameter_mm) == ("solved", 144.0, 7.0)
    measured = rope(FULL, swatch=Swatch(rows=10, length_mm=21.0))
    assert predict(measured, SHELF, Oracle()).rise_mm == pytest.approx(2.1)
    seen = shape(measured, SHELF, Oracle())
    assert seen is not None
    assert seen.length_mm == pytest.approx(72 * 2.1), "the shape has the measures that the swatch corrected"


@given(st.lists(st.sampled_from(["aaaa", "aada", "a.aa", "....", "a..a", "kkkk"]), min_size=1, max_size=40))
def test_every_row_is_counted_once(rows: list[str]) -> None:
    kinds = row_kinds(rope(tuple(rows)))
    assert kinds.beaded + kinds.part + kinds.stacked + kinds.bare == len(rows)
    assert kinds.missed == rows.count("a.aa")
    assert kinds.gaps <= kinds.bare == rows.count("....")


@given(st.integers(1, 200), st.integers(1, 200))
def test_longer_by_rows_is_longer_by_their_rise(one: int, other: int) -> None:
    short, long = size(rope(("aaaa",) * one), SHELF), size(rope(("aaaa",) * (one + other)), SHELF)
    assert short.length_mm is not None
    assert short.rise_mm is not None
    assert short.weight_g is not None
    assert long.weight_g is not None
    assert long.length_mm == pytest.approx(short.length_mm + other * short.rise_mm)
    assert long.weight_g > short.weight_g


def test_a_measured_swatch_is_not_asked_for_again() -> None:
    tube = rope(("aaaa",) * 10, braid=maru_yotsu())
    asked = size(tube, SHELF)
    told = size(replace(tube, swatch=Swatch(rows=10, length_mm=40.0)), SHELF)
    assert any("Braid a swatch" in note for note in asked.notes)
    assert not any("Braid a swatch" in note for note in told.notes)
