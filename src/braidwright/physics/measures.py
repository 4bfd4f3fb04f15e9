"""measures: a whole rope put together from the stretch of it that was solved, with its leads, and measured.

Axes are those of `domain.geometry`; row 0 of the design begins at height 0, and its cords are at home there.
"""

from dataclasses import dataclass, replace
from math import ceil

import numpy as np

from braidwright.domain.braid import Braid
from braidwright.domain.chart import stations
from braidwright.domain.walk import holders, walk
from braidwright.physics.laid import EARLIEST, LATEST, lay, uniform_rows
from braidwright.physics.lines import between, carried, length_of
from braidwright.physics.outcome import Outcome
from braidwright.physics.reach import disc_reaches
from braidwright.physics.rope import Stretch
from braidwright.physics.solids import Solid
from braidwright.physics.state import NO_TIP, Floats, Ints
from braidwright.physics.unrolled import Cords, unroll
from braidwright.physics.ways import Ways

MIRROR = np.array([-1.0, 1.0, 1.0])  # what lies east comes to lie west
JOINED_ROWS = 2.0  # bare rows over which the cords of a lead are led to where those of the beads begin
WAYS_ROUND = 90  # directions in which a bead is measured


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Finish:
    """What is needed to put a whole rope together.

    Attributes:
        braid: The braid.
        kinds: The solids of its beads.
        count: Rows of the design.
        cell_rows: Rows of the stretch that was solved.
        before: How many of those are bare rows before the first row of the design.
        drift_deg: Turn of a row, degrees clockwise.
        bare: The ways of bare cord.
        leads: Bare braid before the first row and after the last one, mm.
        core_mm: Diameter of the core it was solved on, or 0.
        cord_mm: Diameter of the cord.
    """

    braid: Braid
    kinds: tuple[Solid, ...]
    count: int
    cell_rows: int
    before: int
    drift_deg: float
    bare: Ways
    leads: tuple[float, float]
    core_mm: float
    cord_mm: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Whole:
    """A whole rope in space and its measures.

    Attributes:
        cords: The axis of every cord from the first braided end to the last, each (points, 3) mm.
        rods: The ends of the hole of every bead in working order, first strung side first, (beads, 2, 3) mm.
        outward: The direction in which it reaches out, or away from the axis, unit, square to the hole, (beads, 3).
        kinds: Kind of every bead, (beads,).
        stitches: Rows (row, stitch, place in the drop) of every bead, (beads, 3).
        bead_cords: Which cord carries it, (beads,).
        reaches: From the axis to the outermost point of every bead, mm, (beads,).
        heights: Where every row begins, from 0, and where the last one ends, mm, (rows + 1,).
        diameter_mm: Outside diameter over the commonest beads that do not reach out, or over the cord.
        take_up: Cord used per length of braid in the rows.
        bare_rise_mm: Height of a bare row.
        bare_take_up: Cord used per length of bare braid.
        core_mm: Diameter of the core it was solved on, or 0.
        hollow_mm: How wide the hole along the rope is that no core of the maker's fills, or 0.
        outcome: How the solve ended.
    """

    cords: tuple[Floats, ...]
    rods: Floats
    outward: Floats
    kinds: Ints
    stitches: Ints
    bead_cords: Ints
    reaches: Floats
    heights: Floats
    diameter_mm: float
    take_up: float
    bare_rise_mm: float
    bare_take_up: float
    core_mm: float
    hollow_mm: float
    outcome: Outcome

    def mirrored(self) -> "Whole":
        """The same rope of the other hand."""
        return replace(
            self,
            cords=tuple(line * MIRROR for line in self.cords),
            rods=self.rods * MIRROR,
            outward=self.outward * MIRROR,
        )


def whole_of(finish: Finish, stretch: Stretch) -> Whole:
    """A whole rope from a settled stretch of it."""
    is_repeat = finish.before == 0
    home = walk(finish.braid).repeats_home
    laps = ceil((finish.count + home) / finish.cell_rows) + 1 if is_repeat else 1
    turn = finish.drift_deg * finish.cell_rows
    cords = unroll(stretch.strung, stretch.points, stretch.tall_mm, turn, finish.cell_rows, laps)
    heights = _heights(finish, stretch, cords)
    lift, back = -float(heights[0]), -finish.before * finish.drift_deg
    heights = heights + lift
    beads = _Beads(finish, stretch, laps, lift)
    at_row_0 = holders(finish.braid, 1, -finish.before)[0]
    lines: list[Floats] = [np.zeros((0, 3))] * len(cords.lines)
    for place, line in enumerate(cords.lines):
        lines[int(at_row_0[place])] = carried(_trimmed(finish, cords, place, line), lift, back)
    lines = _with_leads(finish, lines, heights)
    round_reach = np.array([solid.arm_mm == 0.0 for solid in finish.kinds], dtype=bool)
    outer = float(np.hypot(stretch.points[:, 0], stretch.points[:, 1]).max()) + 0.5 * finish.cord_mm
    return Whole(
        cords=tuple(_ended(finish, beads, heights, cord, line) for cord, line in enumerate(lines)),
        rods=beads.rods,
        outward=beads.outward,
        kinds=beads.kinds,
        stitches=beads.stitches,
        bead_cords=beads.cords,
        reaches=beads.reaches,
        heights=heights,
        diameter_mm=2.0 * (_usual(beads, round_reach) or outer),
        take_up=_take_up(finish, stretch, lines, heights),
        bare_rise_mm=finish.bare.rise_mm,
        bare_take_up=take_up(finish.bare, finish.braid),
        core_mm=finish.core_mm,
        hollow_mm=0.0,
        outcome=stretch.outcome,
    )


