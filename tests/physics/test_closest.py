"""Nearest points of discs and straight pieces against a search by brute force; the geometry needs no other source."""

import numpy as np
import pytest

from braidwright.physics.closest import disc_and_piece, discs, onto_disc, pieces, point_on_piece
from braidwright.physics.state import Floats
from braidwright.physics.vectors import Vector

CASES = 40


def vector(values: Floats) -> Vector:
    x, y, z = (float(value) for value in values)
    return x, y, z


def unit_vector(rng: np.random.Generator) -> Floats:
    """A direction."""
    way = rng.normal(size=3)
    return np.asarray(way / np.linalg.norm(way))


def disc_points(centre: Floats, axis: Floats, radius: float) -> Floats:
    """Points all over a disc, (points, 3)."""
    side = np.cross(axis, [1.0, 0.0, 0.0] if abs(axis[0]) < 0.9 else [0.0, 1.0, 0.0])
    side /= np.linalg.norm(side)
    up = np.cross(axis, side)
    turns, radii = np.meshgrid(np.linspace(0.0, 2.0 * np.pi, 121), np.linspace(0.0, radius, 25))
    arms = np.cos(turns)[..., None] * side + np.sin(turns)[..., None] * up
    return np.asarray((centre + radii[..., None] * arms).reshape(-1, 3))


def apart(first: Floats, second: Floats) -> float:
    """The smallest distance between two clouds of points."""
    return float(min(np.linalg.norm(second - point, axis=1).min() for point in first))


@pytest.mark.parametrize("seed", range(CASES))
def test_two_pieces(seed: int) -> None:
    rng = np.random.default_rng(seed)
    a, ab, c, cd = rng.normal(size=(4, 3))
    if seed % 4 == 0:
        cd = ab * rng.normal()  # side by side
    s, t = pieces(vector(a), vector(ab), vector(c), vector(cd))
    found = np.linalg.norm(a + s * ab - c - t * cd)
    share = np.linspace(0.0, 1.0, 301)[:, None]
    brute = apart(a + share * ab, c + share * cd)
    assert brute - 0.01 <= found <= brute + 1e-9


@pytest.mark.parametrize("seed", range(CASES))
def test_a_disc_and_a_piece(seed: int) -> None:
    rng = np.random.default_rng(seed)
    axis, a, ab = unit_vector(rng), 2.0 * unit_vector(rng), rng.normal(size=3)
    p, t = disc_and_piece((0.0, 0.0, 0.0), vector(axis), 0.7, vector(a), vector(ab))
    found = np.linalg.norm(np.array(p) - a - t * ab)
    brute = apart(a + np.linspace(0.0, 1.0, 201)[:, None] * ab, disc_points(np.zeros(3), axis, 0.7))
    assert found == pytest.approx(brute, abs=0.03)
    assert np.linalg.norm(p) <= 0.7 + 1e-12
    assert abs(np.dot(p, axis)) < 1e-12


@pytest.mark.parametrize("seed", range(CASES))
def test_two_discs(seed: int) -> None:
    rng = np.random.default_rng(seed)
    axis, axis2, centre2 = unit_vector(rng), unit_vector(rng), 1.8 * unit_vector(rng)
    if seed % 4 == 0:
        axis2 = axis  # side by side, as the beads of a braid nearly are
    p, q = discs((0.0, 0.0, 0.0), vector(axis), 0.5, vector(centre2), vector(axis2), 0.8)
    brute = apart(disc_points(np.zeros(3), axis, 0.5), disc_points(centre2, axis2, 0.8))
    assert np.linalg.norm(np.subtract(p, q)) == pytest.approx(brute, abs=0.04)


def test_points_where_nothing_is_long_or_wide() -> None:
    assert point_on_piece((1.0, 0.0, 0.0), (0.0, 0.0, 0.0), (0.0, 0.0, 0.0)) == 0.0
    assert onto_disc((3.0, 4.0, 5.0), (0.0, 0.0, 1.0), (0.0, 0.0, 1.0), 0.0) == (0.0, 0.0, 1.0)
    assert pieces((0.0, 0.0, 0.0), (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 0.0)) == pytest.approx(
        (0.5, 0.0), abs=1
    )
