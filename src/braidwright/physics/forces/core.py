"""core: a core cord along the axis keeps everything off it."""

from braidwright.physics.bodies import add, body_at, hung_by, point, push_body
from braidwright.physics.closest import disc_and_piece, pieces
from braidwright.physics.compiled import compiled
from braidwright.physics.state import Cell, Floats, Neighbours
from braidwright.physics.vectors import along, minus, norm, scaled


@compiled
def core(cell: Cell, near: Neighbours) -> float:
    """A capsule along the z axis that never moves: what overlaps it is pushed out, as bodies push each other."""
    energy = 0.0
    for piece in range(len(cell.pieces)):
        energy += _piece(near.copies, near.pulls, cell.pieces[piece], (cell.core_mm, cell.cord_mm), cell.stiffness)
    for body in range(len(cell.bodies)):
        hung = hung_by(cell.rods, cell.tips, cell.bodies, body)
        energy += _body(near.copies, near.pulls, hung, (cell.solids, body, cell.core_mm), cell.stiffness)
    return energy


@compiled
def _piece(copies: Floats, pulls: Floats, first: int, thick: tuple[float, float], stiffness: float) -> float:
    a = point(copies, 0, first)
    ab = minus(point(copies, 0, first + 1), a)
    far = 2.0 * norm(ab) + thick[0]
    s, _ = pieces(a, ab, (0.0, 0.0, a[2] - far), (0.0, 0.0, 2.0 * far))
    p = along(a, ab, s)
    away = (p[0], p[1], 0.0)
    apart, reach = norm(away), 0.5 * (thick[0] + thick[1])
    if apart >= reach or apart == 0.0:
        return 0.0
    pull = scaled(away, -stiffness * (reach - apart) / apart)
    add(pulls, 0, first, pull, 1.0 - s)
    add(pulls, 0, first + 1, pull, s)
    return float(0.5 * stiffness * (reach - apart) ** 2)


@compiled
def _body(
    copies: Floats, pulls: Floats, hung: tuple[int, int], solid: tuple[Floats, int, float], stiffness: float
) -> float:
    solids, body, core_mm = solid
    shares = (solids[body, 2], solids[body, 3])
    centre, rod = body_at(copies, 0, hung[0], hung[1], shares)
    far = 2.0 * (solids[body, 0] + solids[body, 1]) + core_mm
    line, below = (0.0, 0.0, 2.0 * far), (0.0, 0.0, centre[2] - far)
    p, t = disc_and_piece(centre, scaled(rod, 1.0 / norm(rod)), solids[body, 0], below, line)
    away = minus(p, along(below, line, t))
    apart, reach = norm(away), solids[body, 1] + 0.5 * core_mm
    if apart >= reach or apart == 0.0:
        return 0.0
    pull = scaled(away, -stiffness * (reach - apart) / apart)
    push_body(pulls, 0, hung, shares, (minus(p, centre), rod), pull)
    return float(0.5 * stiffness * (reach - apart) ** 2)
