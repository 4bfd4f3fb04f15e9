"""round_ways: from the one cell of a solved round braid to the ways of all cords of a kongoh gumi.

The solver sees the braid in a mirror: what turns clockwise on the disk of a braid of hand S turns counter-clockwise in
its frame (tests/physics/test_crossings.py). So its polar angle is the compass angle of hand S, and minus that of Z.
"""

from math import degrees, pi, radians

import numpy as np

from braidwright.domain.braid import Braid
from braidwright.domain.chart import even_angle
from braidwright.domain.errors import RequestError
from braidwright.domain.kongoh import Kongoh, kongoh_of
from braidwright.physics.crossings import copied
from braidwright.physics.lattice import Lattice
from braidwright.physics.round_braid import Shape
from braidwright.physics.state import Floats
from braidwright.physics.ways import Ways

OUTSIDE = 0.97  # of the farthest point of a bare cord: the middle of what lies so far out is the middle of the stitch


def round_ways(shape: Shape, braid: Braid, *, beaded: bool) -> Ways:
    """The ways of the cords of a kongoh gumi, every row at the height and the angle where the chart has it.

    Args:
        shape: The solved shape, of as many columns as the braid has.
        braid: The braid; a row of several smallest repeats, re-spaces and either order inside a pair are all right.
        beaded: Whether the first two points of the cell are the ends of a hole; else the stitch is where the cord lies
            farthest out.

    Raises:
        RequestError: The braid is no kongoh gumi, or has another number of columns than the shape.
    """
    kongoh = kongoh_of(braid)
    if kongoh is None:
        raise RequestError(f"The braid {braid.name} is no kongoh gumi, so its shape cannot be drawn out of one stitch.")
    if kongoh.columns != shape.lattice.next_step:
        raise RequestError(
            f"The braid {braid.name} has {kongoh.columns} columns, but the solved shape has {shape.lattice.next_step}; "
            f"solve the shape of this braid."
        )
    rise = shape.rise_mm * kongoh.repeats_per_row
    hand = 1.0 if kongoh.hand == "S" else -1.0
    cell = _settled_in(_cell_way(shape, beaded=beaded), radians(hand * first_angle(braid, kongoh)), 0.5 * rise)
    copies = [copied(shape.lattice, cell, shape.rise_mm, element) for element in elements(kongoh)]
    return Ways(
        stitches=tuple(np.stack([hand * y, x, z], axis=1) for x, y, z in (copy.T for copy in copies)),
        idle=(),
        rise_mm=rise,
        drift_deg=hand * kongoh.repeats_per_row * lattice_drift_deg(shape.lattice),
    )


def elements(kongoh: Kongoh) -> tuple[tuple[int, int], ...]:
    """For each stitch of a row, in working order: the copy S^k C^e of the cell it is, (k, e)."""
    return tuple((pair, fold) for pair, first in enumerate(kongoh.leads) for fold in ((0, 1) if first else (1, 0)))


def first_angle(braid: Braid, kongoh: Kongoh) -> float:
    """Where the first stitch of row 0 lies, degrees clockwise from north: where the chart has its column.

    A row of several repeats has more stations than columns, so they cannot be spread evenly; then it is its slot.
    """
    return even_angle(braid, 0) if kongoh.repeats_per_row == 1 else braid.angle(braid.stitch_moves[0].take)


def lattice_drift_deg(lattice: Lattice) -> float:
    """Turn of a column a smallest repeat, positive in the direction in which a cord is laid beyond its neighbour."""
    return degrees(pi + 0.5 * lattice.next_step * lattice.turn_rad)


def _cell_way(shape: Shape, *, beaded: bool) -> Floats:
    """From the middle of the stitch of the cell to the middle of the next stitch of the same cord."""
    element = (shape.lattice.next_step, shape.lattice.next_fold)
    if beaded:
        middle = 0.5 * (shape.points[:1] + shape.points[1:2])
        return np.concatenate([middle, shape.points[1:], copied(shape.lattice, middle, shape.rise_mm, element)])
    away = np.hypot(shape.points[:, 0], shape.points[:, 1])
    far = np.flatnonzero(away >= OUTSIDE * away.max())
    middle_at = int(far[0] + far[-1]) // 2
    # the cord before it belongs to the way that leads there
    begun = copied(shape.lattice, shape.points[: middle_at + 1], shape.rise_mm, element)
    return np.concatenate([shape.points[middle_at:-1], begun])


def _settled_in(points: Floats, angle: float, height: float) -> Floats:
    """The same way, turned and lifted so that its first point has this polar angle and this height."""
    x, y, z = points.T
    turn = angle - float(np.arctan2(y[0], x[0]))
    c, s = np.cos(turn), np.sin(turn)
    return np.stack([c * x - s * y, s * x + c * y, z - z[0] + height], axis=1)
