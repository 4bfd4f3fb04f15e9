"""picture: a picture laid on the chart: where it lies, what colour each stitch is to have, and which bead it gets.

Nothing of a design is changed here: what comes out are other rows to look at, and to take or leave.
"""

from collections import Counter
from dataclasses import dataclass
from typing import Literal, get_args

import numpy as np
from numpy.typing import NDArray

from braidwright.domain.colour import linear_of
from braidwright.domain.design import Design
from braidwright.domain.dither import Mixing, diffused, ordered, plain
from braidwright.domain.errors import DesignError, RequestError
from braidwright.domain.motif import Course
from braidwright.domain.oklab import FloatArray
from braidwright.domain.raster import Raster
from braidwright.domain.resemblance import Resemblance, resemblance
from braidwright.domain.surface import Surface, surface_of, wrapped
from braidwright.domain.tray import BARE, TrayStack

BoolArray = NDArray[np.bool_]
IntArray = NDArray[np.int64]
Fit = Literal["whole", "fill"]
FITS: tuple[str, ...] = get_args(Fit)
Turn = Literal[0, 90, 180, 270]
TURNS: tuple[int, ...] = get_args(Turn)
Crop = tuple[float, float, float, float]

WHOLE_PICTURE: Crop = (0.0, 0.0, 1.0, 1.0)
FRONT_DEG = 180.0  # the half of the rope that is seen at once
HALF = 0.5 - 1e-6  # a stitch takes part when the picture covers at least half of it


@dataclass(frozen=True, slots=True, kw_only=True)
class Placing:
    """Where and how a picture is laid.

    Attributes:
        rows: First and last row, from 1, or None for all.
        arc_deg: How much of the way round it may take, degrees.
        centre_deg: Its middle, degrees clockwise from the front line.
        turn: How it is turned, degrees anticlockwise on the table; with 0 it is read along the rope, which lies with
            row 1 at the left; with 270 it stands upright on a rope that hangs with row 1 below.
        fit: "whole" shows all of it; "fill" covers rows and arc, and what does not fit is cut off.
        crop: The part of it to use: left, top, right and bottom as shares of its width and height.
        keys: The beads to choose from (a stack or "." only when named here), or None for every single bead.
        mixing: "none", or how beads are mixed: "diffused" or "ordered".
    """

    rows: tuple[int, int] | None = None
    arc_deg: float = FRONT_DEG
    centre_deg: float = 0.0
    turn: Turn = 0
    fit: Fit = "whole"
    crop: Crop = WHOLE_PICTURE
    keys: tuple[str, ...] | None = None
    mixing: Mixing = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidPicture:
    """Rows to look at.

    Attributes:
        rows: All rows of the design with the picture on them.
        stitches: How many stitches the picture takes.
        changed: How many of them are other than before.
        counts: Pairs (key, how many stitches of the picture), most first.
        size_mm: Width and height on the rope of what is seen of it, mm.
        resemblance: How well the beads give it.
        notes: Sentences for the maker.
    """

    rows: tuple[str, ...]
    stitches: int
    changed: int
    counts: tuple[tuple[str, int], ...]
    size_mm: tuple[float, float]
    resemblance: Resemblance
    notes: tuple[str, ...]


def lay_picture(design: Design, course: Course, raster: Raster, placing: Placing) -> LaidPicture:
    """Lay a picture on the chart of a design; the design stays as it is.

    Args:
        design: The design.
        course: How its columns run, for true proportions.
        raster: The picture.
        placing: Where and how.

    Raises:
        RequestError: Rows, an arc, a part or beads that make no sense, or a picture smaller than a stitch.
    """
    _check(design, placing)
    keys, choice = _choice(design, placing.keys)
    surface = surface_of(design, course)
    wanted, inside, size = _wanted(surface, raster, placing, len(design.rows))
    if not inside.any():
        raise RequestError("Picture: it covers no stitch; give it more rows, a wider arc or a larger part.")
    if placing.mixing == "diffused":
        taken = diffused(wanted, choice, inside, design.braid, course)
    else:
        taken = (ordered if placing.mixing == "ordered" else plain)(wanted, choice)
    rows = _with(design.rows, inside, taken, keys)
    found = resemblance(surface, wanted, choice[taken], inside, size)
    return LaidPicture(
        rows=rows,
        stitches=int(inside.sum()),
        changed=sum(old != new for old, new in zip("".join(design.rows), "".join(rows), strict=True)),
        counts=tuple(Counter(keys[which] for which in taken[inside].tolist()).most_common()),
        size_mm=size,
        resemblance=found,
        notes=found.sentences,
    )


def _with(rows: tuple[str, ...], inside: BoolArray, taken: IntArray, keys: tuple[str, ...]) -> tuple[str, ...]:
    """The rows with other keys in the stitches that take part."""
    cells = [list(text) for text in rows]
    for row, stitch in np.argwhere(inside).tolist():
        cells[row][stitch] = keys[taken[row, stitch]]
    return tuple("".join(line) for line in cells)


def _check(design: Design, placing: Placing) -> None:
    first, last = placing.rows or (1, len(design.rows))
    if not 1 <= first <= last <= len(design.rows):
        raise RequestError(f"Picture: rows {first} to {last} are not in the design; use rows 1 to {len(design.rows)}.")
    if not 0.0 < placing.arc_deg <= 360.0:
        raise RequestError(f"Picture: an arc of {placing.arc_deg:g} degrees makes no sense; use over 0 and up to 360.")
    if not abs(placing.centre_deg) <= 360.0:
        raise RequestError(f"Picture: {placing.centre_deg:g} degrees from the front is no direction; use -180 to 180.")
    left, top, right, bottom = placing.crop
    if not (0.0 <= left < right <= 1.0 and 0.0 <= top < bottom <= 1.0):
        raise RequestError(
            "Picture: the part to use must begin left of where it ends and above it; "
            "give shares from 0 to 1 as left, top, right, bottom."
        )


