"""neighbours: a list of what may come to touch, good until something has moved by half a margin.

A cord does not collide with itself where it merely bends, nor with the bead it comes out of. Both exclusions go by
length along the cord, never by a number of points: with a fixed number a finer cord would be another cord. Bodies of
one bead do not collide with each other.

Everything is looked up in order of height, so a long rope takes as long as its parts together.
"""

from math import inf
from typing import NamedTuple

import numpy as np

from braidwright.physics.bodies import centre_of
from braidwright.physics.compiled import compiled
from braidwright.physics.images import copy, join, laid, moved, points_of, rise_of
from braidwright.physics.state import BODIES, BODY_AND_PIECE, NO_LAP, PIECES, Cell, Floats, Ints, Neighbours
from braidwright.physics.vectors import Vector, along, minus, norm, row

BENDING = 1.3  # cord diameters along a cord within which it does not collide with itself (physics.md, section 2)
LEAVING = 0.5  # cord diameters along a cord within which it does not collide with the bead it comes out of
MARGIN = 0.4  # of the largest radius (physics.md, section 2)

Pairs = list[tuple[int, int, int, int]]


class Sorted(NamedTuple):
    """Things in order of height.

    Attributes:
        spheres: Rows (x, y, z, radius of the sphere round it) of each, in order of number, (things, 4).
        order: Their numbers from the lowest to the highest.
        heights: Their heights in that order.
        widest: The largest radius.
    """

    spheres: Floats
    order: Ints
    heights: Floats
    widest: float


class Look(NamedTuple):
    """What a search goes by.

    Attributes:
        pieces: Every piece.
        bodies: Every body.
        arc: Length along its strand at every point, (points,).
        long: Length of every strand, (strands,).
        rise: Height of a repeat, mm.
        margin: How much farther than touching counts as near, mm.
    """

    pieces: Sorted
    bodies: Sorted
    arc: Floats
    long: Floats
    rise: float
    margin: float


@compiled
def find(cell: Cell, unknowns: Floats) -> Neighbours:
    """The neighbours of everything in the cell, and the points of the copies they lie in."""
    points, rise = points_of(unknowns), rise_of(cell, unknowns)
    join(cell, points, rise)
    there = laid(cell, points, rise)
    look = _look(cell, there, rise)
    low, high = there[:, 2].min(), there[:, 2].max()
    widest = 2.0 * max(look.bodies.widest, look.pieces.widest + 0.5 * cell.cord_mm)
    tall = high - low + widest + 2.0 * look.margin
    pairs = [(0, 0, 0, 0) for _ in range(0)]
    active = [0]
    for image in range(len(cell.images.lift)):
        if abs(cell.images.lift[image] * rise) <= tall:
            before, place = len(pairs), 0 if image == 0 else len(active)
            _pieces(cell, look, image, place, pairs)
            _bodies(cell, look, image, place, pairs)
            _bodies_and_pieces(cell, look, image, place, pairs)
            if image > 0 and len(pairs) > before:
                active.append(image)
    most_lift = tall / rise if rise > 0.0 else np.abs(cell.images.lift).max()
    if cell.tall_mm > 0.0 and rise > 0.0:  # a stretch moves what is near each other by its share of their distance only
        most_lift = (widest + look.margin) / rise
    near = Neighbours(
        _table(pairs),
        np.array(active),
        np.zeros((len(active), len(points), 3)),
        np.zeros((len(active), len(points), 3)),
        unknowns.copy(),
        most_lift,
    )
    copy(cell, near, points, rise)
    return near


@compiled
def is_stale(cell: Cell, near: Neighbours, unknowns: Floats) -> bool:
    """Whether two things may have come near that are not on the list."""
    farthest = 0.0
    for index in range(0, len(unknowns) - 1, 3):
        x, y = unknowns[index] - near.then[index], unknowns[index + 1] - near.then[index + 1]
        z = unknowns[index + 2] - near.then[index + 2]
        farthest = max(farthest, x * x + y * y + z * z)
    risen = cell.heave * abs(unknowns[-1] - near.then[-1])
    return bool(2.0 * np.sqrt(farthest) + near.most_lift * risen > margin_mm(cell))


@compiled
def margin_mm(cell: Cell) -> float:
    """How much farther than touching counts as near."""
    radius = 0.5 * cell.cord_mm
    for body in range(len(cell.solids)):
        radius = max(radius, cell.solids[body, 0] + cell.solids[body, 1])
    return MARGIN * radius


@compiled
def _table(pairs: Pairs) -> Ints:
    table = np.zeros((len(pairs), 4), np.int64)
    for index in range(len(pairs)):
        for column in range(4):
            table[index, column] = pairs[index][column]
    return table


@compiled
def _sorted(spheres: Floats) -> Sorted:
    order = np.argsort(spheres[:, 2], kind="mergesort")
    return Sorted(spheres, order, spheres[order, 2], spheres[:, 3].max() if len(spheres) > 0 else 0.0)


