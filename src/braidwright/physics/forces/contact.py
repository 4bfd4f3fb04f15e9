"""contact: what overlaps pushes itself apart.

E = stiffness / 2 times overlap squared, for every two that are near. Source: physics.md, section 2.
"""

from braidwright.physics.bodies import axis_of, centre_of, push_body
from braidwright.physics.closest import disc_and_piece, discs, pieces, point_on_piece
from braidwright.physics.compiled import compiled
from braidwright.physics.state import BODIES, PIECES, Cell, Floats, Neighbours
from braidwright.physics.vectors import Vector, along, dot, minus, norm, pile, row, scaled


@compiled
def contact(cell: Cell, near: Neighbours) -> float:
    """The push of all that overlap; gradients go to `near.pulls`."""
    energy = 0.0
    for pair in range(len(near.pairs)):
        kind, one, other, place = near.pairs[pair, 0], near.pairs[pair, 1], near.pairs[pair, 2], near.pairs[pair, 3]
        if kind == PIECES:
            energy += _two_pieces(cell, near, one, other, place)
        elif kind == BODIES:
            energy += _two_bodies(cell, near, one, other, place)
        else:
            energy += _body_and_piece(cell, near, one, other, place)
    return energy


@compiled
def _share(cell: Cell, near: Neighbours, one: int, other: int, place: int) -> float:
    """How much of the pair belongs to one cell."""
    return cell.images.own[near.active[place]] if one == other else 1.0


@compiled
def _push(between: Vector, reach: float, stiffness: float) -> tuple[float, Vector]:
    """Energy of an overlap, and its gradient on the first of the two nearest points.

    Args:
        between: From the first nearest point to the second.
        reach: How far apart they must be.
        stiffness: Force per mm.
    """
    apart = norm(between)
    over = reach - apart
    if over <= 0.0 or apart == 0.0:
        return 0.0, (0.0, 0.0, 0.0)
    return 0.5 * stiffness * over * over, scaled(between, stiffness * over / apart)


@compiled
def _on_piece(table: Floats, first: int, pull: Vector, t: float, sign: float) -> None:
    """Share a gradient between the ends of a piece."""
    pile(table, first, pull, sign * (1.0 - t))
    pile(table, first + 1, pull, sign * t)


@compiled
def _two_pieces(cell: Cell, near: Neighbours, one: int, other: int, place: int) -> float:
    first, second = cell.pieces[one], cell.pieces[other]
    own, there = near.copies[0], near.copies[place]
    a, c = row(own, first), row(there, second)
    ab = minus(row(own, first + 1), a)
    cd = minus(row(there, second + 1), c)
    s, t = pieces(a, ab, c, cd)
    between = minus(along(c, cd, t), along(a, ab, s))
    if dot(between, between) >= cell.cord_mm * cell.cord_mm:
        return 0.0
    stiffness = cell.stiffness * _share(cell, near, one, other, place)
    energy, pull = _push(between, cell.cord_mm, stiffness)
    if energy > 0.0:
        _on_piece(near.pulls[0], first, pull, s, 1.0)
        _on_piece(near.pulls[place], second, pull, t, -1.0)
    return energy


@compiled
def _body_and_piece(cell: Cell, near: Neighbours, body: int, piece: int, place: int) -> float:
    second, centre = cell.pieces[piece], centre_of(cell, near.copies[0], body)
    a = row(near.copies[place], second)
    ab = minus(row(near.copies[place], second + 1), a)
    disc, reach = cell.solids[body, 0], cell.solids[body, 1] + cell.squeezed_mm
    away = minus(along(a, ab, point_on_piece(centre, a, ab)), centre)
    if dot(away, away) >= (disc + reach) * (disc + reach):
        return 0.0
    rod = axis_of(cell, near.copies[0], body)
    p, t = disc_and_piece(centre, scaled(rod, 1.0 / norm(rod)), disc, a, ab)
    energy, pull = _push(minus(along(a, ab, t), p), reach, cell.stiffness)
    if energy > 0.0:
        push_body(cell, near.pulls[0], body, rod, minus(p, centre), pull)
        _on_piece(near.pulls[place], second, pull, t, -1.0)
    return energy


@compiled
def _two_bodies(cell: Cell, near: Neighbours, one: int, other: int, place: int) -> float:
    centre, centre2 = centre_of(cell, near.copies[0], one), centre_of(cell, near.copies[place], other)
    disc, disc2, reach = cell.solids[one, 0], cell.solids[other, 0], cell.solids[one, 1] + cell.solids[other, 1]
    away = minus(centre2, centre)
    if dot(away, away) >= (disc + disc2 + reach) * (disc + disc2 + reach):
        return 0.0
    rod, rod2 = axis_of(cell, near.copies[0], one), axis_of(cell, near.copies[place], other)
    u, u2 = scaled(rod, 1.0 / norm(rod)), scaled(rod2, 1.0 / norm(rod2))
    p, q = discs(centre, u, disc, centre2, u2, disc2)
    stiffness = cell.stiffness * _share(cell, near, one, other, place)
    energy, pull = _push(minus(q, p), reach, stiffness)
    if energy > 0.0:
        push_body(cell, near.pulls[0], one, rod, minus(p, centre), pull)
        push_body(cell, near.pulls[place], other, rod2, minus(q, centre2), scaled(pull, -1.0))
    return energy
