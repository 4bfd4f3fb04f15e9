"""The true shape of kongoh gumi: against the research prototype's table, and against itself.

The table is physics.md, section 4: what the trade measures lies in its windows, see `test_closed_form.py`.
"""

from dataclasses import replace
from math import isfinite

import numpy as np
import pytest

from braidwright.domain.errors import RequestError
from braidwright.physics.cells import unit
from braidwright.physics.images import unknowns_of
from braidwright.physics.round_braid import RoundBraid, Shape, limits, looses, outside_mm, settle
from braidwright.physics.solids import BeadSolid
from braidwright.physics.start import crossing, round_lattice
from braidwright.physics.state import HEAVE, Cell
from braidwright.physics.tighten import tighten

ROUND_8 = RoundBraid(columns=4, cord_mm=0.5, bead=BeadSolid(diameter_mm=3.0, length_mm=2.1), drift_deg=11.25)
BARE_8 = RoundBraid(columns=4, cord_mm=1.0, bead=None, drift_deg=11.25)


def beaded(columns: int, wide: float, long: float) -> Shape:
    """A braid of these beads on cord of 0.5 mm."""
    return settle(replace(ROUND_8, columns=columns, bead=BeadSolid(diameter_mm=wide, length_mm=long)))


@pytest.fixture(scope="module")
def shape_8() -> Shape:
    return settle(ROUND_8)


@pytest.mark.parametrize(
    ("wide", "long", "rise", "across", "take_up"),
    [
        pytest.param(2.1, 1.45, 1.63, (4.84, 4.90), 1.56, id="11/0"),
        pytest.param(3.0, 2.1, 2.30, (6.88, 6.88), 1.49, id="8/0"),
        pytest.param(4.0, 2.9, 3.10, (9.08, 9.08), 1.47, id="6/0"),
    ],
)
def test_eight_cords_as_in_the_table(
    wide: float, long: float, rise: float, across: tuple[float, float], take_up: float
) -> None:
    """Within 1 % of physics.md, section 4."""
    shape = beaded(4, wide, long)
    assert shape.outcome.is_settled
    assert shape.rise_mm == pytest.approx(rise, rel=0.01)
    assert across[0] * 0.99 <= shape.diameter_mm <= across[1] * 1.01
    assert shape.take_up == pytest.approx(take_up, rel=0.01)


def test_bare_cord_of_eight_as_in_the_table() -> None:
    """physics.md, section 4: rise 1.97 d, outside 4.7 to 4.8 d, take-up 1.53 to 1.60; within 1 %."""
    shape = settle(BARE_8)
    assert shape.rise_mm == pytest.approx(1.97, rel=0.01)
    assert 4.7 * 0.99 <= shape.diameter_mm <= 4.8 * 1.01
    assert 1.53 * 0.99 <= shape.take_up <= 1.60 * 1.01


@pytest.mark.parametrize(("weight", "rise"), [(0.0, 2.28), (0.25, 2.44)])
def test_a_heavier_weight_makes_a_longer_braid(weight: float, rise: float) -> None:
    """physics.md, section 3: rise 2.28 without weight, 2.44 with a quarter of the pull of the cords; within 1 %."""
    assert settle(replace(ROUND_8, weight_share=weight)).rise_mm == pytest.approx(rise, rel=0.01)


# Rise, outside and take-up as they came out on the day; no source but the solver itself. The table of physics.md has
# other figures for 12 and 16 cords: 2.31, 8.4, 1.77 and 2.30, 10.3, 2.15 with beads, 6.1 d and 7.3 d bare. The solver
# gives those with the pairs taken in the opposite order round the disk, which is another braid than that of the
# moves (`test_crossings.py`).
WIDE = [
    pytest.param(6, True, 2.46, 8.39, 1.65, id="12 cords 8/0"),
    pytest.param(8, True, 2.64, 9.78, 1.84, id="16 cords 8/0"),
    pytest.param(6, False, 2.21, 5.88, 1.82, id="12 cords bare"),
]


