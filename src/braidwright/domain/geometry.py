"""geometry: the predicted shape of a rope in space, as numbers: what engines make and drawings use.

The axis of the rope is z, pointing from the first braided end to the last; x points east and y north of the disk, all
in mm. Seen from the last braided end (from above the disk) angles run clockwise from north: a point at angle a and
radius r is (r sin a, r cos a).
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from braidwright.domain.errors import DesignError
from braidwright.domain.prediction import Basis

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Geometry:
    """Every bead and every cord of a rope, lying straight along z.

    Attributes:
        keys: Tray key of the single bead, for each bead in working order, (n,).
        stitches: Row, stitch and place in its drop of each bead, from 0, (n, 3).
        bead_cords: Which cord carries each bead, (n,).
        centres: Middle of the hole of each bead, (n, 3) mm.
        holes: Direction of the hole, first strung side to last, unit vectors, (n, 3).
        outward: Direction in which a bead with an off-centre hole reaches out, unit, square to the hole, (n, 3).
        cords: The axis of each cord from the first braided end to the last, each (nodes, 3) mm.
        cord_mm: Diameter of the cords, mm.
        length_mm: Length of the rows along z, mm.
        basis: What it rests on.

    Raises:
        DesignError: Arrays that do not belong together.
    """

    keys: tuple[str, ...]
    stitches: IntArray
    bead_cords: IntArray
    centres: FloatArray
    holes: FloatArray
    outward: FloatArray
    cords: tuple[FloatArray, ...]
    cord_mm: float
    length_mm: float
    basis: Basis

    def __post_init__(self) -> None:
        """Refuse arrays of unequal length, and make them read-only."""
        count = len(self.keys)
        wanted = {
            "stitches": (count, 3),
            "bead_cords": (count,),
            "centres": (count, 3),
            "holes": (count, 3),
            "outward": (count, 3),
        }
        for name, shape in wanted.items():
            array = getattr(self, name)
            if array.shape != shape:
                raise DesignError(f"Geometry: {name} has the shape {array.shape}, but {count} beads need {shape}.")
            array.setflags(write=False)
        for curve in self.cords:
            if curve.ndim != 2 or curve.shape[1] != 3 or len(curve) < 2:
                raise DesignError("Geometry: every cord needs at least two points of three numbers.")
            curve.setflags(write=False)
