"""The solid of a bead: closed, of the right size, with a hole through it, holding what the formulas say."""

from math import pi, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.catalogue.shelf import standard
from braidwright.domain.bead import OFF_CENTRE, REACHES, SHAPES, Bead, Shape
from braidwright.drawings.meshes.bead_mesh import bead_mesh, half_thickness, outline
from glb_file import edge_counts, volume

BEADS = {bead.name: bead for bead in standard().beads}
ROUND = [bead for bead in BEADS.values() if bead.shape in ("round", "pressed-round")]
MOST_TRIANGLES = 400  # our own limit: hundreds of beads have to turn smoothly on a telephone


def bead(shape: Shape, across: float, along: float, hole: float, reach: float | None = None) -> Bead:
    return Bead(
        name="one",
        english="one",
        shape=shape,
        diameter_mm=across,
        length_mm=along,
        hole_mm=hole,
        grams=0.1,
        reach_mm=reach or across / 2.0,
    )


@pytest.mark.parametrize("name", BEADS)
def test_every_bead_of_the_catalogue_is_a_closed_ring(name: str) -> None:
    """Euler's formula: corners - edges + triangles is 0 for a solid with one hole through it."""
    made = bead_mesh(BEADS[name])
    corners, edges, is_closed = edge_counts(made.points, made.faces)
    assert is_closed
    assert corners - edges + len(made.faces) == 0
    assert len(made.faces) <= MOST_TRIANGLES


def test_a_missing_or_overturned_triangle_would_be_noticed() -> None:
    made = bead_mesh(BEADS["round-8/0"])
    assert not edge_counts(made.points, made.faces[1:])[2]
    turned = made.faces.copy()
    turned[5] = turned[5, ::-1]
    assert not edge_counts(made.points, turned)[2]


@pytest.mark.parametrize("name", BEADS)
def test_a_bead_is_as_big_as_it_is(name: str) -> None:
    one = BEADS[name]
    low, high = bead_mesh(one).points.min(axis=0), bead_mesh(one).points.max(axis=0)
    assert high[0] == pytest.approx(one.reach_mm if one.stands_out else one.diameter_mm / 2.0)
    assert 0.96 * one.length_mm < high[2] - low[2] < one.length_mm + 1e-9
    share = max(radius for _, radius in REACHES[one.shape]) if one.stands_out else 1.0
    assert 0.94 * share * one.diameter_mm < high[1] - low[1] < 1.001 * share * one.diameter_mm


@pytest.mark.parametrize("name", BEADS)
def test_a_cord_finds_the_hole_open(name: str) -> None:
    """No corner inside the hole, and the wall of the hole is the last part of the mesh."""
    one, made = BEADS[name], bead_mesh(BEADS[name])
    away = np.hypot(made.points[:, 0], made.points[:, 1])
    assert away.min() == pytest.approx(one.hole_mm / 2.0)
    wall = made.points[made.faces[made.hole_from :]]
    assert np.hypot(wall[..., 0], wall[..., 1]) == pytest.approx(one.hole_mm / 2.0)
    assert 0 < made.hole_from < len(made.faces)


@pytest.mark.parametrize("name", BEADS)
def test_normals_point_out_of_the_glass(name: str) -> None:
    made = bead_mesh(BEADS[name])
    assert np.linalg.norm(made.normals, axis=1) == pytest.approx(1.0)
    a, b, c = (made.points[made.faces[:, n]] for n in range(3))
    flat = np.cross(b - a, c - a)
    kept = np.linalg.norm(flat, axis=1) > 1e-9
    for n in range(3):
        assert ((flat * made.normals[made.faces[:, n]]).sum(axis=1)[kept] > 0.0).all()


@pytest.mark.parametrize("one", ROUND, ids=lambda one: one.name)
def test_a_round_bead_holds_what_its_spherodisc_holds(one: Bead) -> None:
    """The spherodisc of physics.md, 2, less its hole, as a sum of thin tubes; the mesh is drawn into it."""
    swell = min(one.diameter_mm, one.length_mm) / 2.0
    disc = one.diameter_mm / 2.0 - swell
    r = np.linspace(one.hole_mm / 2.0, one.diameter_mm / 2.0, 20_001)
    height = 2.0 * np.sqrt(np.maximum(0.0, swell**2 - np.maximum(0.0, r - disc) ** 2))
    true = float(np.trapezoid(2.0 * pi * r * height, r))
    made = bead_mesh(one)
    assert 0.945 * true < volume(made.points, made.faces) < true


