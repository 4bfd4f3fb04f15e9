"""Solved shapes: a whole rope put together from solved rows, the bare braid of its leads and bare rows with it.

What was solved is a lap: some rows after which everything comes again, turned and lifted. One row is a lap of a uniform
braid, a repeat of the pattern that of a repeating one, and all rows that of a design that never repeats. Between beaded
and bare rows every cord passes from one way to the other while it crosses to its next stitch. Beads stay as they are:
whatever is stretched, the cord in their holes lies straight.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from itertools import accumulate, pairwise
from math import ceil

import numpy as np

from braidwright.domain.chart import stations
from braidwright.domain.design import Design
from braidwright.domain.geometry import FloatArray, Geometry, reaches_of
from braidwright.domain.materials import Materials
from braidwright.domain.prediction import Basis
from braidwright.domain.walk import cycles, stitch_cords, walk
from braidwright.physics.ways import Ways

SPARE_ROWS = 2  # braided on beyond the ends of the leads and the next stitches there, to be cut off

Stitch = tuple[int, int]  # row and stitch, from 0; rows of the lead-in are below 0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Lap:
    """Solved rows after which everything comes again.

    Attributes:
        ways: What is a row to them is the whole lap: the stitches of all its rows, one row after the other.
        heights: Where every row of the lap begins, from 0, and where the last one ends, (rows + 1,) mm.
        outward: For beads that reach out, the direction in which they do, unit, by row in the lap, stitch and place in
            the drop; the others reach away from the axis.
    """

    ways: Ways
    heights: FloatArray
    outward: Mapping[tuple[int, int, int], FloatArray] = field(default_factory=dict)

    @property
    def rows(self) -> int:
        """How many rows it has."""
        return len(self.heights) - 1


def uniform_lap(ways: Ways) -> Lap:
    """The lap of a uniform braid: one row."""
    return Lap(ways=ways, heights=np.array((0.0, ways.rise_mm)))


def narrowed(lap: Lap, share: float, rise_share: float) -> Lap:
    """About how a lap would lie if it were thinner and lower: bare braid where its shape was not solved."""
    size = np.array((share, share, rise_share))
    ways = replace(
        lap.ways,
        stitches=tuple(way * size for way in lap.ways.stitches),
        idle=tuple(way * size for way in lap.ways.idle),
        rise_mm=lap.ways.rise_mm * rise_share,
    )
    return Lap(ways=ways, heights=lap.heights * rise_share)


def geometry_of(
    design: Design, materials: Materials, beaded: Lap, bare: Lap, *, from_bare: frozenset[int], basis: Basis
) -> Geometry:
    """The shape of a whole rope.

    Args:
        design: The design.
        materials: Its cord and beads.
        beaded: The rows with beads; row 0 of the design is its first row.
        bare: Bare braid, of which the leads are made.
        from_bare: The rows of the design, from 0, that are made of it too.
        basis: What the shape rests on.
    """
    work = _Work(design=design, materials=materials, beaded=beaded, bare=bare, from_bare=from_bare)
    cords, found = [], _Beads()
    for cord in range(design.braid.cord_count):
        own = work.stitches_of(cord)
        cords.append(_clipped(_woven(work, own, cord, found) if own else _idle(work, cord), work.ends))
    order = sorted(range(len(found.stitches)), key=found.stitches.__getitem__)
    keys = tuple(found.keys[n] for n in order)
    centres, holes, outward = (_gathered(each, order) for each in (found.centres, found.holes, found.outward))
    return Geometry(
        keys=keys,
        stitches=np.array([found.stitches[n] for n in order], dtype=np.int64).reshape(-1, 3),
        bead_cords=np.array([found.cords[n] for n in order], dtype=np.int64),
        centres=centres,
        holes=holes,
        outward=outward,
        cords=tuple(cords),
        cord_mm=materials.cord.diameter_mm,
        heights=work.heights,
        reaches=reaches_of(tuple(map(materials.bead, keys)), centres, outward),
        basis=basis,
    )


@dataclass(slots=True)
class _Beads:
    """The beads as they are found, cord by cord."""

    keys: list[str] = field(default_factory=list)
    stitches: list[tuple[int, int, int]] = field(default_factory=list)
    cords: list[int] = field(default_factory=list)
    centres: list[FloatArray] = field(default_factory=list)
    holes: list[FloatArray] = field(default_factory=list)
    outward: list[FloatArray] = field(default_factory=list)


def _gathered(vectors: list[FloatArray], order: list[int]) -> FloatArray:
    return np.array([vectors[n] for n in order], dtype=np.float64).reshape(-1, 3)


# --- where rows lie, and which lap they are made of -------------------------------------------------------


class _Work:
    """The rope to be put together: its rows, those of the leads included."""

    def __init__(
        self, *, design: Design, materials: Materials, beaded: Lap, bare: Lap, from_bare: frozenset[int]
    ) -> None:
        self.design, self.materials, self.beaded, self.bare, self.from_bare = design, materials, beaded, bare, from_bare
        self.found: dict[tuple[Stitch, bool], FloatArray] = {}  # ways, each of which is asked for a few times
        rows, bare_rise = len(design.rows), float(bare.heights[-1]) / bare.rows
        # a cord makes its next stitch while it goes once round its cycle of places
        spare = SPARE_ROWS + max(len(cycle) for cycle in cycles(walk(design.braid).permutation))
        self.first = -ceil(design.lead_in / bare_rise) - spare
        self.last = rows + ceil(design.lead_out / bare_rise) + spare
        # half-way between the last stitches of a row and the first ones of the next, rows above where the row begins
        self.shift = max(station.step for station in stations(design.braid)) / 2.0
        rises = [self._rise(row) for row in range(self.first, self.last)]
        edges = np.concatenate(([0.0], np.cumsum(rises)))
        self.edges = edges - edges[-self.first]
        self.heights = self.edges[-self.first : -self.first + rows + 1].copy()
        self.ends = (-design.lead_in, float(self.heights[-1]) + design.lead_out)
        self.made_by = stitch_cords(design.braid, self.last - self.first, self.first)

    def _rise(self, row: int) -> float:
        lap = self.lap(row)
        within = row % lap.rows
        return float(lap.heights[within + 1] - lap.heights[within])

    def lap(self, row: int) -> Lap:
        """What a row is made of."""
        is_bare = row < 0 or row >= len(self.design.rows) or row in self.from_bare
        return self.bare if is_bare else self.beaded

    def drop(self, stitch: Stitch) -> tuple[str, ...]:
        """The single beads on a stitch."""
        row, at = stitch
        return self.design.tray.beads_of(self.design.rows[row][at]) if 0 <= row < len(self.design.rows) else ()

    def stitches_of(self, cord: int) -> list[Stitch]:
        """Everything that a cord makes."""
        return [(int(row) + self.first, int(at)) for row, at in np.argwhere(self.made_by == cord)]

    def way(self, stitch: Stitch, lap: Lap) -> FloatArray:
        """The way from a stitch to its cord's next one in a lap, the middle row of the design unturned, mm."""
        key = (stitch, lap is self.beaded)
        if key not in self.found:
            (row, at), width = stitch, self.design.width
            over, within = divmod(row, lap.rows)
            self.found[key] = self.turned(lap.ways.carried(lap.ways.stitches[within * width + at], over), lap)
        return self.found[key]

    def turned(self, points: FloatArray, lap: Lap) -> FloatArray:
        """Points of a lap with the middle row of the design unturned."""
        back = (len(self.design.rows) - 1) / 2.0 / lap.rows
        found: FloatArray = lap.ways.carried(points, -back) + np.array((0.0, 0.0, back * lap.ways.rise_mm))
        return found

    def in_rows(self, points: FloatArray, lap: Lap) -> FloatArray:
        """The same points of a lap with their heights in rows; from row to row between the stitches of both."""
        height = points[:, 2] - self.shift * lap.heights[1]
        over = np.floor(height / lap.ways.rise_mm)
        within = np.interp(height - over * lap.ways.rise_mm, lap.heights, np.arange(lap.rows + 1))
        return np.column_stack((points[:, :2], over * lap.rows + within + self.shift))

    def lifted(self, rows: FloatArray) -> FloatArray:
        """The heights of the rope at so many rows from its first one, mm; the way back from `in_rows`."""
        found: FloatArray = float(self.heights[1]) * self.shift + np.interp(
            rows - self.shift, np.arange(self.first, self.last + 1), self.edges
        )
        return found


