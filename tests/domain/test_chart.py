"""Stations, columns and half-steps, against the compass and the pairs of kongoh gumi; chart and rows as inverses."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.catalogue.shelf import standard
from braidwright.domain.braid import Braid, Hand
from braidwright.domain.chart import (
    WINDS_4,
    WINDS_8,
    WINDS_16,
    column_texts,
    columns,
    rows_from_columns,
    station_names,
    stations,
    step_levels,
    surface_angle,
)
from braidwright.domain.design import Design
from known_braids import MARU_YOTSU, braid, kongoh, published_kongoh
from strategies import braids, designs


@given(designs())
def test_the_chart_and_the_rows_are_inverses(design: Design) -> None:
    texts = column_texts(design.braid, design.rows)
    assert sum(map(len, texts)) == len(design.rows) * design.width
    assert rows_from_columns(design.braid, texts) == design.rows


@given(braids())
def test_every_stitch_lies_in_one_column_at_the_side_its_cord_came_from(one: Braid) -> None:
    """product.md: a stitch lies at the side the cord came from."""
    dealt = [stitch for column in columns(one) for stitch in column.stitches]
    assert sorted(dealt) == list(range(one.stitches_per_row))
    for column in columns(one):
        assert {one.stitch_moves[stitch].take for stitch in column.stitches} == {column.slot}


@given(braids())
def test_stations_have_different_names_and_columns_run_clockwise(one: Braid) -> None:
    every = columns(one)
    assert len({column.name for column in every}) == len(every)
    turned = [(column.angle_deg - every[0].angle_deg) % 360 for column in every]
    assert turned == sorted(turned)
    assert all(0 <= column.angle_deg < 360 for column in every)


@given(braids())
def test_steps_rise_through_the_row_and_stay_below_the_next(one: Braid) -> None:
    steps = [station.step for station in stations(one)]
    assert steps[0] == 0
    assert steps == sorted(steps)
    assert all(0 <= step < 1 for step in steps)
    assert all(b - a in (0, 1) for a, b in pairwise(step_levels(one)))


@pytest.mark.parametrize("hand", ["S", "Z"])
def test_kongoh_of_eight_has_the_four_winds_and_two_half_steps(hand: Hand) -> None:
    """Trade-facts, sections 1.1 and 7.2: north and south are laid together, then east and west."""
    one = kongoh(8, 8, hand, first=32)
    assert [column.name for column in columns(one)] == ["N", "E", "S", "W"]
    by_name = {column.name: column.steps for column in columns(one)}
    assert by_name["N"] == by_name["S"] == (0.0,)
    assert by_name["E"] == by_name["W"] == (0.5,)


def test_a_published_round_has_two_cords_for_each_wind() -> None:
    """Trade-facts, section 1.1: one round moves both cords of every pair."""
    names = [column.name for column in columns(published_kongoh(8, "Z"))]
    assert len(names) == 8
    assert len(set(names)) == 8


@pytest.mark.parametrize("name", ["kongoh-12", "kongoh-16", "kongoh-24"])
def test_larger_kongoh_has_a_column_for_every_pair_of_cords_and_one_step_for_every_pair_of_moves(name: str) -> None:
    one = standard().braid(name)
    assert len(columns(one)) == one.cord_count // 2
    assert step_levels(one) == tuple(stitch // 2 for stitch in range(one.cord_count // 2))


def test_exchanges_of_maru_yotsu_share_no_step_because_each_needs_the_slot_of_the_other() -> None:
    assert step_levels(MARU_YOTSU) == (0, 1, 2, 3)


def test_moves_whose_chords_cross_share_no_step() -> None:
    crossing = braid(32, (1, 9, 17, 25), [(1, 18), (9, 26), (17, 2), (25, 10), (2, 1), (10, 9), (18, 17), (26, 25)], 0)
    assert step_levels(crossing)[:2] == (0, 1)


@given(st.sets(st.integers(1, 64), min_size=1, max_size=40))
def test_names_are_as_coarse_as_keeps_them_apart(slots: set[int]) -> None:
    order = tuple(sorted(slots))
    names = station_names(tuple((slot - 0.5) * 360 / 64 for slot in order), order)
    assert len(set(names)) == len(names)
    assert {name.split()[0] for name in names} <= {*WINDS_4, *WINDS_8, *WINDS_16}


def test_winds_by_hand() -> None:
    """The points of the compass: north is 0 degrees, north-east 45, east-north-east 67.5. Common knowledge."""
    assert station_names((354.0, 84.0, 174.0, 264.0), (1, 2, 3, 4)) == ("N", "E", "S", "W")
    assert station_names((0.0, 45.0), (1, 2)) == ("N", "NE")
    assert station_names((45.0, 67.5, 90.0), (1, 2, 3)) == ("NE", "ENE", "E")
    assert station_names((0.0, 5.0), (32, 1)) == ("N 32", "N 1")


@given(braids(), st.floats(-40, 40), st.integers(0, 500))
def test_a_column_turns_by_its_drift_every_row(one: Braid, drift: float, row: int) -> None:
    """physics.md, section 6: a column turns steadily with the height."""
    here, above = (surface_angle(one, 0, at, drift) for at in (row, row + 1))
    assert (above - here - drift + 180) % 360 == pytest.approx(180, abs=1e-6)
    assert 0 <= here < 360


def test_columns_share_the_rope_evenly_and_half_a_step_up_has_turned_half_as_far() -> None:
    """physics.md, section 6: angle (2 pi + 2 delta) c / P for P columns, so 90 + delta / 2 from column 0 to 1."""
    one = kongoh(8, 8, "S", first=32)
    at = {station.name: surface_angle(one, station.stitch, 0, 16.0) for station in stations(one)}
    assert (at["E"] - at["N"]) % 360 == pytest.approx(98.0)
    assert (at["S"] - at["N"]) % 360 == pytest.approx(180.0)
