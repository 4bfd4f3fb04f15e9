"""pieces: whether a braid holds together or falls apart, found from its crossings.

Two cords belong to one piece when no way of parting the cords, however the braid is combed, puts them in different
parts. A turn that all cords share holds nothing together: it goes out at the ends. Cords are joined by three tests:

1. Three cords at a time, the others forgotten. Followed until all three are home, they are a braid of three strands;
   its matrix in PSL(2, Z), where a full turn of all three vanishes, tells: trace other than +-2: no cord of the three
   can be parted from the others; trace +-2 but not the identity: two of them turn round each other more than both
   turn round the third; the identity: nothing holds the three but a common turn.
   (Looking at pairs only is not enough: in the plait of three every pair is unlinked, and yet it holds.)
2. Four cords at a time, of as many as time allows. They become a braid of three strands too (generator 3 read as 1),
   and if they could be parted, the trace of its matrix, up to sign, would be 2 or that of three of them: if it is
   none of these, the four belong together.
3. One cord of each piece that is left, the others forgotten: when these are more than a common turn, the fewest of
   them that are so belong together.
4. Two pieces that are left are joined when they turn round each other in the turned pattern. (With two there is
   nothing to tell a twist from a common turn but the turning of the pattern itself.)

What then remains in several pieces is certain when the pieces can be laid in layers, each wholly inside the next, or
when combing them so gives the same braid back. Otherwise the answer says that it is not certain.
Source for the matrices: W. Magnus and A. Peluso, On knot groups, Communications on Pure and Applied Mathematics 20
(1967), from memory; the rest is argued in docs/decisions.md.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from graphlib import CycleError, TopologicalSorter
from itertools import combinations
from math import lcm

from braidwright.domain.braid import Braid
from braidwright.domain.reduction import freely_reduced, full_twists, is_trivial
from braidwright.domain.three_strands import ONE, PARABOLIC, Matrix, kind_of, matrix_of, power, product_of, trace_size
from braidwright.domain.topology import linking, repeat_crossings
from braidwright.domain.walk import cycles, walk

MOST_LETTERS = 40_000
MOST_MATRICES = 10_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Pieces:
    """What a braid falls apart into.

    Attributes:
        pieces: The start slots of the cords of each piece, in start order; one piece when the braid holds together.
        certain: False when the braid seems to fall apart, but that was not proved.
    """

    pieces: tuple[tuple[int, ...], ...]
    certain: bool

    @property
    def is_one(self) -> bool:
        """Whether the braid holds together."""
        return len(self.pieces) == 1


@lru_cache(maxsize=256)
def pieces_of(braid: Braid) -> Pieces:
    """The pieces of a braid."""
    parts = _Parts(walk(braid).permutation)
    strands = _Strands(braid)
    _join_threes(parts, strands)
    certain = parts.all_one() or _in_layers(parts, strands)
    if not certain:
        _join_fours(parts, strands)
        settled = _join_representatives(parts, strands)
        certain = parts.all_one() or (settled and (_in_layers(parts, strands) or _combs_apart(parts, strands)))
    found = parts.listed()
    slots = tuple(tuple(braid.start[cord] for cord in part) for part in found)
    return Pieces(pieces=slots, certain=certain)


class _Parts:
    """Which cords are known to be in one piece. What holds for cords holds for those that follow them."""

    def __init__(self, permutation: tuple[int, ...]) -> None:
        self.then = permutation
        self.part = list(range(len(permutation)))

    def join(self, first: int, second: int) -> None:
        """Two cords are in one piece, and so are the cords that come to lie in their places."""
        pair = (first, second)
        while True:
            self._merge(*pair)
            pair = (self.then[pair[0]], self.then[pair[1]])
            if pair in ((first, second), (second, first)):
                return

    def _merge(self, first: int, second: int) -> None:
        old, new = self.part[second], self.part[first]
        if old != new:
            self.part = [new if part == old else part for part in self.part]

    def same(self, *cords: int) -> bool:
        """Whether these are known to be in one piece."""
        return len({self.part[cord] for cord in cords}) == 1

    def all_one(self) -> bool:
        """Whether all cords are known to be in one piece."""
        return len(set(self.part)) == 1

    def listed(self) -> list[list[int]]:
        """The cords of each piece, in start order."""
        found: dict[int, list[int]] = {}
        for cord, part in enumerate(self.part):
            found.setdefault(part, []).append(cord)
        return list(found.values())


class _Strands:
    """The crossings of one repeat, turned back, and the braids that a few of the cords make by themselves."""

    def __init__(self, braid: Braid) -> None:
        self.braid = braid
        self.then = walk(braid).permutation
        self.home = {cord: len(cycle) for cycle in cycles(self.then) for cord in cycle}
        self.rank = {
            cord: rank for rank, cord in enumerate(sorted(range(braid.cord_count), key=braid.start.__getitem__))
        }
        self.linking = linking(braid)
        # left, right and sign of each crossing: the inside cord of a right-handed one comes from the left
        self.events = tuple(
            (event.inside, event.outside, 1) if event.sign > 0 else (event.outside, event.inside, -1)
            for event in repeat_crossings(braid)
        )
        self.by_pair: dict[frozenset[int], list[tuple[int, int, int, int]]] = {}
        for index, (left, right, sign) in enumerate(self.events):
            self.by_pair.setdefault(frozenset((left, right)), []).append((index, left, right, sign))
        self.known: dict[frozenset[int], Matrix] = {}

    def turns(self, first: int, second: int, repeats: int) -> int:
        """Full turns of two cords round each other over a number of repeats that brings both home."""
        return self.linking[first][second] * repeats // walk(self.braid).repeats_home

    def matrix(self, places: frozenset[int]) -> Matrix:
        """One repeat of three or four places, as a matrix up to sign."""
        if places not in self.known:
            met = sorted(event for pair in combinations(places, 2) for event in self._of(frozenset(pair)))
            self.known[places] = matrix_of(self._letters(places, [event[1:] for event in met]))
        return self.known[places]

    def _of(self, pair: frozenset[int]) -> list[tuple[int, int, int, int]]:
        return self.by_pair.get(pair, [])

    def word(self, cords: list[int], repeats: int) -> tuple[int, ...]:
        """The word of some of the cords, the others forgotten."""
        found: list[int] = []
        places = frozenset(cords)
        for _ in range(repeats):
            found += self._letters(places, [event for event in self.events if places.issuperset(event[:2])])
            places = frozenset(self.then[place] for place in places)
        return tuple(found)

    def _letters(self, places: frozenset[int], events: list[tuple[int, int, int]]) -> Iterator[int]:
        """Crossings of some places as generators of their own braid group."""
        line = sorted(places, key=self.rank.__getitem__)
        for left, _, sign in events:
            at = line.index(left)
            line[at], line[at + 1] = line[at + 1], line[at]
            yield sign * (at + 1)


# --- three cords at a time ------------------------------------------------------------------------------


def _join_threes(parts: _Parts, strands: _Strands) -> None:
    """Join what any three cords show; neighbours in working order first, since they settle most braids."""
    seen: set[frozenset[int]] = set()
    for three in _threes(strands.braid):
        if three in seen or parts.same(*three):
            continue
        seen |= _join_three(three, parts, strands)
        if parts.all_one():
            return


def _threes(braid: Braid) -> Iterator[frozenset[int]]:
    movers = walk(braid).movers
    for at in range(len(movers)):
        three = frozenset(movers[(at + by) % len(movers)] for by in range(3))
        if len(three) == 3:
            yield three
    for cords in combinations(range(braid.cord_count), 3):
        yield frozenset(cords)


def _join_three(three: frozenset[int], parts: _Parts, strands: _Strands) -> set[frozenset[int]]:
    """Join what three cords show, and say which other threes are the same ones at other times."""
    first = list(three)
    matrix, seen = _until_home(three, strands)
    kind = kind_of(matrix)
    if kind == "braided":
        parts.join(first[0], first[1])
        parts.join(first[1], first[2])
    elif kind == "pair":
        parts.join(*_odd_pair(first, strands))
    return seen


def _until_home(cords: frozenset[int], strands: _Strands) -> tuple[Matrix, set[frozenset[int]]]:
    """The matrix of a few cords over the repeats that bring each home, and the places they take on the way."""
    places, product, seen = cords, ONE, set()
    while places not in seen:
        seen.add(places)
        product = product_of(product, strands.matrix(places))
        places = frozenset(strands.then[place] for place in places)
    all_home = lcm(*(strands.home[cord] for cord in cords))
    return power(product, all_home // len(seen)), seen


def _odd_pair(three: list[int], strands: _Strands) -> tuple[int, int]:
    """The two of three that turn round each other otherwise than both do round the third."""
    a, b, c = three
    turns = {pair: strands.linking[pair[0]][pair[1]] for pair in ((a, b), (a, c), (b, c))}
    values = list(turns.values())
    return next(pair for pair, value in turns.items() if values.count(value) == 1)


# --- four cords at a time -------------------------------------------------------------------------------


def _join_fours(parts: _Parts, strands: _Strands) -> None:
    """Join what four cords show that three of them do not, as far as the work is bounded."""
    seen: set[frozenset[int]] = set()
    for cords in combinations(range(strands.braid.cord_count), 4):
        four = frozenset(cords)
        if four in seen or parts.same(*cords):
            continue
        if sum(strands.home[cord] for cord in cords) + len(seen) > MOST_MATRICES:
            return
        matrix, places = _until_home(four, strands)
        seen |= places
        if trace_size(matrix) not in _sizes_of_threes(four, strands):
            for cord in cords[1:]:
                parts.join(cords[0], cord)


def _sizes_of_threes(four: frozenset[int], strands: _Strands) -> set[int]:
    """The traces that four cords can have which fall apart somehow, each cord home as often as in the four."""
    found = {PARABOLIC}
    all_home = lcm(*(strands.home[cord] for cord in four))
    for cord in four:
        three = four - {cord}
        matrix, _ = _until_home(three, strands)
        found.add(trace_size(power(matrix, all_home // lcm(*(strands.home[other] for other in three)))))
    return found


# --- one cord of each piece -----------------------------------------------------------------------------


def _join_representatives(parts: _Parts, strands: _Strands) -> bool:
    """Join pieces that three cords at a time do not show to be one; False when the work was too much."""
    while True:
        cords = [part[0] for part in parts.listed()]
        if len(cords) == 2 and strands.linking[cords[0]][cords[1]]:
            parts.join(*cords)
        turned = len(cords) <= 2 or _only_turn(cords, strands)
        if turned is not False:
            return turned is True
        held = _fewest(cords, strands)
        if held is None:
            return False
        for cord in held[1:]:
            parts.join(held[0], cord)


def _fewest(cords: list[int], strands: _Strands) -> list[int] | None:
    """As few of the cords as still hold each other: none of these can be parted from the rest of them."""
    kept = cords
    for cord in cords:
        rest = [other for other in kept if other != cord]
        turned = _only_turn(rest, strands)
        if turned is None:
            return None
        if turned is False:
            kept = rest
    return kept


def _only_turn(cords: list[int], strands: _Strands) -> bool | None:
    """Whether some cords, the others forgotten, do nothing but turn together; None when it is too much work."""
    if len(cords) < 3:
        return True
    repeats = lcm(*(strands.home[cord] for cord in cords))
    if repeats * len(strands.events) > MOST_LETTERS:
        return None
    turns = strands.turns(cords[0], cords[1], repeats)
    if abs(turns) * len(cords) ** 2 > MOST_LETTERS:
        return None
    return is_trivial(strands.word(cords, repeats) + full_twists(len(cords), -turns))


# --- proofs that pieces are apart -----------------------------------------------------------------------


def _in_layers(parts: _Parts, strands: _Strands) -> bool:
    """Whether the pieces lie wholly inside each other as they are worked: then nothing can hold them together."""
    part = parts.part
    over = {
        (part[left], part[right]) if sign > 0 else (part[right], part[left])
        for left, right, sign in strands.events
        if part[left] != part[right]
    }
    outside: dict[int, set[int]] = {}
    for inner, outer in _at_all_times(over, parts):
        outside.setdefault(inner, set()).add(outer)
    try:
        TopologicalSorter(outside).prepare()
    except CycleError:
        return False
    return True


def _at_all_times(over: set[tuple[int, int]], parts: _Parts) -> set[tuple[int, int]]:
    """Pieces change places from repeat to repeat: what crosses now crosses then in the other places."""
    then = {part: parts.part[parts.then[cord]] for cord, part in enumerate(parts.part)}
    found: set[tuple[int, int]] = set()
    fresh = over
    while fresh:
        found |= fresh
        fresh = {(then[inner], then[outer]) for inner, outer in fresh} - found
    return found


def _combs_apart(parts: _Parts, strands: _Strands) -> bool:
    """Whether the braid, its common turn taken out, is the one in which the pieces lie in layers."""
    pieces, repeats = parts.listed(), walk(strands.braid).repeats_home
    turns = strands.linking[pieces[0][0]][pieces[1][0]]
    cords = list(range(strands.braid.cord_count))
    if repeats * len(strands.events) + abs(turns) * len(cords) ** 2 > MOST_LETTERS // 2:
        return False
    word = freely_reduced(strands.word(cords, repeats) + full_twists(len(cords), -turns))
    return any(
        is_trivial(word + tuple(-letter for letter in reversed(_layered(word, order, strands)))) is True
        for order in (pieces, pieces[::-1])
    )


def _layered(word: tuple[int, ...], pieces: list[list[int]], strands: _Strands) -> tuple[int, ...]:
    """The same braid with every piece worked by itself, the one most often inside laid inside the others.

    Of pieces equally often inside, the one named first is laid inside.
    """
    line = sorted(strands.rank, key=strands.rank.__getitem__)
    owner = {cord: index for index, piece in enumerate(pieces) for cord in piece}
    own: list[list[int]] = [[] for _ in pieces]
    inside = [0] * len(pieces)
    for letter in word:
        at = abs(letter) - 1
        one, two = owner[line[at]], owner[line[at + 1]]
        if one == two:
            before = sum(owner[cord] == one for cord in line[:at])
            own[one].append((before + 1) if letter > 0 else -(before + 1))
        inside[one] += letter > 0
        inside[two] += letter < 0
        line[at], line[at + 1] = line[at + 1], line[at]
    depth = sorted(range(len(pieces)), key=lambda index: -inside[index])
    base = [depth.index(owner[cord]) for cord in line]
    return tuple(
        found for index in depth for letter in own[index] for found in _in_place(letter, depth.index(index), base)
    )


def _in_place(letter: int, layer: int, base: list[int]) -> Iterator[int]:
    """A generator of one layer written for all cords, the other layers standing still where they hang."""
    ranks = [rank for rank, other in enumerate(base, 1) if other == layer]
    low, high = ranks[abs(letter) - 1], ranks[abs(letter)]
    way = [-at if layer < base[at - 1] else at for at in range(high - 1, low, -1)]
    yield from way
    yield low if letter > 0 else -low
    yield from (-at for at in reversed(way))