# --- the way of a cord ------------------------------------------------------------------------------------


def _woven(work: _Work, own: list[Stitch], cord: int, found: _Beads) -> FloatArray:
    """A cord from its first stitch to its last one, and its beads."""
    spans = [_span(work, one, other) for one, other in pairwise(own)]
    rods: list[FloatArray] = []
    for before, stitch, span in zip((own[0], *own), own[:-1], spans, strict=False):
        rods.append(_rod(work, before, stitch))
        if len(rods[-1]):
            _string(work, stitch, (span[0], rods[-1]), cord, found)
    rods.append(np.zeros((0, 3)))
    parts = []
    for index, span in enumerate(spans):
        if len(rods[index]):
            parts.append(span[0] + rods[index])
        parts.append(_between(span, *(float(_half(rods[at])) for at in (index, index + 1))))
    return np.concatenate(parts)


def _span(work: _Work, one: Stitch, other: Stitch) -> FloatArray:
    """The way of a cord between two stitches, from one lap to the other when they are made of two."""
    first, second = work.lap(one[0]), work.lap(other[0])
    points = work.in_rows(work.way(one, first), first)
    if second is not first:
        beyond = work.in_rows(work.way(one, second), second)
        count = 2 * max(len(points), len(beyond))
        share = np.linspace(0.0, 1.0, count)[:, None]
        over = share * share * (3.0 - 2.0 * share)
        points = (1.0 - over) * _evenly(points, count) + over * _evenly(beyond, count)
    return np.column_stack((points[:, :2], work.lifted(points[:, 2])))


