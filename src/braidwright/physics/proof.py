"""proof: the braid read back from curves in space, to be held against the braid of the moves.

Looked at from one side, the twist undone, cords cross; upward, the crossings are a word of generators. What does not
depend on where the reading begins: for all pairs of cords that follow each other, the sum of the signs of their
crossings; and the characteristic polynomial of the Burau matrix of the word, here exactly, over a field of a prime
number of elements. A tightening in which a cord slipped through another changes a sum by two, or else the polynomial.
"""

from dataclasses import dataclass

import numpy as np

from braidwright.physics.compiled import compiled
from braidwright.physics.crossings import crossing_of
from braidwright.physics.lines import twisted
from braidwright.physics.state import Cell, Floats, Ints
from braidwright.physics.vectors import minus, row

PRIME = 2_147_483_629  # below 2**31, so that products fit; and an element of the field to take the matrix at
BURAU_AT = 1_204_729_813
SIGHT_DEG = 42.347  # a direction to look from in which nothing lines up
BOTTOM = 0.1237  # of the height, above the lowest cut, from which crossings count

Word = tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Braided:
    """What the cords of a rope do, the twist undone.

    Attributes:
        sums: For every class of pairs of places that follow each other, the sum of the signs of their crossings; in
            order of the least pair of each class.
        polynomial: Of the Burau matrix, over the field, from the highest power down; None when a cord does not rise all
            the way, so that no word can be read.
    """

    sums: tuple[int, ...]
    polynomial: tuple[int, ...] | None

    def is_same(self, other: "Braided") -> bool:
        """Whether two are of the same braid, as far as can be read of both."""
        if self.sums != other.sums:
            return False
        return self.polynomial is None or other.polynomial is None or self.polynomial == other.polynomial


def of_word(word: Word, pairs: tuple[tuple[int, int, int], ...], then: tuple[int, ...]) -> Braided:
    """What a word does.

    Args:
        word: The generators, upward: plus i is a right-handed crossing of the i-th and the next cord.
        pairs: Rows (place, place, sign) of the same crossings.
        then: The place in which the cord of each goes on.
    """
    return Braided(sums=_sums(pairs, then), polynomial=_polynomial(word, len(then)))


def of_curves(cell: Cell, points: Floats, rise_mm: float, twist_deg: float) -> Braided:
    """What the cords of a cell do, read from its curves.

    Args:
        cell: The cell.
        points: As they lie in space, (points, 3) mm.
        rise_mm: Height of the cell.
        twist_deg: Turn of the cell, all its full turns counted, degrees clockwise.
    """
    lines = _Seen(cell, points, rise_mm, twist_deg)
    found = lines.crossings()
    pairs = tuple((int(one), int(other), int(sign)) for _, one, other, sign in found)
    word = lines.word(found)
    return Braided(
        sums=_sums(pairs, tuple(cell.follows.tolist())),
        polynomial=None if word is None else _polynomial(word, len(cell.strands)),
    )


class _Seen:
    """The cords of a cell and of its neighbours above and below, seen along the second axis with the twist undone."""

    def __init__(self, cell: Cell, points: Floats, rise_mm: float, twist_deg: float) -> None:
        then = cell.follows.tolist()
        turned = [twisted(points[first : last + 1], -twist_deg / rise_mm, SIGHT_DEG) for first, last in cell.strands]
        lowest = min(float(line[:, 2].min()) for line in turned)
        highest = max(float(line[:, 2].max()) for line in turned)
        below = int(np.ceil((highest - lowest) / rise_mm)) + 1
        start = _back(then, below)
        lines = []
        for place in range(len(turned)):
            at, runs = start[place], []
            for lap in range(-below, below + 2):
                runs.append(turned[at][:-1] + np.array([0.0, 0.0, lap * rise_mm]))
                at = then[at]
            lines.append(np.concatenate(runs))
        self.lines, self.low = lines, lowest + BOTTOM * rise_mm + 0.5 * (highest - lowest - rise_mm)
        self.high, self.then = self.low + rise_mm, then

    def crossings(self) -> Floats:
        """Rows (height, cord, other cord, sign) upward over the height of the cell."""
        points = np.concatenate(self.lines)
        ends = np.cumsum([len(line) for line in self.lines])
        cord = np.repeat(np.arange(len(self.lines)), [len(line) for line in self.lines])
        is_piece = np.ones(len(points), dtype=bool)
        is_piece[ends - 1] = False
        pieces = np.flatnonzero(is_piece)
        bottoms = np.minimum(points[pieces, 2], points[pieces + 1, 2])
        tops = np.maximum(points[pieces, 2], points[pieces + 1, 2])
        kept = pieces[(tops >= self.low) & (bottoms < self.high)]
        order = np.argsort(np.minimum(points[kept, 2], points[kept + 1, 2]), kind="stable")
        found = _swept(points, cord, kept[order], (self.low, self.high))
        return found[np.argsort(found[:, 0], kind="stable")]

    def word(self, found: Floats) -> Word | None:
        """The generators, upward; None when a cord does not rise all the way."""
        if any(np.diff(line[:, 2]).min() <= 0.0 for line in self.lines):
            return None
        order = np.argsort([np.interp(self.low, line[:, 2], line[:, 0]) for line in self.lines]).tolist()
        word = []
        for _, one, other, sign in found:
            at, after = sorted((order.index(int(one)), order.index(int(other))))
            word.append(int(sign) * (at + 1))
            order[at], order[after] = order[after], order[at]
        return tuple(word)


