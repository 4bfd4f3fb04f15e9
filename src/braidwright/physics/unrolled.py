"""unrolled: the cords of a settled rope followed from end to end, from copy to copy.

A cell holds each cord from one cut to the next; here the parts are put together again.
"""

from dataclasses import dataclass

import numpy as np

from braidwright.domain.braid import Braid
from braidwright.domain.chart import stations
from braidwright.physics.lines import between, carried
from braidwright.physics.state import Floats
from braidwright.physics.strung import Strung
from braidwright.physics.ways import Ways


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Cords:
    """The cords of a rope and of its copies above.

    Attributes:
        lines: For every place before the first row: the way of its cord over so many laps, (points, 3) mm.
        stitches: For every place: rows (row, stitch) of what it makes, rows counted on from lap to lap.
        middles: For every place: where the middle of each is, as a place between points of its line.
    """

    lines: tuple[Floats, ...]
    stitches: tuple[tuple[tuple[int, int], ...], ...]
    middles: tuple[tuple[float, ...], ...]


def unroll(strung: Strung, points: Floats, tall_mm: float, turn_deg: float, rows: int, laps: int) -> Cords:
    """The cords over a number of laps of a cell of so many rows."""
    own = _own_stitches(strung)
    then = strung.cell.follows.tolist()
    lines, stitches, middles = [], [], []
    for place in range(len(then)):
        at, runs, made, where, count = place, [], [], [], 0
        for lap in range(laps):
            first, last = strung.cell.strands[at]
            runs.append(carried(points[first : last + (lap == laps - 1)], tall_mm * lap, turn_deg * lap))
            made += [(row + lap * rows, stitch) for _, (row, stitch) in own[at]]
            where += [middle - first + count for middle, _ in own[at]]
            count += len(runs[-1])
            at = then[at]
        lines.append(np.concatenate(runs))
        stitches.append(tuple(made))
        middles.append(tuple(where))
    return Cords(lines=tuple(lines), stitches=tuple(stitches), middles=tuple(middles))


def uniform_ways(braid: Braid, strung: Strung, points: Floats, tall_mm: float, drift_deg: float, rows: int) -> Ways:
    """The ways of a uniform braid, from a settled cell of so many rows."""
    laps = 2
    found: dict[int, Floats] = {}
    while len(found) < braid.stitches_per_row:
        laps *= 2
        cords = unroll(strung, points, tall_mm, drift_deg * rows, rows, laps)
        for line, made, middles in zip(cords.lines, cords.stitches, cords.middles, strict=True):
            for index, (row, stitch) in enumerate(made[:-1]):
                if row < rows and stitch not in found:
                    way = between(line, middles[index], middles[index + 1])
                    found[stitch] = carried(way, -row * tall_mm / rows, -row * drift_deg)
    idle = [
        unroll(strung, points, tall_mm, drift_deg * rows, rows, 1).lines[p]
        for p, m in enumerate(cords.stitches)
        if not m
    ]
    rise = tall_mm / rows
    wanted = float(np.mean([0.5 + station.step for station in stations(braid)])) * rise
    lift = wanted - float(np.mean([way[0, 2] for way in found.values()]))  # a settled cell may have slid along its axis
    return Ways(
        stitches=tuple(carried(found[stitch], lift, 0.0) for stitch in range(braid.stitches_per_row)),
        idle=tuple(carried(between(line, 0.0, (len(line) - 1) / rows), lift, 0.0) for line in idle),
        rise_mm=rise,
        drift_deg=drift_deg,
    )


def _own_stitches(strung: Strung) -> list[list[tuple[float, tuple[int, int]]]]:
    """For every strand: where the middle of each of its stitches is among the points, and which it is, in order."""
    cell = strung.cell
    found: list[list[tuple[float, tuple[int, int]]]] = [[] for _ in cell.strands]
    for bead, (row, stitch, place) in enumerate(strung.stitches.tolist()):
        if place == 0:
            count = int(((strung.stitches[:, 0] == row) & (strung.stitches[:, 1] == stitch)).sum())
            found[cell.rod_strand[bead]].append((float(cell.rods[bead]) + 0.5 * count, (row, stitch)))
    for row, stitch, point in strung.marks.tolist():
        strand = int(np.searchsorted(cell.strands[:, 1], point))
        found[strand].append((float(point), (row, stitch)))
    return [sorted(each) for each in found]
