"""neighbours: a list of the bodies that may come to touch, good until something has moved by half a margin.

A cord does not collide with itself where it merely bends, nor with the bead it comes out of. Both exclusions go by
length along the cord, never by a number of points: with a fixed number a finer cord would be another cord.
"""

from math import inf
from typing import NamedTuple

import numpy as np

from braidwright.physics.compiled import compiled
from braidwright.physics.images import copy, join, moved, points_of
from braidwright.physics.state import BEAD_AND_PIECE, BEADS, HEAVE, NO_LAP, PIECES, Cell, Floats, Ints, Neighbours
from braidwright.physics.vectors import Vector, along, minus, norm, row

BENDING = 1.3  # cord diameters along a cord within which it does not collide with itself (physics.md, section 2)
LEAVING = 0.5  # cord diameters along a cord within which it does not collide with the bead it comes out of
MARGIN = 0.4  # of the largest radius (physics.md, section 2)

Pairs = list[tuple[int, int, int, int]]


class Look(NamedTuple):
    """What a search goes by.

    Attributes:
        pieces: Rows (x, y, z, half length) of every piece, (pieces, 4).
        beads: Rows (x, y, z, radius of the sphere round it) of every bead, (beads, 4).
        arc: Length along its strand at every point, (points,).
        long: Length of every strand, (strands,).
        rise: Height of a repeat, mm.
        margin: How much farther than touching counts as near, mm.
    """

    pieces: Floats
    beads: Floats
    arc: Floats
    long: Floats
    rise: float
    margin: float


@compiled
def find(cell: Cell, unknowns: Floats) -> Neighbours:
    """The neighbours of every body of the cell, and the points of the copies they lie in."""
    points, rise = points_of(unknowns), unknowns[-1] * HEAVE
    join(cell, points, rise)
    look = _look(cell, points, rise)
    low, high = points[:, 2].min(), points[:, 2].max()
    tall = high - low + _widest(cell, look) + 2.0 * look.margin
    pairs = [(0, 0, 0, 0) for _ in range(0)]
    active = [0]
    for image in range(len(cell.images.lift)):
        if abs(cell.images.lift[image] * rise) <= tall:
            before, place = len(pairs), 0 if image == 0 else len(active)
            _pieces(cell, look, image, place, pairs)
            _beads(cell, look, image, place, pairs)
            _beads_and_pieces(cell, look, image, place, pairs)
            if image > 0 and len(pairs) > before:
                active.append(image)
    near = Neighbours(
        _table(pairs),
        np.array(active),
        np.zeros((len(active), len(points), 3)),
        np.zeros((len(active), len(points), 3)),
        unknowns.copy(),
        tall / rise if rise > 0.0 else np.abs(cell.images.lift).max(),
    )
    copy(cell, near, points, rise)
    return near


@compiled
def is_stale(cell: Cell, near: Neighbours, unknowns: Floats) -> bool:
    """Whether two bodies may have come near that are not on the list."""
    farthest = 0.0
    for index in range(0, len(unknowns) - 1, 3):
        x, y = unknowns[index] - near.then[index], unknowns[index + 1] - near.then[index + 1]
        z = unknowns[index + 2] - near.then[index + 2]
        farthest = max(farthest, x * x + y * y + z * z)
    risen = HEAVE * abs(unknowns[-1] - near.then[-1])
    return bool(2.0 * np.sqrt(farthest) + near.most_lift * risen > margin_mm(cell))


@compiled
def margin_mm(cell: Cell) -> float:
    """How much farther than touching counts as near."""
    radius = 0.5 * cell.cord_mm
    for bead in range(len(cell.beads)):
        radius = max(radius, cell.beads[bead, 0] + cell.beads[bead, 1])
    return MARGIN * radius


@compiled
def _table(pairs: Pairs) -> Ints:
    table = np.zeros((len(pairs), 4), np.int64)
    for index in range(len(pairs)):
        for column in range(4):
            table[index, column] = pairs[index][column]
    return table


