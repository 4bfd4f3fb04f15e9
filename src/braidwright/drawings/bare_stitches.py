"""bare stitches: where a cord lies open on the outside, found on the cords themselves."""

from dataclasses import dataclass
from itertools import pairwise
from math import ceil

import numpy as np

from braidwright.domain.braid import Braid
from braidwright.domain.chart import stations
from braidwright.domain.design import Design
from braidwright.domain.geometry import FloatArray, Geometry
from braidwright.domain.tray import BARE
from braidwright.domain.walk import IntArray, stitch_cords

WINDOW = 0.55  # rows up and down from where the chart expects a stitch
OUTSIDE = 0.97  # of the farthest point of a cord: what lies so far out belongs to the stitch
BEYOND = 0.2  # rows more than a cord rests: so much of it may lie open below its first stitch and above its last one


def resting_rows(braid: Braid) -> int:
    """Over about how many rows before and after its own the cord of a stitch may lie open: as many as it rests."""
    return max(2, ceil(braid.cord_count / braid.stitches_per_row))


@dataclass(frozen=True, slots=True, kw_only=True)
class BareStitch:
    """A stitch without a bead.

    Attributes:
        row: From 0; one of the lead-in lies below 0, one of the lead-out at or beyond the rows of the design.
        stitch: From 0.
        cord: Which cord makes it.
        line: The cord from where it comes out of the inside to where it goes back in, (points, 3) mm.
        middle: Place in the line of the middle of the stitch.
        of: Its name, such as "stitch-3-2"; "" in a lead.
    """

    row: int
    stitch: int
    cord: int
    line: FloatArray
    middle: int
    of: str


def bare_stitches(design: Design, geometry: Geometry, lead_rows: int = 0) -> tuple[BareStitch, ...]:
    """The bare stitches of a rope: near the height of their stitch, where their cord is farthest from the axis.

    Args:
        design: The design.
        geometry: Its rope in space.
        lead_rows: Of so many rows of the leads too, on either side.
    """
    if not any(BARE in text for text in design.rows):
        return ()
    made_by = stitch_cords(design.braid, len(design.rows) + 2 * lead_rows, -lead_rows)
    found = [
        one
        for cord, curve in enumerate(geometry.cords)
        for one in _of_cord(design, geometry, (cord, curve), np.argwhere(made_by == cord) - np.array((lead_rows, 0)))
    ]
    return tuple(sorted(found, key=lambda one: (one.row, one.stitch)))


def _of_cord(design: Design, geometry: Geometry, of: tuple[int, FloatArray], own: IntArray) -> tuple[BareStitch, ...]:
    """The bare stitches of one cord, from those it makes."""
    cord, curve = of
    steps = np.array([station.step for station in stations(design.braid)])
    inner = np.clip(own[:, 0], 0, len(design.rows) - 1)
    rises = np.diff(geometry.heights)[inner]
    heights = geometry.heights[inner] + (own[:, 0] - inner + 0.5 + steps[own[:, 1]]) * rises
    climb, away = np.maximum.accumulate(curve[:, 2]), np.hypot(curve[:, 0], curve[:, 1])
    middles = [
        _farthest(away, climb, float(height), WINDOW * float(rise)) for height, rise in zip(heights, rises, strict=True)
    ]
    if not middles:
        return ()
    beyond = resting_rows(design.braid) + BEYOND
    ends = np.searchsorted(climb, (heights[0] - beyond * rises[0], heights[-1] + beyond * rises[-1]))
    stops = [int(ends[0]), *middles, min(int(ends[1]), len(curve) - 1)]
    inside = [low + int(away[low : max(low, high) + 1].argmin()) for low, high in pairwise(stops)]
    is_row = (own[:, 0] >= 0) & (own[:, 0] < len(design.rows))
    return tuple(
        BareStitch(
            row=int(row),
            stitch=int(at),
            cord=cord,
            line=curve[low : high + 1],
            middle=min(max(0, middle - low), high - low),
            of=f"stitch-{row + 1}-{at + 1}" if is_inside else "",
        )
        for (row, at), is_inside, low, middle, high in zip(own, is_row, inside, middles, inside[1:], strict=False)
        if high > low and (not is_inside or design.rows[row][at] == BARE)
    )


def _farthest(away: FloatArray, climb: FloatArray, height: float, window: float) -> int:
    """The middle of the part of a cord that lies on the outside near a height, of several the nearest.

    Args:
        away: How far from the axis its points are, mm.
        climb: How high it has come by each of them, mm.
        height: Where the stitch is expected, mm.
        window: How far up and down from there it may be, mm.
    """
    low, high = np.searchsorted(climb, (height - window, height + window)).tolist()
    low = min(low, len(away) - 1)
    part = away[low : max(low + 1, high)]
    far = low + np.flatnonzero(part >= OUTSIDE * part.max())
    runs = np.split(far, np.flatnonzero(np.diff(far) > 1) + 1)
    middles = [(int(run[0]) + int(run[-1])) // 2 for run in runs]
    return min(middles, key=lambda at: abs(float(climb[at]) - height))
