"""How deep the things of a cell overlap: every pair looked up anew, with the exact nearest points of `closest`."""

from typing import NamedTuple

import numpy as np

from braidwright.physics.bodies import body_at, hung_by, point
from braidwright.physics.closest import disc_and_piece, discs, pieces
from braidwright.physics.images import unknowns_of
from braidwright.physics.neighbours import find
from braidwright.physics.state import BODIES, BODY_AND_PIECE, PIECES, Cell, Floats, Neighbours
from braidwright.physics.vectors import Vector


class Overlap(NamedTuple):
    """Two things of a cell that overlap, deepest first in lists: what they are, their numbers, and by how much."""

    deep_mm: float
    kind: int
    one: int
    other: int


def overlaps(cell: Cell, points: Floats, rise_mm: float) -> list[Overlap]:
    """All overlaps of a cell whose points lie in space like this, deepest first."""
    here = cell._replace(tall_mm=rise_mm) if cell.tall_mm > 0.0 else cell
    near = find(here, unknowns_of(points, rise_mm, cell.heave))
    found = []
    for kind, one, other, place in near.pairs.tolist():
        deep = _deep(here, near, (kind, one, other, place))
        if deep > 0.0:
            found.append(Overlap(deep, kind, one, other))
    return sorted(found, reverse=True)


def deepest_mm(cell: Cell, points: Floats, rise_mm: float) -> float:
    """The deepest overlap."""
    every = overlaps(cell, points, rise_mm)
    return every[0].deep_mm if every else 0.0


def _deep(cell: Cell, near: Neighbours, pair: tuple[int, int, int, int]) -> float:
    kind, one, other, place = pair
    if kind == PIECES:
        a, ab = _piece(near, cell, 0, one)
        c, cd = _piece(near, cell, place, other)
        s, t = pieces(a, ab, c, cd)
        return cell.cord_mm - _apart(_along(a, ab, s), _along(c, cd, t))
    centre, axis, disc, rounding = _body(near, cell, 0, one)
    if kind == BODY_AND_PIECE:
        c, cd = _piece(near, cell, place, other)
        p, t = disc_and_piece(centre, axis, disc, c, cd)
        return rounding + cell.squeezed_mm - _apart(p, _along(c, cd, t))
    assert kind == BODIES
    centre2, axis2, disc2, rounding2 = _body(near, cell, place, other)
    p, q = discs(centre, axis, disc, centre2, axis2, disc2)
    return rounding + rounding2 - _apart(p, q)


def _piece(near: Neighbours, cell: Cell, place: int, piece: int) -> tuple[Vector, Vector]:
    first = int(cell.pieces[piece])
    a, b = point(near.copies, place, first), point(near.copies, place, first + 1)
    return a, (b[0] - a[0], b[1] - a[1], b[2] - a[2])


def _body(near: Neighbours, cell: Cell, place: int, body: int) -> tuple[Vector, Vector, float, float]:
    first, tip = hung_by(cell.rods, cell.tips, cell.bodies, body)
    solid = cell.solids[body]
    centre, rod = body_at(near.copies, place, first, tip, (float(solid[2]), float(solid[3])))
    long = float(np.linalg.norm(rod))
    return centre, (rod[0] / long, rod[1] / long, rod[2] / long), float(solid[0]), float(solid[1])


def _along(a: Vector, ab: Vector, t: float) -> Vector:
    return a[0] + t * ab[0], a[1] + t * ab[1], a[2] + t * ab[2]


def _apart(p: Vector, q: Vector) -> float:
    return float(np.linalg.norm(np.subtract(p, q)))
