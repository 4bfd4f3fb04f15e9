"""rope paint: beads, open cord and the cords between, drawn where a pose puts them."""

from collections.abc import Iterator
from math import atan2, ceil, degrees, hypot, pi

import numpy as np

from braidwright.domain.chart import columns
from braidwright.domain.geometry import FloatArray, Geometry
from braidwright.domain.tray import BARE
from braidwright.drawings.bead_solid import draw_bead
from braidwright.drawings.pen import Gradient, Outline, Paint, Pen, Point
from braidwright.drawings.posing import Pose, Seen
from braidwright.drawings.sheet import Subject
from braidwright.drawings.style import darker, drawn, edge_of, lighter, mixed

SHADE = "#211a1c"  # what lies behind is seen in the shadow of what lies before
SHADED, DEEPEST = 0.42, 3  # how dark it gets half a bead behind the middle and farther, and in how many steps
HIDDEN = 0.3  # a cord nearer the axis than this share of the way to the holes lies in the dark
GRAIN_ALONG, GRAIN_ACROSS = 1.12, 0.45  # half a grain of plain cord: in rows, and in shares of its lane


def draw_seen(pen: Pen, subject: Subject, one: Seen, bare_half: float) -> None:
    """Draw one bead, darker at the back, or one bare stitch, only before.

    Args:
        pen: Drawn onto.
        subject: What is drawn.
        one: The bead or stitch.
        bare_half: Half the length of a bare stitch, mm of the rope.
    """
    bead = subject.bead(one.key)
    if one.key == BARE:
        if one.place.depth >= 0:
            _draw_bare(pen, subject, one, bare_half)
    elif bead is not None:
        deep = min(DEEPEST, ceil(-one.place.depth / bead.diameter_mm * 2.0 * DEEPEST))
        colour = subject.colour(one.key)
        seen = colour if deep <= 0 else mixed(colour, SHADE, SHADED * deep / DEEPEST)
        draw_bead(pen, bead, (seen, subject.finish(one.key)), one.place, one.of)


def _draw_bare(pen: Pen, subject: Subject, one: Seen, half: float) -> None:
    """A stitch without a bead: the cord lies open."""
    colour, zoom = subject.design.cords.colour(one.cord), one.place.zoom
    x, y, _ = one.place.hole
    radii = (half * zoom * max(0.3, hypot(x, y)), max(0.16, subject.cord_mm) * zoom)
    paint = Paint(fill=_cord_fill(colour), edge=edge_of(colour), width=0.05 * zoom)
    pen.ellipse(one.place.at, radii, paint, degrees(atan2(y, x)), one.of)


def _cord_fill(colour: str) -> Gradient:
    stops = ((0.0, lighter(colour, 0.3)), (0.55, colour), (1.0, darker(colour, 0.35)))
    return Gradient(kind="radial", stops=stops, start=(0.5, 0.5), end=(1.0, 0.5), focus=(0.4, 0.3))


def draw_grain(pen: Pen, subject: Subject, one: Seen, measures: tuple[float, float]) -> None:
    """One stitch of a rope of cord only, as wide as its column and long enough to reach under its neighbours.

    Args:
        pen: Drawn onto.
        subject: What is drawn.
        one: The stitch.
        measures: Rise of a row and diameter of the rope, mm.
    """
    (rise, diameter), place = measures, one.place
    lanes = max(2, len(columns(subject.design.braid)))
    across = GRAIN_ACROSS * pi * 0.8 * diameter / lanes
    colour = subject.design.cords.colour(one.cord)
    squeeze = 0.5 + 0.5 * abs(place.out[2])
    paint = Paint(fill=_cord_fill(colour), edge=edge_of(colour), width=0.06 * place.zoom)
    radii = (place.zoom * GRAIN_ALONG * rise, place.zoom * across * squeeze)
    pen.ellipse(place.at, radii, paint, degrees(atan2(place.hole[1], place.hole[0])), one.of)


# --- the cords between ----------------------------------------------------------------------------------


def draw_cords(pen: Pen, subject: Subject, geometry: Geometry, pose: Pose, span: tuple[float, float]) -> None:
    """The cords between the beads, as far as light falls on them, farthest first.

    Args:
        pen: Drawn onto.
        subject: What is drawn.
        geometry: Its rope in space.
        pose: How it lies.
        span: The heights between which it is drawn, mm.
    """
    width = max(0.16, subject.cord_mm) * pose.zoom
    dark = HIDDEN * _depth_of_holes(geometry, pose)
    runs = [
        (depth, cord, line)
        for cord, curve in enumerate(geometry.cords)
        for depth, line in _runs(curve[(curve[:, 2] > span[0]) & (curve[:, 2] < span[1])], pose, dark)
    ]
    for _, cord, line in sorted(runs, key=lambda run: run[:2]):
        colour = subject.design.cords.colour(cord)
        outline = Outline(pieces=(("M", (line[0],)), *(("L", (point,)) for point in line[1:])))
        pen.path(outline, drawn(edge_of(colour), width * 1.25))
        pen.path(outline, drawn(mixed(colour, "#2a2521", 0.25), width * 0.85))


def _depth_of_holes(geometry: Geometry, pose: Pose) -> float:
    """How far toward the reader the holes of the nearest beads lie, mm; a few bigger beads lie nearer."""
    places = geometry.centres if geometry.keys else np.concatenate(geometry.cords)
    return float(np.quantile(np.abs(pose.points(places)[:, 2]), 0.95))


def _runs(curve: FloatArray, pose: Pose, dark: float) -> Iterator[tuple[float, list[Point]]]:
    """The parts of a cord that are seen: how deep they lie, and their points on the page."""
    points = pose.points(curve)
    is_seen = points[:, 2] > dark
    for part in np.split(np.arange(len(curve)), np.flatnonzero(np.diff(is_seen)) + 1):
        if len(part) > 1 and is_seen[part[0]]:
            yield float(points[part, 2].mean()), [(x, y) for x, y, _ in points[part].tolist()]


def core_colour(subject: Subject) -> str:
    """The shade between the beads: the cords inside the rope."""
    return darker(mixed(subject.design.cords.colour(0), "#3a2f2a", 0.4), 0.45)
