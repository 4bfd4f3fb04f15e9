"""The estimated shape of a rope, against chart, strings and prediction.

Where a stitch lies: physics.md, section 6 (angle, radius, height), spelt out here again from the numbers of the chart.
"""

from dataclasses import replace

import numpy as np
import pytest

from braidwright.app.shapes import BEAD_LEANS, estimated_geometry
from braidwright.app.sizes import materials_of, predict
from braidwright.domain.chart import stations, surface_angle
from braidwright.domain.design import Design
from braidwright.domain.geometry import Geometry
from braidwright.domain.mirror import mirror_everything
from braidwright.domain.prediction import Prediction
from braidwright.domain.strings import strings_of
from braidwright.physics.round_braid import RoundBraid, settle
from braidwright.physics.round_ways import round_ways
from braidwright.physics.solids import BeadSolid
from rope import SHELF, kongoh, rope

PREDICTION = Prediction(
    rise_mm=2.3,
    diameter_mm=6.88,
    drift_deg=11.25,
    take_up=1.5,
    bare_rise_mm=1.0,
    bare_take_up=1.6,
    basis="estimated",
)
MIXED = ("aaaa", "adka", "....", "a.ak", "kaaa", "bcaa")
KINDS = {"a": "round-8/0", "d": "teardrop-3.4", "b": "round-6/0", "c": "round-15/0"}


def shape(design: Design, prediction: Prediction = PREDICTION) -> Geometry:
    found = estimated_geometry(design, materials_of(design, SHELF), prediction)
    assert found is not None
    return found


def mixed() -> Design:
    return rope(MIXED * 3, beads=KINDS)


@pytest.mark.parametrize("silent", [replace(PREDICTION, rise_mm=None), replace(PREDICTION, diameter_mm=None)])
def test_nothing_is_told_before_it_is_predicted(silent: Prediction) -> None:
    design = mixed()
    assert estimated_geometry(design, materials_of(design, SHELF), silent) is None


def test_every_bead_of_every_string_is_there_in_order_on_its_cord() -> None:
    design = mixed()
    found = shape(design)
    for string in strings_of(design):
        own = np.flatnonzero(found.bead_cords == string.cord)
        assert tuple(found.keys[n] for n in own) == string.beads(design.tray)


def test_every_bead_belongs_to_the_drop_of_its_stitch() -> None:
    design = mixed()
    found = shape(design)
    told = [(key, *map(int, at)) for key, at in zip(found.keys, found.stitches, strict=True)]
    wanted = [
        (bead, row, stitch, place)
        for row, text in enumerate(design.rows)
        for stitch, key in enumerate(text)
        for place, bead in enumerate(design.tray.beads_of(key))
    ]
    assert told == wanted


def test_beads_lie_where_chart_and_prediction_say() -> None:
    design = rope(("aaaa",) * 9)
    found = shape(design)
    for (row, stitch, _), centre, out in zip(found.stitches, found.centres, found.outward, strict=True):
        angle = np.radians(surface_angle(design.braid, int(stitch), float(row) - 4.0, 11.25))
        step = stations(design.braid)[int(stitch)].step
        radius = (6.88 - 3.0) / 2.0
        wanted = (radius * np.sin(angle), radius * np.cos(angle), 2.3 * (row + 0.5 + step))
        assert centre == pytest.approx(wanted)
        assert out == pytest.approx((np.sin(angle), np.cos(angle), 0.0))
    assert found.length_mm == pytest.approx(9 * 2.3)


def test_wholly_bare_rows_are_lower_and_bigger_round_beads_sit_farther_out() -> None:
    found = shape(mixed())
    assert found.length_mm == pytest.approx(3 * (5 * 2.3 + 1.0))
    away = {key: float(np.hypot(*centre[:2])) for key, centre in zip(found.keys, found.centres, strict=True)}
    assert away["a"] == pytest.approx(1.94)
    assert away["b"] == pytest.approx(1.94 + 0.5)
    assert away["c"] == pytest.approx(1.94 - 0.75)
    assert away["d"] == pytest.approx(1.94), "what stands out sits with the others and reaches out"


def test_holes_and_outward_directions_are_unit_and_square() -> None:
    found = shape(mixed())
    assert np.linalg.norm(found.holes, axis=1) == pytest.approx(1.0)
    assert np.linalg.norm(found.outward, axis=1) == pytest.approx(1.0)
    assert np.einsum("ij,ij->i", found.holes, found.outward) == pytest.approx(0.0, abs=1e-12)
    assert found.holes[:, 2] == pytest.approx(np.cos(np.radians(BEAD_LEANS[1][0])))


def test_the_beads_of_a_stack_touch_along_their_cord_and_the_first_strung_lies_first() -> None:
    found = shape(rope(("kkkk",) * 4))
    centres = found.centres.reshape(-1, 3, 3)
    for first, second in ((0, 1), (1, 2)):
        step = centres[:, second] - centres[:, first]
        assert np.linalg.norm(step, axis=1) == pytest.approx(2.1)
        assert np.einsum("ij,ij->i", step, found.holes.reshape(-1, 3, 3)[:, 0]) == pytest.approx(2.1)


