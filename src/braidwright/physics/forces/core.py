"""core: a core cord along the axis keeps everything off it."""

from braidwright.physics.bodies import axis_of, centre_of, push_body
from braidwright.physics.closest import disc_and_piece, pieces
from braidwright.physics.compiled import compiled
from braidwright.physics.state import Cell, Floats
from braidwright.physics.vectors import along, minus, norm, pile, row, scaled


@compiled
def core(cell: Cell, points: Floats, gradient: Floats) -> float:
    """A capsule along the z axis that never moves: what overlaps it is pushed out, as bodies push each other."""
    energy = 0.0
    for piece in range(len(cell.pieces)):
        energy += _piece(cell, points, gradient, cell.pieces[piece])
    for body in range(len(cell.bodies)):
        energy += _body(cell, points, gradient, body)
    return energy


@compiled
def _piece(cell: Cell, points: Floats, gradient: Floats, first: int) -> float:
    a = row(points, first)
    ab = minus(row(points, first + 1), a)
    far = 2.0 * norm(ab) + cell.core_mm
    s, _ = pieces(a, ab, (0.0, 0.0, a[2] - far), (0.0, 0.0, 2.0 * far))
    p = along(a, ab, s)
    away = (p[0], p[1], 0.0)
    apart, reach = norm(away), 0.5 * (cell.core_mm + cell.cord_mm)
    if apart >= reach or apart == 0.0:
        return 0.0
    pull = scaled(away, -cell.stiffness * (reach - apart) / apart)
    pile(gradient, first, pull, 1.0 - s)
    pile(gradient, first + 1, pull, s)
    return 0.5 * cell.stiffness * (reach - apart) ** 2


@compiled
def _body(cell: Cell, points: Floats, gradient: Floats, body: int) -> float:
    rod, centre = axis_of(cell, points, body), centre_of(cell, points, body)
    far = 2.0 * (cell.solids[body, 0] + cell.solids[body, 1]) + cell.core_mm
    line = (0.0, 0.0, 2.0 * far)
    below = (0.0, 0.0, centre[2] - far)
    p, t = disc_and_piece(centre, scaled(rod, 1.0 / norm(rod)), cell.solids[body, 0], below, line)
    away = minus(p, along(below, line, t))
    apart, reach = norm(away), cell.solids[body, 1] + 0.5 * cell.core_mm
    if apart >= reach or apart == 0.0:
        return 0.0
    push_body(cell, gradient, body, rod, minus(p, centre), scaled(away, -cell.stiffness * (reach - apart) / apart))
    return 0.5 * cell.stiffness * (reach - apart) ** 2
