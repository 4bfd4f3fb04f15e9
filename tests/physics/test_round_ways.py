"""The ways of the cords of a kongoh gumi, drawn out of one solved stitch, against the moves and the chart."""

from dataclasses import replace
from functools import lru_cache
from itertools import pairwise

import numpy as np
import pytest

from braidwright.catalogue.shelf import standard
from braidwright.domain import topology
from braidwright.domain.braid import Braid, Move, mirrored
from braidwright.domain.chart import stations, surface_angle
from braidwright.domain.errors import RequestError
from braidwright.domain.kongoh import kongoh_of
from braidwright.domain.walk import stitch_cords, walk
from braidwright.physics.round_braid import RoundBraid, Shape, settle
from braidwright.physics.round_ways import round_ways
from braidwright.physics.solids import BeadSolid
from braidwright.physics.ways import Ways
from known_braids import kongoh, published_kongoh, slide
from physics.joined import crossing_sums, stitches_of, whole_cords

DRIFT = 11.25


@lru_cache(maxsize=16)
def shape(columns: int, *, beaded: bool = True, drift: float = DRIFT) -> Shape:
    bead = BeadSolid(diameter_mm=3.0, length_mm=2.1) if beaded else None
    found = settle(RoundBraid(columns=columns, cord_mm=0.5, bead=bead, drift_deg=drift))
    assert found.outcome.is_settled
    return found