def take_up(ways: Ways, braid: Braid) -> float:
    """Cord used per length of a uniform braid."""
    long = sum(length_of(way) for way in (*ways.stitches, *ways.idle))
    return float(long / (braid.cord_count * ways.rise_mm))


class _Beads:
    """The beads of a rope in working order."""

    def __init__(self, finish: Finish, stretch: Stretch, laps: int, lift: float) -> None:
        strung, cell = stretch.strung, stretch.strung.cell
        then = cell.follows.tolist()
        holder = holders(finish.braid, 1, -finish.before)[0].tolist()
        places = list(range(len(then)))  # places[p]: the strand in which the cord of place p is in this lap
        found = []
        for lap in range(laps):
            carrier = {strand: holder[place] for place, strand in enumerate(places)}
            row = strung.stitches[:, 0] + lap * finish.cell_rows - finish.before
            kept = np.flatnonzero((row >= 0) & (row < finish.count))
            moved = carried(
                stretch.points,
                stretch.tall_mm * lap + lift,
                finish.drift_deg * (finish.cell_rows * lap - finish.before),
            )
            rods, outward = _of_lap(cell.rods, cell.tips, moved, kept)
            stitches = np.column_stack([row[kept], strung.stitches[kept, 1:]])
            cords = np.array([carrier[int(each)] for each in cell.rod_strand[kept]], dtype=np.int64)
            found.append((rods, outward, strung.kinds[kept], stitches, cords))
            places = [then[strand] for strand in places]
        columns = [np.concatenate(each) for each in zip(*found, strict=True)]
        order = np.lexsort((columns[3][:, 2], columns[3][:, 1], columns[3][:, 0]))
        self.rods, self.outward, self.kinds, self.stitches, self.cords = (each[order] for each in columns)
        self.reaches = reaches(finish.kinds, self.kinds, self.rods, self.outward)


def _of_lap(rods: Ints, tips: Ints, points: Floats, kept: Ints) -> tuple[Floats, Floats]:
    """The ends of the holes of some beads, and where they reach out to."""
    start, end = points[rods[kept]], points[rods[kept] + 1]
    middle, along = 0.5 * (start + end), end - start
    has_tip = tips[kept] != NO_TIP
    out = middle * np.array([1.0, 1.0, 0.0])
    out[has_tip] = points[tips[kept][has_tip]] - middle[has_tip]
    out = out - along * ((out * along).sum(axis=1) / (along * along).sum(axis=1))[:, None]
    return np.stack([start, end], axis=1), out / np.maximum(np.linalg.norm(out, axis=1), 1e-9)[:, None]


def reaches(solids: tuple[Solid, ...], kinds: Ints, rods: Floats, outward: Floats) -> Floats:
    """From the axis to the outermost point of every bead, mm."""
    middle, along = rods.mean(axis=1), rods[:, 1] - rods[:, 0]
    unit = along / np.maximum(np.linalg.norm(along, axis=1), 1e-9)[:, None]
    found = np.zeros(len(kinds))
    for kind in np.unique(kinds):
        own = np.flatnonzero(kinds == kind)
        for body in solids[kind].bodies:
            centre = middle[own] + body.along_mm * unit[own] + body.off_mm * outward[own]
            reach = disc_reaches(centre, unit[own], body.disc_mm, body.rounding_mm, WAYS_ROUND)
            found[own] = np.maximum(found[own], reach)
    return found


def _usual(beads: _Beads, is_round: np.ndarray[tuple[int], np.dtype[np.bool_]]) -> float | None:
    """How far the commonest kind of bead that does not reach out reaches, on average."""
    own = beads.kinds[is_round[beads.kinds]] if len(beads.kinds) else beads.kinds
    if len(own) == 0:
        return None
    commonest = int(np.bincount(own).argmax())
    return float(beads.reaches[beads.kinds == commonest].mean())


