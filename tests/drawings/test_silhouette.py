"""The outline of a round bead against its solid, sampled point by point.

The solid is the spherodisc of physics.md, section 2: every point within the radius of the ball of a flat disc square to
the hole; for a bead longer than wide, of a rod along it. The samples know nothing of ellipses or of curves.
"""

from math import cos, hypot, pi, sin, sqrt

import numpy as np
import pytest

from braidwright.drawings.pen import Outline
from braidwright.drawings.silhouette import spherodisc

SIZES = [(3.0, 2.1), (2.1, 1.45), (4.0, 2.9), (4.0, 1.5), (3.0, 3.0), (3.0, 4.2)]  # the first three: trade-facts, 2
TOWARD = [0.0, 0.03, 0.1, 0.2, 0.5, 0.8, 1.0]
WAYS = np.linspace(0.0, 2.0 * pi, 240, endpoint=False)
NORMALS = np.stack((np.cos(WAYS), np.sin(WAYS)), axis=1)


def seen_along(outline: Outline) -> np.ndarray:
    """Points along an outline."""
    points: list[np.ndarray] = []
    for letter, curve in outline.pieces:
        ends = [np.array(point) for point in curve]
        if letter == "C":
            t = np.linspace(0.0, 1.0, 40)[1:, None]
            parts = ((1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t**2, t**3)
            points += list(sum(part * end for part, end in zip(parts, (points[-1], *ends), strict=True)))
        elif letter != "Z":
            points.append(ends[0])
    return np.array(points)


def solid(size: tuple[float, float], hole: tuple[float, float, float]) -> np.ndarray:
    """Points of the surface, dropped onto the page."""
    diameter, length = size
    ball = min(diameter, length) / 2.0
    axis = np.array(hole)
    side = np.cross(axis, (0.3, 0.5, 0.81))
    side /= np.linalg.norm(side)
    other = np.cross(axis, side)
    turns = np.linspace(0.0, 2.0 * pi, 120, endpoint=False)
    rim = (diameter / 2.0 - ball) * (np.cos(turns)[:, None] * side + np.sin(turns)[:, None] * other)
    core = np.concatenate((rim, [(length / 2.0 - ball) * axis, -(length / 2.0 - ball) * axis]))
    skin = ball * NORMALS  # of a ball, only the great circle that faces the page square on can be its outline
    points: np.ndarray = (core[:, None, :2] + skin[None]).reshape(-1, 2)
    return points


def area(support: np.ndarray) -> float:
    """Of a convex shape from its support function at even angles: half the sum of edges times distances."""
    step = WAYS[1]
    edges = np.roll(support, -1) + np.roll(support, 1) - 2.0 * support * cos(step)
    return float(0.5 * np.sum(support * edges) / sin(step))


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("toward", TOWARD)
@pytest.mark.parametrize("turned", [0.0, 0.7, 2.5, 4.4])
def test_the_outline_is_that_of_the_solid(size: tuple[float, float], toward: float, turned: float) -> None:
    lying = sqrt(1.0 - toward * toward)
    hole = (lying * cos(turned), lying * sin(turned), toward)
    drawn = (seen_along(spherodisc(size, hole)) @ NORMALS.T).max(axis=0)
    true = (solid(size, hole) @ NORMALS.T).max(axis=0)
    assert drawn == pytest.approx(true, rel=0.005)
    assert area(drawn) == pytest.approx(area(true), rel=0.005)


@pytest.mark.parametrize("size", SIZES)
def test_a_bead_is_as_long_and_as_wide_as_its_measures(size: tuple[float, float]) -> None:
    points = seen_along(spherodisc(size, (1.0, 0.0, 0.0)))
    assert 2.0 * points[:, 0].max() == pytest.approx(size[1], rel=1e-6)
    assert 2.0 * points[:, 1].max() == pytest.approx(size[0], rel=1e-6)


def test_a_hole_that_faces_the_reader_shows_a_circle() -> None:
    points = seen_along(spherodisc((3.0, 2.1), (0.0, 0.0, 1.0)))
    assert [hypot(x, y) for x, y in points] == pytest.approx([1.5] * len(points), rel=0.001)


def test_an_outline_has_few_pieces() -> None:
    """Eight curves and two straight lines at most, so that a picture of many beads stays small."""
    for toward in TOWARD:
        assert len(spherodisc((3.0, 2.1), (sqrt(1.0 - toward * toward), 0.0, toward)).pieces) <= 12
