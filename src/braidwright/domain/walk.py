"""walk: from the moves alone, who sits where and which cord makes which stitch.

Places are numbered like `Braid.start`: place p is where cord p starts. After a repeat the whole pattern has turned
by the shift; seen in the turned pattern every cord lies in a place again, and the permutation says in which.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import gcd, lcm

import numpy as np
from numpy.typing import NDArray

from braidwright.domain.braid import Braid, turn

IntArray = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Walk:
    """What one repeat does to the cords.

    Attributes:
        permutation: permutation[p] is the place, in the turned pattern, of the cord that started the repeat in
            place p.
        movers: movers[t] is the place whose cord makes stitch t of a repeat.
        repeats_home: Repeats until every cord is back in its own place of the (turned) pattern.
        repeats_same_slots: Repeats until every cord is home and the pattern has turned whole circles, so that every
            cord is in the very same slot and the working begins word for word again.
    """

    permutation: tuple[int, ...]
    movers: tuple[int, ...]
    repeats_home: int
    repeats_same_slots: int


@lru_cache(maxsize=256)
def walk(braid: Braid) -> Walk:
    """Follow every cord through one repeat.

    The braid has already been proved workable, so this cannot fail.
    """
    holder = {slot: place for place, slot in enumerate(braid.start)}
    movers = []
    for move in braid.moves:
        holder[move.put] = holder.pop(move.take)
        if move.is_stitch:
            movers.append(holder[move.put])
    permutation = [0] * braid.cord_count
    for place, slot in enumerate(braid.start):
        permutation[holder[turn(slot, braid.shift, braid.slots)]] = place
    home = lcm(*(len(cycle) for cycle in cycles(tuple(permutation))))
    whole_turns = braid.slots // gcd(braid.slots, braid.shift)
    return Walk(
        permutation=tuple(permutation),
        movers=tuple(movers),
        repeats_home=home,
        repeats_same_slots=lcm(home, whole_turns),
    )


def cycles(permutation: tuple[int, ...]) -> tuple[tuple[int, ...], ...]:
    """The cycles of a permutation, each from its smallest member, in that order."""
    seen: set[int] = set()
    found = []
    for first in range(len(permutation)):
        if first in seen:
            continue
        cycle = [first]
        while permutation[cycle[-1]] != first:
            cycle.append(permutation[cycle[-1]])
        seen.update(cycle)
        found.append(tuple(cycle))
    return tuple(found)


def holders(braid: Braid, repeats: int, first: int = 0) -> IntArray:
    """Which cord lies in which place before each repeat.

    Args:
        braid: The braid.
        repeats: How many repeats.
        first: The repeat to begin with; one before 0 is of the lead-in, worked so that every cord is home at 0.

    Returns:
        Array (repeats, cords): entry [r, p] is the cord that lies in place p before repeat first + r.
    """
    table = np.zeros((repeats, braid.cord_count), dtype=np.int64)
    row = np.arange(first, first + repeats, dtype=np.int64)
    for cycle in cycles(walk(braid).permutation):
        members = np.array(cycle, dtype=np.int64)
        for index, place in enumerate(cycle):
            table[:, place] = members[(index - row) % len(cycle)]
    return table


def stitch_cords(braid: Braid, rows: int, first: int = 0) -> IntArray:
    """Which cord makes each stitch, from row `first` (0 for row 1; less for the lead-in) on.

    Returns:
        Array (rows, stitches per row): the cord (index into `Braid.start`) of stitch t of each row.
    """
    return holders(braid, rows, first)[:, list(walk(braid).movers)]


def slots_after(braid: Braid, repeats: int) -> tuple[int, ...]:
    """The slot of every cord, in start order, after a number of whole repeats (0 or more)."""
    where = [0] * braid.cord_count
    for place, cord in enumerate(holders(braid, repeats + 1)[repeats]):
        where[int(cord)] = turn(braid.start[place], braid.shift * repeats, braid.slots)
    return tuple(where)