def _choice(design: Design, keys: tuple[str, ...] | None) -> tuple[tuple[str, ...], FloatArray]:
    """The keys to choose from and their light, (k, 3)."""
    wanted = tuple(entry.key for entry in design.tray.beads) if keys is None else tuple(dict.fromkeys(keys))
    if not wanted:
        raise RequestError("Picture: there is no bead to choose from; add beads to the tray, or name some of them.")
    try:
        return wanted, np.array([_light_of(design, key) for key in wanted])
    except DesignError as error:
        raise RequestError(f"Picture: {error}") from error


def _light_of(design: Design, key: str) -> FloatArray:
    """The light of what falls: of a stack the mean of its beads, of a bare stitch the mean of the cords."""
    if key == BARE:
        colours = design.cords.colours
    else:
        entry = design.tray.get(key)
        parts = entry.stack if isinstance(entry, TrayStack) else (key,)
        colours = tuple(bead.colour for part in parts for bead in design.tray.beads if bead.key == part)
    found: FloatArray = np.mean([linear_of(colour) for colour in colours], axis=0)
    return found


def _wanted(
    surface: Surface, raster: Raster, placing: Placing, row_count: int
) -> tuple[FloatArray, BoolArray, tuple[float, float]]:
    """The light each stitch should have, which stitches take part, and the size of what is seen on the rope."""
    rows = placing.rows or (1, row_count)
    away = wrapped(surface.from_front_deg - placing.centre_deg)
    inside: BoolArray = np.abs(away) <= placing.arc_deg / 2.0 + 1e-9
    inside[: rows[0] - 1] = False
    inside[rows[1] :] = False
    middle, room = _region(surface, placing, rows)
    mm, shown = _scale(raster, placing, room)
    line, stitch = np.nonzero(inside)
    cell = surface.cell_mm[stitch]
    along = surface.along_mm[line, stitch] - middle
    light: FloatArray = np.zeros((len(line), 3))
    cover: FloatArray = np.zeros(len(line))
    for lap in (-360.0, 0.0, 360.0):  # a picture that goes all the way round meets itself at the back
        around = np.radians(away[line, stitch] + lap) * surface.radius_mm
        part, covered = _seen(raster, placing.crop, _windows(along, around, cell, placing.turn) / mm)
        light += part
        cover += covered
    enough = cover >= HALF * cell.prod(axis=1) / mm**2
    inside[line[~enough], stitch[~enough]] = False
    wanted: FloatArray = np.zeros((*inside.shape, 3))
    wanted[line[enough], stitch[enough]] = np.round(light[enough] / cover[enough, None], 9)
    return np.clip(wanted, 0.0, 1.0), inside, shown


def _scale(raster: Raster, placing: Placing, room: tuple[float, float]) -> tuple[float, tuple[float, float]]:
    """How many mm of the rope one pixel takes, both ways alike, and the width and height of what is seen, mm."""
    left, top, right, bottom = placing.crop
    size = ((right - left) * raster.width, (bottom - top) * raster.height)
    place = room if placing.turn in (0, 180) else room[::-1]
    ratios = tuple(length / pixels for length, pixels in zip(place, size, strict=True))
    mm = min(ratios) if placing.fit == "whole" else max(ratios)
    return mm, (min(size[0] * mm, place[0]), min(size[1] * mm, place[1]))


def _region(surface: Surface, placing: Placing, rows: tuple[int, int]) -> tuple[float, tuple[float, float]]:
    """The middle along the rope, and how long and how wide (round the rope) the place for the picture is, mm."""
    lines = surface.along_mm[rows[0] - 1 : rows[1]]
    low, high = float(lines.min()), float(lines.max())
    return (low + high) / 2.0, (
        high - low + float(surface.cell_mm[:, 0].max()),
        float(np.radians(placing.arc_deg)) * surface.radius_mm,
    )


def _windows(along: FloatArray, around: FloatArray, cell: FloatArray, turn: Turn) -> FloatArray:
    """What each stitch covers of the picture, mm from its middle, right and down: left, top, right, bottom, (n, 4).

    On the table, row 1 at the left, along is right and clockwise is up.
    """
    half_along, half_around = cell[:, 0] / 2.0, cell[:, 1] / 2.0
    right, down, half_x, half_y = {
        0: (along, -around, half_along, half_around),
        90: (around, along, half_around, half_along),
        180: (-along, around, half_along, half_around),
        270: (-around, -along, half_around, half_along),
    }[turn]
    return np.stack((right - half_x, down - half_y, right + half_x, down + half_y), axis=1)


def _seen(raster: Raster, crop: Crop, windows: FloatArray) -> tuple[FloatArray, FloatArray]:
    """The light and the cover in windows reckoned from the middle of the part that is used."""
    left, top, right, bottom = (
        share * size
        for share, size in zip(crop, (raster.width, raster.height, raster.width, raster.height), strict=True)
    )
    placed = windows + np.array([left + right, top + bottom, left + right, top + bottom]) / 2.0
    placed[:, (0, 2)] = np.clip(placed[:, (0, 2)], left, right)
    placed[:, (1, 3)] = np.clip(placed[:, (1, 3)], top, bottom)
    return raster.averaged(placed)
