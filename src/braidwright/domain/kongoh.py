"""kongoh: recognise kongoh gumi of any size from the moves alone, whatever slots it uses.

The rule, seen from above, whatever the number of pairs: of two cords that stand opposite each other, each is laid just
beyond the clockwise neighbour of where the other stood (hand S; hand Z is the mirror image). The next two stand two
cords back from the gaps these left. Everything else, the slots, the gaps and the pair one starts with, is free.
Source: trade-facts, sections 1.1 and 1.2 (S and Z lists for 8, 12, 16 and 24 cords).
"""

from dataclasses import dataclass
from functools import lru_cache

from braidwright.domain.braid import Braid, Hand, turn

FEWEST_CORDS = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Kongoh:
    """What is known of a braid that is kongoh gumi.

    Attributes:
        columns: Columns round the braid: half the number of cords.
        repeats_per_row: How many smallest repeats, of `columns` stitches each, one row of this braid holds.
        hand: The hand the moves make, whatever the braid is said to be.
        pair_step: pair_step[p] is the place that the cord of place p comes to by one pair of opposite moves, seen in
            the pattern turned with it; places as in `Braid.start`. It is a single cycle of all cords.
        leads: For each pair of moves of a row, whether its first move continues the line of stitches that the first
            move of the row begins, or its second move does.
    """

    columns: int
    repeats_per_row: int
    hand: Hand
    pair_step: tuple[int, ...]
    leads: tuple[bool, ...]


def kongoh_columns(braid: Braid) -> int | None:
    """The columns of a braid that is kongoh gumi, or None for any other braid."""
    found = kongoh_of(braid)
    return found.columns if found else None


@lru_cache(maxsize=256)
def kongoh_of(braid: Braid) -> Kongoh | None:
    """What is known of a braid that is kongoh gumi, or None for any other braid.

    The order of the two moves of a pair does not matter, and re-spaces do not. A row must hold whole smallest repeats.
    """
    columns, odd = divmod(braid.cord_count, 2)
    width = braid.stitches_per_row
    if odd or columns % 2 or braid.cord_count < FEWEST_CORDS or width % columns:
        return None
    # one pair more than a row: what comes after the row must go on by the same rule
    movers, rings = _rings(braid, width + 2)
    if _follows_the_rule(movers, rings):
        hand: Hand = "S"
    else:
        hand, rings = "Z", [ring[::-1] for ring in rings]
        if not _follows_the_rule(movers, rings):
            return None
    return Kongoh(
        columns=columns,
        repeats_per_row=width // columns,
        hand=hand,
        pair_step=_pair_step(movers[0], rings[0], rings[2]),
        leads=_leads(movers, rings)[: width // 2],
    )


Ring = tuple[int, ...]


def _rings(braid: Braid, stitches: int) -> tuple[list[int], list[Ring]]:
    """The cord that makes each stitch, and the cords clockwise round the disk before each and after the last."""
    where = {slot: cord for cord, slot in enumerate(braid.start)}
    movers: list[int] = []
    rings = [tuple(where[slot] for slot in sorted(where))]
    row = 0
    while len(movers) < stitches:
        for move in braid.moves:
            cord = where.pop(turn(move.take, braid.shift * row, braid.slots))
            where[turn(move.put, braid.shift * row, braid.slots)] = cord
            if move.is_stitch:
                movers.append(cord)
                rings.append(tuple(where[slot] for slot in sorted(where)))
        row += 1
    return movers[:stitches], rings[: stitches + 1]


def _follows_the_rule(movers: list[int], rings: list[Ring]) -> bool:
    """Whether every pair of moves is the one that hand S asks for."""
    pairs = list(zip(movers[::2], movers[1::2], strict=True))
    if not all(
        _is_pair_move(one, two, before, after)
        for (one, two), before, after in zip(pairs, rings[:-1:2], rings[2::2], strict=True)
    ):
        return False
    lead = movers[0]
    for then, ring in zip(pairs[1:], rings[::2], strict=False):
        lead = _round(ring, lead, -2)
        if set(then) != {lead, _round(ring, lead, len(ring) // 2)}:
            return False
    # every smallest repeat brings the lead half round the disk; the pattern's turn goes the short way round, so the
    # opposite cord leads again. Half a turn more in the shift would let the columns jump across.
    opposite = (len(pairs) - 1) // (len(rings[0]) // 4) % 2 == 1
    return movers[-2] == (_round(rings[-3], lead, len(rings[0]) // 2) if opposite else lead)


def _is_pair_move(one: int, two: int, before: Ring, after: Ring) -> bool:
    """Whether two opposite cords were laid just beyond each other's clockwise neighbours."""
    if _round(before, one, len(before) // 2) != two:
        return False
    beyond = {_round(before, two, 1): one, _round(before, one, 1): two}
    wanted: list[int] = []
    for cord in before:
        if cord not in (one, two):
            wanted += [cord, beyond[cord]] if cord in beyond else [cord]
    return _from(tuple(wanted), one) == _from(after, one)


def _leads(movers: list[int], rings: list[Ring]) -> tuple[bool, ...]:
    """Whether the first move of each pair is the leading one: that of the cord two back from the last leading one."""
    lead, found = movers[0], [True]
    for first, ring in zip(movers[2::2], rings[::2], strict=False):
        lead = _round(ring, lead, -2)
        found.append(first == lead)
    return tuple(found)


def _pair_step(first: int, before: Ring, after: Ring) -> tuple[int, ...]:
    """Where each place's cord comes to by one pair of moves, seen in the pattern turned on by one pair."""
    places = _from(before, first)
    comes_to = dict(zip(_from(after, _round(before, first, -2)), places, strict=True))
    return tuple(comes_to[cord] for cord in range(len(before)))


def _from(ring: Ring, first: int) -> Ring:
    """The same ring read from one of its cords on."""
    at = ring.index(first)
    return ring[at:] + ring[:at]


def _round(ring: Ring, cord: int, by: int) -> int:
    """The cord so many places further round."""
    return ring[(ring.index(cord) + by) % len(ring)]
