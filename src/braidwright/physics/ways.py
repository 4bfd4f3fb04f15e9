"""ways: where the cords of a uniform braid run, row after row. What a whole rope is started from.

Axes are those of `domain.geometry`: z is the axis of the rope and points the way it grows; x points east and y north of
the disk; angles run clockwise from north as seen from above.
"""

from dataclasses import dataclass
from math import cos, radians, sin

import numpy as np

from braidwright.physics.state import Floats

FINELY_DEG = 6.0  # the twist within which a piece is taken to stay straight while it is twisted


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ways:
    """A uniform braid: every row is the one before, turned and lifted.

    Attributes:
        stitches: For each stitch of a row, in working order, the way of its cord from the middle of that stitch in row
            0 to the middle of the same cord's next stitch, whatever row that is in; (points, 3) mm. The middle of the
            stitch is where the middle of its bead is.
        idle: The way over row 0 of each cord that makes no stitch at all, in order of its place; (points, 3) mm.
        rise_mm: Height of a row.
        drift_deg: Turn of a row, degrees clockwise.
    """

    stitches: tuple[Floats, ...]
    idle: tuple[Floats, ...]
    rise_mm: float
    drift_deg: float

    def carried(self, points: Floats, rows: float) -> Floats:
        """The same points so many rows further on."""
        turn = radians(self.drift_deg) * rows
        c, s = cos(turn), sin(turn)
        x, y, z = points.T
        return np.stack([c * x + s * y, c * y - s * x, z + self.rise_mm * rows], axis=1)


def finely(points: Floats, deg_per_mm: float) -> Floats:
    """The same line in pieces so short that each stays about straight when the line is twisted.

    Args:
        points: The line, (points, 3) mm.
        deg_per_mm: Of the twist that is meant, degrees a millimetre of height.
    """
    parts = np.maximum(1, np.ceil(np.abs(np.diff(points[:, 2]) * deg_per_mm) / FINELY_DEG)).astype(np.int64)
    where = np.concatenate([index + np.arange(count) / count for index, count in enumerate(parts)] + [[len(parts)]])
    return np.stack([np.interp(where, np.arange(len(points)), points[:, axis]) for axis in range(3)], axis=1)