@pytest.mark.parametrize(("columns", "has_beads", "rise", "across", "take_up"), WIDE)
def test_wide_tubes_stay_as_they_are(columns: int, has_beads: bool, rise: float, across: float, take_up: float) -> None:
    shape = settle(replace(ROUND_8 if has_beads else BARE_8, columns=columns))
    assert shape.outcome.is_settled
    assert shape.rise_mm == pytest.approx(rise, rel=0.01)
    assert shape.diameter_mm == pytest.approx(across, rel=0.01)
    assert shape.take_up == pytest.approx(take_up, rel=0.01)


def test_twelve_cords_in_the_opposite_order_as_in_the_table() -> None:
    """physics.md, section 4: rise 2.31, outside 8.4, take-up 1.77; within 2 %, as two solvers written apart."""
    braid, lattice = replace(ROUND_8, columns=6), round_lattice(6, 11.25)
    other, found = replace(lattice, turn_rad=lattice.turn_rad + 4.0 * np.pi / 6), []
    cell = unit(other, 24, braid.bead, cord_mm=0.5, weight=2.0 * braid.weight_share)
    for loose in looses(braid):
        start = unknowns_of(crossing(other, loose, 2.1, 24), loose.rise_mm, HEAVE)
        found.append(tighten(cell, start, limits(braid)))
    best = min(found, key=lambda tight: tight.outcome.energy)
    cord = np.linalg.norm(np.diff(best.points, axis=0), axis=1).sum()
    assert best.rise_mm == pytest.approx(2.31, rel=0.02)
    assert outside_mm(best.points, braid.bead, 0.5) == pytest.approx(8.4, rel=0.02)
    assert cord / (2.0 * best.rise_mm) == pytest.approx(1.77, rel=0.02)


@pytest.mark.parametrize("fineness", [0.7, 1.6])
def test_the_mesh_does_not_matter(shape_8: Shape, fineness: float) -> None:
    """physics.md, section 4: 1 %."""
    other = settle(replace(ROUND_8, fineness=fineness))
    assert len(other.points) != len(shape_8.points)
    _alike(shape_8, other, 0.01)


def test_the_start_does_not_matter(shape_8: Shape) -> None:
    """physics.md, section 4: 1 %. Every start alone comes to the shape that is kept."""
    cell = _cell(shape_8)
    for loose in looses(ROUND_8):
        points = crossing(shape_8.lattice, loose, 2.1, len(shape_8.points))
        tight = tighten(cell, unknowns_of(points, loose.rise_mm, HEAVE), limits(ROUND_8))
        assert tight.rise_mm == pytest.approx(shape_8.rise_mm, rel=0.01)
        assert outside_mm(tight.points, ROUND_8.bead, 0.5) == pytest.approx(shape_8.diameter_mm, rel=0.01)
    assert list(shape_8.energies) == sorted(shape_8.energies)
    assert shape_8.energies[0] == shape_8.outcome.energy


@pytest.mark.parametrize("seed", range(3))
def test_shaken_by_0_15_mm_it_comes_back(shape_8: Shape, seed: int) -> None:
    """physics.md, section 4."""
    noise = np.random.default_rng(seed).normal(0.0, 0.15, shape_8.points.shape)
    start = unknowns_of(shape_8.points + noise, shape_8.rise_mm, HEAVE)
    tight = tighten(_cell(shape_8), start, limits(ROUND_8))
    assert tight.outcome.is_settled
    assert tight.rise_mm == pytest.approx(shape_8.rise_mm, rel=0.01)
    assert tight.outcome.energy == pytest.approx(shape_8.outcome.energy, rel=0.002)


@pytest.mark.parametrize("times", [0.3, 4.0])
def test_bare_cord_has_no_scale_of_its_own(times: float) -> None:
    _alike(settle(BARE_8), settle(replace(BARE_8, cord_mm=times)), 1e-3, times)


def test_beads_and_cord_twice_as_big_make_a_braid_twice_as_big(shape_8: Shape) -> None:
    big = replace(ROUND_8, cord_mm=1.0, bead=BeadSolid(diameter_mm=6.0, length_mm=4.2))
    _alike(shape_8, settle(big), 0.01, 2.0)


