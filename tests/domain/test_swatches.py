"""Several swatches: which count, what they tell together, how sure that is, and a wrong one among them."""

from dataclasses import replace
from math import hypot, isfinite, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.domain.design import CordChoice, Design
from braidwright.domain.mirror import mirror_everything, same_picture
from braidwright.domain.prediction import Prediction, Spread
from braidwright.domain.resize import resize
from braidwright.domain.swatch import Swatch
from braidwright.domain.swatches import Counted, corrected, counted, looked_at, measured_drift
from rope import rope

EXPECTED = Prediction(
    rise_mm=2.3,
    diameter_mm=6.9,
    drift_deg=11.25,
    take_up=1.5,
    bare_rise_mm=1.0,
    bare_take_up=1.565,
    basis="estimated",
    spread=Spread(rise_mm=0.07, diameter_mm=0.16, take_up=0.09, bare_rise_mm=0.03),
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


def many(*swatches: Swatch) -> tuple[Counted, ...]:
    return tuple(Counted(label=f"Swatch {number}", swatch=swatch) for number, swatch in enumerate(swatches, 1))


def test_what_was_measured_takes_the_place_of_what_was_predicted() -> None:
    told = corrected(
        EXPECTED, many(Swatch(rows=20, length_mm=44.0, diameter_mm=7.2, turn_rows=18.0, cord_used_mm=70.4))
    )
    assert told.basis == "corrected by a swatch"
    assert told.rise_mm == pytest.approx(2.2)
    assert told.diameter_mm == 7.2
    assert told.drift_deg == pytest.approx(20.0)
    assert told.take_up == pytest.approx(1.6)
    assert told.bare_rise_mm == EXPECTED.bare_rise_mm
    assert told.notes[0] == "kept"


def test_what_was_not_measured_stays_predicted_and_is_named() -> None:
    told = corrected(EXPECTED, many(Swatch(rows=20, length_mm=44.0)))
    assert (told.diameter_mm, told.drift_deg, told.take_up) == (6.9, 11.25, 1.5)
    assert "still predicted: diameter, twist, cord used" in told.notes[1]


def test_measuring_the_twist_alone_leaves_the_size_estimated() -> None:
    told = corrected(EXPECTED, many(Swatch(rows=40, turn_rows=20.0)))
    assert told.basis == "estimated"
    assert told.drift_deg == pytest.approx(18.0)


def test_the_twist_keeps_its_hand() -> None:
    assert measured_drift(many(Swatch(rows=40, turn_rows=20.0)), -11.25) == pytest.approx(-18.0)
    assert measured_drift(many(Swatch(rows=40)), -11.25) == -11.25
    assert measured_drift((), 11.25) == 11.25


def test_a_diameter_alone_does_not_make_an_unknown_length_known() -> None:
    told = corrected(SILENT, many(Swatch(rows=20, diameter_mm=7.0)))
    assert told.basis == "not predicted yet"
    assert told.diameter_mm == 7.0
    assert any("Neither measured nor predicted: length" in note for note in told.notes)


def test_a_swatch_tells_what_no_formula_does() -> None:
    told = corrected(SILENT, many(Swatch(rows=10, length_mm=30.0, cord_used_mm=48.0)))
    assert told.basis == "corrected by a swatch"
    assert told.rise_mm == 3.0
    assert told.take_up == pytest.approx(1.6)


def test_cord_used_goes_with_the_predicted_rise_when_the_length_was_not_measured() -> None:
    assert corrected(EXPECTED, many(Swatch(rows=20, cord_used_mm=73.6))).take_up == pytest.approx(1.6)


def test_the_leads_of_a_plain_braid_are_the_same_braid() -> None:
    told = corrected(EXPECTED, many(Swatch(rows=20, length_mm=44.0, cord_used_mm=66.0)), plain=True)
    assert told.bare_rise_mm == told.rise_mm == pytest.approx(2.2)
    assert told.bare_take_up == told.take_up == pytest.approx(1.5)


def test_the_stated_errors_by_hand() -> None:
    # Worked by hand from the model of the module (common practice, no source): 40 rows, 92 mm, 138 mm of cord.
    told = corrected(
        EXPECTED, many(Swatch(rows=40, length_mm=92.0, diameter_mm=7.0, turn_rows=30.0, cord_used_mm=138.0))
    )
    reading, tension = sqrt(2) / 40, 0.02 * 2.3
    assert told.spread.rise_mm == pytest.approx(sqrt(reading**2 + 2 * tension**2))
    assert told.spread.diameter_mm == pytest.approx(0.3)
    assert told.spread.drift_deg == pytest.approx((360 / 29.5 - 360 / 30.5) / 2, rel=1e-3)
    assert told.spread.take_up == pytest.approx(1.5 * hypot(10 / 138, sqrt(2) / 92))
    assert told.spread.bare_rise_mm == 0.03


def test_what_was_not_measured_keeps_its_own_give_or_take() -> None:
    told = corrected(EXPECTED, many(Swatch(rows=40, length_mm=92.0)))
    assert (told.spread.diameter_mm, told.spread.take_up, told.spread.drift_deg) == (0.16, 0.09, None)
    cord = corrected(EXPECTED, many(Swatch(rows=40, cord_used_mm=138.0)))
    assert cord.take_up == pytest.approx(1.5)
    assert cord.spread.take_up == pytest.approx(1.5 * hypot(10 / 138, 0.07 / 2.3))
    unsure = replace(EXPECTED, spread=Spread())
    assert corrected(unsure, many(Swatch(rows=40, cord_used_mm=138.0))).spread.take_up is None


def test_cord_left_over_is_another_way_of_saying_the_cord_used() -> None:
    left = corrected(EXPECTED, many(Swatch(rows=20, length_mm=44.0, cord_cut_mm=200.0, cord_left_mm=129.6)))
    assert left == corrected(EXPECTED, many(Swatch(rows=20, length_mm=44.0, cord_used_mm=70.4)))


def test_each_measure_rests_on_the_swatches_that_have_it() -> None:
    told = corrected(
        EXPECTED,
        many(
            Swatch(rows=20, length_mm=46.0, diameter_mm=6.8),
            Swatch(rows=20, length_mm=44.0),
            Swatch(rows=20, diameter_mm=7.2, turn_rows=30.0),
        ),
    )
    assert told.rise_mm == pytest.approx(2.25)
    assert told.diameter_mm == pytest.approx(7.0)
    assert told.drift_deg == pytest.approx(12.0)
    assert "3 swatches: length (on 2), diameter (on 2), twist (on 1); still predicted: cord used" in told.notes[1]


def test_more_rows_weigh_more() -> None:
    told = corrected(EXPECTED, many(Swatch(rows=5, length_mm=10.0), Swatch(rows=100, length_mm=240.0)))
    assert told.rise_mm is not None
    assert 2.36 < told.rise_mm < 2.4


MEASURED = st.builds(
    Swatch,
    rows=st.integers(10, 100),
    length_mm=st.floats(100, 300),
    diameter_mm=st.floats(5, 9),
    turn_rows=st.floats(11, 40),
    cord_used_mm=st.floats(300, 600),
)


@given(MEASURED, st.integers(2, 6))
def test_equal_swatches_give_that_swatch_and_a_smaller_error(swatch: Swatch, count: int) -> None:
    one, several = (corrected(EXPECTED, many(*[swatch] * times)) for times in (1, count))
    assert (several.rise_mm, several.diameter_mm, several.drift_deg, several.take_up) == (
        one.rise_mm,
        one.diameter_mm,
        one.drift_deg,
        one.take_up,
    )
    for name in ("rise_mm", "diameter_mm", "drift_deg", "take_up"):
        assert 0.0 < getattr(several.spread, name) < getattr(one.spread, name)
    assert several.spread.rise_mm is not None
    assert swatch.rise_mm is not None
    assert several.spread.rise_mm > 0.02 * swatch.rise_mm  # the next piece has its own tension


@given(st.lists(MEASURED, min_size=2, max_size=6), st.randoms(use_true_random=False))
def test_the_order_does_not_matter(swatches: list[Swatch], chance: object) -> None:
    mixed = list(swatches)
    chance.shuffle(mixed)  # type: ignore[attr-defined]
    one, other = corrected(EXPECTED, many(*swatches)), corrected(EXPECTED, many(*mixed))
    assert replace(one, notes=()) == replace(other, notes=())


@given(st.integers(0, 3), st.lists(st.floats(0.97, 1.03), min_size=4, max_size=4))
def test_one_twice_too_long_among_four_is_named_and_spoils_nothing(wrong: int, varied: list[float]) -> None:
    rows = 40
    lengths = [rows * 2.3 * factor for factor in varied]
    lengths[wrong] *= 2
    swatches = many(*(Swatch(rows=rows, length_mm=length, cord_used_mm=200.0) for length in lengths))
    told = corrected(EXPECTED, swatches)
    others = [length / rows for number, length in enumerate(lengths) if number != wrong]
    assert told.rise_mm == pytest.approx(sum(others) / 3)
    assert told.take_up == pytest.approx(sum(200.0 / rows / rise for rise in others) / 3, rel=0.01)
    said = [sentence for sentence in looked_at(swatches, EXPECTED) if "left out" in sentence]
    assert len(said) == 1
    assert said[0].startswith(f"Swatch {wrong + 1}: the length per row")
    assert "about twice" in said[0]
    assert [sentence for sentence in looked_at(swatches, EXPECTED) if f"Swatch {wrong + 1}" in sentence] == said


def test_two_that_disagree_are_both_named() -> None:
    swatches = many(Swatch(rows=40, length_mm=92.0), Swatch(rows=40, length_mm=184.0))
    found = [sentence for sentence in looked_at(swatches, SILENT) if "disagree" in sentence]
    assert len(found) == 1
    assert "Swatch 1 and swatch 2" in found[0]
    assert "2.3 and 4.6 mm" in found[0]
    assert "about twice" in found[0]
    spread = corrected(SILENT, swatches).spread.rise_mm
    assert spread is not None
    assert spread > 1.0


def test_swatches_that_differ_more_than_reading_explains_say_so() -> None:
    across = (6.0, 6.0, 7.0, 8.0, 8.0)
    swatches = many(*(Swatch(rows=20, diameter_mm=mm) for mm in across))
    told = corrected(EXPECTED, swatches)
    assert told.diameter_mm == pytest.approx(7.0)
    # Birge: chi squared 4 / 0.09 over 4 degrees of freedom, so the error 0.3 / sqrt 5 grows 3.333 times.
    assert told.spread.diameter_mm == pytest.approx(0.3 / sqrt(5) * sqrt(4 / 0.09 / 4))
    assert any("differ in the diameter 3.3 times" in sentence for sentence in looked_at(swatches, EXPECTED))


def test_a_good_set_passes() -> None:
    good = many(*(Swatch(rows=40, length_mm=mm, diameter_mm=7.0, cord_used_mm=140.0) for mm in (90.0, 92.0, 94.0)))
    assert looked_at(good, EXPECTED) == ()


def test_a_slip_is_told_with_the_number_of_its_swatch() -> None:
    swatches = many(Swatch(rows=40, length_mm=92.0), Swatch(rows=40, diameter_mm=0.69))
    (sentence,) = looked_at(swatches, EXPECTED)
    assert sentence.startswith("Swatch 2: the diameter is 0.69 mm")
    assert "centimetres" in sentence


FULL = ("aaaa",) * 40


def with_swatches(*swatches: Swatch, own: Swatch | None = None) -> Design:
    return replace(rope(FULL, swatch=own), braid_name="kongoh-8", swatches=swatches)


def test_only_swatches_of_this_braid_cord_and_bead_count() -> None:
    design = with_swatches(
        Swatch(rows=10),
        Swatch(rows=11, braid="kongoh-8", cord="tex-210", bead="round-8/0"),
        Swatch(rows=12, braid="kongoh-12"),
        Swatch(rows=13, cord="satin-2"),
        Swatch(rows=14, bead="round-11/0"),
        own=Swatch(rows=9),
    )
    found, aside = counted(design)
    assert [(each.label, each.swatch.rows) for each in found] == [
        ("The single swatch", 9),
        ("Swatch 1", 10),
        ("Swatch 2", 11),
    ]
    assert [sentence[:8] for sentence in aside] == ["Swatch 3", "Swatch 4", "Swatch 5"]
    assert "its bead is round-11/0, and this design has round-8/0" in aside[2]


def test_the_bead_of_a_design_is_the_one_it_holds_most_of() -> None:
    beads = {"a": "round-8/0", "b": "round-11/0"}
    swatches = (Swatch(rows=10, bead="round-11/0"),)
    assert len(counted(replace(rope(("abbb",), beads=beads), swatches=swatches))[0]) == 1
    assert counted(replace(rope(("aaab",), beads=beads), swatches=swatches))[0] == ()
    found, (sentence,) = counted(replace(rope(("....",), beads=beads), swatches=swatches))
    assert found == ()
    assert "this design has none" in sentence


def test_a_lone_swatch_has_no_number() -> None:
    ((only,), aside) = counted(rope(FULL, swatch=Swatch(rows=9)))
    assert (only.label, aside) == ("Swatch", ())


def test_the_cord_of_ones_own_has_a_name_too() -> None:
    cords = CordChoice(kind="tex-70", colours=("#222222",))
    design = replace(rope(FULL, cords=cords), swatches=(Swatch(rows=9, cord="tex-70"),))
    assert len(counted(design)[0]) == 1


def test_mirroring_and_resizing_keep_the_swatches() -> None:
    design = with_swatches(Swatch(rows=9, bead="round-8/0"), own=Swatch(rows=20, length_mm=46.0))
    for other in (mirror_everything(design), same_picture(design, 11.25), resize(design, 50)):
        assert (other.swatch, other.swatches) == (design.swatch, design.swatches)
        assert len(counted(other)[0]) == 2


def test_the_cord_of_a_swatch_with_a_wrong_length_does_not_count_either() -> None:
    lengths = (92.0, 91.0, 184.0, 93.0)
    swatches = many(*(Swatch(rows=40, length_mm=mm) for mm in lengths))
    wrong = replace(swatches[2], swatch=replace(swatches[2].swatch, cord_used_mm=276.0))
    told = corrected(EXPECTED, (*swatches[:2], wrong, swatches[3]))
    assert told.take_up == EXPECTED.take_up
    assert "still predicted: diameter, twist, cord used" in told.notes[1]


ANY = st.builds(
    Swatch,
    rows=st.integers(1, 100_000),
    length_mm=st.none() | st.floats(0.0011, 1000),
    diameter_mm=st.none() | st.floats(0.0011, 200),
    turn_rows=st.none() | st.floats(2.0, 100_000, exclude_min=True),
    cord_used_mm=st.none() | st.floats(1000, 100_000),
)


@given(st.lists(ANY, max_size=6), st.sampled_from([EXPECTED, SILENT]))
def test_whatever_was_measured_every_figure_is_finite_and_its_error_not_negative(
    swatches: list[Swatch], before: Prediction
) -> None:
    told = corrected(before, many(*swatches))
    for name in ("rise_mm", "diameter_mm", "drift_deg", "take_up"):
        value, error = getattr(told, name), getattr(told.spread, name)
        assert value is None or isfinite(value)
        assert error is None or (isfinite(error) and error > 0.0)
    assert all(sentence.endswith(".") for sentence in looked_at(many(*swatches), before, 2.1))
