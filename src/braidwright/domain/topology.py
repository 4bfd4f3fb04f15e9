"""topology: which cord crosses which, from the moves alone.

The cords are points on the rim of the disk; one of them travels at a time, along a chord, and time runs upward, as
the braid grows. That is a braid in space. To write it down, cut the rim between the last slot and slot 1 and read it
clockwise seen from above: ranks 1 to N. Seen from the middle of the disk, clockwise runs from left to right.

Generator +i: the cords of ranks i and i + 1 change places and the one that goes clockwise passes inside, between the
other and the middle of the disk. That is a right-handed crossing, from outside as well as from inside: with both
cords running upward, the near one rises to the right. Generator -i: the one that goes the other way round passes
inside; a left-handed crossing. So a chord from rank i up to rank j is i, i + 1 .. j - 1, and down again -(j - 1) .. -i.

A re-space crosses nothing. It gives no generator, unless it slides past the cut: from rank N to rank 1 along an empty
piece of rim is the same way as along the chord beside it, -(N - 1) .. -1, with every other cord on the far side of the
chord. Those crossings come from the cut, not from the cords, and cancel when the turn of the whole pattern is undone.
Source: E. Artin, Theory of braids, Annals of Mathematics 48 (1947), for generators; the rest follows from the moves.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import combinations

from braidwright.domain.braid import Braid
from braidwright.domain.walk import cycles, holders, walk


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossing:
    """Two cords that change ranks.

    Attributes:
        repeat: The repeat it happens in, from 0.
        move: Index in `Braid.moves` of the move that makes it, or None when it comes from undoing the turn.
        generator: Plus or minus the lower of the two ranks; plus is right-handed.
        inside: The cord that passes between the other and the middle of the disk (index into `Braid.start`).
        outside: The other cord.
    """

    repeat: int
    move: int | None
    generator: int
    inside: int
    outside: int

    @property
    def sign(self) -> int:
        """+1 for a right-handed crossing, -1 for a left-handed one."""
        return 1 if self.generator > 0 else -1


def braid_word(braid: Braid) -> tuple[int, ...]:
    """The generators of one repeat, in working order, the pattern left turned by its shift."""
    return tuple(crossing.generator for crossing in repeat_crossings(braid) if crossing.move is not None)


def turn_back(braid: Braid) -> tuple[int, ...]:
    """The generators that turn the pattern back by the shift along the rim after one repeat.

    `braid_word` followed by these, closed up, is the closure of the braid with its turn undone.
    """
    return tuple(crossing.generator for crossing in repeat_crossings(braid) if crossing.move is None)


@lru_cache(maxsize=256)
def repeat_crossings(braid: Braid) -> tuple[Crossing, ...]:
    """The crossings of the first repeat and of turning the pattern back after it, in order."""
    line = _Line(braid)
    found: list[Crossing] = []
    for index, move in enumerate(braid.moves):
        found += line.go(move.take, move.put, index)
    for _ in range(_cords_past_the_cut(braid, line.slots)):
        found += line.pass_the_cut(back=braid.shift > 0)
    return tuple(found)


def crossings(braid: Braid, repeats: int) -> Iterator[Crossing]:
    """The crossings of a number of repeats, the turn undone after each, in order."""
    for repeat, held in enumerate(holders(braid, repeats)):
        cord = [int(at) for at in held]
        for crossing in repeat_crossings(braid):
            yield replace(crossing, repeat=repeat, inside=cord[crossing.inside], outside=cord[crossing.outside])


@lru_cache(maxsize=256)
def linking(braid: Braid) -> tuple[tuple[int, ...], ...]:
    """How often every two cords turn round each other while all cords come home.

    Returns:
        Symmetric table (cords, cords) with zeros on the diagonal: entry [a][b] is half the sum of the signs of the
        crossings of cords a and b over `Walk.repeats_home` repeats, the turn of the pattern undone after each. It is
        a whole number: full turns of the line from a to b, right-handed positive, in a frame that turns with the
        pattern. Closed up over that many repeats, it is the linking number of the two loops.
    """
    count, then, home = braid.cord_count, walk(braid).permutation, walk(braid).repeats_home
    once = crossing_sums(braid)
    turns: dict[tuple[int, int], int] = {(cord, cord): 0 for cord in range(count)}
    for pair in combinations(range(count), 2):
        if pair not in turns:
            orbit = _orbit(pair, then)
            full = sum(once[a][b] for a, b in orbit) * (home // len(orbit)) // 2
            for a, b in orbit:
                turns[a, b] = turns[b, a] = full
    return tuple(tuple(turns[a, b] for b in range(count)) for a in range(count))


def crossing_sums(braid: Braid) -> tuple[tuple[int, ...], ...]:
    """The sum of the signs of the crossings of every two places in one repeat, the turn undone at its end."""
    table = [[0] * braid.cord_count for _ in range(braid.cord_count)]
    for crossing in repeat_crossings(braid):
        table[crossing.inside][crossing.outside] += crossing.sign
        table[crossing.outside][crossing.inside] += crossing.sign
    return tuple(tuple(row) for row in table)


def closure_components(braid: Braid) -> tuple[tuple[int, ...], ...]:
    """The loops that one repeat, turned back and closed up, falls into: the cords of each, as they follow."""
    return cycles(walk(braid).permutation)


def _orbit(pair: tuple[int, int], then: tuple[int, ...]) -> tuple[tuple[int, int], ...]:
    """The places that two cords lie in, repeat after repeat, until the two places are the first ones again."""
    found = [pair]
    while True:
        first, second = found[-1]
        ahead = (then[first], then[second])
        if ahead in (pair, pair[::-1]):
            return tuple(found)
        found.append(ahead)


def _cords_past_the_cut(braid: Braid, slots: list[int]) -> int:
    """How many times a cord passes the cut while the pattern is turned back."""
    circles, part = divmod(abs(braid.shift), braid.slots)
    if braid.shift > 0:
        return circles * len(slots) + sum(slot <= part for slot in slots)
    return circles * len(slots) + sum(slot > braid.slots - part for slot in slots)


class _Line:
    """The rim cut open: the held slots in order, and the cord of each."""

    def __init__(self, braid: Braid) -> None:
        self.cords = sorted(range(braid.cord_count), key=lambda cord: braid.start[cord])
        self.slots = sorted(braid.start)

    def go(self, take: int, put: int, move: int | None) -> Iterator[Crossing]:
        """One cord travels along a chord."""
        rank = self.slots.index(take)
        self.slots.remove(take)
        goal = sum(slot < put for slot in self.slots)
        self.slots.insert(goal, put)
        yield from self._cross(rank, goal, move)

    def pass_the_cut(self, *, back: bool) -> Iterator[Crossing]:
        """The cord next to the cut slides past it: backwards, the first becomes the last."""
        last = len(self.cords) - 1
        yield from self._cross(0, last, None) if back else self._cross(last, 0, None)

    def _cross(self, rank: int, goal: int, move: int | None) -> Iterator[Crossing]:
        cord = self.cords.pop(rank)
        self.cords.insert(goal, cord)
        for at in range(rank, goal):  # going clockwise: the passed cords have moved one rank down
            yield Crossing(repeat=0, move=move, generator=at + 1, inside=cord, outside=self.cords[at])
        for at in range(rank, goal, -1):
            yield Crossing(repeat=0, move=move, generator=-at, inside=cord, outside=self.cords[at])
