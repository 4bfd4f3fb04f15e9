"""closest: where two bodies come nearest. A body is a flat disc or a straight piece, each with a rounding round it.

A disc with a rounding is a spherodisc: convex, cheap, and as wide and as long as the bead it stands for. Convex sets
are searched by alternating projection: from a point of one to the nearest of the other and back.
"""

from math import sqrt

from braidwright.physics.compiled import compiled
from braidwright.physics.vectors import Vector, along, dot, minus, norm

MOST_SWEEPS_DISCS = 12  # physics.md, section 2
MOST_SWEEPS_PIECE = 10
STILL = 1e-11  # squared distance, mm2: the projections have come to rest


@compiled
def _clamped(t: float) -> float:
    return min(1.0, max(0.0, t))


@compiled
def point_on_piece(p: Vector, a: Vector, ab: Vector) -> float:
    """How far along the piece from a to a + ab the point nearest to p lies, 0 to 1."""
    long = dot(ab, ab)
    return _clamped(dot(minus(p, a), ab) / long) if long > 0.0 else 0.0


@compiled
def pieces(a: Vector, ab: Vector, c: Vector, cd: Vector) -> tuple[float, float]:
    """How far along two straight pieces their nearest points lie, each 0 to 1.

    Args:
        a: Where the first piece starts.
        ab: From its start to its end.
        c: Where the second piece starts.
        cd: From its start to its end.

    Source: the usual clamping of the two lines' common perpendicular, from memory.
    """
    between = minus(a, c)
    long1, long2, slant = dot(ab, ab), dot(cd, cd), dot(ab, cd)
    on1, on2 = dot(ab, between), dot(cd, between)
    span = long1 * long2 - slant * slant
    s = _clamped((slant * on2 - on1 * long2) / span) if span > 1e-12 * long1 * long2 else 0.5
    t = _clamped((slant * s + on2) / long2) if long2 > 0.0 else 0.0
    s = _clamped((slant * t - on1) / long1) if long1 > 0.0 else 0.0
    return s, t


@compiled
def onto_disc(p: Vector, centre: Vector, axis: Vector, radius: float) -> Vector:
    """The point of a flat disc nearest to p."""
    arm = minus(p, centre)
    arm = along(arm, axis, -dot(arm, axis))
    reach = norm(arm)
    return along(centre, arm, radius / reach if reach > radius else 1.0)


@compiled
def disc_and_piece(centre: Vector, axis: Vector, radius: float, a: Vector, ab: Vector) -> tuple[Vector, float]:
    """The point of a disc and the place along a piece, 0 to 1, that are nearest to each other."""
    t = point_on_piece(centre, a, ab)
    p = onto_disc(along(a, ab, t), centre, axis, radius)
    if radius == 0.0:
        return p, t
    before, then = t, t
    for sweep in range(MOST_SWEEPS_PIECE):
        before, then, t = then, t, point_on_piece(p, a, ab)
        if sweep % 3 == 2:  # the steps shrink by about the same share each: go at once where they lead (Aitken)
            bend = (t - then) - (then - before)
            t = _clamped(t - (t - then) * (t - then) / bend) if bend != 0.0 else t
        q = onto_disc(along(a, ab, t), centre, axis, radius)
        step = minus(q, p)
        p = q
        if dot(step, step) < STILL:
            break
    return p, t


@compiled
def pierced(disc: tuple[Vector, Vector, float], a: Vector, ab: Vector) -> tuple[float, float]:
    """How far inside the rim of a disc a piece goes through it, 0 for one that does not, and where along the piece."""
    centre, axis, radius = disc
    start, rises = dot(minus(a, centre), axis), dot(ab, axis)
    if start * (start + rises) >= 0.0:
        return 0.0, 0.0
    t = -start / rises
    return max(0.0, radius - norm(minus(along(a, ab, t), centre))), t


@compiled
def disc_clear_of_piece(disc: tuple[Vector, Vector, float], a: Vector, ab: Vector, reach: float) -> bool:
    """Whether a plane shows at the first look that a disc and a piece are at least a reach apart.

    The plane is square to the line between two near points; on it the disc and the piece throw shadows.
    """
    centre, axis, radius = disc
    q = along(a, ab, point_on_piece(centre, a, ab))
    way = minus(q, onto_disc(q, centre, axis, radius))
    from_a, long = dot(way, minus(a, centre)), dot(way, ab)
    return _is_clear(way, axis, radius, min(from_a, from_a + long), reach)


@compiled
def disc_clear_of_disc(disc: tuple[Vector, Vector, float], disc2: tuple[Vector, Vector, float], reach: float) -> bool:
    """The same for two discs."""
    centre, axis, radius = disc
    centre2, axis2, radius2 = disc2
    q = onto_disc(centre, centre2, axis2, radius2)
    way = minus(q, onto_disc(q, centre, axis, radius))
    flat = dot(way, axis2)
    shadow = dot(way, minus(centre2, centre)) - radius2 * sqrt(max(0.0, dot(way, way) - flat * flat))
    return _is_clear(way, axis, radius, shadow, reach)


@compiled
def _is_clear(way: Vector, axis: Vector, radius: float, nearest: float, reach: float) -> bool:
    """Whether a disc's shadow along a way ends a reach short of the nearest shadow of another body."""
    flat, square = dot(way, axis), dot(way, way)
    gap = nearest - radius * sqrt(max(0.0, square - flat * flat))
    return gap > 0.0 and gap * gap >= reach * reach * square


@compiled
def discs(
    centre: Vector, axis: Vector, radius: float, centre2: Vector, axis2: Vector, radius2: float
) -> tuple[Vector, Vector]:
    """The points of two flat discs that are nearest to each other."""
    q = onto_disc(centre, centre2, axis2, radius2)
    p = onto_disc(q, centre, axis, radius)
    if radius == 0.0 and radius2 == 0.0:
        return p, q
    for _ in range(MOST_SWEEPS_DISCS):
        q = onto_disc(p, centre2, axis2, radius2)
        then = onto_disc(q, centre, axis, radius)
        step = minus(then, p)
        p = then
        if dot(step, step) < STILL:
            break
    return p, q