def _evenly(points: FloatArray, count: int) -> FloatArray:
    """So many points of a line, equally far apart."""
    arcs = _arcs(points)
    return _along(points, arcs, np.linspace(0.0, arcs[-1], count))


def _arcs(points: FloatArray) -> FloatArray:
    """How far along a line each of its points is."""
    found: FloatArray = np.concatenate(([0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))))
    return found


def _along(points: FloatArray, arcs: FloatArray, where: FloatArray) -> FloatArray:
    """The points of a line at these distances along it."""
    return np.stack([np.interp(where, arcs, points[:, axis]) for axis in range(3)], axis=1)


def _rod(work: _Work, before: Stitch, stitch: Stitch) -> FloatArray:
    """The cord inside the drop of a stitch, seen from the middle of the drop, (points, 3) mm; none of a bare stitch."""
    long = sum(work.materials.bead(key).length_mm for key in work.drop(stitch))
    if not long:
        return np.zeros((0, 3))
    lap = work.lap(stitch[0])
    # in the lap's own heights, whatever row the cord came from
    coming = work.way(before, lap)[:-1] if before != stitch else np.zeros((0, 3))
    line = np.concatenate((coming, work.way(stitch, lap)))
    arcs = _arcs(line) - _arcs(line)[len(coming)]
    inner = arcs[(np.abs(arcs) < long / 2.0 - 1e-6)]
    rod: FloatArray = _along(line, arcs, np.array((-long / 2.0, *inner, long / 2.0))) - line[len(coming)]
    return rod


def _half(rod: FloatArray) -> float:
    """Half the length of a rod."""
    return float(_arcs(rod)[-1]) / 2.0 if len(rod) else 0.0


