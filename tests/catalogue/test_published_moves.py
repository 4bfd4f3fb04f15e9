"""The braids of the catalogue against the move lists that makers publish.

The keys in brackets are those of the project's list of trade facts; each address is given once, here:
[SZ] topcenter.typepad.com/blog/2016/05/s-twist-and-z-twist-kongo-gumi.html, [IT] annaerre.blogspot.com/2016/05,
[FACK] facetjewelry.com "Kumihimo basics: Kongoh gumi on the marudai" (2016/06), [PRU-TF] prumihimo.com, page on
to-and-fro turning, [EE2] ee0r.com/blog/2012102901.html, [ROB4] primitive-originals.stores.yahoo.net/robr4st.html,
[MMT] mymindsteeth.blogspot.com/2012/09/kumihimish-7-strand-braid.html, [BUCK] buckswsd.org.uk/links/instructions.
"""

from dataclasses import replace

import pytest

from braidwright.catalogue.shelf import standard
from braidwright.domain.braid import Braid, Hand, Move, in_hand, mirrored, turn
from braidwright.domain.walk import cycles, slots_after, walk

Bars = list[set[tuple[int, int]]]

# One round, every cord once; a bar is a turn of the disk. 8 cords: [SZ], the beginning of Z also [IT]. 12, 16 and 24
# cords: the rule of [SZ] carried on, written out and worked by the simulation of the trade facts.
PUBLISHED: dict[tuple[str, Hand], str] = {
    ("kongoh-8", "Z"): "17>31 1>15 | 25>7 9>23 | 32>14 16>30 | 8>22 24>6",
    ("kongoh-8", "S"): "16>2 32>18 | 8>26 24>10 | 1>19 17>3 | 25>11 9>27",
    ("kongoh-12", "Z"): "17>31 1>15 | 22>4 6>20 | 28>10 12>26 | 32>14 16>30 | 5>19 21>3 | 11>25 27>9",
    ("kongoh-12", "S"): "16>2 32>18 | 11>29 27>13 | 5>23 21>7 | 1>19 17>3 | 28>14 12>30 | 22>8 6>24",
    ("kongoh-16", "Z"): "17>31 1>15 | 21>3 5>19 | 25>7 9>23 | 29>11 13>27 | 32>14 16>30 | 4>18 20>2 | 8>22 24>6 "
    "| 12>26 28>10",
    ("kongoh-16", "S"): "16>2 32>18 | 12>30 28>14 | 8>26 24>10 | 4>22 20>6 | 1>19 17>3 | 29>15 13>31 | 25>11 9>27 "
    "| 21>7 5>23",
    ("kongoh-24", "Z"): "17>31 1>15 | 20>2 4>18 | 22>4 6>20 | 25>7 9>23 | 28>10 12>26 | 30>12 14>28 | 32>14 16>30 "
    "| 3>17 19>1 | 5>19 21>3 | 8>22 24>6 | 11>25 27>9 | 13>27 29>11",
    ("kongoh-24", "S"): "16>2 32>18 | 13>31 29>15 | 11>29 27>13 | 8>26 24>10 | 5>23 21>7 | 3>21 19>5 | 1>19 17>3 "
    "| 30>16 14>32 | 28>14 12>30 | 25>11 9>27 | 22>8 6>24 | 20>6 4>22",
}
KONGOH = ("kongoh-8", "kongoh-12", "kongoh-16", "kongoh-24")
# The set-up of the trade facts, 1.0, and of [BL8] webgourds.com/blind/round8strand.html for 8 cords.
SET_UPS = {
    "kongoh-8": "32 1 8 9 16 17 24 25",
    "kongoh-12": "32 1 5 6 11 12 16 17 21 22 27 28",
    "kongoh-16": "32 1 4 5 8 9 12 13 16 17 20 21 24 25 28 29",
    "kongoh-24": "32 1 3 4 5 6 8 9 11 12 13 14 16 17 19 20 21 22 24 25 27 28 29 30",
    "maru-yotsu": "32 8 16 24",
    "tubular-8": "32 4 8 12 16 20 24 28",
    "tubular-16": "32 2 4 6 8 10 12 14 16 18 20 22 24 26 28 30",
}


def bars(text: str) -> Bars:
    """The bars of a published list, each as the set of its moves: their order inside makes no difference."""
    return [{tuple(map(int, move.split(">"))) for move in bar.split()} for bar in text.split("|")]  # type: ignore[misc]


def ours(braid: Braid, repeats: int) -> Bars:
    """The same from the repeat, turned on by its shift each time; two moves to a bar."""
    moves = [
        (turn(move.take, braid.shift * n, braid.slots), turn(move.put, braid.shift * n, braid.slots))
        for n in range(repeats)
        for move in braid.moves
    ]
    return [set(moves[at : at + 2]) for at in range(0, len(moves), 2)]


@pytest.mark.parametrize(("name", "hand"), PUBLISHED, ids=[f"{name} {hand}" for name, hand in PUBLISHED])
def test_two_repeats_are_the_published_round(name: str, hand: Hand) -> None:
    braid = in_hand(standard().braid(name), hand)
    assert ours(braid, 2) == bars(PUBLISHED[name, hand])


