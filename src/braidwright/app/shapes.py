"""Shapes: where every bead and every cord of a rope lies, as far as the closed form tells.

Every stitch lies where physics.md, section 6, puts it: its column's even angle plus the drift so far, on a circle of
(diameter - bead) / 2, at the height of its row. Between one stitch and the next a cord crosses the inside, on the side
of the axis where its move crosses the disk. The bare braid of the leads is worked on in the same way.
"""

from dataclasses import dataclass, replace
from itertools import accumulate
from math import radians

import numpy as np
from numpy.typing import NDArray

from braidwright.domain.braid import Braid
from braidwright.domain.chart import columns, even_angle, stations
from braidwright.domain.design import Design
from braidwright.domain.geometry import FloatArray, Geometry, IntArray, reaches_of
from braidwright.domain.materials import Materials, bare_diameter
from braidwright.domain.prediction import Basis, Prediction
from braidwright.domain.tray import BARE
from braidwright.domain.walk import stitch_cords

# Lean of the holes against the hand, for numbers of columns, as solved for 8/0 beads and a drift of 11.25 degrees.
BEAD_LEANS = ((4, 6, 8, 10, 12), (8.0, 26.0, 38.0, 49.0, 57.0))
CORD_LEANS = ((4, 6, 8), (27.0, 13.0, 10.0))  # of a stitch of cord alone, likewise
DENTED = 0.85  # a bare stitch among beads lies so much nearer the axis: the beads beside it close in; from the pictures
BARE_REACH = 0.4  # half the length of a bare stitch on the surface, in rows; likewise
LONG_REACH = 0.9  # the same where all stitches round it are bare, as solved; its ends lie nearer the axis by SINKING
SINKING = 0.45
SHARE_OF_WAY = 0.45  # a bare stitch is no longer than this share of the height to its cord's next stitch
STEPS = 4  # pieces of the curve from a stitch to the middle of the inside
GRAIN = 6  # pieces of a long bare stitch


def estimated_geometry(design: Design, materials: Materials, prediction: Prediction) -> Geometry | None:
    """The rope as the closed form sees it, or None while its rise or its diameter is not predicted.

    Args:
        design: The design.
        materials: Its cord and beads.
        prediction: What a row measures, and what that rests on.

    Raises:
        DesignError: The materials lack a bead of the design.
    """
    if prediction.rise_mm is None or prediction.diameter_mm is None:
        return None
    kinds = _kinds(design, materials, prediction.diameter_mm)
    rows = _rows(design, prediction, prediction.rise_mm)
    stitches = _stitches(design, materials, prediction.drift_deg, kinds, rows)
    real = (stitches.row >= 0) & (stitches.row < len(design.rows))
    which = np.repeat(np.flatnonzero(real), kinds.counts[stitches.kind[real]])
    place = _places(kinds.counts[stitches.kind[real]])
    kind = stitches.kind[which]
    keys = tuple(kinds.beads[k][p] for k, p in zip(kind.tolist(), place.tolist(), strict=True))
    centres = stitches.at[which] + kinds.offsets[kind, place][:, None] * stitches.hole[which]
    return Geometry(
        keys=keys,
        stitches=np.stack((stitches.row[which], stitches.stitch[which], place), axis=1),
        bead_cords=stitches.cord[which],
        centres=centres,
        holes=stitches.hole[which],
        outward=stitches.outward[which],
        cords=tuple(_cord(design, cord, stitches, rows) for cord in range(design.braid.cord_count)),
        cord_mm=materials.cord.diameter_mm,
        heights=rows.start[rows.before : rows.before + len(design.rows) + 1].copy(),
        reaches=reaches_of(tuple(map(materials.bead, keys)), centres, stitches.outward[which]),
        basis=prediction.basis,
    )


# --- what a drop is -------------------------------------------------------------------------------------


BoolArray = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True)
class Kinds:
    """The drops in use, one entry for each key.

    Attributes:
        keys: Their keys; the bare stitch is always the first.
        beads: The keys of the single beads of each.
        counts: How many those are.
        offsets: From the stitch to the middle of each bead along the hole, mm, filled up with 0.
        half: Half the length of the drop along the hole, mm.
        radius: From the axis to the hole, mm.
    """

    keys: tuple[str, ...]
    beads: tuple[tuple[str, ...], ...]
    counts: IntArray
    offsets: FloatArray
    half: FloatArray
    radius: FloatArray


