"""contact: what overlaps pushes itself apart.

E = stiffness / 2 times overlap squared, for every two that are near. Source: physics.md, section 2.
"""

from math import sqrt

from braidwright.physics.bodies import add, body_at, hung_by, point, push_body
from braidwright.physics.closest import (
    disc_and_piece,
    disc_clear_of_disc,
    disc_clear_of_piece,
    discs,
    pieces,
    pierced,
    point_on_piece,
)
from braidwright.physics.compiled import compiled
from braidwright.physics.state import BODIES, BODY_AND_PIECE, PIECES, Cell, Floats, Neighbours
from braidwright.physics.vectors import Vector, along, dot, minus, norm, scaled


@compiled
def contact(cell: Cell, near: Neighbours) -> float:
    """The push of all that overlap; gradients go to `near.pulls`."""
    copies, pulls, pairs, active = near.copies, near.pulls, near.pairs, near.active
    own, strings, solids = cell.images.own, cell.pieces, cell.solids
    rods, tips, bodies = cell.rods, cell.tips, cell.bodies
    energy = 0.0
    for pair in range(len(pairs)):
        kind, one, other, place = pairs[pair, 0], pairs[pair, 1], pairs[pair, 2], pairs[pair, 3]
        share = own[active[place]] if kind != BODY_AND_PIECE and one == other else 1.0
        stiffness = cell.stiffness * share
        if kind == PIECES:
            energy += _two_pieces(copies, pulls, (strings[one], strings[other], place), cell.cord_mm, stiffness)
        elif kind == BODIES:
            hung, hung2 = hung_by(rods, tips, bodies, one), hung_by(rods, tips, bodies, other)
            energy += _two_bodies(copies, pulls, place, (hung, hung2), (solids, one, other), stiffness)
        else:
            hung = hung_by(rods, tips, bodies, one)
            reach = solids[one, 1] + cell.squeezed_mm
            energy += _body_and_piece(copies, pulls, (place, strings[other]), hung, (solids, one, reach), stiffness)
    return energy


@compiled
def _push(between: Vector, apart: float, reach: float, stiffness: float) -> tuple[float, Vector]:
    """Energy of an overlap, and its gradient on the first of the two nearest points.

    Args:
        between: From the first nearest point to the second.
        apart: Their distance.
        reach: How far apart they must be.
        stiffness: Force per mm.
    """
    over = reach - apart
    return 0.5 * stiffness * over * over, scaled(between, stiffness * over / apart)


@compiled
def _push_out(arm: Vector, axis: Vector, ab: Vector, deep: float, stiffness: float) -> tuple[float, Vector]:
    """The same of a piece that goes through a disc: it is pushed over the rim, square to itself.

    Args:
        arm: From the middle of the disc to where the piece goes through.
        axis: Of the disc, unit.
        ab: From the start of the piece to its end.
        deep: How far it must go.
        stiffness: Force per mm.
    """
    out = scaled(arm, 1.0 / max(norm(arm), 1e-9))
    out = along(out, axis, -dot(out, ab) / dot(axis, ab))
    return 0.5 * stiffness * deep * deep, scaled(out, stiffness * deep)


@compiled
def _two_pieces(copies: Floats, pulls: Floats, at: tuple[int, int, int], reach: float, stiffness: float) -> float:
    first, second, place = at
    a, c = point(copies, 0, first), point(copies, place, second)
    ab, cd = minus(point(copies, 0, first + 1), a), minus(point(copies, place, second + 1), c)
    away, halves = minus(along(c, cd, 0.5), along(a, ab, 0.5)), 0.5 * (dot(ab, ab) + dot(cd, cd))
    if dot(away, away) >= 2.0 * (reach * reach + halves):  # (x + y)^2 <= 2 (x^2 + y^2): too far, whatever their ways
        return 0.0
    s, t = pieces(a, ab, c, cd)
    between = minus(along(c, cd, t), along(a, ab, s))
    apart2 = dot(between, between)
    if apart2 >= reach * reach or apart2 == 0.0:
        return 0.0
    energy, pull = _push(between, sqrt(apart2), reach, stiffness)
    add(pulls, 0, first, pull, 1.0 - s)
    add(pulls, 0, first + 1, pull, s)
    add(pulls, place, second, pull, t - 1.0)
    add(pulls, place, second + 1, pull, -t)
    return energy


@compiled
def _body_and_piece(
    copies: Floats,
    pulls: Floats,
    at: tuple[int, int],
    hung: tuple[int, int],
    solid: tuple[Floats, int, float],
    stiffness: float,
) -> float:
    place, second = at
    solids, body, reach = solid
    shares = (solids[body, 2], solids[body, 3])
    centre, rod = body_at(copies, 0, hung[0], hung[1], shares)
    a = point(copies, place, second)
    ab = minus(point(copies, place, second + 1), a)
    away = minus(along(a, ab, point_on_piece(centre, a, ab)), centre)
    most = solids[body, 0] + reach
    if dot(away, away) >= most * most:
        return 0.0
    u = scaled(rod, 1.0 / norm(rod))
    if disc_clear_of_piece((centre, u, solids[body, 0]), a, ab, reach):
        return 0.0
    p, t = disc_and_piece(centre, u, solids[body, 0], a, ab)
    between = minus(along(a, ab, t), p)
    apart = norm(between)
    inside, through = pierced((centre, u, solids[body, 0]), a, ab)
    if inside > 0.0:
        t, p = through, along(a, ab, through)
        energy, pull = _push_out(minus(p, centre), u, ab, reach + inside, stiffness)
    elif apart >= reach or apart == 0.0:
        return 0.0
    else:
        energy, pull = _push(between, apart, reach, stiffness)
    push_body(pulls, 0, hung, shares, (minus(p, centre), rod), pull)
    add(pulls, place, second, pull, t - 1.0)
    add(pulls, place, second + 1, pull, -t)
    return energy


@compiled
def _two_bodies(
    copies: Floats,
    pulls: Floats,
    place: int,
    hung: tuple[tuple[int, int], tuple[int, int]],
    solid: tuple[Floats, int, int],
    stiffness: float,
) -> float:
    solids, one, other = solid
    shares, shares2 = (solids[one, 2], solids[one, 3]), (solids[other, 2], solids[other, 3])
    centre, rod = body_at(copies, 0, hung[0][0], hung[0][1], shares)
    centre2, rod2 = body_at(copies, place, hung[1][0], hung[1][1], shares2)
    disc, disc2, reach = solids[one, 0], solids[other, 0], solids[one, 1] + solids[other, 1]
    away, most = minus(centre2, centre), disc + disc2 + reach
    if dot(away, away) >= most * most:
        return 0.0
    u, u2 = scaled(rod, 1.0 / norm(rod)), scaled(rod2, 1.0 / norm(rod2))
    if disc_clear_of_disc((centre, u, disc), (centre2, u2, disc2), reach):
        return 0.0
    p, q = discs(centre, u, disc, centre2, u2, disc2)
    between = minus(q, p)
    apart = norm(between)
    if apart >= reach or apart == 0.0:
        return 0.0
    energy, pull = _push(between, apart, reach, stiffness)
    push_body(pulls, 0, hung[0], shares, (minus(p, centre), rod), pull)
    push_body(pulls, place, hung[1], shares2, (minus(q, centre2), rod2), scaled(pull, -1.0))
    return energy