@pytest.mark.parametrize("cords", [8, 12, 16])
def test_every_cord_runs_through_its_beads_and_through_both_leads(cords: int) -> None:
    design = replace(rope(("aaaa" + "ka" * (cords // 4 - 2),) * 6, braid=kongoh(cords)), lead_in_mm=12.0)
    found = shape(design)
    assert len(found.cords) == cords
    for cord, curve in enumerate(found.cords):
        assert curve[0][2] == pytest.approx(-12.0)
        assert curve[-1][2] == pytest.approx(found.length_mm + 15.0)
        for n in np.flatnonzero(found.bead_cords == cord):
            assert distance(found.centres[n], curve) < 1e-9


def test_cords_cross_the_inside_without_running_into_each_other() -> None:
    """Opposite moves of kongoh gumi pass each other on two sides of the axis, trade-facts 1.1."""
    found = shape(rope(("aaaa",) * 12))
    for one in range(8):
        for two in range(one):
            inside = [c[(c[:, 2] > 5.0) & (c[:, 2] < 22.0)] for c in (found.cords[one], found.cords[two])]
            apart = np.linalg.norm(inside[0][:, None] - inside[1][None], axis=-1).min()
            assert apart > 0.5 * found.cord_mm


@pytest.mark.parametrize(("cords", "take_up"), [(8, 1.49), (12, 1.77), (16, 2.15)])
def test_as_much_cord_lies_in_the_rope_as_the_solver_found(cords: int, take_up: float) -> None:
    """Take-up of 8/0 beads on 8, 12 and 16 cords: physics.md, section 4; the closed form is within 6 % of it."""
    design = rope(("a" * (cords // 2),) * 40, braid=kongoh(cords))
    found = shape(design, predict(design, SHELF))
    lengths = []
    for curve in found.cords:
        part = curve[(curve[:, 2] > 0.2 * found.length_mm) & (curve[:, 2] < 0.8 * found.length_mm)]
        length = np.linalg.norm(np.diff(part, axis=0), axis=1).sum()
        lengths.append(length / (part[-1, 2] - part[0, 2]))
    assert np.mean(lengths) == pytest.approx(take_up, rel=0.06)


def test_the_other_hand_is_the_mirror_image() -> None:
    design = mixed()
    here = shape(design)
    there = shape(mirror_everything(design), replace(PREDICTION, drift_deg=-11.25))
    flip = np.array((-1.0, 1.0, 1.0))
    assert there.keys == here.keys
    assert np.array_equal(there.bead_cords, here.bead_cords)
    for name in ("centres", "holes", "outward"):
        assert getattr(there, name) == pytest.approx(getattr(here, name) * flip)
    for one, two in zip(here.cords, there.cords, strict=True):
        assert two == pytest.approx(one * flip)


def test_a_design_of_the_quick_formula_has_a_shape_that_says_what_it_rests_on() -> None:
    design = rope(("aaaa",) * 30)
    prediction = predict(design, SHELF)
    found = shape(design, prediction)
    assert found.basis == "estimated"
    assert found.cord_mm == 0.5
    assert found.length_mm == pytest.approx(30 * (prediction.rise_mm or 0.0))


def test_a_plain_rope_has_cords_and_no_beads() -> None:
    found = shape(rope(("....",) * 10))
    assert found.keys == ()
    assert found.centres.shape == (0, 3)
    assert all(np.hypot(curve[:, 0], curve[:, 1]).max() <= 6.88 / 2.0 for curve in found.cords)


def distance(point: np.ndarray, curve: np.ndarray) -> float:
    """From a point to a polyline."""
    start, along = curve[:-1], np.diff(curve, axis=0)
    share = np.clip(np.einsum("ij,ij->i", point - start, along) / np.einsum("ij,ij->i", along, along), 0.0, 1.0)
    return float(np.linalg.norm(start + share[:, None] * along - point, axis=1).min())


def test_every_bead_tells_how_far_it_reaches() -> None:
    found = shape(mixed())
    for key, centre, reach in zip(found.keys, found.centres, found.reaches, strict=True):
        bead = SHELF.bead(KINDS[key])
        # the beads of a stack lie on a straight line, so its ends are a little farther out than its middle
        assert reach == pytest.approx(np.hypot(*centre[:2]) + bead.reach_mm, abs=1e-9)


def test_heights_are_those_of_the_rows() -> None:
    found = shape(mixed())
    wanted = [1.0 if set(text) == {"."} else 2.3 for text in mixed().rows]
    assert np.diff(found.heights) == pytest.approx(wanted)
    assert found.length_mm == pytest.approx(sum(wanted))


@pytest.mark.parametrize("cords", [8, 12, 16])
@pytest.mark.parametrize("is_other_hand", [False, True])
def test_holes_lean_as_the_solved_ones_do(cords: int, is_other_hand: bool) -> None:
    """Within 8 degrees of the solved shape of 8/0 beads on a disk held still, with the same sign."""
    design = rope(("a" * (cords // 2),) * 3, braid=kongoh(cords))
    design = mirror_everything(design) if is_other_hand else design
    found = shape(design, replace(PREDICTION, drift_deg=-11.25 if is_other_hand else 11.25))
    solved = settle(
        RoundBraid(columns=cords // 2, cord_mm=0.5, bead=BeadSolid(diameter_mm=3.0, length_mm=2.1), drift_deg=11.25)
    )
    way = round_ways(solved, design.braid, beaded=True).stitches[0]
    hole = (way[1] - way[0]) / np.linalg.norm(way[1] - way[0])
    assert leaning(found.centres[0], found.holes[0]) == pytest.approx(leaning(way[0], hole), abs=8.0)


def leaning(at: np.ndarray, hole: np.ndarray) -> float:
    """Degrees by which a hole leans clockwise, as seen from above, on its way up."""
    out = at[:2] / np.hypot(*at[:2])
    return float(np.degrees(np.arctan2(hole[0] * out[1] - hole[1] * out[0], hole[2])))