def _kinds(design: Design, materials: Materials, diameter: float) -> Kinds:
    keys = (BARE, *(key for key in design.drop_counts() if key != BARE))
    beads = tuple(design.tray.beads_of(key) for key in keys)
    lengths = [[materials.bead(one).length_mm for one in each] for each in beads]
    offsets = np.zeros((len(keys), max(1, *map(len, beads)) if len(keys) > 1 else 1))
    for index, each in enumerate(lengths):
        ends = list(accumulate(each, initial=0.0))
        offsets[index, : len(each)] = [ends[n] + length / 2.0 - ends[-1] / 2.0 for n, length in enumerate(each)]
    return Kinds(
        keys=keys,
        beads=beads,
        counts=np.array([len(each) for each in beads], dtype=np.int64),
        offsets=offsets,
        half=np.array([sum(each) / 2.0 for each in lengths]),
        radius=np.array(_radii(beads, materials, diameter)),
    )


def _radii(beads: tuple[tuple[str, ...], ...], materials: Materials, diameter: float) -> list[float]:
    """From the axis to the hole: bigger round beads sit farther out, so that all rest on the same core."""
    firsts = [materials.bead(each[0]) for each in beads if each]
    if not firsts:
        return [max(0.3 * diameter, (diameter - materials.cord.diameter_mm) / 2.0)]
    alone = [materials.bead(each[0]) for each in beads if len(each) == 1]
    common = (alone or firsts)[0].diameter_mm / 2.0
    usual = max(0.3, diameter / 2.0 - common)
    ground = diameter / 2.0 - usual
    seated = [max(0.3, usual if bead.stands_out else usual + bead.diameter_mm / 2.0 - ground) for bead in firsts]
    return [DENTED * usual, *seated]