def ways_of(braid: Braid, *, beaded: bool = True, drift: float = DRIFT) -> Ways:
    return round_ways(shape(braid.cord_count // 2, beaded=beaded, drift=drift), braid, beaded=beaded)


def swapped(braid: Braid) -> Braid:
    """The second move of every other pair first."""
    order = [at ^ (at // 2 % 2) for at in range(len(braid.moves))]
    return replace(braid, moves=tuple(braid.moves[at] for at in order))


def slid() -> Braid:
    """Kongoh gumi of 8 cords that begins a slot too far on for two of its cords, and tidies them first."""
    one = standard().braid("kongoh-8")
    tidy = (slide(3, 1), slide(19, 17))
    start = tuple({1: 3, 17: 19}.get(slot, slot) for slot in one.start)
    untidy: tuple[Move, ...] = (slide(2, 4), slide(18, 20))
    return replace(one, start=start, moves=(*tidy, *one.moves, *untidy))


CATALOGUE = [standard().braid(f"kongoh-{cords}") for cords in (8, 12, 16)]
ONES = [
    *(pytest.param(one, id=f"{one.cord_count} S") for one in CATALOGUE),
    *(pytest.param(mirrored(one), id=f"{one.cord_count} Z") for one in CATALOGUE),
    pytest.param(published_kongoh(8, "S"), id="8 S, a whole round"),
    pytest.param(published_kongoh(12, "Z"), id="12 Z, a whole round"),
    pytest.param(swapped(CATALOGUE[1]), id="12 S, moves of a pair swapped"),
    pytest.param(swapped(mirrored(CATALOGUE[0])), id="8 Z, moves of a pair swapped"),
    pytest.param(kongoh(8, 3, "Z", first=40), id="8 Z, crowded on a wide disk"),
    pytest.param(slid(), id="8 S, with re-spaces"),
]


def as_row(ways: Ways) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    """Middles of the stitches of row 0."""
    return np.array([way[0] for way in ways.stitches])


def compass(points: np.ndarray[tuple[int, int], np.dtype[np.float64]]) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """Degrees clockwise from north."""
    found: np.ndarray[tuple[int], np.dtype[np.float64]] = np.degrees(np.arctan2(points[:, 0], points[:, 1])) % 360.0
    return found


@pytest.mark.parametrize("beaded", [True, False])
@pytest.mark.parametrize("braid", ONES)
def test_every_way_ends_where_the_next_stitch_of_its_cord_begins(braid: Braid, beaded: bool) -> None:
    """Which stitch that is follows from the moves alone (`domain.walk`)."""
    ways = ways_of(braid, beaded=beaded)
    for cord in range(braid.cord_count):
        own = stitches_of(braid, cord, 3 * braid.cord_count).tolist()
        for (row, stitch), (then, after) in pairwise(own):
            end = ways.carried(ways.stitches[stitch], row)[-1]
            start = ways.carried(ways.stitches[after], then)[0]
            assert end == pytest.approx(start, abs=1e-9)


@pytest.mark.parametrize("beaded", [True, False])
@pytest.mark.parametrize("braid", ONES)
def test_cords_cross_as_the_moves_say(braid: Braid, beaded: bool) -> None:
    """Every two cords link as often, and with the same sign, as their chords on the disk do."""
    ways = ways_of(braid, beaded=beaded)
    home = walk(braid).repeats_home
    cords = whole_cords(ways, braid, 3 * home, -home)
    low = 0.1237 * ways.rise_mm
    found = crossing_sums(cords, ways, low, low + home * ways.rise_mm)
    assert np.array_equal(found, 2 * np.array(topology.linking(braid)))


@pytest.mark.parametrize(("beaded", "drift"), [(True, DRIFT), (True, 20.0), (False, DRIFT)])
@pytest.mark.parametrize("braid", [*CATALOGUE, mirrored(CATALOGUE[1]), swapped(CATALOGUE[2])])
def test_stitches_lie_where_the_chart_has_them(braid: Braid, beaded: bool, drift: float) -> None:
    """A stitch lies at the side its cord came from, and row 0 begins at height 0 (docs/conventions.md)."""
    ways = ways_of(braid, beaded=beaded, drift=drift)
    middles = as_row(ways)
    charted = [surface_angle(braid, stitch, 0, ways.drift_deg) for stitch in range(braid.stitches_per_row)]
    apart = (compass(middles) - charted + 180.0) % 360.0 - 180.0
    assert np.abs(apart).max() < 1e-6
    steps = np.array([station.step for station in stations(braid)])
    assert middles[:, 2] == pytest.approx((0.5 + steps) * ways.rise_mm, abs=1e-9)
    for stitch, move in enumerate(braid.stitch_moves):
        off = (braid.angle(move.take) - surface_angle(braid, stitch, 0, 0.0) + 180.0) % 360.0 - 180.0
        assert abs(off) < 15.0  # slots of 12 cords on a disk of 32 are not spaced evenly


@pytest.mark.parametrize("braid", [published_kongoh(8, "S"), published_kongoh(16, "Z")])
def test_a_row_of_two_repeats_is_two_rows_of_one(braid: Braid) -> None:
    ways = ways_of(braid)
    one = shape(braid.cord_count // 2)
    assert ways.rise_mm == pytest.approx(2.0 * one.rise_mm)
    assert abs(ways.drift_deg) == pytest.approx(2.0 * DRIFT)
    half = braid.stitches_per_row // 2
    middles = as_row(ways)
    assert middles[half:, 2] - middles[:half, 2] == pytest.approx(one.rise_mm)
    turned = (compass(middles[half:]) - compass(middles[:half])) % 180.0
    assert turned == pytest.approx((DRIFT if braid.hand == "S" else -DRIFT) % 180.0)
    where = [move.take for move in braid.stitch_moves]
    off = (compass(middles) - [braid.angle(slot) for slot in where] + 180.0) % 360.0 - 180.0
    assert np.abs(off).max() < 12.0


@pytest.mark.parametrize("braid", ONES)
def test_a_cord_leaves_its_stitch_for_the_other_side(braid: Braid) -> None:
    """Its beads lie outside, one on each side, and its way between them passes near the axis."""
    for way in ways_of(braid).stitches:
        out = np.hypot(way[:, 0], way[:, 1])
        assert out[0] == pytest.approx(out[-1])
        assert out[len(out) // 4 : -len(out) // 4].min() < 0.5 * out[0]
        assert way[0, :2] @ way[-1, :2] < -0.7 * out[0] ** 2


@pytest.mark.parametrize("braid", CATALOGUE)
def test_a_bare_stitch_is_where_its_cord_lies_outside(braid: Braid) -> None:
    """Both neighbours of it on the cord lie as far out, within the nearest stitch, and the cord dives in between."""
    for way in ways_of(braid, beaded=False).stitches:
        out = np.hypot(way[:, 0], way[:, 1])
        assert out[0] > 0.97 * out.max()
        assert out[-1] > 0.97 * out.max()
        assert out.min() < 0.4 * out.max()


def test_the_hands_are_mirror_images() -> None:
    """Mirrored in the north-south line, the order of the moves kept (docs/conventions.md, Hands)."""
    one, other = ways_of(CATALOGUE[0]), ways_of(mirrored(CATALOGUE[0]))
    assert other.drift_deg == -one.drift_deg
    for way, seen in zip(one.stitches, other.stitches, strict=True):
        assert seen == pytest.approx(way * (-1.0, 1.0, 1.0), abs=1e-9)


def test_every_cord_of_the_braid_makes_a_stitch() -> None:
    ways = ways_of(CATALOGUE[0])
    assert ways.idle == ()
    assert set(stitch_cords(CATALOGUE[0], 2).ravel().tolist()) == set(range(8))


def test_kongoh_tells_which_move_of_a_pair_leads() -> None:
    one = kongoh_of(CATALOGUE[1])
    other = kongoh_of(swapped(CATALOGUE[1]))
    assert one is not None
    assert other is not None
    assert [a != b for a, b in zip(one.leads, other.leads, strict=True)] == [False, True, False]


@pytest.mark.parametrize(
    ("braid", "says"),
    [
        pytest.param(standard().braid("maru-yotsu"), "no kongoh gumi", id="another braid"),
        pytest.param(CATALOGUE[1], "6 columns, but the solved shape has 4", id="another size"),
    ],
)
def test_another_braid_is_refused(braid: Braid, says: str) -> None:
    with pytest.raises(RequestError, match=says):
        round_ways(shape(4), braid, beaded=True)
