"""flat chart: the surface of the rope cut open and laid flat, as it is seen from outside.

Row 1 is at the left, as on the table. Lanes go clockwise from the foot up: seen from outside, with the first row at
the left, clockwise round the rope is upward on the page. So the picture is never the wrong way round.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from math import ceil, floor

from braidwright.domain.chart import Column, columns
from braidwright.domain.strings import runs
from braidwright.domain.tray import BARE
from braidwright.domain.walk import stitch_cords
from braidwright.drawings.bead_mark import Box, draw_cord_mark, draw_mark
from braidwright.drawings.pen import Curve, Drawing, Paint, Pen, Point
from braidwright.drawings.sheet import Look, Sheet, Subject
from braidwright.drawings.style import ACCENT, HAIR, INK, SAND, SMALL_TYPE, SOFT_INK, drawn, filled, type_

PITCH = 4.3
LANE = 6.6
LABEL = 12.0
HEAD = 6.0
KEY = 6.5
LEAN_DEG = 13.0
LONGEST_ALT = 1500
FRONT_DEG = 60.0  # at most this far from the front line a stitch still faces outward
STEEP_DEG = 60.0  # a band that turns faster than this per row is drawn cell by cell


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """One stretch of the chart: rows first to last (from 0), with its measures on the page, mm."""

    subject: Subject
    first: int
    last: int
    pitch: float
    lane: float
    scale: float

    @property
    def lanes(self) -> tuple[Column, ...]:
        """The columns."""
        return columns(self.subject.design.braid)

    @property
    def foot(self) -> float:
        """Where the lowest lane ends, from the top."""
        return HEAD * self.scale + self.lane * len(self.lanes)

    @property
    def label(self) -> float:
        """Room for the names of the lanes."""
        return LABEL * self.scale

    @property
    def end(self) -> float:
        """The last row and its half-steps, as a row number from 0."""
        return self.last + max(step for lane in self.lanes for step in lane.steps)

    @property
    def has_front(self) -> bool:
        """Whether front and back can be shown."""
        return self.subject.design.front is not None and self.subject.drift_deg is not None

    def at(self, row: float, lane: float) -> Point:
        """The place of a row (from 0, with half-steps) in a lane (from 0, at its middle)."""
        return self.label + (row - self.first + 0.6) * self.pitch, self.foot - (lane + 0.5) * self.lane


def draw(subject: Subject, look: Look) -> tuple[Drawing, ...]:
    """The chart, broken into bands that fit the width."""
    scale = look.text_scale
    pitch = PITCH * scale / min(1.0, 1.08 * _smallest_gap(columns(subject.design.braid)))
    rows = len(subject.design.rows)
    fits = max(1, floor((look.width_mm - LABEL * scale) / pitch - 1.7))
    length = _even_length(rows, fits)
    bands = [
        Band(subject=subject, first=at, last=min(at + length, rows) - 1, pitch=pitch, lane=LANE * scale, scale=scale)
        for at in range(0, rows, length)
    ]
    return tuple(_drawing(band, number, len(bands), look) for number, band in enumerate(bands, 1))


def _smallest_gap(lanes: tuple[Column, ...]) -> float:
    """The least distance between two stitches of one lane, in rows."""
    gaps = [1.0]
    for lane in lanes:
        steps = sorted(lane.steps)
        gaps += [after - before for before, after in zip(steps, [*steps[1:], steps[0] + 1.0], strict=True)]
    return min(gap for gap in gaps if gap > 0)


def _even_length(rows: int, fits: int) -> int:
    """Rows of each band: as even as they come, in fives where that fits."""
    even = ceil(rows / ceil(rows / fits))
    fives = 5 * ceil(even / 5)
    return fives if fives <= fits else even


def _drawing(band: Band, number: int, count: int, look: Look) -> Drawing:
    first, last = band.first + 1, band.last + 1
    part = "" if count == 1 else f", rows {first} to {last} of {len(band.subject.design.rows)}"
    return Drawing(
        name=f"flat-chart-{number}",
        width_mm=look.width_mm if count > 1 else max(60.0 * band.scale, band.at(band.end, 0)[0] + band.pitch),
        height_mm=band.foot + (KEY if band.has_front else 2.0) * band.scale,
        title=f"Chart{part}",
        description=_describe(band),
        paint=partial(_paint, band),
    )


def _describe(band: Band) -> str:
    """The chart read aloud: each lane from its first row on."""
    design = band.subject.design
    said = [
        f"Flat chart of {design.title}, rows {band.first + 1} to {band.last + 1}, one lane for each column, clockwise."
    ]
    for lane in band.lanes:
        keys = [design.rows[row][index] for row in range(band.first, band.last + 1) for index in lane.stitches]
        said.append(
            f"{lane.name}: " + ", ".join(f"{n} {design.tray.name_of(key)}" for n, key in runs(tuple(keys))) + "."
        )
    text = " ".join(said)
    if len(text) <= LONGEST_ALT:
        return text
    return f"{said[0]} It is too varied to read here lane by lane; the strings say the same bead by bead."


def _paint(band: Band, pen: Pen) -> None:
    if band.has_front:
        _draw_back(band, pen)
    _draw_lanes(band, pen)
    _draw_cells(band, pen)
    if band.has_front:
        _draw_front(band, pen)
        _draw_key(band, pen)


def _draw_lanes(band: Band, pen: Pen) -> None:
    left, right = band.label, band.at(band.end + 0.6, 0)[0]
    for edge in range(len(band.lanes) + 1):
        y = band.foot - edge * band.lane
        pen.line((left, y), (right, y), drawn(HAIR, 0.15))
    for index, lane in enumerate(band.lanes):
        y = band.at(0, index)[1]
        name = lane.name.split(" ")[0]
        pen.text((0.0, y + 0.3 * band.scale), name, type_((3.7 if len(name) < 3 else 3.1) * band.scale, bold=True))
        pen.text((0.0, y + 2.9 * band.scale), f"slot {lane.slot}", type_(2.2 * band.scale, colour=SOFT_INK))
    for row in range(band.first, band.last + 1):
        if row == band.first or (row + 1) % 5 == 0:
            x = band.at(row, 0)[0]
            bold = (row + 1) % 10 == 0
            lettering = type_(SMALL_TYPE * band.scale, colour=INK if bold else SOFT_INK, anchor="middle", bold=bold)
            pen.text((x, 3.2 * band.scale), str(row + 1), lettering)
            pen.line((x, 4.2 * band.scale), (x, HEAD * band.scale), drawn(HAIR, 0.2))


def _draw_cells(band: Band, pen: Pen) -> None:
    design = band.subject.design
    cords = stitch_cords(design.braid, band.last + 1)
    lean = LEAN_DEG if design.hand == "S" else -LEAN_DEG
    width = 0.84 * band.pitch * _smallest_gap(band.lanes)
    for row in range(band.first, band.last + 1):
        for index, lane in enumerate(band.lanes):
            for stitch, step in zip(lane.stitches, lane.steps, strict=True):
                key, of = design.rows[row][stitch], f"stitch-{row + 1}-{stitch + 1}"
                box = Box(centre=band.at(row + step, index), width=width, height=0.8 * band.lane, lean_deg=lean)
                if key == BARE:
                    draw_cord_mark(pen, band.subject, int(cords[row, stitch]), box, of)
                else:
                    draw_mark(pen, band.subject, key, box, of)


# --- front and back ------------------------------------------------------------------------------------


def _lane_facing(band: Band, angle: float, row: float) -> float:
    """The lane (from 0, with fractions) that lies in a direction at a row."""
    drift = band.subject.drift_deg or 0.0
    middle = (len(band.subject.design.rows) - 1) / 2.0
    return (angle - drift * (row - middle) - band.lanes[0].angle_deg) / 360.0 * len(band.lanes)


def _stripes(band: Band, angle: float, half_lanes: float) -> Iterator[Curve]:
    """A band round a direction, cut where it leaves the chart and comes in again at the other edge."""
    first, last, count = band.first - 0.6, band.end + 0.6, len(band.lanes)
    start, end = _lane_facing(band, angle, first), _lane_facing(band, angle, last)
    low, high = min(start, end) - half_lanes, max(start, end) + half_lanes
    for turn in range(floor((-0.5 - high) / count), ceil((count - 0.5 - low) / count) + 1):
        shape = [
            (first, start - half_lanes + turn * count),
            (last, end - half_lanes + turn * count),
            (last, end + half_lanes + turn * count),
            (first, start + half_lanes + turn * count),
        ]
        kept = _cut(_cut(shape, -0.5, keep_above=True), count - 0.5, keep_above=False)
        if len(kept) > 2:
            yield tuple(band.at(row, lane) for row, lane in kept)


def _cut(shape: list[Point], level: float, *, keep_above: bool) -> list[Point]:
    """The part of a convex shape on one side of a level of its second coordinate."""
    sign = 1.0 if keep_above else -1.0
    kept: list[Point] = []
    for index, (x, y) in enumerate(shape):
        before_x, before_y = shape[index - 1]
        if (sign * (y - level) >= 0) != (sign * (before_y - level) >= 0):
            share = (level - before_y) / (y - before_y)
            kept.append((before_x + share * (x - before_x), level))
        if sign * (y - level) >= 0:
            kept.append((x, y))
    return kept


def _draw_back(band: Band, pen: Pen) -> None:
    """The part worn against the skin: where its lanes face the back."""
    front = band.subject.design.front_line
    half = front.arc_deg / 720.0 * len(band.lanes)
    pen.begin("worn against the skin", "back")
    if abs(band.subject.drift_deg or 0.0) > STEEP_DEG:
        _draw_back_cells(band, pen, half)
    else:
        for stripe in _stripes(band, front.deg + 180.0, half):
            pen.polygon(stripe, filled(SAND))
    pen.end()


def _draw_back_cells(band: Band, pen: Pen, half: float) -> None:
    count, back = len(band.lanes), band.subject.design.front_line.deg + 180.0
    for row in range(band.first, band.last + 1):
        for index, lane in enumerate(band.lanes):
            for step in lane.steps:
                away = (_lane_facing(band, back, row + step) - index + count / 2.0) % count - count / 2.0
                if abs(away) <= half:
                    x, y = band.at(row + step, index)
                    wide, high = 0.5 * band.pitch, 0.5 * band.lane
                    corners = ((x - wide, y - high), (x + wide, y - high), (x + wide, y + high), (x - wide, y + high))
                    pen.polygon(corners, filled(SAND))


def _draw_front(band: Band, pen: Pen) -> None:
    """A line under the stitches that face outward, lane by lane."""
    angle, count = band.subject.design.front_line.deg, len(band.lanes)
    facing = min(0.5, FRONT_DEG / 360.0 * count)
    pen.begin("faces outward", "front")
    for index, lane in enumerate(band.lanes):
        y = band.at(0, index - 0.46)[1]
        for row in range(band.first, band.last + 1):
            for step in lane.steps:
                away = (_lane_facing(band, angle, row + step) - index + count / 2.0) % count - count / 2.0
                if abs(away) <= facing:
                    x, half = band.at(row + step, index)[0], 0.5 * band.pitch * _smallest_gap(band.lanes)
                    pen.line((x - half, y), (x + half, y), drawn(ACCENT, 0.6 * band.scale))
    pen.end()


def _draw_key(band: Band, pen: Pen) -> None:
    scale = band.scale
    y, x = band.foot + 4.6 * scale, band.label
    pen.polygon(
        (
            (x, y - 2.2 * scale),
            (x + 5 * scale, y - 2.2 * scale),
            (x + 5 * scale, y + 0.4 * scale),
            (x, y + 0.4 * scale),
        ),
        Paint(fill=SAND, edge=HAIR, width=0.15),
    )
    pen.text((x + 6.5 * scale, y), "worn against the skin", type_(SMALL_TYPE * scale, colour=SOFT_INK))
    x += 42 * scale
    pen.line((x, y - 0.9 * scale), (x + 6 * scale, y - 0.9 * scale), drawn(ACCENT, 0.6 * scale))
    pen.text((x + 7.5 * scale, y), "faces outward", type_(SMALL_TYPE * scale, colour=SOFT_INK))


SHEET = Sheet(name="flat-chart", title="The chart", draw=draw)
