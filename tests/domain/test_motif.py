"""Motifs: patches along the front, each anchor on the stitch nearest the front line."""

from dataclasses import replace
from itertools import pairwise
from math import pi

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from braidwright.domain.chart import columns, stations, surface_angle
from braidwright.domain.design import Anchor, Design, Front, PlacedMotif
from braidwright.domain.errors import RequestError
from braidwright.domain.motif import Course, along_the_front, front_anchors, nearest_stitch, place

COURSE = Course(rise_mm=2.3, drift_deg=11.25, radius_mm=1.95)
DOT = PlacedMotif(name="dot", lines=("g",))


def long(design: Design, rows: int = 66) -> Design:
    return replace(design, rows=("aaaa",) * rows, motifs=())


def test_anchors_are_centred_and_spaced(two_kinds: Design) -> None:
    design = long(two_kinds)
    anchors = front_anchors(design, COURSE, 18.4)
    heights = [(at.row - 1 + stations(design.braid)[at.stitch - 1].step) * COURSE.rise_mm for at in anchors]
    gaps = [later - earlier for earlier, later in pairwise(heights)]
    assert len(anchors) == 9  # 149.5 mm between the first and the last row hold eight gaps of 18.4 mm
    # The nearest stitch lies at most a row or so from the line, so a gap is off by at most two.
    assert all(abs(gap - 18.4) <= 2 * COURSE.rise_mm for gap in gaps)
    assert abs((heights[0] + heights[-1]) / 2 - 65 * COURSE.rise_mm / 2) <= COURSE.rise_mm


@given(deg=st.floats(-180, 180), row=st.floats(3, 62), drift=st.floats(-25, 25))
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_nearest_stitch_is_nearest(two_kinds: Design, deg: float, row: float, drift: float) -> None:
    design = replace(long(two_kinds), front=Front(deg=deg))
    course = Course(rise_mm=2.3, drift_deg=drift, radius_mm=1.95)
    found = nearest_stitch(design, course, row)

    def distance(at: Anchor) -> float:
        # Brute force over the whole rope, with the angle worked out anew from the station.
        station = stations(design.braid)[at.stitch - 1]
        along = (at.row - 1 + station.step - row) * course.rise_mm
        angle = surface_angle(design.braid, at.stitch - 1, at.row - 1 - 32.5, drift) - deg
        return float(along**2 + (((angle + 180) % 360 - 180) * pi / 180 * course.radius_mm) ** 2)

    best = min(distance(Anchor(row=r, stitch=s)) for r in range(1, 67) for s in range(1, 5))
    assert distance(found) == pytest.approx(best, abs=1e-6)


def test_the_front_line_crosses_a_lane_every_few_rows(two_kinds: Design) -> None:
    # One slot of drift a row turns a column of four by a quarter in eight rows (360 / 4 / 11.25).
    anchors = [nearest_stitch(long(two_kinds), COURSE, float(row)) for row in range(4, 60)]
    lanes = [stations(two_kinds.braid)[at.stitch - 1].column for at in anchors]
    crossings = sum(here != there for here, there in pairwise(lanes))
    assert crossings == pytest.approx(55 * 11.25 / 90, abs=2)


def test_a_patch_lies_round_its_anchor(two_kinds: Design) -> None:
    design = long(two_kinds, 9)
    placed = place(design, PlacedMotif(name="bud", lines=(" g ", "gag", " g "), anchors=(Anchor(row=5, stitch=1),)))
    every = [column.name for column in columns(design.braid)]
    stitch = {station.name: station.stitch for station in stations(design.braid)}
    assert every == ["N", "E", "S", "W"]
    cells = {(row, name): placed.rows[row - 1][stitch[name]] for row in (4, 5, 6) for name in every}
    assert {cell for cell, key in cells.items() if key == "g"} == {(4, "N"), (5, "W"), (5, "E"), (6, "N")}


def test_what_falls_off_an_end_is_left_out(two_kinds: Design) -> None:
    placed = place(
        long(two_kinds, 3), PlacedMotif(name="bar", lines=("g", "g", "g"), anchors=(Anchor(row=1, stitch=1),))
    )
    assert [text[0] for text in placed.rows] == ["g", "g", "a"]


def test_placing_again_under_one_name_keeps_one_record(two_kinds: Design) -> None:
    once = along_the_front(long(two_kinds), DOT, COURSE, 20.0)
    twice = along_the_front(once, DOT, COURSE, 20.0)
    assert twice == once


@pytest.mark.parametrize(
    ("motif", "spacing", "count", "told"),
    [
        (DOT, 0.0, None, "Spacing"),
        (DOT, float("nan"), None, "Spacing"),
        (DOT, 5e-324, None, "Spacing"),
        (DOT, 10.0, 99, "do not fit"),
        (replace(DOT, lines=()), 10.0, None, "empty"),
        (replace(DOT, lines=("   ",)), 10.0, None, "empty"),
        (replace(DOT, lines=("ggggg",)), 10.0, None, "wide"),
        (replace(DOT, lines=("z",)), 10.0, None, "'z'"),
    ],
)
def test_refusals(two_kinds: Design, motif: PlacedMotif, spacing: float, count: int | None, told: str) -> None:
    with pytest.raises(RequestError, match=told):
        along_the_front(long(two_kinds), motif, COURSE, spacing, count)


def test_a_course_needs_a_rise() -> None:
    with pytest.raises(RequestError, match="swatch"):
        Course(rise_mm=0.0, drift_deg=0.0, radius_mm=1.0)