@compiled
def _look(cell: Cell, points: Floats, rise: float) -> Look:
    arc, long = np.zeros(len(points)), np.zeros(len(cell.strands))
    for strand in range(len(cell.strands)):
        first, last = cell.strands[strand]
        for index in range(first, last):
            arc[index + 1] = arc[index] + norm(minus(row(points, index + 1), row(points, index)))
        long[strand] = arc[last]
    pieces, bodies = np.zeros((len(cell.pieces), 4)), np.zeros((len(cell.bodies), 4))
    for piece in range(len(pieces)):
        first = cell.pieces[piece]
        pieces[piece, :3] = 0.5 * (points[first] + points[first + 1])
        pieces[piece, 3] = 0.5 * (arc[first + 1] - arc[first])
    for body in range(len(bodies)):
        centre = centre_of(cell, points, body)
        bodies[body, 0], bodies[body, 1], bodies[body, 2] = centre[0], centre[1], centre[2]
        bodies[body, 3] = cell.solids[body, 0] + cell.solids[body, 1]
    return Look(_sorted(pieces), _sorted(bodies), arc, long, rise, margin_mm(cell))


@compiled
def _gap(cell: Cell, look: Look, image: int, one: Floats, other: Floats) -> float:
    """How far two spheres are apart, the second one in a copy."""
    there: Vector = moved(cell.images, image, (other[0], other[1], other[2]), look.rise)
    return float(norm(along(there, (one[0], one[1], one[2]), -1.0)) - one[3] - other[3])


@compiled
def _window(cell: Cell, look: Look, image: int, things: Sorted, one: Floats, reach: float) -> tuple[int, int]:
    """From where to where in order of height the things of a copy lie that may be within reach of a sphere."""
    height = one[2] - cell.images.lift[image] * look.rise
    far = one[3] + things.widest + reach
    return np.searchsorted(things.heights, height - far), np.searchsorted(things.heights, height + far)


@compiled
def _along_cord(cell: Cell, look: Look, image: int, strands: tuple[int, int], ends: tuple[int, int]) -> float:
    """Length of cord between two stretches of cord, the second in a copy; they start at the points `ends`."""
    strand, other = strands
    start, start2 = look.arc[ends[0]], look.arc[ends[1]]
    end, end2 = look.arc[ends[0] + 1], look.arc[ends[1] + 1]
    long = look.long[strand]
    gap = inf
    if cell.follows[strand] == other and cell.joins[strand, 2] == image:
        gap = min(gap, long - end + start2)
    if cell.follows[other] == strand and cell.joins[other, 2] == cell.images.inverse[image]:
        gap = min(gap, look.long[other] - end2 + start)
    if strand == other and cell.images.laps[image] != NO_LAP:
        away = cell.images.laps[image] * long
        gap = min(gap, max(start2 + away - end, start - end2 - away))
    return float(gap)


@compiled
def _pieces(cell: Cell, look: Look, image: int, place: int, pairs: Pairs) -> None:
    after = 1 if cell.images.own[image] == 0.0 else 0
    reach, things = cell.cord_mm + look.margin, look.pieces
    for one in range(len(cell.pieces)):
        first, last = _window(cell, look, image, things, things.spheres[one], reach)
        for at in range(first, last):
            other = things.order[at]
            if other < one + after:
                continue
            if _gap(cell, look, image, things.spheres[one], things.spheres[other]) < reach:
                ends, strands = (cell.pieces[one], cell.pieces[other]), (cell.strand[one], cell.strand[other])
                if _along_cord(cell, look, image, strands, ends) >= BENDING * cell.cord_mm:
                    pairs.append((PIECES, one, other, place))


@compiled
def _bodies(cell: Cell, look: Look, image: int, place: int, pairs: Pairs) -> None:
    after = 1 if cell.images.own[image] == 0.0 else 0
    things = look.bodies
    for one in range(len(cell.bodies)):
        first, last = _window(cell, look, image, things, things.spheres[one], look.margin)
        for at in range(first, last):
            other = things.order[at]
            if other < one + after or (image == 0 and cell.bodies[one] == cell.bodies[other]):
                continue
            if _gap(cell, look, image, things.spheres[one], things.spheres[other]) < look.margin:
                pairs.append((BODIES, one, other, place))


@compiled
def _bodies_and_pieces(cell: Cell, look: Look, image: int, place: int, pairs: Pairs) -> None:
    reach, things = cell.squeezed_mm + look.margin, look.pieces
    for body in range(len(cell.bodies)):
        bead, sphere = cell.bodies[body], look.bodies.spheres[body]
        first, last = _window(cell, look, image, things, sphere, reach)
        for at in range(first, last):
            piece = things.order[at]
            if _gap(cell, look, image, sphere, things.spheres[piece]) < reach:
                ends, strands = (cell.rods[bead], cell.pieces[piece]), (cell.rod_strand[bead], cell.strand[piece])
                if _along_cord(cell, look, image, strands, ends) >= LEAVING * cell.cord_mm:
                    pairs.append((BODY_AND_PIECE, body, piece, place))
