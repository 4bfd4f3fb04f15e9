"""rope paint: beads and the cords between, drawn where a pose puts them."""

from collections.abc import Iterator
from math import ceil

import numpy as np

from braidwright.domain.geometry import FloatArray, Geometry
from braidwright.drawings.bead_solid import draw_bead
from braidwright.drawings.pen import Outline, Pen, Point
from braidwright.drawings.posing import Pose, Seen
from braidwright.drawings.sheet import Subject
from braidwright.drawings.style import darker, drawn, edge_of, mixed

SHADE = "#211a1c"  # what lies behind is seen in the shadow of what lies before
SHADED, DEEPEST = 0.42, 3  # how dark it gets half a bead behind the middle and farther, and in how many steps
HIDDEN = 0.3  # a cord nearer the axis than this share of the way to the holes lies in the dark


def draw_seen(pen: Pen, subject: Subject, one: Seen) -> None:
    """Draw one bead, darker at the back."""
    bead = subject.bead(one.key)
    if bead is not None:
        deep = min(DEEPEST, ceil(-one.place.depth / bead.diameter_mm * 2.0 * DEEPEST))
        colour = subject.colour(one.key)
        seen = colour if deep <= 0 else mixed(colour, SHADE, SHADED * deep / DEEPEST)
        draw_bead(pen, bead, (seen, subject.finish(one.key)), one.place, one.of)


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
        for depth, line in _runs(curve[(curve[:, 2] > span[0]) & (curve[:, 2] < span[1])], pose, dark, width)
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


def _runs(curve: FloatArray, pose: Pose, dark: float, least: float) -> Iterator[tuple[float, list[Point]]]:
    """The parts of a cord that are seen: how deep they lie, and their points on the page."""
    points = pose.points(curve)
    is_seen = points[:, 2] > dark
    for part in np.split(np.arange(len(curve)), np.flatnonzero(np.diff(is_seen)) + 1):
        if len(part) > 1 and is_seen[part[0]]:
            yield float(points[part, 2].mean()), _thinned(points[part, :2], least)


def _thinned(points: FloatArray, least: float) -> list[Point]:
    """Points of the page at least so far apart along the line; the first and the last always."""
    arcs = np.concatenate(([0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1)))) / least
    is_kept = np.diff(np.floor(arcs), prepend=-1.0) > 0
    is_kept[-1] = True
    return [(x, y) for x, y in points[is_kept].tolist()]


def core_colour(subject: Subject) -> str:
    """The shade between the beads: the cords inside the rope."""
    colours = set(subject.design.cords.colours)
    return darker(mixed(colours.pop(), "#3a2f2a", 0.4) if len(colours) == 1 else "#3a2f2a", 0.45)
