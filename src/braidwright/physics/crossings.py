"""crossings: where the cords of a round braid cross, as seen from one side with the twist of the braid undone.

Tightening may not change them: a cord that slipped through another has changed a sum of signs by two, or has made
another braid of the same sums, which the word and its polynomial tell.
"""

from dataclasses import dataclass
from math import ceil, cos, sin
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from braidwright.physics.compiled import compiled
from braidwright.physics.lattice import Lattice
from braidwright.physics.state import Floats
from braidwright.physics.vectors import Vector, cross, minus, row

SIGHT_RAD = 0.7391  # a direction to look from in which nothing lines up
BOTTOM = 0.1237  # rises above the cell's middle from which crossings are counted: nothing lies level with it
BURAU_AT = np.exp(0.7j)  # where the polynomial of a braid is taken: on the unit circle, so that powers stay small


class Lines(NamedTuple):
    """The cords of a round braid, long enough for what is asked.

    Attributes:
        cords: (cords, points, 3) mm, the twist undone, to be looked at along the second axis.
        low: Height from which crossings count, mm.
        high: Height up to which they count.
    """

    cords: Floats
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Topology:
    """What the cords of a round braid do, the twist undone.

    Attributes:
        sums: Of the cord of the cell with every other cord; see `crossing_sums`.
        polynomial: See `burau`; of one repeat.
    """

    sums: tuple[int, ...]
    polynomial: tuple[complex, ...] | None

    def is_of(self, lattice: Lattice, points: Floats, rise_mm: float, drift_rad: float) -> bool:
        """Whether a braid is this one: by its sums always, by its polynomial when every cord rises all the way."""
        if rise_mm <= 0.0:
            return False
        other = topology_of(lattice, points, rise_mm, drift_rad)
        if self.sums != other.sums:
            return False
        return (
            other.polynomial is None
            or self.polynomial is None
            or bool(np.allclose(self.polynomial, other.polynomial, rtol=1e-6, atol=1e-6))
        )


def topology_of(lattice: Lattice, points: Floats, rise_mm: float, drift_rad: float) -> Topology:
    """What the cords do. Arguments are those of `lines`."""
    word = braid_word(lines(lattice, points, rise_mm, drift_rad, 1.0))
    return Topology(
        sums=crossing_sums(lattice, points, rise_mm, drift_rad),
        polynomial=None if word is None else tuple(burau(word, lattice.fold * lattice.next_step).tolist()),
    )


def lines(lattice: Lattice, points: Floats, rise_mm: float, drift_rad: float, rises: float) -> Lines:
    """All cords of a round braid over some height.

    Args:
        lattice: The symmetry.
        points: The strand of the cell, (points, 3) mm, its last one the first one's next image.
        rise_mm: Height of a repeat.
        drift_rad: Turn of a column a repeat, to be undone.
        rises: Height, in repeats.
    """
    slack = ceil(np.ptp(points[:, 2]) / (lattice.next_step * lattice.lift * rise_mm)) + 1
    laps = range(-slack, ceil(rises / (lattice.next_step * lattice.lift)) + slack)
    cords = []
    for step, fold in ((step, fold) for step in range(lattice.next_step) for fold in range(lattice.fold)):
        ahead = ((step + lap * lattice.next_step, fold + lap * lattice.next_fold) for lap in laps)
        runs = [copied(lattice, points[:-1], rise_mm, element) for element in ahead]
        cords.append(_seen(np.concatenate(runs), drift_rad / rise_mm))
    low = BOTTOM * rise_mm
    return Lines(cords=np.array(cords), low=low, high=low + rises * rise_mm)


def crossing_sums(lattice: Lattice, points: Floats, rise_mm: float, drift_rad: float) -> tuple[int, ...]:
    """The signed crossings of the cord of the cell with every other cord, over the height after which all is repeated.

    Arguments are those of `lines`.

    Returns:
        One sum for every other cord: right-handed crossings less left-handed ones, whichever cord passes before.
    """
    shown = lines(lattice, points, rise_mm, drift_rad, lattice.fold * lattice.next_step * lattice.lift)
    found = _listed(shown, 1)
    return tuple(int(found[found[:, 2] == other, 3].sum()) for other in range(1, len(shown.cords)))


