"""Braids with known answers, written down independently of the catalogue.

Move lists of kongoh gumi: trade-facts, sections 1.1 and 1.2 ([SZ] topcenter.typepad.com, S-twist and Z-twist kongo
gumi; [IT] annaerre.blogspot.com 2016/05; [KB] kumihimo.blogspot.com 2012/03; 12 and 24 cords by simulation).
"""

from collections.abc import Sequence

from braidwright.domain.braid import Braid, Hand, Move

Pairs = Sequence[tuple[int, int]]


def braid(
    slots: int, start: Sequence[int], moves: Sequence[Move | tuple[int, int]], shift: int, hand: Hand = "S"
) -> Braid:
    """A braid without a story; a pair (take, put) is a move."""
    every = tuple(move if isinstance(move, Move) else Move(take=move[0], put=move[1]) for move in moves)
    return Braid(
        name="known",
        english="known",
        slots=slots,
        start=tuple(start),
        moves=every,
        shift=shift,
        hand=hand,
    )


def slide(take: int, put: int) -> Move:
    """A re-space."""
    return Move(take=take, put=put, kind="re-space")


STARTS: dict[int, tuple[int, ...]] = {
    8: (32, 1, 8, 9, 16, 17, 24, 25),
    12: (32, 1, 5, 6, 11, 12, 16, 17, 21, 22, 27, 28),
    16: (32, 1, 4, 5, 8, 9, 12, 13, 16, 17, 20, 21, 24, 25, 28, 29),
    24: (32, 1, 3, 4, 5, 6, 8, 9, 11, 12, 13, 14, 16, 17, 19, 20, 21, 22, 24, 25, 27, 28, 29, 30),
}

# One published round: every cord moves once, the pattern turns by -2 (Z) or +2 (S) slots.
ROUNDS: dict[tuple[int, Hand], Pairs] = {
    (8, "Z"): [(17, 31), (1, 15), (25, 7), (9, 23), (32, 14), (16, 30), (8, 22), (24, 6)],
    (8, "S"): [(16, 2), (32, 18), (8, 26), (24, 10), (1, 19), (17, 3), (25, 11), (9, 27)],
    (12, "Z"): [
        *[(17, 31), (1, 15), (22, 4), (6, 20), (28, 10), (12, 26)],
        *[(32, 14), (16, 30), (5, 19), (21, 3), (11, 25), (27, 9)],
    ],
    (12, "S"): [
        *[(16, 2), (32, 18), (11, 29), (27, 13), (5, 23), (21, 7)],
        *[(1, 19), (17, 3), (28, 14), (12, 30), (22, 8), (6, 24)],
    ],
    (16, "Z"): [
        *[(17, 31), (1, 15), (21, 3), (5, 19), (25, 7), (9, 23), (29, 11), (13, 27)],
        *[(32, 14), (16, 30), (4, 18), (20, 2), (8, 22), (24, 6), (12, 26), (28, 10)],
    ],
    (16, "S"): [
        *[(16, 2), (32, 18), (12, 30), (28, 14), (8, 26), (24, 10), (4, 22), (20, 6)],
        *[(1, 19), (17, 3), (29, 15), (13, 31), (25, 11), (9, 27), (21, 7), (5, 23)],
    ],
    (24, "Z"): [
        *[(17, 31), (1, 15), (20, 2), (4, 18), (22, 4), (6, 20), (25, 7), (9, 23)],
        *[(28, 10), (12, 26), (30, 12), (14, 28), (32, 14), (16, 30), (3, 17), (19, 1)],
        *[(5, 19), (21, 3), (8, 22), (24, 6), (11, 25), (27, 9), (13, 27), (29, 11)],
    ],
    (24, "S"): [
        *[(16, 2), (32, 18), (13, 31), (29, 15), (11, 29), (27, 13), (8, 26), (24, 10)],
        *[(5, 23), (21, 7), (3, 21), (19, 5), (1, 19), (17, 3), (30, 16), (14, 32)],
        *[(28, 14), (12, 30), (25, 11), (9, 27), (22, 8), (6, 24), (20, 6), (4, 22)],
    ],
}


def published_kongoh(cords: int, hand: Hand) -> Braid:
    """Kongoh gumi as published: a round in which every cord moves once."""
    return braid(32, STARTS[cords], ROUNDS[cords, hand], -2 if hand == "Z" else 2, hand)


def kongoh(cords: int, gap: int, hand: Hand = "S", first: int = 1) -> Braid:
    """Kongoh gumi of any size by the rule, its pairs `gap` slots apart, the smallest repeat."""
    pairs = cords // 2
    slots = gap * pairs
    low = [(first - 1 + gap * pair) % slots + 1 for pair in range(pairs)]
    step = 1 if hand == "S" else -1
    near = low if hand == "S" else [slot % slots + 1 for slot in low]  # the cord of each pair that moves

    def beyond(pair: int) -> int:
        return (near[pair % pairs] + 2 * step - 1) % slots + 1

    moves = []
    for count in range(pairs // 2):
        one, two = (-step * count) % pairs, (-step * count + pairs // 2) % pairs
        moves += [(near[one], beyond(two)), (near[two], beyond(one))]
    start = [slot for pair in low for slot in (pair, pair % slots + 1)]
    return braid(slots, start, moves, step, hand)


def one_empty_slot(slots: int, take: int) -> Braid:
    """The braid of one cord fewer than slots: the cord `take` slots back goes into the gap. Trade-facts, 1.4."""
    return braid(slots, range(1, slots), [(slots - take, slots)], -take if take <= slots // 2 else slots - take)


MARU_YOTSU = braid(32, (32, 8, 16, 24), [(32, 17), (16, 32), slide(17, 16), (8, 23), (24, 8), slide(23, 24)], 0, "Z")
"""Trade-facts, section 1.3: start 32 8 16 24."""


def from_word(word: Sequence[int], strands: int) -> Braid:
    """A braid on a disk whose repeat makes exactly these generators: each is a move and two re-spaces."""
    slots = max(8, 4 * strands)
    at = [4 * rank + 2 for rank in range(strands)]
    moves: list[Move] = []
    for letter in word:
        low, high = at[abs(letter) - 1], at[abs(letter)]
        if letter > 0:
            moves += [Move(take=low, put=high + 1), slide(high, low), slide(high + 1, high)]
        else:
            moves += [Move(take=high, put=low - 1), slide(low, high), slide(low - 1, low)]
    return braid(slots, at, moves, 0)


def side_by_side() -> Braid:
    """Two maru yotsu worked on the two halves of one disk."""
    start: list[int] = []
    moves: list[Move | tuple[int, int]] = []
    for base in (1, 17):
        east, south, west, north = (base + by for by in (1, 4, 7, 10))
        start += [north, east, south, west]
        moves += [(north, south + 1), (south, north), slide(south + 1, south)]
        moves += [(east, west - 1), (west, east), slide(west - 1, west)]
    return braid(32, start, moves, 0)


def repeated(one: Braid, times: int) -> Braid:
    """The same working with several repeats written as one."""
    moves = [
        Move(
            take=(move.take - 1 + one.shift * count) % one.slots + 1,
            put=(move.put - 1 + one.shift * count) % one.slots + 1,
            kind=move.kind,
        )
        for count in range(times)
        for move in one.moves
    ]
    return braid(one.slots, one.start, moves, times * one.shift, one.hand)