@compiled
def _look(cell: Cell, points: Floats, rise: float) -> Look:
    arc, long = np.zeros(len(points)), np.zeros(len(cell.strands))
    for strand in range(len(cell.strands)):
        first, last = cell.strands[strand]
        for index in range(first, last):
            arc[index + 1] = arc[index] + norm(minus(row(points, index + 1), row(points, index)))
        long[strand] = arc[last]
    pieces, beads = np.zeros((len(cell.pieces), 4)), np.zeros((len(cell.rods), 4))
    for piece in range(len(pieces)):
        first = cell.pieces[piece]
        pieces[piece, :3] = 0.5 * (points[first] + points[first + 1])
        pieces[piece, 3] = 0.5 * (arc[first + 1] - arc[first])
    for bead in range(len(beads)):
        first = cell.rods[bead]
        beads[bead, :3] = 0.5 * (points[first] + points[first + 1])
        beads[bead, 3] = cell.beads[bead, 0] + cell.beads[bead, 1]
    return Look(pieces, beads, arc, long, rise, margin_mm(cell))


@compiled
def _widest(cell: Cell, look: Look) -> float:
    """The farthest that the middles of two touching bodies can be apart."""
    radius = 0.5 * cell.cord_mm + (look.pieces[:, 3].max() if len(look.pieces) else 0.0)
    for bead in range(len(look.beads)):
        radius = max(radius, look.beads[bead, 3])
    return 2.0 * radius


@compiled
def _is_near(cell: Cell, look: Look, image: int, one: Floats, other: Floats) -> float:
    """How far two bodies' spheres are apart, the second one's in a copy."""
    there: Vector = moved(cell.images, image, (other[0], other[1], other[2]), look.rise)
    return float(norm(along(there, (one[0], one[1], one[2]), -1.0)) - one[3] - other[3])


@compiled
def _along_cord(cell: Cell, look: Look, image: int, strands: tuple[int, int], ends: tuple[int, int]) -> float:
    """Length of cord between two stretches of cord, the second in a copy; they start at the points `ends`."""
    strand = strands[0]
    if strand != strands[1] or cell.images.laps[image] == NO_LAP:
        return inf
    long = look.long[strand]
    start, start2 = look.arc[ends[0]], look.arc[ends[1]] + cell.images.laps[image] * long
    end, end2 = look.arc[ends[0] + 1], look.arc[ends[1] + 1] + cell.images.laps[image] * long
    gap = max(start2 - end, start - end2)
    if cell.joins[strand, 2] == 0:  # a loop: the other way round counts too
        gap = min(gap, max(start2 - long - end, start - end2 + long), max(start2 + long - end, start - end2 - long))
    return float(gap)


@compiled
def _pieces(cell: Cell, look: Look, image: int, place: int, pairs: Pairs) -> None:
    after = 1 if cell.images.own[image] == 0.0 else 0
    reach = cell.cord_mm + look.margin
    for one in range(len(cell.pieces)):
        for other in range(one + after, len(cell.pieces)):
            if _is_near(cell, look, image, look.pieces[one], look.pieces[other]) < reach:
                ends, strands = (cell.pieces[one], cell.pieces[other]), (cell.strand[one], cell.strand[other])
                if _along_cord(cell, look, image, strands, ends) >= BENDING * cell.cord_mm:
                    pairs.append((PIECES, one, other, place))


@compiled
def _beads(cell: Cell, look: Look, image: int, place: int, pairs: Pairs) -> None:
    after = 1 if cell.images.own[image] == 0.0 else 0
    for one in range(len(cell.rods)):
        for other in range(one + after, len(cell.rods)):
            if _is_near(cell, look, image, look.beads[one], look.beads[other]) < look.margin:
                pairs.append((BEADS, one, other, place))


@compiled
def _beads_and_pieces(cell: Cell, look: Look, image: int, place: int, pairs: Pairs) -> None:
    reach = cell.squeezed_mm + look.margin
    for bead in range(len(cell.rods)):
        for piece in range(len(cell.pieces)):
            if _is_near(cell, look, image, look.beads[bead], look.pieces[piece]) < reach:
                ends, strands = (cell.rods[bead], cell.pieces[piece]), (cell.rod_strand[bead], cell.strand[piece])
                if _along_cord(cell, look, image, strands, ends) >= LEAVING * cell.cord_mm:
                    pairs.append((BEAD_AND_PIECE, bead, piece, place))
