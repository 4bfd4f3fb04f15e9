"""neighbours: a list of what may come to touch, good until something has moved by half a margin.

A cord does not collide with itself where it merely bends, nor with the bead it comes out of. Both exclusions go by
length along the cord, never by a number of points: with a fixed number a finer cord would be another cord. Bodies of
one bead do not collide with each other.

Everything is looked up in order of height, so a long rope takes as long as its parts together.
"""

from math import inf
from typing import NamedTuple

import numpy as np

from braidwright.physics.bodies import body_at, hung_by
from braidwright.physics.compiled import compiled
from braidwright.physics.images import copy, join, laid, moved, points_of, rise_of
from braidwright.physics.state import BODIES, BODY_AND_PIECE, NO_LAP, PIECES, Cell, Floats, Images, Ints, Neighbours
from braidwright.physics.vectors import minus, norm, put, row

BENDING = 1.3  # cord diameters along a cord within which it does not collide with itself (physics.md, section 2)
LEAVING = 0.5  # cord diameters along a cord within which it does not collide with the bead it comes out of
MARGIN = 0.4  # of the largest radius (physics.md, section 2): the widest margin, for a cell that moves much
LEAST_MARGIN = 0.05  # of the largest radius, for a cell that hardly moves any more
SOON, LATE = 6, 25  # uses: a list that is old sooner gets a wider margin, one that lasts longer a narrower one
WIDER, NARROWER = 1.5, 0.7

Pairs = list[tuple[int, int, int, int]]
Found = list[tuple[int, int]]


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
    """The neighbours of everything in the cell, and the points of the copies they lie in, with the widest margin."""
    return find_within(cell, unknowns, margin_mm(cell))


@compiled
def find_again(cell: Cell, near: Neighbours, unknowns: Floats) -> Neighbours:
    """The same anew, with a margin that suits how long the last list was good."""
    margin, widest = near.margin, margin_mm(cell)
    if near.uses[0] < SOON:
        margin *= WIDER
    elif near.uses[0] > LATE:
        margin *= NARROWER
    return find_within(cell, unknowns, min(widest, max(margin, widest * LEAST_MARGIN / MARGIN)))


@compiled
def find_within(cell: Cell, unknowns: Floats, margin: float) -> Neighbours:
    """The same, with a margin given, mm."""
    points, rise = points_of(unknowns), rise_of(cell, unknowns)
    join(cell, points, rise)
    there = laid(cell, points, rise)
    look = _look(cell, there, rise, margin)
    low, high = there[:, 2].min(), there[:, 2].max()
    widest = 2.0 * max(look.bodies.widest, look.pieces.widest + 0.5 * cell.cord_mm)
    tall = high - low + widest + 2.0 * look.margin
    pairs = [(0, 0, 0, 0) for _ in range(0)]
    active = [0]
    for image in range(len(cell.images.lift)):
        if abs(cell.images.lift[image] * rise) <= tall:
            before, place = len(pairs), 0 if image == 0 else len(active)
            _search(cell, look, image, place, pairs)
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
        margin,
        np.zeros(1, np.int64),
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
    near.uses[0] += 1
    return bool(2.0 * np.sqrt(farthest) + near.most_lift * risen > near.margin)


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
def _look(cell: Cell, points: Floats, rise: float, margin: float) -> Look:
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
        first, tip = hung_by(cell.rods, cell.tips, cell.bodies, body)
        solid = (cell.solids[body, 2], cell.solids[body, 3])
        centre, _ = body_at(points.reshape((1, len(points), 3)), 0, first, tip, solid)
        bodies[body, 0], bodies[body, 1], bodies[body, 2] = centre[0], centre[1], centre[2]
        bodies[body, 3] = cell.solids[body, 0] + cell.solids[body, 1]
    return Look(_sorted(pieces), _sorted(bodies), arc, long, rise, margin)


@compiled
def _copied(images: Images, image: int, spheres: Floats, rise: float) -> Floats:
    """Spheres as they lie in a copy."""
    there = spheres.copy()
    for index in range(len(spheres)):
        put(there, index, moved(images, image, row(spheres, index), rise))
    return there


@compiled
def _gap2(one: Floats, at: int, other: Floats, then: int, reach: float) -> bool:
    """Whether two spheres are less than a reach apart."""
    x, y, z = one[at, 0] - other[then, 0], one[at, 1] - other[then, 1], one[at, 2] - other[then, 2]
    most = one[at, 3] + other[then, 3] + reach
    return bool(x * x + y * y + z * z < most * most)


