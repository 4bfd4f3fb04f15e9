"""start: a loose first shape of a round braid, from what the moves say.

The cord of the cell leaves its bead and crosses the braid to the other side, above all cords that lie there. It comes
down beside the cord it will follow, and while that one leaves and another comes to its other side, it draws in to the
line of its column, where its next bead lies. Everything lies on a wide circle, so nothing touches yet and nothing is on
the wrong side of anything.
"""

from dataclasses import dataclass
from math import cos, pi, radians, remainder, sin

import numpy as np

from braidwright.physics.lattice import Lattice
from braidwright.physics.lines import arc_of, points_at
from braidwright.physics.state import Floats

CHORD_OVER = 0.1  # of the rise: how far above its bead a cord crosses
CLIMBING = 0.1  # of the rise: how much it rises while it crosses, so that opposite cords are not level with each other
RESTING = 12  # corners of the line along which a resting cord draws in to the place of its next bead


@dataclass(frozen=True, slots=True, kw_only=True)
class Loose:
    """How loose a first shape is.

    Attributes:
        radius_mm: Of the circle.
        rise_mm: Height of a repeat.
        beside: How far beside the place of its next bead a cord rests, as a share of the distance of two columns.
    """

    radius_mm: float
    rise_mm: float
    beside: float


def round_lattice(columns: int, drift_deg: float) -> Lattice:
    """The symmetry of a round braid whose pairs of opposite cords move one after the other, back round the circle.

    A pair of cords is moved at a time, so C is half a turn. The next pair stands one column back; after columns / 2
    pairs every column has gained one stitch and turned by the drift. A cord crosses to the other side, and its turn
    comes again after two repeats.

    Args:
        columns: Columns of the braid, even; twice as many cords.
        drift_deg: Turn of a column a repeat, less than 90, positive in the direction in which a cord is laid beyond its
            neighbour.

    Source: trade-facts, sections 1.1 and 1.2 (the order of the pairs); physics.md, section 3 (the group).
    """
    return Lattice(
        turn_rad=-(2.0 * pi - 2.0 * radians(drift_deg)) / columns,
        lift=2.0 / columns,
        fold=2,
        next_step=columns,
        next_fold=1,
        reach=3 * columns,
    )


def crossing(lattice: Lattice, loose: Loose, rod_mm: float, points: int) -> Floats:
    """The first shape of a cell: the rod of its bead, if it has one, and the cord to the next one, (points, 3) mm.

    Args:
        lattice: The symmetry.
        loose: How loose.
        rod_mm: Length of the rod; 0 for bare cord.
        points: Of the whole strand, its last one included.
    """
    turn, lift = lattice.element(lattice.next_step, lattice.next_fold)
    drift = 0.5 * remainder(turn + pi, 2.0 * pi)
    over, top = 0.5 * rod_mm + CHORD_OVER * loose.rise_mm, lift * loose.rise_mm - 0.5 * rod_mm
    across = over + CLIMBING * loose.rise_mm
    # when the cord it follows leaves, it must be beside that one and short of the one that comes
    drawn_in = (loose.rise_mm + over - across) / (top - across)
    least = max(drift * (2.0 - 1.0 / drawn_in), drift * (1.0 - 2.0 * drawn_in) / (1.0 - drawn_in), 0.0)
    aside = least + loose.beside * pi * lattice.lift
    turns = np.linspace(aside - pi, 2.0 * drift - pi, RESTING)
    corners = np.array(
        [
            _at(loose.radius_mm, 0.0, 0.5 * rod_mm),
            _at(loose.radius_mm, 0.0, over),
            *(_at(loose.radius_mm, *each) for each in zip(turns, np.linspace(across, top, RESTING), strict=True)),
        ]
    )
    below = [_at(loose.radius_mm, 0.0, -0.5 * rod_mm)] if rod_mm else []
    return np.concatenate([np.array(below).reshape(-1, 3), _evenly(corners, points - len(below))])


def _at(radius: float, turn: float, height: float) -> tuple[float, float, float]:
    return radius * cos(turn), radius * sin(turn), height


def _evenly(corners: Floats, count: int) -> Floats:
    """So many points on a line with corners, equally far apart along it."""
    arc = arc_of(corners)
    return points_at(corners, np.linspace(0.0, arc[-1], count), arc)
