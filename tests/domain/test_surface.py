"""Where stitches lie and who their neighbours are, for any braid, against the words for one stitch."""

from math import cos, hypot, pi, radians, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.catalogue.shelf import standard
from braidwright.domain.braid import mirrored
from braidwright.domain.chart import stations
from braidwright.domain.design import Design
from braidwright.domain.motif import Course, from_front
from braidwright.domain.surface import neighbours_ahead, order_of, surface_of
from strategies import designs

COURSE = Course(rise_mm=2.3, drift_deg=11.25, radius_mm=3.6)


@given(design=designs(rows=(1, 6)), drift=st.floats(-40.0, 40.0))
def test_places_are_those_of_each_stitch(design: Design, drift: float) -> None:
    surface = surface_of(design, Course(rise_mm=2.0, drift_deg=drift, radius_mm=3.0))
    for row in range(len(design.rows)):
        for station in stations(design.braid):
            apart = surface.from_front_deg[row, station.stitch] - from_front(design, drift, row, station.stitch)
            assert (apart + 180.0) % 360.0 - 180.0 == pytest.approx(0.0, abs=1e-6)
            assert surface.along_mm[row, station.stitch] == pytest.approx(2.0 * (row + station.step))


@given(design=designs(rows=(1, 1)))
def test_cells_cover_the_rope_once(design: Design) -> None:
    """The stitches of a row together are as large as the surface of a row: its height times its girth."""
    cells = surface_of(design, COURSE).cell_mm
    assert cells.prod(axis=1).sum() == pytest.approx(COURSE.rise_mm * 2.0 * pi * COURSE.radius_mm)


@given(design=designs(rows=(1, 1)), backward=st.booleans())
def test_what_is_handed_on_goes_to_stitches_not_yet_done(design: Design, backward: bool) -> None:
    order = order_of(design.braid, backward=backward)
    assert sorted(order) == list(range(design.width))
    for stitch, ahead in enumerate(neighbours_ahead(design.braid, COURSE, backward=backward)):
        assert not ahead or sum(each.share for each in ahead) == pytest.approx(1.0)
        assert all(each.rows > 0 or order.index(each.stitch) > order.index(stitch) for each in ahead)


@pytest.mark.parametrize("name", ["kongoh-8", "kongoh-16", "kongoh-24"])
def test_kongoh_gumi_has_two_to_four_neighbours_ahead_and_all_touch(name: str) -> None:
    """Beads on a rope lie like bricks: six round each, three of them ahead, more or less. No source."""
    braid = standard().braid(name)
    course = Course(rise_mm=2.3, drift_deg=11.25, radius_mm=3.0 * braid.stitches_per_row / (2.0 * pi))
    where = stations(braid)
    for stitch, ahead in enumerate(neighbours_ahead(braid, course, backward=False)):
        assert 2 <= len(ahead) <= 4
        for each in ahead:
            up = each.rows + where[each.stitch].step - where[stitch].step
            turn = radians(
                360.0 / braid.stitches_per_row * (where[each.stitch].column - where[stitch].column) + 11.25 * up
            )
            flat = course.radius_mm * hypot(1.0 - cos(turn), sin(turn))
            assert hypot(up * course.rise_mm, flat) < 1.7 * 3.0


def test_the_other_hand_has_the_same_neighbours() -> None:
    braid = standard().braid("kongoh-16")
    there = Course(rise_mm=2.3, drift_deg=-11.25, radius_mm=3.6)
    assert neighbours_ahead(braid, COURSE, backward=True) == neighbours_ahead(mirrored(braid), there, backward=True)
    assert np.array_equal(order_of(braid, backward=True), order_of(mirrored(braid), backward=True))