def _heights(finish: Finish, stretch: Stretch, cords: Cords) -> Floats:
    """Where every row of the design begins, and where the last one ends; not from 0 yet.

    A row begins half a rise below its first stitches (`domain.chart`); a rise is how far the middles of rows are apart.
    """
    rows = finish.count
    sums, counts = np.zeros(rows), np.zeros(rows)
    for line, made, middles in zip(cords.lines, cords.stitches, cords.middles, strict=True):
        heights = np.interp(middles, np.arange(len(line)), line[:, 2])
        for (row, _), height in zip(made, heights, strict=True):
            if 0 <= row - finish.before < rows:
                sums[row - finish.before] += height
                counts[row - finish.before] += 1
    middles_mm = sums / counts
    step = float(np.mean([station.step for station in stations(finish.braid)]))
    even = stretch.tall_mm / finish.cell_rows
    rises = np.gradient(middles_mm) if rows > 1 else np.array([even])
    starts = np.maximum.accumulate(middles_mm - (0.5 + step) * rises)
    return np.append(starts, max(float(starts[-1]) + 1e-6, middles_mm[-1] + (0.5 - step) * rises[-1]))


def _trimmed(finish: Finish, cords: Cords, place: int, line: Floats) -> Floats:
    """The way of a cord up to where the row after the last one begins."""
    if finish.before > 0:
        return line
    made, middles = cords.stitches[place], cords.middles[place]
    width = finish.braid.stitches_per_row
    later = next((at for at, (row, _) in enumerate(made) if row >= finish.count), None)
    if later is None or later == 0:
        return line
    one, other = (made[at][0] + (made[at][1] + 0.5) / width for at in (later - 1, later))
    share = EARLIEST + (LATEST - EARLIEST) * (finish.count - one) / (other - one)
    end = middles[later - 1] + share * (middles[later] - middles[later - 1])
    return between(line, 0.0, end)


def _with_leads(finish: Finish, lines: list[Floats], heights: Floats) -> list[Floats]:
    """The cords with bare braid before and after, led to where the solved ones begin and end."""
    bare, braid = finish.bare, finish.braid
    solved = finish.before * bare.rise_mm
    before, after = (max(0, ceil((lead - solved) / bare.rise_mm) + 1) for lead in finish.leads)
    low = float(heights[0]) - solved
    high = float(heights[-1]) + solved
    count = finish.count + finish.before
    if before > 0 and finish.leads[0] > solved:
        first = -finish.before - before
        for place, strand in enumerate(lay(braid, bare, uniform_rows(bare, before))):
            cord = int(holders(braid, 1, first)[0][place])
            lead = carried(strand.points, low - before * bare.rise_mm, first * finish.drift_deg)
            lines[cord] = np.concatenate([_led(lead, lines[cord][0], JOINED_ROWS * bare.rise_mm)[:-1], lines[cord]])
    if after > 0 and finish.leads[1] > solved:
        for place, strand in enumerate(lay(braid, bare, uniform_rows(bare, after))):
            cord = int(holders(braid, 1, count)[0][place])
            lead = carried(strand.points, high, count * finish.drift_deg)
            led = _led(lead[::-1], lines[cord][-1], JOINED_ROWS * bare.rise_mm)[::-1]
            lines[cord] = np.concatenate([lines[cord], led[1:]])
    return lines


def _led(points: Floats, end: Floats, within: float) -> Floats:
    """A way bent over its last part so that it ends at a point."""
    rest = np.abs(points[:, 2] - points[-1, 2])
    share = np.maximum(0.0, 1.0 - rest / within)
    moved: Floats = points + (share * share)[:, None] * (end - points[-1])
    return moved


def _take_up(finish: Finish, stretch: Stretch, lines: list[Floats], heights: Floats) -> float:
    """Cord used per length of braid in the rows: of a repeat, in the repeat."""
    if finish.before > 0:
        return float(np.mean([length_of(_within(line, 0.0, heights[-1])) for line in lines]) / heights[-1])
    strands = stretch.strung.cell.strands
    long = sum(length_of(stretch.points[first : last + 1]) for first, last in strands)
    return float(long / (len(strands) * stretch.tall_mm))


def _ended(finish: Finish, beads: _Beads, heights: Floats, cord: int, line: Floats) -> Floats:
    """A cord as far as its leads go, and at least through its own beads."""
    own = beads.rods[beads.cords == cord][:, :, 2]
    low, high = -finish.leads[0], float(heights[-1]) + finish.leads[1]
    if len(own):
        low, high = min(low, float(own.min())), max(high, float(own.max()))
    return _within(line, low, high)


def _within(line: Floats, low: float, high: float) -> Floats:
    """The part of a way from where it first passes one height to where it last passes another."""
    inside = np.flatnonzero((line[:, 2] >= low) & (line[:, 2] <= high))
    if len(inside) < 2:
        return line
    first, last = int(inside[0]), int(inside[-1])
    found = [line[first : last + 1]]
    if first > 0:
        found.insert(0, _at_height(line[first - 1], line[first], low)[None])
    if last + 1 < len(line):
        found.append(_at_height(line[last], line[last + 1], high)[None])
    return np.concatenate(found)


def _at_height(one: Floats, other: Floats, height: float) -> Floats:
    span = other[2] - one[2]
    share = min(1.0, max(0.0, (height - one[2]) / span)) if span else 0.0
    between: Floats = one + share * (other - one)
    return between