def braid_word(shown: Lines) -> tuple[int, ...] | None:
    """The generators of the braid in the window, upward; None when a cord does not rise all the way.

    Plus i: the i-th and the next cord from the left change places in a right-handed crossing.
    """
    if np.diff(shown.cords[:, :, 2], axis=1).min() <= 0.0:
        return None
    found = _listed(shown, len(shown.cords))
    order = np.argsort([np.interp(shown.low, cord[:, 2], cord[:, 0]) for cord in shown.cords]).tolist()
    word = []
    for _, one, other, sign in found[np.argsort(found[:, 0], kind="stable")]:
        at, then = sorted((order.index(int(one)), order.index(int(other))))
        word.append(int(sign) * (at + 1))
        order[at], order[then] = order[then], order[at]
    return tuple(word)


def burau(word: tuple[int, ...], cords: int) -> NDArray[np.complex128]:
    """The characteristic polynomial of the Burau matrix of a braid at one point; alike for braids that are conjugate.

    Args:
        word: The generators.
        cords: How many strings the braid has.

    Source: W. Burau, Über Zopfgruppen und gleichsinnig verdrillte Verkettungen (1936).
    """
    t = BURAU_AT
    matrix = np.eye(cords, dtype=np.complex128)
    for generator in word:
        at = abs(generator) - 1
        turn = np.array([[1.0 - t, t], [1.0, 0.0]])
        matrix[:, at : at + 2] = matrix[:, at : at + 2] @ (turn if generator > 0 else np.linalg.inv(turn))
    return np.asarray(np.poly(matrix), dtype=np.complex128)


def copied(lattice: Lattice, points: Floats, rise_mm: float, element: tuple[int, int]) -> Floats:
    """The points of the copy S^k C^e of a cell, for element (k, e)."""
    turn, lift = lattice.element(*element)
    c, s = cos(turn), sin(turn)
    x, y, z = points.T
    return np.stack([c * x - s * y, s * x + c * y, z + lift * rise_mm], axis=1)


def _seen(points: Floats, twist: float) -> Floats:
    """Points with the twist of the braid undone, turned so that one looks along the second axis."""
    x, y, z = points.T
    turn = SIGHT_RAD - twist * z
    c, s = np.cos(turn), np.sin(turn)
    return np.stack([c * x - s * y, s * x + c * y, z], axis=1)


@compiled
def _listed(shown: Lines, firsts: int) -> Floats:
    """Rows (height, cord, other cord, sign) of the crossings of the first so many cords with all later ones."""
    found = [(0.0, 0.0, 0.0, 0.0) for _ in range(0)]
    for one in range(firsts):
        for other in range(one + 1, len(shown.cords)):
            _list_two(shown, one, other, found)
    table = np.zeros((len(found), 4))
    for index in range(len(found)):
        for column in range(4):
            table[index, column] = found[index][column]
    return table


@compiled
def _list_two(shown: Lines, one: int, other: int, found: list[tuple[float, float, float, float]]) -> None:
    """Add the crossings of two cords to a list."""
    line, second = shown.cords[one], shown.cords[other]
    for i in range(len(line) - 1):
        a, b = row(line, i), row(line, i + 1)
        if max(a[2], b[2]) >= shown.low and min(a[2], b[2]) < shown.high:
            for j in range(len(second) - 1):
                c, d = row(second, j), row(second, j + 1)
                height, sign = crossing_of(a, minus(b, a), c, minus(d, c))
                if sign != 0.0 and shown.low <= height < shown.high:
                    found.append((height, float(one), float(other), sign))


@compiled
def crossing_of(a: Vector, ab: Vector, c: Vector, cd: Vector) -> tuple[float, float]:
    """Height and sign of the crossing of two pieces as seen along the second axis; sign 0 when they do not cross."""
    between = minus(c, a)
    span = ab[0] * cd[2] - ab[2] * cd[0]
    if span == 0.0:
        return 0.0, 0.0
    s = (between[0] * cd[2] - between[2] * cd[0]) / span
    t = (between[0] * ab[2] - between[2] * ab[0]) / span
    if not (0.0 <= s < 1.0 and 0.0 <= t < 1.0):
        return 0.0, 0.0
    apart = a[1] + s * ab[1] - c[1] - t * cd[1]
    return a[2] + s * ab[2], 1.0 if cross(ab, cd)[1] * apart > 0.0 else -1.0