def _between(span: FloatArray, start: float, end: float) -> FloatArray:
    """A span without what lies inside the drops at its ends; its last point is left to what follows."""
    arcs = _arcs(span)
    if start + end == 0.0:
        return span[:-1]
    kept: FloatArray = span[(arcs > start + 1e-6) & (arcs < arcs[-1] - end - 1e-6)]
    return kept


def _string(work: _Work, stitch: Stitch, rod: tuple[FloatArray, FloatArray], cord: int, found: _Beads) -> None:
    """The beads of a drop, one after the other on its rod: the middle of the drop, and the rod seen from there."""
    middle, line = rod
    keys = work.drop(stitch)
    lengths = [work.materials.bead(key).length_mm for key in keys]
    arcs = _arcs(line)
    for place, (key, low, long) in enumerate(zip(keys, accumulate(lengths, initial=0.0), lengths, strict=False)):
        start, end = _along(line, arcs, np.array((low, low + long)))
        centre = middle + (start + end) / 2.0
        hole = _unit(end - start)
        found.keys.append(key)
        found.stitches.append((*stitch, place))
        found.cords.append(cord)
        found.centres.append(centre)
        found.holes.append(hole)
        found.outward.append(_outward(work, (*stitch, place), centre, hole))


def _outward(work: _Work, bead: tuple[int, int, int], centre: FloatArray, hole: FloatArray) -> FloatArray:
    """The direction in which a bead reaches out: as solved, or away from the axis; square to its hole."""
    lap = work.lap(bead[0])
    over, within = divmod(bead[0], lap.rows)
    told = lap.outward.get((within, *bead[1:]))
    if told is None:
        way = np.array((centre[0], centre[1], 0.0))
    else:
        level = replace(lap.ways, rise_mm=0.0)
        way = work.turned(level.carried(told[None], over), replace(lap, ways=level))[0]
    return _unit(way - (way @ hole) * hole)


def _unit(vector: FloatArray) -> FloatArray:
    return vector / max(float(np.linalg.norm(vector)), 1e-9)


# --- the ends, and cords that make no stitch ----------------------------------------------------------------


def _idle(work: _Work, cord: int) -> FloatArray:
    """The way of a cord that makes no stitch; in the leads it runs straight on."""
    lap, braid = work.beaded, work.design.braid
    busy = {place for cycle in cycles(walk(braid).permutation) for place in cycle if _makes_stitches(cycle, work)}
    places = [place for place in range(braid.cord_count) if place not in busy]
    runs: list[FloatArray] = []
    place = cord
    for over in range(ceil(len(work.design.rows) / lap.rows)):
        points = work.turned(lap.ways.carried(lap.ways.idle[places.index(place)], over), lap)
        runs.append(work.in_rows(points, lap))
        for _ in range(lap.rows):
            place = walk(braid).permutation[place]
    line = np.concatenate(runs)
    line[:, 2] = work.lifted(line[:, 2])
    first, last = line[0].copy(), line[-1].copy()
    first[2], last[2] = work.edges[0], work.edges[-1]
    return np.concatenate((first[None], line, last[None]))


def _makes_stitches(cycle: tuple[int, ...], work: _Work) -> bool:
    return not set(walk(work.design.braid).movers).isdisjoint(cycle)


def _clipped(line: FloatArray, ends: tuple[float, float]) -> FloatArray:
    """The part of a cord between two heights."""
    low, high = ends
    first = int(np.flatnonzero(line[:, 2] < low)[-1])
    last = int(np.flatnonzero(line[:, 2] > high)[0])
    cut = [_at_height(line[at], line[at + 1], z) for at, z in ((first, low), (last - 1, high))]
    return np.concatenate((cut[0][None], line[first + 1 : last], cut[1][None]))


def _at_height(one: FloatArray, other: FloatArray, height: float) -> FloatArray:
    share = (height - one[2]) / (other[2] - one[2])
    point: FloatArray = one + share * (other - one)
    return point
