"""Cords as tubes: closed at both ends, as thick as they are told, without a twist of their own."""

from math import cos, pi, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from braidwright.drawings.meshes.cord_mesh import cord_meshes, thin
from braidwright.drawings.meshes.mesh import Mesh
from glb_file import edge_counts, volume

SIDES = 8
SHARE = SIDES * sin(2.0 * pi / SIDES) / (2.0 * pi)  # of a circle, what a polygon of so many corners in it holds


def circle(radius: float, turn: float, nodes: int = 200) -> NDArray[np.float64]:
    angle = np.linspace(0.0, turn, nodes)
    return radius * np.stack((np.cos(angle), np.sin(angle), np.zeros(nodes)), axis=1)


def tube(curve: NDArray[np.float64], diameter: float = 1.0) -> Mesh:
    return cord_meshes((curve,), diameter, SIDES)[0]


def test_a_straight_cord_is_a_prism() -> None:
    made = tube(np.array([(0.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 0.0, 4.0)]), 2.0)
    assert len(made.faces) == 4 * SIDES
    assert volume(made.points, made.faces) == pytest.approx(SHARE * pi * 4.0)
    assert made.points[:, 2].min() == 0.0
    assert made.points[:, 2].max() == 4.0


def test_a_bow_holds_what_pappus_says() -> None:
    """Pappus: area of the cross-section times the way of its middle."""
    made = tube(circle(5.0, 1.5 * pi))
    assert volume(made.points, made.faces) == pytest.approx(SHARE * pi / 4.0 * 5.0 * 1.5 * pi, rel=0.035)


def test_every_ring_is_as_wide_as_the_cord() -> None:
    made = tube(circle(5.0, 1.5 * pi))
    body = made.points[2 * (SIDES + 1) :]
    off = np.hypot(np.hypot(body[:, 0], body[:, 1]) - 5.0, body[:, 2])
    assert off == pytest.approx(0.5, abs=0.02)


def test_the_ends_are_closed_and_normals_point_out() -> None:
    """Euler's formula: corners - edges + triangles is 2 for a solid without a hole."""
    made = tube(circle(5.0, 1.2 * pi))
    corners, edges, is_closed = edge_counts(made.points, made.faces)
    assert is_closed
    assert corners - edges + len(made.faces) == 2
    a, b, c = (made.points[made.faces[:, n]] for n in range(3))
    for n in range(3):
        assert ((np.cross(b - a, c - a) * made.normals[made.faces[:, n]]).sum(axis=1) > 0.0).all()


def test_the_frame_does_not_twist() -> None:
    """Along a plane curve a frame that minimises rotation keeps its angle to the plane (Wang et al. 2008)."""
    made = tube(circle(5.0, 1.9 * pi))
    rings = made.normals[2 * (SIDES + 1) :].reshape(-1, SIDES, 3)
    assert np.abs(rings[:, :, 2] - rings[:1, :, 2]).max() < 1e-9


def test_round_a_helix_it_turns_back_by_the_torsion() -> None:
    """A rotation-minimising frame turns against Frenet's by the torsion times the length (Bishop 1975)."""
    radius, rise, turns = 3.0, 2.0, 1.0
    angle = np.linspace(0.0, 2.0 * pi * turns, 2001)
    curve = np.stack((radius * np.cos(angle), radius * np.sin(angle), rise * angle), axis=1)
    rings = tube(curve).normals[2 * (SIDES + 1) :].reshape(-1, SIDES, 3)
    size = np.hypot(radius, rise)
    tangent = np.array((0.0, radius, rise)) / size  # the same at both ends of a whole turn
    inward, other = np.array((-1.0, 0.0, 0.0)), np.cross(tangent, (-1.0, 0.0, 0.0))
    start, end = (np.arctan2(ring[0] @ other, ring[0] @ inward) for ring in (rings[0], rings[-1]))
    expected = -rise / size**2 * size * 2.0 * pi * turns
    assert cos(end - start - expected) > cos(0.12)


def test_cords_are_walked_together_but_stay_apart() -> None:
    """A short cord beside a long one is the tube it is alone."""
    short, long = np.array([(0.0, 0.0, 0.0), (1.0, 0.0, 0.0)]), circle(5.0, 1.5 * pi)
    for one, other in zip(cord_meshes((short, long), 1.0, SIDES), (tube(short), tube(long)), strict=True):
        assert one.points == pytest.approx(other.points)
        assert np.array_equal(one.faces, other.faces)


def test_triangles_of_a_short_cord_begin_those_of_a_longer_one() -> None:
    short, long = cord_meshes((circle(5.0, pi), circle(5.0, 1.5 * pi)), 1.0, SIDES)
    assert len(short.faces) < len(long.faces)
    assert np.array_equal(short.faces, long.faces[: len(short.faces)])


def test_nodes_that_say_nothing_are_left_out() -> None:
    line = np.stack((np.linspace(0.0, 9.0, 50), np.zeros(50), np.zeros(50)), axis=1)
    assert np.array_equal(thin(np.concatenate((line, line[-1:]))), line[[0, -1]])
    corner = np.concatenate((line, line[-1] + line[:, [1, 0, 2]]))
    assert any(np.array_equal(node, line[-1]) for node in thin(corner))
    bow = thin(circle(5.0, pi, 500))
    assert len(bow) < 12
    assert np.linalg.norm((bow[1:] + bow[:-1]) / 2.0, axis=1).min() > 5.0 * cos(pi / 12.0)


def test_a_cord_without_length_is_still_a_solid() -> None:
    made = tube(np.zeros((3, 3)))
    assert edge_counts(made.points * 1e3, made.faces)[2]


@given(
    steps=st.lists(st.tuples(*[st.floats(min_value=-3.0, max_value=3.0)] * 3), min_size=1, max_size=12),
)
def test_any_curve_makes_a_closed_tube(steps: list[tuple[float, float, float]]) -> None:
    made = tube(np.cumsum([(0.0, 0.0, 0.0), *steps], axis=0), 0.5)
    assert np.isfinite(made.points).all()
    assert np.isfinite(made.normals).all()
    assert len(made.faces) % (2 * SIDES) == 0