# --- where a stitch lies --------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """Every row, those of the leads included.

    Attributes:
        texts: What each row drops.
        before: How many belong to the lead-in.
        start: Where each begins, and where the last one ends, mm.
        rise: How much each adds, mm.
        ends: Where the cords begin and end, mm.
    """

    texts: tuple[str, ...]
    before: int
    start: FloatArray
    rise: FloatArray
    ends: tuple[float, float]


def _rows(design: Design, prediction: Prediction, rise: float) -> Rows:
    bare_rise = rise if prediction.bare_rise_mm is None else prediction.bare_rise_mm
    bare = BARE * design.width
    plain = set(design.drop_counts()) == {BARE}
    before, after = (int(lead / bare_rise) for lead in (design.lead_in, design.lead_out))
    texts = (*[bare] * before, *design.rows, *[bare] * after)
    rises = np.array([rise if text != bare or plain else bare_rise for text in texts])
    heights = np.concatenate(([0.0], np.cumsum(rises)))
    heights -= heights[before]
    length = float(heights[before + len(design.rows)])
    return Rows(
        texts=texts,
        before=before,
        start=heights,
        rise=rises,
        ends=(-design.lead_in, length + design.lead_out),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Stitches:
    """Every stitch in working order, those of the leads included; `row` counts from 0 at the first row."""

    row: IntArray
    stitch: IntArray
    cord: IntArray
    kind: IntArray
    at: FloatArray
    hole: FloatArray
    outward: FloatArray
    half: FloatArray
    is_long: BoolArray  # whether its whole row is bare
    inside: FloatArray  # the middle of the way across the inside, its height left open, (n, 2) mm


def _stitches(design: Design, materials: Materials, drift: float, kinds: Kinds, rows: Rows) -> Stitches:
    braid, count, width = design.braid, len(rows.texts), design.width
    row = np.repeat(np.arange(count), width) - rows.before
    stitch = np.tile(np.arange(width), count)
    at_row = row + rows.before
    codes = {key: index for index, key in enumerate(kinds.keys)}
    kind = np.array([codes[key] for text in rows.texts for key in text], dtype=np.int64)
    step = np.array([station.step for station in stations(braid)])[stitch]
    even = np.array([even_angle(braid, each) for each in range(width)])[stitch]
    angle = np.radians((even + drift * (row - (len(design.rows) - 1) / 2.0 + step)) % 360.0)
    rise = rows.rise[at_row]
    is_long = _in_bare_row(rows, width)
    radius = np.where(is_long, _bare_radius(braid, materials, kinds), kinds.radius[kind])
    out = np.stack((np.sin(angle), np.cos(angle), np.zeros(angle.size)), axis=1)
    height = rows.start[at_row] + (0.5 + step) * rise
    share, turn = _crossings(braid)
    leans = tuple(float(np.interp(len(columns(braid)), *known)) for known in (CORD_LEANS, BEAD_LEANS))
    over = angle + turn[stitch]
    return Stitches(
        row=row,
        stitch=stitch,
        cord=stitch_cords(braid, count, -rows.before).ravel(),
        kind=kind,
        at=radius[:, None] * out + height[:, None] * np.array((0.0, 0.0, 1.0)),
        hole=_holes(angle, np.where(kinds.counts[kind] == 0, *leans), design.hand),
        outward=out,
        half=np.where(is_long, LONG_REACH, BARE_REACH) * rise * (kinds.counts[kind] == 0) + kinds.half[kind],
        is_long=is_long,
        inside=(radius * share[stitch])[:, None] * np.stack((np.sin(over), np.cos(over)), axis=1),
    )


def _in_bare_row(rows: Rows, width: int) -> BoolArray:
    return np.repeat(np.array([set(text) == {BARE} for text in rows.texts]), width)


def _bare_radius(braid: Braid, materials: Materials, kinds: Kinds) -> float:
    """From the axis to the cord where the whole row is bare; of a plain rope that is the rope itself."""
    if len(kinds.keys) == 1:
        return float(kinds.radius[0])
    return max(0.1, (bare_diameter(braid.cord_count, materials.cord.diameter_mm) - materials.cord.diameter_mm) / 2.0)


def _holes(angle: FloatArray, lean_deg: FloatArray, hand: str) -> FloatArray:
    """Upward, leaning anticlockwise for S and the other way for Z: against the columns, as solved."""
    lean = np.radians(lean_deg) * (-1.0 if hand == "S" else 1.0)
    return np.stack((np.sin(lean) * np.cos(angle), -np.sin(lean) * np.sin(angle), np.cos(lean)), axis=1)


def _crossings(braid: Braid) -> tuple[FloatArray, FloatArray]:
    """For each stitch: how far from the axis its move crosses the disk, in radii, and in which direction from it."""
    share, turn = [], []
    for move in braid.stitch_moves:
        apart = radians((braid.angle(move.put) - braid.angle(move.take)) % 360.0)
        share.append(float(np.cos(apart / 2.0)))
        turn.append(apart / 2.0)
    return np.array(share), np.array(turn)


def _places(counts: IntArray) -> IntArray:
    """0, 1, 2 ... within each drop."""
    starts = np.cumsum(counts) - counts
    return np.arange(int(counts.sum()), dtype=np.int64) - np.repeat(starts, counts)


# --- the way of a cord ----------------------------------------------------------------------------------


def _cord(design: Design, cord: int, stitches: Stitches, rows: Rows) -> FloatArray:
    """The axis of a cord from the first braided end to the last: through its holes, across the inside."""
    height, reach_up = stitches.at[:, 2], stitches.half * stitches.hole[:, 2]
    is_lead = (stitches.row < 0) | (stitches.row >= len(design.rows))
    is_cut_off = is_lead & ((height - reach_up < rows.ends[0]) | (height + reach_up > rows.ends[1]))
    own = np.flatnonzero((stitches.cord == cord) & ~is_cut_off)
    if own.size == 0:
        return _idle(design.braid, cord, stitches, rows)
    grains = _grains(stitches, own)
    into, out_of = grains[:, 0], grains[:, -1]
    middle = (out_of[:-1] + into[1:]) / 2.0
    middle[:, :2] = stitches.inside[own][:-1]
    across = _unit(into[1:] - out_of[:-1])
    there = _curve(out_of[:-1], _unit(out_of - grains[:, -2])[:-1], middle, across)
    back = _curve(middle, across, into[1:], _unit(grains[:, 1] - into)[1:])
    woven = np.concatenate((grains[:-1], there, middle[:, None], back), axis=1).reshape(-1, 3)
    first, last = into[0].copy(), out_of[-1].copy()
    first[2] = min(rows.ends[0], into[0][2] - 0.1)
    last[2] = max(rows.ends[1], out_of[-1][2] + 0.1)
    return np.concatenate((first[None], woven, grains[-1], last[None]))


def _grains(stitches: Stitches, own: IntArray) -> FloatArray:
    """The cord of each stitch as it lies on the outside, (stitches, points, 3): straight, or sinking at its ends."""
    at, hole, half = stitches.at[own], stitches.hole[own], stitches.half[own]
    if not stitches.is_long[own].any():
        reach = half[:, None] * hole
        return np.stack((at - reach, at + reach), axis=1)
    gaps = np.diff(at[:, 2], prepend=-np.inf, append=np.inf)
    is_bare = stitches.is_long[own]
    long = np.where(is_bare, np.minimum(half, SHARE_OF_WAY * np.minimum(gaps[:-1], gaps[1:])), half * hole[:, 2])
    share = np.linspace(-1.0, 1.0, GRAIN + 1)
    grains = at[:, None] + (long / hole[:, 2])[:, None, None] * share[None, :, None] * hole[:, None]
    # a long stitch winds round the rope instead of leaving it, and sinks
    away, wound = np.hypot(grains[..., 0], grains[..., 1]), np.hypot(at[:, 0], at[:, 1])[:, None]
    sunk = wound * (1.0 - SINKING * share[None] ** 2) / np.maximum(away, 1e-9)
    grains[..., :2] *= np.where(is_bare[:, None], sunk, 1.0)[..., None]
    return grains


def _idle(braid: Braid, cord: int, stitches: Stitches, rows: Rows) -> FloatArray:
    """A cord that makes no stitch runs along inside, below the slot it waits in."""
    angle = radians(braid.angle(braid.start[cord]))
    radius = 0.4 * float(np.hypot(stitches.at[:, 0], stitches.at[:, 1]).min())
    x, y = radius * np.sin(angle), radius * np.cos(angle)
    return np.array([(x, y, rows.ends[0]), (x, y, rows.ends[1])])


def _unit(vectors: FloatArray) -> FloatArray:
    size: FloatArray = np.linalg.norm(vectors, axis=-1, keepdims=True)
    return vectors / np.maximum(size, 1e-9)


def _curve(start: FloatArray, leaving: FloatArray, end: FloatArray, arriving: FloatArray) -> FloatArray:
    """The points inside a smooth curve (Hermite's cubic) between two points with two directions."""
    size = np.linalg.norm(end - start, axis=-1, keepdims=True)[:, None]
    t = np.arange(1, STEPS)[None, :, None] / STEPS
    from_start, from_end = 2 * t**3 - 3 * t**2 + 1, 3 * t**2 - 2 * t**3
    points: FloatArray = (
        from_start * start[:, None]
        + from_end * end[:, None]
        + size * ((t**3 - 2 * t**2 + t) * leaving[:, None] + (t**3 - t**2) * arriving[:, None])
    )
    return points


# --- what a swatch corrects -------------------------------------------------------------------------------


def rescaled(geometry: Geometry, rise_ratio: float, diameter_change_mm: float, basis: Basis) -> Geometry:
    """The same rope as a swatch found it: longer or shorter, thicker or thinner, its beads as large as they are.

    What lies at the holes or beyond moves by the change of the radius, what lies nearer the axis by its share of it.

    Args:
        geometry: The rope.
        rise_ratio: How many times higher every row is.
        diameter_change_mm: How much thicker the rope is.
        basis: What the new measures rest on.
    """
    usual = max(0.1, geometry.hole_radius)
    change = max(diameter_change_mm / 2.0, -0.9 * usual)

    def moved(points: FloatArray) -> FloatArray:
        away = np.hypot(points[:, 0], points[:, 1])
        wider = np.where(away < usual, 1.0 + change / usual, 1.0 + change / np.maximum(away, usual))
        there: FloatArray = points * np.stack((wider, wider, np.full(len(points), rise_ratio)), axis=1)
        return there

    centres = moved(geometry.centres)
    farther = np.hypot(centres[:, 0], centres[:, 1]) - np.hypot(geometry.centres[:, 0], geometry.centres[:, 1])
    return replace(
        geometry,
        centres=centres,
        cords=tuple(map(moved, geometry.cords)),
        heights=geometry.heights * rise_ratio,
        reaches=geometry.reaches + farther,
        basis=basis,
    )