@compiled
def _candidates(low: Floats, things: Sorted, there: Floats, far: Floats, after: int) -> Found:
    """Rows (one, other) of spheres less than a reach apart, the second of those in order of height.

    Args:
        low: Spheres of the cell.
        things: Those of which a copy is looked at.
        there: That copy, in order of number.
        far: Reach, and the height of the copy above the cell, mm.
        after: 1 or 0 when only others that come so many numbers later count; less than 0 when all do.
    """
    found = [(0, 0) for _ in range(0)]
    reach, lift = far[0], far[1]
    for one in range(len(low)):
        height, most = low[one, 2] - lift, low[one, 3] + things.widest + reach
        first = np.searchsorted(things.heights, height - most)
        for at in range(first, len(things.heights)):
            if things.heights[at] > height + most:
                break
            other = things.order[at]
            if (after < 0 or other >= one + after) and _gap2(low, one, there, other, reach):
                found.append((one, other))
    return found


@compiled
def _search(cell: Cell, look: Look, image: int, place: int, pairs: Pairs) -> None:
    """Add all pairs of the cell with a copy."""
    images, lift = cell.images, cell.images.lift[image] * look.rise
    after = 1 if images.own[image] == 0.0 else 0
    strings = _copied(images, image, look.pieces.spheres, look.rise)
    balls = _copied(images, image, look.bodies.spheres, look.rise)
    cord, squeezed = cell.cord_mm + look.margin, cell.squeezed_mm + look.margin
    chain = _chain(cell, look, image)
    for one, other in _candidates(look.pieces.spheres, look.pieces, strings, np.array([cord, lift]), after):
        first, second = cell.pieces[one], cell.pieces[other]
        if (
            _along_cord(chain, (cell.strand[one], cell.strand[other]), look.arc, (first, second))
            >= BENDING * cell.cord_mm
        ):
            pairs.append((PIECES, one, other, place))
    for one, other in _candidates(look.bodies.spheres, look.bodies, balls, np.array([look.margin, lift]), after):
        if image > 0 or cell.bodies[one] != cell.bodies[other]:
            pairs.append((BODIES, one, other, place))
    for one, other in _candidates(look.bodies.spheres, look.pieces, strings, np.array([squeezed, lift]), -1):
        bead = cell.bodies[one]
        first, second = cell.rods[bead], cell.pieces[other]
        if (
            _along_cord(chain, (cell.rod_strand[bead], cell.strand[other]), look.arc, (first, second))
            >= LEAVING * cell.cord_mm
        ):
            pairs.append((BODY_AND_PIECE, one, other, place))


@compiled
def _chain(cell: Cell, look: Look, image: int) -> Floats:
    """For every strand: the strand in the copy in which its cord goes on, the one it comes from, and its length.

    Less than 0 where there is none; last comes the length of cord to its own copy, if that lies on the same cord.
    """
    chain = np.full((len(cell.strands), 4), -1.0)
    for strand in range(len(cell.strands)):
        then = cell.follows[strand]
        if cell.joins[strand, 2] == image:
            chain[strand, 0] = then
        if cell.joins[strand, 2] == cell.images.inverse[image]:
            chain[then, 1] = strand
        chain[strand, 2] = look.long[strand]
        laps = cell.images.laps[image]
        chain[strand, 3] = inf if laps == NO_LAP else laps * look.long[strand]
    return chain


@compiled
def _along_cord(chain: Floats, strands: tuple[int, int], arc: Floats, ends: tuple[int, int]) -> float:
    """Length of cord between two stretches of cord, the second in a copy; they start at the points `ends`."""
    strand, other = strands
    start, start2, end, end2 = arc[ends[0]], arc[ends[1]], arc[ends[0] + 1], arc[ends[1] + 1]
    gap = inf
    if chain[strand, 0] == other:
        gap = min(gap, chain[strand, 2] - end + start2)
    if chain[strand, 1] == other:
        gap = min(gap, chain[other, 2] - end2 + start)
    if strand == other and chain[strand, 3] < inf:
        away = chain[strand, 3]
        gap = min(gap, max(start2 + away - end, start - end2 - away))
    return float(gap)