def test_the_comparison_can_fail() -> None:
    """The other hand's list, and the same moves in another order of bars, are told apart."""
    braid = standard().braid("kongoh-16")
    assert ours(braid, 2) != bars(PUBLISHED["kongoh-16", "Z"])
    assert ours(braid, 2) != bars(PUBLISHED["kongoh-16", "S"])[::-1]


@pytest.mark.parametrize("name", SET_UPS)
def test_the_set_up_is_the_published_one(name: str) -> None:
    assert standard().braid(name).start == tuple(map(int, SET_UPS[name].split()))


@pytest.mark.parametrize("name", KONGOH)
def test_a_kongoh_repeat_is_half_a_round_of_one_slot(name: str) -> None:
    braid = standard().braid(name)
    assert (braid.hand, braid.shift, braid.stitches_per_row) == ("S", 1, braid.cord_count // 2)
    # inside a pair the upper left cord comes first: turned to the top, it is the one of the western half
    assert all(move.take > 16 for move in braid.moves[::2])
    assert all(move.take <= 16 for move in braid.moves[1::2])


@pytest.mark.parametrize("name", KONGOH)
def test_after_one_round_every_cord_lies_half_a_turn_away_and_after_two_all_are_home(name: str) -> None:
    """Check values 2; for 8 cords [FACK]: four double movements bring every cord home."""
    braid = standard().braid(name)
    one_round = [walk(braid).permutation[place] for place in walk(braid).permutation]
    assert sorted(len(cycle) for cycle in cycles(tuple(one_round))) == [2] * (braid.cord_count // 2)
    assert walk(braid).repeats_home == 4
    assert set(slots_after(braid, 2)) == {turn(slot, 2, 32) for slot in braid.start}
    assert set(slots_after(mirrored(braid), 2)) == {turn(slot, -2, 32) for slot in mirrored(braid).start}
    assert slots_after(braid, 4) == tuple(turn(slot, 4, 32) for slot in braid.start)


@pytest.mark.parametrize(("name", "moves"), [*zip(KONGOH, (128, 192, 256, 384), strict=True), ("seven-cord", 56)])
def test_moves_until_every_cord_is_in_its_own_slot(name: str, moves: int) -> None:
    """Check values 3 and 7: by the simulation of the trade facts."""
    braid = standard().braid(name)
    assert walk(braid).repeats_same_slots * len(braid.moves) == moves


def test_the_z_round_leaves_eight_cords_where_the_list_says() -> None:
    """Trade facts, 1.1: after round 1 of Z the cords sit in 30 31 6 7 14 15 22 23."""
    assert set(slots_after(in_hand(standard().braid("kongoh-8"), "Z"), 2)) == {30, 31, 6, 7, 14, 15, 22, 23}


@pytest.mark.parametrize("name", KONGOH)
def test_the_mirror_map_turns_one_list_into_the_other(name: str) -> None:
    """Check value 8: slot k becomes 33 - k."""
    z = [{(33 - take, 33 - put) for take, put in bar} for bar in bars(PUBLISHED[name, "Z"])]
    assert z == bars(PUBLISHED[name, "S"])
    assert ours(mirrored(standard().braid(name)), 2) == bars(PUBLISHED[name, "Z"])


def test_the_mirrored_set_up_swaps_the_cords_a_maker_swaps() -> None:
    """Check value 34: common practice, no source."""
    braid = standard().braid("kongoh-8")
    swap = dict(zip(braid.start, mirrored(braid).start, strict=True))
    assert (swap[32], swap[1]) == (1, 32), "the north pair"
    assert (swap[16], swap[17]) == (17, 16), "the south pair"
    assert (swap[8], swap[25]) == (25, 8), "the upper cords of the side pairs"
    assert (swap[9], swap[24]) == (24, 9), "the lower cords of the side pairs"


@pytest.mark.parametrize("name", KONGOH)
def test_which_cord_of_a_pair_of_moves_goes_first_makes_no_difference(name: str) -> None:
    """Check value 36: common practice, no source."""
    braid = standard().braid(name)
    swapped: list[Move] = []
    for left, right in zip(braid.moves[::2], braid.moves[1::2], strict=True):
        swapped += [right, left]
    other = Braid(
        name="swapped",
        english="swapped",
        slots=32,
        start=braid.start,
        moves=tuple(swapped),
        shift=braid.shift,
        hand=braid.hand,
    )
    assert walk(other).permutation == walk(braid).permutation
    assert [slots_after(other, n) for n in range(8)] == [slots_after(braid, n) for n in range(8)]


class Bench:
    """Kongoh gumi S worked by the rule in words, with no slot list; source [SZ]."""

    def __init__(self, start: tuple[int, ...]) -> None:
        """Lay the pairs, clockwise from north."""
        self.pairs = [list(pair) for pair in zip(start[::2], start[1::2], strict=True)]

    def step(self, top: int) -> set[tuple[int, int]]:
        """Bottom right goes up outside top right, top left goes down outside bottom left."""
        upper, lower = self.pairs[top % len(self.pairs)], self.pairs[(top + len(self.pairs) // 2) % len(self.pairs)]
        done = {(lower[0], turn(upper[1], 1, 32)), (upper[0], turn(lower[1], 1, 32))}
        held = {slot for pair in self.pairs for slot in pair}
        if any(put in held for _, put in done):
            raise ValueError("a full slot")
        upper[:] = [upper[1], turn(upper[1], 1, 32)]
        lower[:] = [lower[1], turn(lower[1], 1, 32)]
        return done


def by_rule(name: str, tops: list[int]) -> Bars:
    bench = Bench(standard().braid(name).start)
    return [bench.step(top) for top in tops]


# Turning the disk clockwise brings the pair at the left, the one before in clockwise order, to the top.
CLOCKWISE = [-step for step in range(16)]
ANTICLOCKWISE = list(range(16))
TO_AND_FRO = [0, -1] * 8


def test_the_rule_in_words_gives_our_moves() -> None:
    for name in KONGOH:
        repeats = 2 if name == "kongoh-24" else 4
        assert (
            by_rule(name, CLOCKWISE[: len(ours(standard().braid(name), repeats))])
            == (ours(standard().braid(name), repeats)[: len(CLOCKWISE)])
        )


def test_the_way_of_turning_makes_no_difference_with_eight_cords() -> None:
    """Check value 9: by simulation, and [PRU-TF]."""
    clockwise = by_rule("kongoh-8", CLOCKWISE)
    assert by_rule("kongoh-8", ANTICLOCKWISE) == clockwise
    assert by_rule("kongoh-8", TO_AND_FRO) == clockwise


def test_the_way_of_turning_makes_a_difference_with_sixteen_cords() -> None:
    """Check value 9: to-and-fro meets a full slot, the two ways round are two orders; [PRU-TF]."""
    assert by_rule("kongoh-16", CLOCKWISE) != by_rule("kongoh-16", ANTICLOCKWISE)
    with pytest.raises(ValueError, match="a full slot"):
        by_rule("kongoh-16", TO_AND_FRO)


def test_maru_yotsu_exchanges_north_with_south_then_east_with_west() -> None:
    """[EE2], [ROB4]: permutation (N S)(E W); north goes down to the left of south, south comes up."""
    braid = standard().braid("maru-yotsu")
    assert braid.shift == 0
    assert slots_after(braid, 1) == (16, 24, 32, 8)
    assert walk(braid).repeats_home == walk(braid).repeats_same_slots == 2
    assert (braid.moves[0].take, braid.moves[0].put) == (32, 17)
    assert [move.is_stitch for move in braid.moves] == [True, True, False] * 2


def test_the_two_hands_of_maru_yotsu_are_one_braid_begun_half_a_repeat_apart() -> None:
    """What the notes of its file say: the mirror image is ours turned back 7 slots, from its second half on."""
    braid = standard().braid("maru-yotsu")
    from_the_middle = braid.moves[3:] + braid.moves[:3]
    turned = tuple(replace(m, take=turn(m.take, -7, 32), put=turn(m.put, -7, 32)) for m in from_the_middle)
    assert turned == mirrored(braid).moves


def test_the_seven_cord_braid_takes_the_third_cord_from_the_gap() -> None:
    """Check value 7: [MMT], [BUCK]; its first eight moves with the gap at 16 are those of the trade facts."""
    braid = standard().braid("seven-cord")
    moves = [(turn(4, -12 * n, 32), turn(16, -12 * n, 32)) for n in range(8)]
    assert [f"{take}>{put}" for take, put in moves] == [
        "4>16",
        "24>4",
        "12>24",
        "32>12",
        "20>32",
        "8>20",
        "28>8",
        "16>28",
    ]
    assert braid.moves == (Move(take=4, put=16),)
    assert braid.shift == -12
    assert walk(braid).repeats_home == 7
    assert [len(cycle) for cycle in cycles(walk(braid).permutation)] == [7]


@pytest.mark.parametrize(("name", "each_way"), [("tubular-8", 4), ("tubular-16", 8)])
def test_a_tubular_braid_is_two_families_that_cross_one_at_a_time(name: str, each_way: int) -> None:
    """The maypole rule, common practice, no source: every stitch passes exactly one cord, of the other family."""
    braid = standard().braid(name)
    assert sorted(len(cycle) for cycle in cycles(walk(braid).permutation)) == [each_way, each_way]
    family = {slot: place % 2 for place, slot in enumerate(braid.start)}
    held = dict(family)
    for move in braid.moves:
        way = 1 if held[move.take] == 0 else -1
        steps = (move.put - move.take) * way % 32
        passed = [held[slot] for by in range(1, steps) if (slot := turn(move.take, by * way, 32)) in held]
        assert passed == ([1 - held[move.take]] if move.is_stitch else [])
        held[move.put] = held.pop(move.take)
    assert held == family
