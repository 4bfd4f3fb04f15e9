"""laid: the ways of a uniform braid laid out as the cords of a rope of rows that differ.

A rope with bigger beads or bare rows is the uniform one stretched and squeezed row by row. Space is stretched with what
lies in it, so no cord can come to the wrong side of another.
"""

from dataclasses import dataclass

import numpy as np

from braidwright.domain.braid import Braid
from braidwright.domain.walk import stitch_cords, walk
from braidwright.physics.lines import arc_of, points_at
from braidwright.physics.state import Floats
from braidwright.physics.ways import Ways

EARLIEST, LATEST = 0.3, 0.7  # of the way between two stitches: where a cord may be cut, so that no bead is


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Strand:
    """One cord of a rope, from the cut before its first stitch to the cut after its last one.

    Attributes:
        points: The way, (points, 3) mm.
        stitches: Rows (row, stitch) of those it makes, in order.
        middles: Place of the middle of each in `points`.
    """

    points: Floats
    stitches: tuple[tuple[int, int], ...]
    middles: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Rows:
    """How much each row of a rope differs from those of the uniform braid.

    Attributes:
        heights_mm: Where every row begins, from 0, and where the last one ends, (rows + 1,).
        widths: How many times wider each row is than the uniform braid, (rows,).
    """

    heights_mm: Floats
    widths: Floats

    def stretched(self, points: Floats, rise_mm: float) -> Floats:
        """Points of the uniform braid as they lie in this rope; what lies beyond its ends belongs to its copies."""
        count, tall = len(self.widths), float(self.heights_mm[-1])
        row = points[:, 2] / rise_mm
        lap = np.floor(row / count)
        height = np.interp(row - lap * count, np.arange(count + 1), self.heights_mm) + lap * tall
        middles = np.arange(-1, count + 1) + 0.5
        wide = np.interp(row - lap * count, middles, np.take(self.widths, np.arange(-1, count + 1), mode="wrap"))
        return np.stack([points[:, 0] * wide, points[:, 1] * wide, height], axis=1)


def uniform_rows(ways: Ways, count: int) -> Rows:
    """Rows that do not differ from those of the uniform braid."""
    return Rows(heights_mm=np.arange(count + 1, dtype=np.float64) * ways.rise_mm, widths=np.ones(count))


def lay(braid: Braid, ways: Ways, rows: Rows) -> tuple[Strand, ...]:
    """Every cord over a number of rows, in order of their places before the first row."""
    count = len(rows.widths)
    every = _stitches(braid, count)
    idle = [place for place, own in enumerate(every) if own is None]
    strands = []
    for place, own in enumerate(every):
        if own is None:
            points = _idle(braid, ways, (idle, place), count)
            strands.append(Strand(points=rows.stretched(points, ways.rise_mm), stitches=(), middles=()))
        else:
            strands.append(_strand(ways, rows, own, count))
    return tuple(strands)


def follows(braid: Braid, rows: int) -> tuple[int, ...]:
    """The strand in which the cord of each goes on after so many rows."""
    places = list(range(braid.cord_count))
    for _ in range(rows):
        places = [walk(braid).permutation[place] for place in places]
    return tuple(places)


def _stitches(braid: Braid, count: int) -> list[list[tuple[int, int]] | None]:
    """For each cord: its last stitch before row 0, those in the rows, its first one beyond; None for an idle cord."""
    before = after = walk(braid).repeats_home
    table = stitch_cords(braid, before + count + after, -before)
    found: list[list[tuple[int, int]] | None] = []
    for cord in range(braid.cord_count):
        own = [(int(row) - before, int(stitch)) for row, stitch in np.argwhere(table == cord)]
        inside = [at for at, (row, _) in enumerate(own) if 0 <= row < count]
        if not own:
            found.append(None)
            continue
        first = inside[0] if inside else next(at for at, (row, _) in enumerate(own) if row >= count)
        last = inside[-1] + 1 if inside else first
        found.append(own[first - 1 : last + 1])
    return found


def _strand(ways: Ways, rows: Rows, own: list[tuple[int, int]], count: int) -> Strand:
    width = len(ways.stitches)
    runs = [ways.carried(ways.stitches[stitch], row) for row, stitch in own[:-1]]
    start = _cut(own[0], own[1], 0, width)
    end = _cut(own[-2], own[-1], count, width)
    middles: list[int] = []
    points: list[Floats] = []
    for index, run in enumerate(runs):
        low = start if index == 0 else 0.0
        high = end if index == len(runs) - 1 else 1.0
        part = _part(run, low, high)
        if index > 0:
            middles.append(sum(len(each) for each in points))
        points.append(part if index == len(runs) - 1 else part[:-1])
    return Strand(
        points=rows.stretched(np.concatenate(points), ways.rise_mm), stitches=tuple(own[1:-1]), middles=tuple(middles)
    )


def _cut(one: tuple[int, int], other: tuple[int, int], row: int, width: int) -> float:
    """Where a way is cut that a row begins on: later rows later, but never near a stitch."""
    then, after = (at[0] + (at[1] + 0.5) / width for at in (one, other))
    return EARLIEST + (LATEST - EARLIEST) * (row - then) / (after - then)


def _part(points: Floats, low: float, high: float) -> Floats:
    """The part of a line between two shares of its length, both ends included."""
    arc = arc_of(points)
    first, last = low * arc[-1], high * arc[-1]
    where = np.concatenate([[first], arc[(arc > first + 1e-9) & (arc < last - 1e-9)], [last]])
    return points_at(points, where, arc)


def _idle(braid: Braid, ways: Ways, idle: tuple[list[int], int], count: int) -> Floats:
    """The way of a cord that makes no stitch: the places of all such cords, and its own."""
    places, place = idle
    runs = []
    for row in range(count):
        runs.append(ways.carried(ways.idle[places.index(place)], row))
        place = walk(braid).permutation[place]
    return np.concatenate([run[:-1] for run in runs[:-1]] + [runs[-1]])
