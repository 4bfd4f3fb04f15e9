"""geometry: the predicted shape of a rope in space, as numbers: what engines make and drawings use.

The axis of the rope is z, pointing from the first braided end to the last; x points east and y north of the disk, all
in mm. Seen from the last braided end (from above the disk) angles run clockwise from north: a point at angle a and
radius r is (r sin a, r cos a).
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from braidwright.domain.bead import Bead
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
        heights: Where every row begins, from 0, and where the last one ends, (rows + 1,) mm.
        reaches: How far from the axis the outermost point of each bead lies, (n,) mm.
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
    heights: FloatArray
    reaches: FloatArray
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
            "reaches": (count,),
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
        if self.heights.ndim != 1 or len(self.heights) < 2 or self.heights[0] != 0.0 or np.diff(self.heights).min() < 0:
            raise DesignError("Geometry: the heights of the rows begin at 0 and never fall.")
        self.heights.setflags(write=False)

    @property
    def length_mm(self) -> float:
        """Length of the rows along z, mm."""
        return float(self.heights[-1])

    @property
    def hole_radius(self) -> float:
        """From the axis to the holes of most beads, mm; of a rope of cord only, to the farthest point of a cord."""
        places: FloatArray = self.centres if self.keys else np.concatenate(self.cords)
        away = np.hypot(places[:, 0], places[:, 1])
        return float(np.median(away) if self.keys else away.max())


def reaches_of(beads: tuple[Bead, ...], centres: FloatArray, outward: FloatArray) -> FloatArray:
    """How far from the axis the outermost point of each bead lies, (n,) mm.

    Args:
        beads: Their measures.
        centres: Middle of the hole of each, (n, 3) mm.
        outward: Direction in which one with an off-centre hole reaches out, unit, (n, 3).
    """
    round_mm = np.array([bead.diameter_mm / 2.0 for bead in beads])
    far = tips_of(beads, centres, outward)
    found: FloatArray = np.maximum(np.hypot(centres[:, 0], centres[:, 1]) + round_mm, np.hypot(far[:, 0], far[:, 1]))
    return found


def tips_of(beads: tuple[Bead, ...], centres: FloatArray, outward: FloatArray) -> FloatArray:
    """The farthest point of each bead that reaches out to one side, and the middle of any other, (n, 3) mm."""
    arms = np.array([bead.reach_mm if bead.stands_out else 0.0 for bead in beads])
    return centres + arms[:, None] * outward
