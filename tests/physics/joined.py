"""Ways joined into whole cords, and the signed crossings of such cords."""

from math import radians

import numpy as np

from braidwright.domain.braid import Braid
from braidwright.domain.walk import IntArray, stitch_cords
from braidwright.physics.state import Floats
from braidwright.physics.ways import Ways

SIGHT_DEG = 42.3  # a direction to look from in which nothing lines up


def stitches_of(braid: Braid, cord: int, rows: int, first: int = 0) -> IntArray:
    """Row and stitch of everything one cord makes in so many rows from `first` on, (n, 2)."""
    found = np.argwhere(stitch_cords(braid, rows, first) == cord)
    found[:, 0] += first
    return found


def whole_cords(ways: Ways, braid: Braid, rows: int, first: int = 0) -> list[Floats]:
    """Every cord, as one line from its first stitch in these rows to the one after its last, (points, 3) mm."""
    lines = []
    for cord in range(braid.cord_count):
        own = stitches_of(braid, cord, rows, first)
        runs = [ways.carried(ways.stitches[stitch], row) for row, stitch in own.tolist()]
        lines.append(np.concatenate([*(run[:-1] for run in runs), runs[-1][-1:]]))
    return lines


def crossing_sums(cords: list[Floats], ways: Ways, low: float, high: float) -> IntArray:
    """Right-handed less left-handed crossings of every two cords between two heights, the turn of the rows undone.

    Seen from one side; right-handed: both cords running upward, the near one rises to the right.
    """
    seen = [_seen(cord, ways) for cord in cords]
    table = np.zeros((len(cords), len(cords)), dtype=np.int64)
    for one in range(len(cords)):
        for other in range(one):
            table[one, other] = table[other, one] = _sum(seen[one], seen[other], low, high)
    return table


def _seen(points: Floats, ways: Ways) -> Floats:
    """To the right, upward and toward the eye, the drift undone; both axes systems are right-handed."""
    turn = radians(SIGHT_DEG) - np.radians(ways.drift_deg) * points[:, 2] / ways.rise_mm
    x, y, z = points.T
    c, s = np.cos(turn), np.sin(turn)
    # turned clockwise by `turn` as seen from above, then looked at from the south: east is right, south is near
    return np.stack([c * x + s * y, z, -(c * y - s * x)], axis=1)


def _sum(one: Floats, other: Floats, low: float, high: float) -> int:
    a, ab = one[:-1, None, :], np.diff(one, axis=0)[:, None, :]
    c, cd = other[None, :-1, :], np.diff(other, axis=0)[None, :, :]
    span = ab[..., 0] * cd[..., 1] - ab[..., 1] * cd[..., 0]
    span = np.where(span == 0.0, np.nan, span)  # of parallel pieces, which never meet
    between = c - a
    s = (between[..., 0] * cd[..., 1] - between[..., 1] * cd[..., 0]) / span
    t = (between[..., 0] * ab[..., 1] - between[..., 1] * ab[..., 0]) / span
    height = a[..., 1] + s * ab[..., 1]
    is_met = (s >= 0.0) & (s < 1.0) & (t >= 0.0) & (t < 1.0) & (height >= low) & (height < high)
    nearer = a[..., 2] + s * ab[..., 2] - c[..., 2] - t * cd[..., 2]
    # the near cord turned to the far one, counter-clockwise: then the near one rises to the right
    signs = np.where(is_met, np.sign(span) * np.sign(nearer), 0.0)
    return round(float(signs.sum()))
