"""tubes: cord that lies open on the outside, drawn in short pieces so that near ones cover far ones."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from braidwright.domain.geometry import FloatArray
from braidwright.drawings.bare_stitches import BareStitch
from braidwright.drawings.pen import Outline, Paint, Pen, Point
from braidwright.drawings.posing import Pose
from braidwright.drawings.sheet import Subject
from braidwright.drawings.style import edge_of, lighter, mixed

PIECE = 1.5  # about how long a piece is, in cord diameters
CORNERS = 4  # of a piece
LAP = 0.12  # the colour of a piece reaches so far over its neighbours, in cord diameters, or the joint would show
BODY, LIGHT = 0.86, 0.34  # width of the colour and of the light on it, in cord diameters
UP = 0.17  # how far up the light lies, likewise
SHADE, SHADED, TONES = "#211a1c", 0.5, 20  # how dark it gets at the middle of the rope, and in how many steps
LIT = 0.75  # what lies deeper than this share of the way to the middle catches no light
LEAST_MM = 0.16  # a thinner cord is drawn so thick


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A short piece of cord on the page.

    Attributes:
        depth: How far toward the reader it lies, mm of the rope.
        facing: The same in shares of the way from the axis to the outside.
        cord: Which cord.
        line: Its points on the page.
        lapping: The same, a little longer at both ends.
        of: The name of its stitch; "" of one in a lead.
    """

    depth: float
    facing: float
    cord: int
    line: tuple[Point, ...]
    lapping: tuple[Point, ...]
    of: str


def pieces(
    stitches: Iterable[BareStitch], pose: Pose, cord_mm: float, deepest: float, span: tuple[float, float]
) -> Iterator[Piece]:
    """The pieces of the open cord of stitches, as far as they are seen.

    Args:
        stitches: The stitches.
        pose: How the rope lies.
        cord_mm: Diameter of the cord.
        deepest: What lies farther from the reader is left out, mm of the rope.
        span: What lies below or above these heights is left out, mm.
    """
    step = PIECE * max(cord_mm, LEAST_MM) * pose.zoom
    for one in stitches:
        points = pose.points(one.line)
        radius = max(1e-6, float(np.hypot(*one.line[one.middle, :2])))
        inside = (one.line[:, 2] >= span[0]) & (one.line[:, 2] <= span[1])
        for part in _parts(points, inside & (points[:, 2] > deepest)):
            for depth, line in _cut(part, step):
                yield Piece(depth=depth, facing=depth / radius, cord=one.cord, line=line[1:-1], lapping=line, of=one.of)


def _parts(points: FloatArray, is_seen: NDArray[np.bool_]) -> Iterator[FloatArray]:
    """The parts of a line that are seen."""
    for part in np.split(np.arange(len(points)), np.flatnonzero(np.diff(is_seen)) + 1):
        if len(part) > 1 and is_seen[part[0]]:
            yield points[part]


def _cut(points: FloatArray, step: float) -> Iterator[tuple[float, tuple[Point, ...]]]:
    """Pieces of about one length: how deep they lie, and their points with one more at either end."""
    arcs = np.concatenate(([0.0], np.cumsum(np.linalg.norm(np.diff(points[:, :2], axis=0), axis=1))))
    count = max(1, round(arcs[-1] / step))
    ends = np.linspace(0.0, arcs[-1], count + 1)
    lap = step * LAP / PIECE
    for low, high in pairwise(ends):
        where = np.concatenate(([low - lap], np.linspace(low, high, CORNERS), [high + lap]))
        x, y, depth = (np.interp(where, arcs, points[:, axis]) for axis in range(3))
        yield float(depth.mean()), tuple(zip(x.tolist(), y.tolist(), strict=True))


def draw_piece(pen: Pen, subject: Subject, piece: Piece, zoom: float) -> None:
    """Draw one piece: its edges, its colour, the light on it; darker the deeper it lies.

    Args:
        pen: Drawn onto.
        subject: What is drawn.
        piece: The piece.
        zoom: Millimetres on the page for one of the rope.
    """
    wide = max(LEAST_MM, subject.cord_mm) * zoom
    tone = min(TONES, max(0, round(TONES * (1.0 - piece.facing))))
    colour = mixed(subject.design.cords.colour(piece.cord), SHADE, SHADED * tone / TONES)
    pen.path(_outline(piece.line), Paint(edge=edge_of(colour), width=wide, is_round=False), piece.of)
    pen.path(_outline(piece.lapping), Paint(edge=colour, width=BODY * wide, is_round=False))
    if tone < LIT * TONES:
        raised = tuple((x, y - UP * wide) for x, y in piece.lapping)
        pen.path(_outline(raised), Paint(edge=lighter(colour, 0.28), width=LIGHT * wide, is_round=False))


def _outline(line: tuple[Point, ...]) -> Outline:
    return Outline(pieces=(("M", (line[0],)), *(("L", (point,)) for point in line[1:])))
