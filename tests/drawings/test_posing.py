"""A rope laid straight, bent round a ring and seen end-on.

The length of the line beside an ellipse: J. Steiner's formula (1840, from memory). Perimeter: S. Ramanujan's second
approximation (1914, from memory), right to a millionth for these ellipses.
"""

from math import hypot, pi, sqrt

import numpy as np
import pytest

from braidwright.drawings.posing import Bent, EndOn, Pose, Straight, ring_of

RING = ring_of(175.0, 0.75)
POSES: tuple[Pose, ...] = (
    Straight(turned_deg=40.0, left=3.0, axis=20.0, zoom=2.0),
    EndOn(turned_deg=40.0, centre=(10.0, 10.0), zoom=2.0),
    Bent(ring=RING, distance=3.4, start=14.0, turned_deg=40.0, centre=(50.0, 40.0), zoom=2.0),
)
SPACE = np.random.default_rng(3).uniform(-3.0, 3.0, (40, 3)) + np.array((0.0, 0.0, 60.0))


def test_the_ring_has_its_girth() -> None:
    a, b = RING.half
    assert b == pytest.approx(0.75 * a)
    h = ((a - b) / (a + b)) ** 2
    assert pi * (a + b) * (1 + 3 * h / (10 + sqrt(4 - 3 * h))) == pytest.approx(175.0, rel=1e-5)


def test_a_rope_as_long_as_the_line_beside_the_ring_closes() -> None:
    whole = 175.0 + 2.0 * pi * 3.4
    bent = POSES[2]
    ends = bent.points(np.array([(0.0, 0.0, 0.0), (0.0, 0.0, whole)]))
    assert ends[0] == pytest.approx(ends[1], abs=2e-3)


def test_the_axis_keeps_its_length_when_bent() -> None:
    along = np.linspace(0.0, 160.0, 3201)
    points = POSES[2].points(along[:, None] * np.array((0.0, 0.0, 1.0)))[:, :2] / 2.0
    gone = np.concatenate(([0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))))
    assert gone == pytest.approx(along, abs=0.01)


@pytest.mark.parametrize("pose", POSES)
def test_a_pose_turns_and_never_mirrors(pose: Pose) -> None:
    """Right, up and toward the reader, of three vectors that are a right-handed frame: determinant +1."""
    for point in SPACE:
        three = pose.directions(np.repeat(point[None], 3, axis=0), np.eye(3)) * np.array((1.0, -1.0, 1.0))
        assert three @ three.T == pytest.approx(np.eye(3), abs=1e-9)
        assert np.linalg.det(three) == pytest.approx(1.0)


@pytest.mark.parametrize("pose", POSES)
def test_directions_are_those_in_which_points_move(pose: Pose) -> None:
    """Across the rope exactly; along it a bent rope is longer outside than inside, and only the direction agrees."""
    for axis, step in enumerate(np.eye(3)):
        moved = (pose.points(SPACE + 1e-4 * step) - pose.points(SPACE)) / 1e-4 * np.array((0.5, 0.5, 1.0))
        told = pose.directions(SPACE, np.repeat(step[None], len(SPACE), axis=0))
        size = np.linalg.norm(moved, axis=1, keepdims=True)
        if axis < 2:
            assert size == pytest.approx(1.0, abs=1e-3)
        assert moved / size == pytest.approx(told, abs=0.02)


def test_the_front_lies_outside_and_the_middle_of_the_rope_on_top() -> None:
    bent = POSES[2]
    whole = 175.0 + 2.0 * pi * 3.4
    turn = np.radians(40.0)
    front, middle = np.array((np.sin(turn), np.cos(turn), 0.0)), np.array((0.0, 0.0, whole / 2.0 - 14.0))
    x, y, depth = bent.points((middle + 2.0 * front)[None])[0]
    assert (x, y, depth) == pytest.approx((50.0, 40.0 - 2.0 * (RING.half[1] + 3.4 + 2.0), 0.0), abs=1e-2)
    for z in (5.0, 60.0, 150.0):
        out, back = (bent.points((np.array((0.0, 0.0, z)) + by * front)[None])[0] for by in (2.0, -2.0))
        assert hypot(out[0] - 50.0, out[1] - 40.0) > hypot(back[0] - 50.0, back[1] - 40.0) + 7.0
