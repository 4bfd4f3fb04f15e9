"""Solved shapes: a whole rope as it was solved, as the geometry that pictures, models and the comfort arc rest on."""

import numpy as np

from braidwright.domain.design import Design
from braidwright.domain.geometry import FloatArray, Geometry
from braidwright.domain.prediction import Basis
from braidwright.physics.lines import carried
from braidwright.physics.measures import Whole


def geometry_of(design: Design, whole: Whole, cord_mm: float, drift_deg: float, basis: Basis = "solved") -> Geometry:
    """A solved rope with the tray keys of its beads, turned so that its middle row is not turned.

    Args:
        design: The design.
        whole: Its rope; row 0 is not turned there.
        cord_mm: Diameter of the cord.
        drift_deg: Turn of a row in it, degrees clockwise.
        basis: What it rests on.
    """
    back = -drift_deg * (len(design.rows) - 1) / 2.0

    def held(points: FloatArray) -> FloatArray:
        turned: FloatArray = carried(np.ascontiguousarray(points), 0.0, back)
        return turned

    start, end = held(whole.rods[:, 0]), held(whole.rods[:, 1])
    along = end - start
    return Geometry(
        keys=tuple(design.tray.beads_of(design.rows[row][at])[place] for row, at, place in whole.stitches.tolist()),
        stitches=whole.stitches.copy(),
        bead_cords=whole.bead_cords.copy(),
        centres=(start + end) / 2.0,
        holes=along / np.maximum(np.linalg.norm(along, axis=1, keepdims=True), 1e-9),
        outward=held(whole.outward),
        cords=tuple(map(held, whole.cords)),
        cord_mm=cord_mm,
        heights=whole.heights.copy(),
        reaches=whole.reaches.copy(),
        basis=basis,
    )
