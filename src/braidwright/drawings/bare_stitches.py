"""bare stitches: where a cord lies open on the outside, found on the cords themselves."""

from dataclasses import dataclass

import numpy as np

from braidwright.domain.chart import stations
from braidwright.domain.design import Design
from braidwright.domain.geometry import FloatArray, Geometry
from braidwright.domain.tray import BARE
from braidwright.domain.walk import stitch_cords

WINDOW = 0.55  # rows up and down from where the chart expects a stitch
OUTSIDE = 0.97  # of the farthest point of a cord: what lies so far out belongs to the stitch


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BareStitches:
    """Every stitch without a bead, in working order.

    Attributes:
        stitches: Row and stitch, from 0.
        cords: Which cord makes it.
        centres: Its middle, (n, 3) mm.
        along: The direction of the cord there, unit.
        outward: Away from the axis and square to the cord, unit.
    """

    stitches: tuple[tuple[int, int], ...]
    cords: tuple[int, ...]
    centres: FloatArray
    along: FloatArray
    outward: FloatArray


def bare_stitches(design: Design, geometry: Geometry) -> BareStitches:
    """The bare stitches of a rope: near the height of their stitch, where their cord is farthest from the axis.

    Args:
        design: The design.
        geometry: Its rope in space.
    """
    heights = geometry.heights.tolist()
    own = [
        (row, at) for row, text in enumerate(design.rows) if BARE in text for at, key in enumerate(text) if key == BARE
    ]
    made_by = stitch_cords(design.braid, len(design.rows))
    steps = [station.step for station in stations(design.braid)]
    climbs = [np.maximum.accumulate(curve[:, 2]) for curve in geometry.cords]
    ends = np.zeros((len(own), 2, 3))
    for index, (row, at) in enumerate(own):
        cord, rise = int(made_by[row, at]), heights[row + 1] - heights[row]
        middle = heights[row] + (0.5 + steps[at]) * rise
        ends[index] = _outside(geometry.cords[cord], climbs[cord], (middle - WINDOW * rise, middle + WINDOW * rise))
    centres = ends.mean(axis=1)
    along = _unit(ends[:, 1] - ends[:, 0] + np.array((0.0, 0.0, 1e-9)))
    away = centres * np.array((1.0, 1.0, 0.0)) + np.array((0.0, 1e-9, 0.0))
    outward = _unit(away - np.einsum("ij,ij->i", away, along)[:, None] * along)
    cords = tuple(int(made_by[row, at]) for row, at in own)
    return BareStitches(stitches=tuple(own), cords=cords, centres=centres, along=along, outward=outward)


def _outside(curve: FloatArray, climb: FloatArray, span: tuple[float, float]) -> FloatArray:
    """The first and the last point of the part of a cord that lies on the outside, within a span of heights."""
    low = min(int(np.searchsorted(climb, span[0])), len(curve) - 1)
    part = curve[low : max(low + 1, int(np.searchsorted(climb, span[1])))]
    away = np.hypot(part[:, 0], part[:, 1])
    far = np.flatnonzero(away >= OUTSIDE * away.max())
    return part[[far[0], far[-1]]]


def _unit(vectors: FloatArray) -> FloatArray:
    size: FloatArray = np.linalg.norm(vectors, axis=1, keepdims=True)
    return vectors / np.maximum(size, 1e-12)
