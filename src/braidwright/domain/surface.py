"""surface: where every stitch lies on the rope, and which are its neighbours, for whole charts at a time."""

from dataclasses import dataclass
from math import pi

import numpy as np
from numpy.typing import NDArray

from braidwright.domain.braid import Braid
from braidwright.domain.chart import columns, even_angle, stations
from braidwright.domain.design import Design
from braidwright.domain.motif import Course

FloatArray = NDArray[np.float64]

# How far, in stitches of mean size, a neighbour may lie: the six or eight round a stitch. Our own choice, no source.
NEAR = 1.6


@dataclass(frozen=True, slots=True, kw_only=True)
class Ahead:
    """One neighbour that is worked on later.

    Attributes:
        rows: How many rows further on it lies.
        stitch: Its stitch in that row, from 0.
        share: Its share of what is handed on; the shares of a stitch add up to 1.
    """

    rows: int
    stitch: int
    share: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Surface:
    """The chart as it lies on the rope.

    Attributes:
        along_mm: Middle of each stitch along the rope, above the first stitch of row 1, (rows, stitches) mm.
        from_front_deg: How far round from the front line, -180 to under 180, clockwise positive, (rows, stitches).
        cell_mm: How much of the rope a stitch covers along it and round it, (stitches, 2) mm.
        radius_mm: From the axis to the middle of the beads.
    """

    along_mm: FloatArray
    from_front_deg: FloatArray
    cell_mm: FloatArray
    radius_mm: float


def surface_of(design: Design, course: Course) -> Surface:
    """Where every stitch lies; `motif.from_front` and `chart.surface_angle` for a whole design at once."""
    rows = np.arange(len(design.rows), dtype=np.float64)[:, None]
    every = stations(design.braid)
    steps = np.array([station.step for station in every])
    home = np.array([even_angle(design.braid, stitch) for stitch in range(design.width)])
    turned = home + course.drift_deg * (rows - (len(design.rows) - 1) / 2.0 + steps) - design.front_line.deg
    return Surface(
        along_mm=(rows + steps) * course.rise_mm,
        from_front_deg=wrapped(turned),
        cell_mm=_cells(design.braid, course),
        radius_mm=course.radius_mm,
    )


def wrapped(angle: FloatArray) -> FloatArray:
    """Angles from -180 to under 180, rounded so that equal ones are equal."""
    found: FloatArray = np.round((angle + 180.0) % 360.0, 9) % 360.0 - 180.0
    return found


def _cells(braid: Braid, course: Course) -> FloatArray:
    every = columns(braid)
    held = [len(every[station.column].stitches) for station in stations(braid)]
    wide = 2.0 * pi * course.radius_mm / len(every)
    return np.array([(course.rise_mm / count, wide) for count in held])


def neighbours_ahead(braid: Braid, course: Course, *, backward: bool) -> tuple[tuple[Ahead, ...], ...]:
    """For each stitch of a row, its neighbours that are worked on later, near ones with the greater share.

    A chart is worked on row by row, and within a row by height and then in working order, or, `backward`, against it:
    in turns, so that nothing is always handed on the same way round the rope. Mirroring keeps working order, and so
    the mirrored chart is worked on in the same order.
    """
    steps = [station.step for station in stations(braid)]
    sign = -1 if backward else 1
    rank = {stitch: (steps[stitch], sign * stitch) for stitch in range(len(steps))}
    return tuple(_ahead_of(stitch, braid, course, rank) for stitch in range(len(steps)))


def _ahead_of(stitch: int, braid: Braid, course: Course, rank: dict[int, tuple[float, int]]) -> tuple[Ahead, ...]:
    every = stations(braid)
    cells = _cells(braid, course)
    reach = NEAR * float(np.sqrt(cells[:, 0] * cells[:, 1]).mean())
    found: list[tuple[int, int, float]] = []
    for rows in range(3):
        for other in range(len(every)):
            if rows == 0 and rank[other] <= rank[stitch]:
                continue
            up = rows + every[other].step - every[stitch].step
            turn = even_angle(braid, other) - even_angle(braid, stitch) + course.drift_deg * up
            around = ((turn + 180.0) % 360.0 - 180.0) * pi / 180.0 * course.radius_mm
            away = float(np.hypot(up * course.rise_mm, around))
            if away <= reach:
                found.append((rows, other, round(1.0 / max(away, 1e-6) ** 2, 12)))
    total = sum(weight for _, _, weight in found)
    return tuple(Ahead(rows=rows, stitch=other, share=weight / total) for rows, other, weight in found)


def order_of(braid: Braid, *, backward: bool) -> tuple[int, ...]:
    """The stitches of a row in the order they are worked on; see `neighbours_ahead`."""
    steps = [station.step for station in stations(braid)]
    return tuple(sorted(range(len(steps)), key=lambda stitch: (steps[stitch], -stitch if backward else stitch)))
