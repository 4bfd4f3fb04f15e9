"""A whole rope put together from solved rows: against the rows it is made of, the chart, and the moves."""

from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.app.shapes import rescaled
from braidwright.app.sizes import materials_of
from braidwright.app.solved_shapes import Lap, geometry_of, narrowed, uniform_lap
from braidwright.catalogue.shelf import standard
from braidwright.domain import topology
from braidwright.domain.braid import Braid, mirrored
from braidwright.domain.chart import stations, surface_angle
from braidwright.domain.design import Design
from braidwright.domain.geometry import Geometry
from braidwright.domain.walk import stitch_cords, walk
from braidwright.physics.round_braid import RoundBraid, settle
from braidwright.physics.round_ways import round_ways
from braidwright.physics.solids import BeadSolid
from braidwright.physics.ways import Ways
from physics.joined import crossing_sums
from rope import SHELF, kongoh, rope
from strategies import braids

DRIFT = 11.25
BEADED, BARE, GAP = ("aaaa",) * 8, ("....",) * 8, ("aaaa",) * 4 + ("....",) * 5 + ("aaaa",) * 4


@lru_cache(maxsize=16)
def lap(braid: Braid, *, beaded: bool) -> Lap:
    bead = BeadSolid(diameter_mm=3.0, length_mm=2.1) if beaded else None
    found = settle(RoundBraid(columns=braid.cord_count // 2, cord_mm=0.5, bead=bead, drift_deg=DRIFT))
    assert found.outcome.is_settled
    return uniform_lap(round_ways(found, braid, beaded=beaded))


def whole(design: Design) -> Geometry:
    """The rope of a design whose wholly bare rows are bare braid."""
    bare_rows = frozenset(row for row, text in enumerate(design.rows) if set(text) == {"."})
    return geometry_of(
        replace(design, lead_in_mm=12.0, lead_out_mm=9.0),
        materials_of(design, SHELF),
        lap(design.braid, beaded=True),
        lap(design.braid, beaded=False),
        from_bare=bare_rows,
        basis="solved",
    )


def distance(point: np.ndarray, curve: np.ndarray) -> float:
    """From a point to a polyline."""
    start, along = curve[:-1], np.diff(curve, axis=0)
    size = np.maximum(np.einsum("ij,ij->i", along, along), 1e-12)
    share = np.clip(np.einsum("ij,ij->i", point - start, along) / size, 0.0, 1.0)
    return float(np.linalg.norm(start + share[:, None] * along - point, axis=1).min())


@pytest.mark.parametrize("rows", [BEADED, BARE, GAP, ("aaaa", "a.aa", "akaa") * 3])
@pytest.mark.parametrize("braid", [kongoh(8), mirrored(kongoh(8))])
def test_beads_are_one_to_one_and_every_cord_runs_through_its_own(braid: Braid, rows: tuple[str, ...]) -> None:
    design = rope(rows, braid=braid)
    found = whole(design)
    told = [(key, *map(int, at)) for key, at in zip(found.keys, found.stitches, strict=True)]
    wanted = [
        (bead, row, stitch, place)
        for row, text in enumerate(design.rows)
        for stitch, key in enumerate(text)
        for place, bead in enumerate(design.tray.beads_of(key))
    ]
    assert told == wanted
    made_by = stitch_cords(design.braid, len(design.rows))
    for (row, stitch, _), cord, centre, hole in zip(
        found.stitches, found.bead_cords, found.centres, found.holes, strict=True
    ):
        assert cord == made_by[row, stitch]
        is_alone = design.rows[row][stitch] == "a"
        for along in (-1.0, -0.5, 0.0, 0.5, 1.0):  # the hole of 8/0 is 2.1 mm long
            assert not is_alone or distance(centre + along * hole, found.cords[cord]) < 1e-6
        assert distance(centre, found.cords[cord]) < 0.3, "of a stack, where the row was solved without it"


@pytest.mark.parametrize("braid", [kongoh(8), mirrored(kongoh(12))])
def test_a_uniform_rope_is_its_row_again_and_again(braid: Braid) -> None:
    design = rope(("a" * braid.stitches_per_row,) * 9, braid=braid)
    found, row = whole(design), lap(braid, beaded=True).ways
    assert found.heights == pytest.approx(np.arange(10) * row.rise_mm)
    for (at, stitch, _), centre in zip(found.stitches, found.centres, strict=True):
        wanted = row.carried(row.stitches[stitch][:1], float(at))[0]
        assert np.hypot(*centre[:2]) == pytest.approx(np.hypot(*wanted[:2]))
        assert centre[2] == pytest.approx(wanted[2])
        charted = surface_angle(braid, int(stitch), float(at) - 4.0, row.drift_deg)  # the middle row is not turned
        off = np.degrees(np.arctan2(centre[0], centre[1])) - charted
        assert (off + 180.0) % 360.0 - 180.0 == pytest.approx(0.0, abs=1e-6)
    across = 2.0 * float(found.reaches.max())
    assert across == pytest.approx(2.0 * float(np.hypot(*row.stitches[0][0, :2])) + 3.0)


@pytest.mark.parametrize("rows", [BEADED, GAP])
def test_the_ends_lie_where_the_leads_end(rows: tuple[str, ...]) -> None:
    found = whole(rope(rows))
    for curve in found.cords:
        assert curve[0, 2] == pytest.approx(-12.0)
        assert curve[-1, 2] == pytest.approx(found.length_mm + 9.0)


def test_bare_rows_are_as_high_and_as_thick_as_bare_braid() -> None:
    found, bare, beaded = whole(rope(GAP)), lap(kongoh(8), beaded=False).ways, lap(kongoh(8), beaded=True).ways
    wanted = [bare.rise_mm if 4 <= row < 9 else beaded.rise_mm for row in range(13)]
    assert np.diff(found.heights) == pytest.approx(wanted)
    points = np.concatenate(found.cords)
    middle = points[(points[:, 2] > found.heights[6]) & (points[:, 2] < found.heights[7])]
    widest = np.concatenate(bare.stitches)
    assert np.hypot(middle[:, 0], middle[:, 1]).max() == pytest.approx(
        np.hypot(widest[:, 0], widest[:, 1]).max(), rel=0.02
    )


@pytest.mark.parametrize("braid", [standard().braid("kongoh-8"), mirrored(standard().braid("kongoh-8"))])
@pytest.mark.parametrize("rows", [("aaaa",) * 18, ("aaaa",) * 6 + ("....",) * 6 + ("aaaa",) * 6])
def test_cords_cross_as_the_moves_say_all_along(braid: Braid, rows: tuple[str, ...]) -> None:
    """Also where beaded rows go over into bare ones: the linking of the moves, over three rounds of it."""
    found, home = whole(rope(rows, braid=braid)), walk(braid).repeats_home
    in_rows = [
        np.column_stack((curve[:, :2], np.interp(curve[:, 2], found.heights, np.arange(19.0)))) for curve in found.cords
    ]
    once = Ways(stitches=(), idle=(), rise_mm=1.0, drift_deg=lap(braid, beaded=True).ways.drift_deg)
    sums = crossing_sums(in_rows, once, 3.1237, 3.1237 + 3 * home)
    assert np.array_equal(sums, 2 * 3 * np.array(topology.linking(braid)))


def test_a_lap_of_many_rows_is_the_same_rope() -> None:
    """A repeat of three rows, put together from three turns of one row, makes the rope that the one row makes."""
    design, one = rope(BEADED), lap(kongoh(8), beaded=True)
    ways = one.ways
    three = Lap(
        ways=Ways(
            stitches=tuple(ways.carried(way, row) for row in range(3) for way in ways.stitches),
            idle=(),
            rise_mm=3.0 * ways.rise_mm,
            drift_deg=3.0 * ways.drift_deg,
        ),
        heights=np.arange(4.0) * np.float64(ways.rise_mm),
    )
    bare = lap(kongoh(8), beaded=False)
    here, there = (
        geometry_of(design, materials_of(design, SHELF), which, bare, from_bare=frozenset(), basis="solved")
        for which in (one, three)
    )
    for name in ("centres", "holes", "outward", "heights", "reaches"):
        assert getattr(there, name) == pytest.approx(getattr(here, name), abs=1e-9)
    for left, right in zip(here.cords, there.cords, strict=True):
        assert right == pytest.approx(left, abs=1e-9)


def test_what_was_solved_tells_where_a_bead_reaches_out() -> None:
    design = rope(("adaa",) * 5)
    sideways = {(0, 1, 0): np.array((0.0, 1.0, 0.0))}
    found = geometry_of(
        design,
        materials_of(design, SHELF),
        replace(lap(kongoh(8), beaded=True), outward=sideways),
        lap(kongoh(8), beaded=False),
        from_bare=frozenset(),
        basis="solved",
    )
    for key, (row, _, _), hole, out in zip(found.keys, found.stitches, found.holes, found.outward, strict=True):
        assert hole @ out == pytest.approx(0.0, abs=1e-9)
        if key == "d":
            turn = np.radians(DRIFT * (float(row) - 2.0))
            wanted = np.array((np.sin(turn), np.cos(turn), 0.0))
            assert out @ wanted > 0.9


def test_a_stack_lies_along_its_cord_first_strung_first() -> None:
    found = whole(rope(("akaa",) * 6))
    stack = [n for n, (_, stitch, _) in enumerate(found.stitches) if stitch == 1]
    for first, second, third in zip(stack[::3], stack[1::3], stack[2::3], strict=True):
        assert found.centres[first, 2] < found.centres[second, 2] < found.centres[third, 2]


def straight(braid: Braid) -> Lap:
    """Straight from the slot of every stitch to the next one of its cord; cords without one stay at the rim."""
    rise, drift, width = 6.0, braid.shift * 360.0 / braid.slots, braid.stitches_per_row

    def at(slot: int, row: int, height: float) -> np.ndarray:
        angle = np.radians(braid.angle(slot) + drift * row)
        return np.array((4.0 * np.sin(angle), 4.0 * np.cos(angle), rise * height))

    made_by = stitch_cords(braid, 1 + walk(braid).repeats_home)
    ways = []
    for stitch, move in enumerate(braid.stitch_moves):
        own = [(int(row), int(other)) for row, other in np.argwhere(made_by == made_by[0, stitch])]
        row, other = own[own.index((0, stitch)) + 1]
        end = at(braid.stitch_moves[other].take, row, row + 0.5 + other / width)
        ways.append(np.array((at(move.take, 0, 0.5 + stitch / width), end)))
    goes_to = walk(braid).permutation
    idle = [place for place in range(braid.cord_count) if place not in made_by]
    runs = [np.array((at(braid.start[place], 0, 0.0), at(braid.start[goes_to[place]], 1, 1.0))) for place in idle]
    return uniform_lap(Ways(stitches=tuple(ways), idle=tuple(runs), rise_mm=rise, drift_deg=drift))


@given(braids(cords=(2, 16)), st.integers(1, 9))
def test_any_braid_can_be_put_together(braid: Braid, rows: int) -> None:
    """Also one with cords that make no stitch; the leads of the same rows made narrower."""
    design = rope(("a" * braid.stitches_per_row,) * rows, braid=braid)
    loose = straight(braid)
    found = geometry_of(
        design, materials_of(design, SHELF), loose, narrowed(loose, 0.3, 0.4), from_bare=frozenset(), basis="solved"
    )
    assert len(found.cords) == braid.cord_count
    assert len(found.keys) == rows * design.width
    assert found.length_mm == pytest.approx(6.0 * rows)
    for cord, centre in zip(found.bead_cords, found.centres, strict=True):
        assert distance(centre, found.cords[cord]) < 1.05, "no farther than half a bead, where straight ways meet"
    assert all(curve[0, 2] == pytest.approx(-design.lead_in) for curve in found.cords)


@pytest.mark.parametrize("rows", [BEADED, BARE, GAP])
def test_a_swatch_makes_the_rope_longer_and_thicker(rows: tuple[str, ...]) -> None:
    before = whole(rope(rows))
    after = rescaled(before, 1.1, 0.5, "corrected by a swatch")
    assert after.basis == "corrected by a swatch"
    assert after.heights == pytest.approx(1.1 * before.heights)
    assert after.centres[:, 2] == pytest.approx(1.1 * before.centres[:, 2])
    usual = before.hole_radius
    for old, new in ((before.centres, after.centres), *zip(before.cords, after.cords, strict=True)):
        was, now = np.hypot(old[:, 0], old[:, 1]), np.hypot(new[:, 0], new[:, 1])
        assert (now - was)[was >= usual] == pytest.approx(0.25)
        assert (now <= was + 0.25 + 1e-9).all()
        assert (old[:, 0] * new[:, 1]) == pytest.approx(old[:, 1] * new[:, 0], abs=1e-9)
    assert after.reaches - before.reaches == pytest.approx(
        np.hypot(after.centres[:, 0], after.centres[:, 1]) - np.hypot(before.centres[:, 0], before.centres[:, 1])
    )


def test_steps_of_a_row_lie_one_above_the_other() -> None:
    found = whole(rope(BEADED))
    steps = np.array([station.step for station in stations(kongoh(8))])
    wanted = (found.stitches[:, 0] + 0.5 + steps[found.stitches[:, 1]]) * found.heights[1]
    assert found.centres[:, 2] == pytest.approx(wanted)
