"""contact: what overlaps pushes itself apart.

E = stiffness / 2 times overlap squared, for every two bodies that are near. Source: physics.md, section 2.
"""

from braidwright.physics.closest import disc_and_piece, discs, pieces
from braidwright.physics.compiled import compiled
from braidwright.physics.state import BEADS, PIECES, Cell, Floats, Neighbours
from braidwright.physics.vectors import Vector, along, cross, middle, minus, norm, pile, row, scaled


@compiled
def contact(cell: Cell, near: Neighbours) -> float:
    """The push of all bodies that overlap; gradients go to `near.pulls`."""
    energy = 0.0
    for pair in range(len(near.pairs)):
        kind, one, other, place = near.pairs[pair]
        if kind == PIECES:
            energy += _two_pieces(cell, near, one, other, place)
        elif kind == BEADS:
            energy += _two_beads(cell, near, one, other, place)
        else:
            energy += _bead_and_piece(cell, near, one, other, place)
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
def _on_rod(table: Floats, first: int, rod: Vector, arm: Vector, pull: Vector) -> None:
    """Share a gradient at a point of a bead between the ends of its rod: half each, and a couple that tips the rod."""
    long = norm(rod)
    tip = cross(cross(arm, pull), rod)
    for end in range(2):
        pile(table, first + end, pull, 0.5)
        pile(table, first + end, tip, (2 * end - 1) / (long * long))


@compiled
def _two_pieces(cell: Cell, near: Neighbours, one: int, other: int, place: int) -> float:
    first, second = cell.pieces[one], cell.pieces[other]
    a, c = row(near.copies[0], first), row(near.copies[place], second)
    ab = minus(row(near.copies[0], first + 1), a)
    cd = minus(row(near.copies[place], second + 1), c)
    s, t = pieces(a, ab, c, cd)
    stiffness = cell.stiffness * _share(cell, near, one, other, place)
    energy, pull = _push(minus(along(c, cd, t), along(a, ab, s)), cell.cord_mm, stiffness)
    if energy > 0.0:
        _on_piece(near.pulls[0], first, pull, s, 1.0)
        _on_piece(near.pulls[place], second, pull, t, -1.0)
    return energy


@compiled
def _bead_and_piece(cell: Cell, near: Neighbours, bead: int, piece: int, place: int) -> float:
    first, second = cell.rods[bead], cell.pieces[piece]
    start = row(near.copies[0], first)
    rod = minus(row(near.copies[0], first + 1), start)
    centre = along(start, rod, 0.5)
    a = row(near.copies[place], second)
    ab = minus(row(near.copies[place], second + 1), a)
    p, t = disc_and_piece(centre, scaled(rod, 1.0 / norm(rod)), cell.beads[bead, 0], a, ab)
    reach = cell.beads[bead, 1] + cell.squeezed_mm
    energy, pull = _push(minus(along(a, ab, t), p), reach, cell.stiffness)
    if energy > 0.0:
        _on_rod(near.pulls[0], first, rod, minus(p, centre), pull)
        _on_piece(near.pulls[place], second, pull, t, -1.0)
    return energy


@compiled
def _two_beads(cell: Cell, near: Neighbours, one: int, other: int, place: int) -> float:
    first, second = cell.rods[one], cell.rods[other]
    start, end = row(near.copies[0], first), row(near.copies[0], first + 1)
    start2, end2 = row(near.copies[place], second), row(near.copies[place], second + 1)
    centre, centre2, rod, rod2 = middle(start, end), middle(start2, end2), minus(end, start), minus(end2, start2)
    p, q = discs(
        centre,
        scaled(rod, 1.0 / norm(rod)),
        cell.beads[one, 0],
        centre2,
        scaled(rod2, 1.0 / norm(rod2)),
        cell.beads[other, 0],
    )
    stiffness = cell.stiffness * _share(cell, near, one, other, place)
    energy, pull = _push(minus(q, p), cell.beads[one, 1] + cell.beads[other, 1], stiffness)
    if energy > 0.0:
        _on_rod(near.pulls[0], first, rod, minus(p, centre), pull)
        _on_rod(near.pulls[place], second, rod2, minus(q, centre2), scaled(pull, -1.0))
    return energy
