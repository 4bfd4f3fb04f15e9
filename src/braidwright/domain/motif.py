"""motif: small patches of drops, placed one by one or along the front line."""

from dataclasses import dataclass, replace
from math import floor

from braidwright.domain.chart import stations, surface_angle
from braidwright.domain.design import Anchor, Design, PlacedMotif
from braidwright.domain.errors import RequestError
from braidwright.domain.paint import check_stitch
from braidwright.domain.patch import check_patch, patch_stitches

LEAST_SPACING_MM = 0.1  # shorter than any bead


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """How the columns run: what places on the front are reckoned from.

    Attributes:
        rise_mm: Length gained per row.
        drift_deg: Turn of a column per row, degrees clockwise.
        radius_mm: From the axis to the middle of the beads.
    """

    rise_mm: float
    drift_deg: float
    radius_mm: float

    def __post_init__(self) -> None:
        """Refuse a course that leads nowhere."""
        if not (self.rise_mm > 0 and self.radius_mm > 0):
            raise RequestError("Placing along the front needs the rise and the thickness; enter a swatch first.")


def place(design: Design, motif: PlacedMotif) -> Design:
    """Lay a motif on its anchors and remember it.

    Raises:
        RequestError: An anchor the design does not have, a key the tray does not have, an empty patch.
    """
    check_patch(design, motif)
    cells = [list(text) for text in design.rows]
    for anchor in motif.anchors:
        check_stitch(design, anchor)
        for at, key in patch_stitches(design, motif.lines, anchor):
            cells[at.row - 1][at.stitch - 1] = key
    others = tuple(other for other in design.motifs if other.name != motif.name)
    return replace(design, rows=tuple("".join(line) for line in cells), motifs=(*others, motif))


def front_anchors(design: Design, course: Course, spacing_mm: float, count: int | None = None) -> tuple[Anchor, ...]:
    """Anchors along the front line at a spacing, centred on the piece, each on the stitch nearest the line.

    Args:
        design: The design; its front line is taken at the middle row.
        course: How the columns run.
        spacing_mm: Wanted distance from one to the next.
        count: How many, or None for as many as fit.

    Raises:
        RequestError: A spacing that is no length, or more motifs than fit.
    """
    length = course.rise_mm * len(design.rows)
    if not LEAST_SPACING_MM <= spacing_mm < float("inf"):
        raise RequestError(f"Spacing: {spacing_mm:g} mm is not a distance; give at least {LEAST_SPACING_MM:g} mm.")
    fitting = floor((length - course.rise_mm) / spacing_mm + 1e-9) + 1
    number = fitting if count is None else count
    if not 1 <= number <= fitting:
        raise RequestError(
            f"Motifs: {number} at {spacing_mm:g} mm do not fit on {length:.0f} mm; "
            f"use 1 to {fitting}, or bring them closer."
        )
    middle = (len(design.rows) - 1) / 2.0
    offsets = [(index - (number - 1) / 2.0) * spacing_mm for index in range(number)]
    return tuple(nearest_stitch(design, course, middle + offset / course.rise_mm) for offset in offsets)


def nearest_stitch(design: Design, course: Course, row: float) -> Anchor:
    """The stitch nearest the point where the front line crosses a height, measured on the surface in mm.

    Args:
        design: The design.
        course: How the columns run.
        row: Height in rows above row 1, fractions allowed.
    """
    best: tuple[float, int, int] | None = None
    for candidate in range(max(0, floor(row) - 2), min(len(design.rows), floor(row) + 3)):
        for station in stations(design.braid):
            along = (candidate + station.step - row) * course.rise_mm
            around = from_front(design, course.drift_deg, candidate, station.stitch)
            across = course.radius_mm * around * 0.017453292519943295
            rank = (round(along * along + across * across, 9), candidate, station.stitch)
            best = rank if best is None or rank < best else best
    if best is None:
        raise RequestError("Placing along the front: that point lies off the piece; use a smaller spacing.")
    return Anchor(row=best[1] + 1, stitch=best[2] + 1)


def from_front(design: Design, drift_deg: float, row: int, stitch: int) -> float:
    """How far round the rope a stitch lies from the front line, degrees from -180 to under 180, clockwise positive.

    Args:
        design: The design.
        drift_deg: Turn of a column per row, degrees clockwise.
        row: Row index, from 0.
        stitch: Stitch index, from 0.
    """
    middle = (len(design.rows) - 1) / 2.0
    angle = surface_angle(design.braid, stitch, row - middle, drift_deg)
    return (angle - design.front_line.deg + 180.0) % 360.0 - 180.0


def along_the_front(
    design: Design, motif: PlacedMotif, course: Course, spacing_mm: float, count: int | None = None
) -> Design:
    """Place a motif along the front line at a spacing, centred on the piece."""
    return place(design, replace(motif, anchors=front_anchors(design, course, spacing_mm, count)))