def _back(then: list[int], laps: int) -> list[int]:
    """The strand that each cord was in so many laps ago."""
    before = [then.index(place) for place in range(len(then))]
    places = list(range(len(then)))
    for _ in range(laps):
        places = [before[place] for place in places]
    return places


@compiled
def _swept(points: Floats, cord: Ints, pieces: Ints, window: tuple[float, float]) -> Floats:
    """The crossings of pieces in order of their lower ends, within a window of heights."""
    found = [(0.0, 0.0, 0.0, 0.0) for _ in range(0)]
    for at in range(len(pieces)):
        i = pieces[at]
        a, b = row(points, i), row(points, i + 1)
        top = max(a[2], b[2])
        for later in range(at + 1, len(pieces)):
            j = pieces[later]
            c, d = row(points, j), row(points, j + 1)
            if min(c[2], d[2]) > top:
                break
            if cord[i] == cord[j]:
                continue
            height, sign = crossing_of(a, minus(b, a), c, minus(d, c))
            if sign != 0.0 and window[0] <= height < window[1]:
                found.append((height, float(cord[i]), float(cord[j]), sign))
    table = np.zeros((len(found), 4))
    for index in range(len(found)):
        for column in range(4):
            table[index, column] = found[index][column]
    return table


def _sums(pairs: tuple[tuple[int, int, int], ...], then: tuple[int, ...]) -> tuple[int, ...]:
    """The sums of signs over the classes of pairs that follow each other."""
    count = len(then)
    least: dict[tuple[int, int], tuple[int, int]] = {}
    for one in range(count):
        for other in range(one + 1, count):
            pair = (one, other)
            while pair not in least:
                least[pair] = (one, other)
                ahead = (then[pair[0]], then[pair[1]])
                pair = ahead if ahead[0] < ahead[1] else ahead[::-1]
    sums = dict.fromkeys(sorted(set(least.values())), 0)
    for one, other, sign in pairs:
        sums[least[(one, other) if one < other else (other, one)]] += sign
    return tuple(sums.values())


def _polynomial(word: Word, cords: int) -> tuple[int, ...]:
    """The characteristic polynomial of the Burau matrix over the field; alike for braids that are conjugate.

    Source: W. Burau, Über Zopfgruppen und gleichsinnig verdrillte Verkettungen (1936); the polynomial by the recursion
    of Faddeev and Le Verrier, from memory.
    """
    inverse = pow(BURAU_AT, -1, PRIME)
    matrix = _burau(np.array(word, dtype=np.int64), cords, BURAU_AT, inverse)
    inverses = np.array([0] + [pow(k, -1, PRIME) for k in range(1, cords + 1)], dtype=np.int64)
    return tuple(int(each) for each in _faddeev(matrix, inverses))


@compiled
def _burau(word: Ints, cords: int, t: int, inverse: int) -> Ints:
    matrix = np.eye(cords, dtype=np.int64)
    for generator in word:
        at = abs(generator) - 1
        for line in range(cords):
            left, right = matrix[line, at], matrix[line, at + 1]
            if generator > 0:  # columns times [[1 - t, t], [1, 0]]
                matrix[line, at] = (left * ((1 - t) % PRIME) % PRIME + right) % PRIME
                matrix[line, at + 1] = left * t % PRIME
            else:  # and times its inverse [[0, 1], [1 / t, 1 - 1 / t]]
                matrix[line, at] = right * inverse % PRIME
                matrix[line, at + 1] = (left + right * ((1 - inverse) % PRIME)) % PRIME
    return matrix


@compiled
def _faddeev(matrix: Ints, inverses: Ints) -> Ints:
    count = len(matrix)
    found = np.zeros(count + 1, dtype=np.int64)
    found[0] = 1
    power = np.zeros((count, count), dtype=np.int64)
    for step in range(1, count + 1):
        for line in range(count):
            power[line, line] = (power[line, line] + found[step - 1]) % PRIME
        power = _times(matrix, power)
        trace = 0
        for line in range(count):
            trace += power[line, line]
        found[step] = (PRIME - trace % PRIME) * inverses[step] % PRIME
    return found


@compiled
def _times(one: Ints, other: Ints) -> Ints:
    count = len(one)
    product = np.zeros((count, count), dtype=np.int64)
    for line in range(count):
        for column in range(count):
            total = 0
            for at in range(count):
                total = (total + one[line, at] * other[at, column]) % PRIME
            product[line, column] = total
    return product