def test_less_drift_makes_a_longer_and_thinner_braid() -> None:
    """physics.md, section 5: over 11 to 30 degrees the rise falls 6 % and the outside grows 6 %."""
    straight, turned = (settle(replace(ROUND_8, drift_deg=drift)) for drift in (11.25, 30.0))
    assert turned.rise_mm / straight.rise_mm == pytest.approx(0.94, abs=0.02)
    assert turned.diameter_mm / straight.diameter_mm == pytest.approx(1.06, abs=0.02)


def test_nothing_overlaps_by_more_than_the_penalty_allows(shape_8: Shape) -> None:
    """physics.md, section 2: overlap 0.01 to 0.03 mm. Beads of a column stand a rise apart, so it is seen there."""
    assert shape_8.rise_mm >= 2.1
    axis = shape_8.points[:2].mean(axis=0)
    assert 2.0 * np.hypot(axis[0], axis[1]) >= 3.0 - 0.05


def test_a_sphere_reaches_as_far_as_its_radius() -> None:
    points = np.array([[2.0, 0.0, -1.5], [2.0, 0.0, 1.5]])
    ball = BeadSolid(diameter_mm=3.0, length_mm=3.0)
    assert outside_mm(points, ball, 0.5) == pytest.approx(7.0)
    tipped = np.array([[2.0, -1.5, 0.0], [2.0, 1.5, 0.0]])
    flat = BeadSolid(diameter_mm=3.0, length_mm=1.0)
    assert outside_mm(tipped[:, [0, 2, 1]], flat, 0.5) == pytest.approx(7.0)
    assert outside_mm(np.array([[1.5, 0.0, 0.0], [2.5, 0.0, 0.0]]), flat, 0.5) == pytest.approx(
        2.0 * np.hypot(2.0, 1.0) + 1.0, abs=0.2
    )


def test_the_work_is_watched_and_can_be_stopped() -> None:
    seen: list[float] = []

    def watch(share: float) -> bool:
        seen.append(share)
        return len(seen) < 3

    shape = settle(ROUND_8, watch)
    assert shape.outcome.ending == "stopped"
    assert len(seen) == 3
    assert seen == sorted(seen)
    assert all(0.0 < share < 1.0 for share in seen)


def test_every_solve_has_a_bound() -> None:
    shape = settle(ROUND_8, most_steps=40)
    assert (shape.outcome.ending, shape.outcome.steps, shape.energies) == ("out of steps", 40, ())


def test_a_drift_that_makes_another_braid_is_no_shape() -> None:
    """With so much turn against the moves the cords pass their neighbours on the wrong side."""
    assert settle(replace(ROUND_8, columns=8, drift_deg=-60.0)).outcome.ending == "topology changed"


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"columns": 5}, "columns"),
        ({"columns": 2}, "columns"),
        ({"cord_mm": 0.0}, "cord"),
        ({"cord_mm": float("nan")}, "cord"),
        ({"drift_deg": 90.0}, "drift"),
        ({"drift_deg": float("nan")}, "drift"),
        ({"cord_mm": 3.0}, "thick"),
        ({"bead": BeadSolid(diameter_mm=3.0, length_mm=0.0)}, "length"),
        ({"bead": BeadSolid(diameter_mm=float("inf"), length_mm=1.0)}, "diameter"),
    ],
)
def test_what_has_no_shape_is_refused_in_a_sentence(change: dict[str, object], word: str) -> None:
    with pytest.raises(RequestError, match=word):
        replace(ROUND_8, **change)  # type: ignore[arg-type]


def _cell(shape: Shape) -> Cell:
    return unit(shape.lattice, len(shape.points), ROUND_8.bead, cord_mm=0.5, weight=2.0 * ROUND_8.weight_share)


def _alike(one: Shape, other: Shape, within: float, times: float = 1.0) -> None:
    """Whether two shapes are the same, the second so many times as big."""
    assert one.outcome.is_settled
    assert other.outcome.is_settled
    assert isfinite(other.rise_mm)
    assert other.rise_mm == pytest.approx(times * one.rise_mm, rel=within)
    assert other.diameter_mm == pytest.approx(times * one.diameter_mm, rel=within)
    assert other.take_up == pytest.approx(one.take_up, rel=within)
