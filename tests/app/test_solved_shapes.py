"""A solved rope as the geometry of pictures and models: against the design, the chart and the moves."""

from functools import lru_cache

import numpy as np
import pytest

from braidwright.app.shapes import rescaled
from braidwright.app.solved_shapes import geometry_of
from braidwright.domain import topology
from braidwright.domain.braid import Braid, mirrored
from braidwright.domain.chart import surface_angle
from braidwright.domain.comfort import FELT_MM
from braidwright.domain.design import Design
from braidwright.domain.geometry import Geometry, reaches_of
from braidwright.domain.walk import stitch_cords, walk
from braidwright.physics.measures import Whole
from braidwright.physics.solids import reaching_solid, round_solid
from braidwright.physics.uniform import solve_uniform
from braidwright.physics.ways import Ways
from braidwright.physics.whole import Piece, solve_whole
from physics.joined import crossing_sums
from rope import BEADS, kongoh, rope

DRIFT, LEAD = 11.25, 12.0
UNIFORM, BARE = ("aaaa",) * 13, ("....",) * 13
MIXED = ("aaaa", "aaaa", "a.aa", "aaaa", "adaa", "....", "....", "aaaa", "akaa", "aaaa", "bbbb")
KINDS = {"a": "round-8/0", "d": "teardrop-3.4", "b": "round-11/0"}
KEYS = tuple(KINDS)
SOLIDS = (round_solid(3.0, 2.1), reaching_solid(2.4, ((0.0, 1.5), (1.9, 1.7))), round_solid(2.1, 1.45))

find = lru_cache(maxsize=8)(solve_uniform)


def designed(rows: tuple[str, ...], braid: Braid | None = None) -> Design:
    return rope(rows, braid=braid, beads=KINDS)


@lru_cache(maxsize=8)
def solved(rows: tuple[str, ...], braid: Braid, drift: float) -> Whole:
    tray = designed(rows, braid).tray
    piece = Piece(
        braid=braid,
        rows=tuple(tuple(tuple(KEYS.index(key) for key in tray.beads_of(drop)) for drop in row) for row in rows),
        kinds=SOLIDS,
        cord_mm=0.5,
        drift_deg=drift,
        lead_in_mm=LEAD,
        lead_out_mm=LEAD,
    )
    found = solve_whole(piece, find)
    assert isinstance(found, Whole)
    return found


def shape(rows: tuple[str, ...], braid: Braid | None = None) -> Geometry:
    braid = braid or kongoh(8)
    drift = DRIFT if braid.hand == "S" else -DRIFT
    return geometry_of(designed(rows, braid), solved(rows, braid, drift), 0.5, drift)


def distance(point: np.ndarray, curve: np.ndarray) -> float:
    """From a point to a polyline."""
    start, along = curve[:-1], np.diff(curve, axis=0)
    size = np.maximum(np.einsum("ij,ij->i", along, along), 1e-12)
    share = np.clip(np.einsum("ij,ij->i", point - start, along) / size, 0.0, 1.0)
    return float(np.linalg.norm(start + share[:, None] * along - point, axis=1).min())


@pytest.mark.parametrize("rows", [UNIFORM, BARE, MIXED])
def test_beads_are_one_to_one_and_every_cord_runs_through_its_own(rows: tuple[str, ...]) -> None:
    design, found = designed(rows), shape(rows)
    told = [(key, *map(int, at)) for key, at in zip(found.keys, found.stitches, strict=True)]
    wanted = [
        (bead, row, stitch, place)
        for row, text in enumerate(rows)
        for stitch, key in enumerate(text)
        for place, bead in enumerate(design.tray.beads_of(key))
    ]
    assert told == wanted
    made_by = stitch_cords(design.braid, len(rows))
    for (row, stitch, _), cord, centre, hole in zip(
        found.stitches, found.bead_cords, found.centres, found.holes, strict=True
    ):
        assert cord == made_by[row, stitch]
        for along in (-0.6, 0.0, 0.6):  # no hole is shorter than 1.45 mm
            assert distance(centre + along * hole, found.cords[cord]) < 1e-6


@pytest.mark.parametrize("braid", [kongoh(8), mirrored(kongoh(8))])
def test_the_middle_row_lies_where_the_chart_has_it(braid: Braid) -> None:
    """A uniform rope turns evenly, and its middle row is not turned (docs/conventions.md)."""
    found = shape(UNIFORM, braid)
    drift = DRIFT if braid.hand == "S" else -DRIFT
    for (row, stitch, _), centre in zip(found.stitches, found.centres, strict=True):
        charted = surface_angle(braid, int(stitch), float(row) - 6.0, drift)
        off = np.degrees(np.arctan2(centre[0], centre[1])) - charted
        assert (off + 180.0) % 360.0 - 180.0 == pytest.approx(0.0, abs=0.5)


@pytest.mark.parametrize("rows", [UNIFORM, MIXED])
def test_reaches_are_those_of_the_beads(rows: tuple[str, ...]) -> None:
    """As the solids of the solver have them; the simpler rule for an estimate differs by a little."""
    found = shape(rows)
    simple = reaches_of(tuple(BEADS[KINDS[key]] for key in found.keys), found.centres, found.outward)
    assert found.reaches == pytest.approx(simple, abs=0.45)
    assert (found.reaches >= np.hypot(found.centres[:, 0], found.centres[:, 1])).all()


@pytest.mark.parametrize("braid", [kongoh(8), mirrored(kongoh(8))])
def test_cords_cross_as_the_moves_say(braid: Braid) -> None:
    """Over two rounds of the working, in which every cord comes home."""
    found, home = shape(UNIFORM, braid), walk(braid).repeats_home
    rows = [
        np.column_stack((line[:, :2], np.interp(line[:, 2], found.heights, np.arange(14.0)))) for line in found.cords
    ]
    once = Ways(stitches=(), idle=(), rise_mm=1.0, drift_deg=DRIFT if braid.hand == "S" else -DRIFT)
    sums = crossing_sums(rows, once, 2.1237, 2.1237 + 2 * home)
    assert np.array_equal(sums, 2 * 2 * np.array(topology.linking(braid)))


@pytest.mark.parametrize("rows", [UNIFORM, BARE, MIXED])
def test_a_swatch_makes_the_rope_longer_and_thicker(rows: tuple[str, ...]) -> None:
    before = shape(rows)
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


def test_a_teardrop_is_felt_in_a_solved_rope() -> None:
    """It reaches so far beyond the round beads that it would be felt at the back."""
    found = shape(MIXED)
    keys = np.array(found.keys)
    usual = float(np.median(found.reaches[(keys == "a") & (found.stitches[:, 2] == 0)]))
    assert found.reaches[keys == "d"].min() > usual + FELT_MM