def test_a_ball_with_a_hole_is_a_napkin_ring() -> None:
    """4/3 pi (R^2 - a^2)^(3/2): what is left of a ball depends on the height of the ring alone (a classic)."""
    made = bead_mesh(bead("pressed-round", 6.0, 6.0, 2.0))
    true = 4.0 / 3.0 * pi * (9.0 - 1.0) ** 1.5
    assert 0.945 * true < volume(made.points, made.faces) < true


def test_a_lentil_holds_two_caps_less_the_hole() -> None:
    """Two caps of a sphere: 2 pi h^2 (3 s - h) / 3 with s = (R^2 + h^2) / 2 h (Archimedes); the hole is thin."""
    made = bead_mesh(bead("lentil", 6.0, 3.0, 0.2))
    s = (9.0 + 2.25) / 3.0
    true = 2.0 * pi * 1.5**2 * (3.0 * s - 1.5) / 3.0 - pi * 0.1**2 * 3.0
    assert 0.945 * true < volume(made.points, made.faces) < true


@pytest.mark.parametrize("shape", ["cylinder", "bicone", "fire-polished", "round", "lentil"])
def test_a_turned_bead_holds_what_pappus_says(shape: Shape) -> None:
    """Pappus: area of the outline times the way of its middle; n ways round hold n sin(2 pi / n) / 2 pi of it."""
    one = bead(shape, 4.0, 3.0, 1.0)
    r, z = np.concatenate((outline(one), outline(one)[:1])).T
    pappus = abs(float((pi / 3.0 * (r[1:] ** 2 + r[1:] * r[:-1] + r[:-1] ** 2) * np.diff(z)).sum()))
    ways = {"bicone": 8, "fire-polished": 10}.get(shape, 18)
    made = bead_mesh(one)
    assert volume(made.points, made.faces) == pytest.approx(pappus * ways * sin(2.0 * pi / ways) / (2.0 * pi))


def test_a_long_bead_is_a_rod_with_round_ends() -> None:
    """A cylinder and two half balls, less the hole; the hole is thin."""
    made = bead_mesh(bead("round", 2.0, 6.0, 0.1))
    true = pi * 4.0 + 4.0 / 3.0 * pi - pi * 0.05**2 * 6.0
    assert 0.945 * true < volume(made.points, made.faces) < true
    assert made.points[:, 2].max() == pytest.approx(3.0, abs=0.002)


@pytest.mark.parametrize("one", [one for one in BEADS.values() if one.stands_out], ids=lambda one: one.name)
def test_a_bead_that_reaches_out_holds_what_lies_under_its_two_sheets(one: Bead) -> None:
    """Summed over a fine grid of its plan, the hole left out."""
    step = one.reach_mm / 400.0
    x, y = np.meshgrid(np.arange(-one.reach_mm, one.reach_mm, step), np.arange(-one.reach_mm, one.reach_mm, step))
    height = np.where(np.hypot(x, y) > one.hole_mm / 2.0, half_thickness(one, x, y), 0.0)
    true = 2.0 * float(height.sum()) * step**2
    made = bead_mesh(one)
    assert volume(made.points, made.faces) == pytest.approx(true, rel=0.08)


measures = st.floats(min_value=0.5, max_value=20.0)


@given(
    shape=st.sampled_from(SHAPES),
    across=measures,
    along=measures,
    hole=st.floats(min_value=0.05, max_value=0.95),
    reach=st.floats(min_value=0.6, max_value=6.0),
)
def test_any_bead_a_maker_may_write_is_a_closed_solid(
    shape: Shape, across: float, along: float, hole: float, reach: float
) -> None:
    one = bead(shape, across, along, hole * across, reach * across if shape in OFF_CENTRE else None)
    made = bead_mesh(one)
    assert np.isfinite(made.points).all()
    assert np.linalg.norm(made.normals, axis=1).max() <= 1.0 + 1e-9
    assert edge_counts(made.points, made.faces)[2]
    assert volume(made.points, made.faces) > 0.0
    assert np.hypot(made.points[:, 0], made.points[:, 1]).min() > 0.99 * one.hole_mm / 2.0


def test_flat_facets_and_round_glass() -> None:
    """On a cut bead a triangle has one normal; on a round one each corner its own, pointing away from the middle."""
    cut, ball = bead_mesh(bead("bicone", 4.0, 3.6, 0.8)), bead_mesh(bead("pressed-round", 4.0, 4.0, 0.8))
    facet = cut.normals[cut.faces[: cut.hole_from]]
    assert np.abs(facet - facet[:, :1]).max() < 1e-9
    outside = ball.faces[: ball.hole_from].ravel()
    away = ball.points[outside] / 2.0
    assert (away * ball.normals[outside]).sum(axis=1).min() > 0.97
    assert np.linalg.norm(ball.points[outside], axis=1) == pytest.approx(2.0)
