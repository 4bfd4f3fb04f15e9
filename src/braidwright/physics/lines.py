"""lines: what is done to a line of points in space: measured, divided, cut, turned, lifted and twisted.

Axes are those of `domain.geometry`: z is the axis of the rope, and turns are clockwise as seen from above.
"""

from math import radians

import numpy as np

from braidwright.physics.state import Floats

FINELY_DEG = 6.0  # the twist within which a piece is taken to stay straight while it is twisted


def arc_of(points: Floats) -> Floats:
    """Length along a line up to each of its points, from 0, (points,) mm."""
    return np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])


def length_of(points: Floats) -> float:
    """Length of a line, mm."""
    return float(np.linalg.norm(np.diff(points, axis=0), axis=1).sum())


def points_at(points: Floats, where: Floats, along: Floats | None = None) -> Floats:
    """Points on a line.

    Args:
        points: The line, (points, 3) mm.
        where: Places on it, (places,).
        along: The place of every point, rising; None for their numbers.
    """
    places = np.arange(len(points)) if along is None else along
    return np.stack([np.interp(where, places, points[:, axis]) for axis in range(3)], axis=1)


def between(points: Floats, start: float, end: float) -> Floats:
    """The part of a line between two places, whole numbers being its points."""
    return points_at(points, np.concatenate([[start], np.arange(np.floor(start) + 1.0, end), [end]]))


def carried(points: Floats, lift_mm: float, turn_deg: float) -> Floats:
    """Points lifted, and turned clockwise."""
    there = _turned(points, np.full(len(points), radians(turn_deg)))
    there[:, 2] += lift_mm
    return there


def twisted(points: Floats, deg_per_mm: float, from_deg: float = 0.0) -> Floats:
    """A line turned clockwise as it rises; a straight piece becomes a bent one, so long ones are divided first.

    Args:
        points: The line, (points, 3) mm.
        deg_per_mm: Turn for every millimetre of height.
        from_deg: Turn at height 0.
    """
    fine = _finely(points, deg_per_mm)
    return _turned(fine, np.radians(from_deg + deg_per_mm * fine[:, 2]))


def _turned(points: Floats, angle: Floats) -> Floats:
    c, s = np.cos(angle), np.sin(angle)
    x, y, z = points.T
    return np.stack([c * x + s * y, c * y - s * x, z], axis=1)


def _finely(points: Floats, deg_per_mm: float) -> Floats:
    """The same line in pieces so short that each stays about straight when the line is twisted so much."""
    parts = np.maximum(1, np.ceil(np.abs(np.diff(points[:, 2]) * deg_per_mm) / FINELY_DEG)).astype(np.int64)
    return points_at(
        points, np.concatenate([index + np.arange(count) / count for index, count in enumerate(parts)] + [[len(parts)]])
    )
