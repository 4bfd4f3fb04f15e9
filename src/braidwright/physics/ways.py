"""ways: where the cords of a uniform braid run, row after row. What a whole rope is started from.

Axes are those of `domain.geometry`: z is the axis of the rope and points the way it grows; x points east and y north of
the disk; angles run clockwise from north as seen from above.
"""

from dataclasses import dataclass

from braidwright.physics.lines import carried
from braidwright.physics.state import Floats


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
        return carried(points, self.rise_mm * rows, self.drift_deg * rows)
