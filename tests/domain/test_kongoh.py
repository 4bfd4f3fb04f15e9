"""Kongoh gumi recognised from its moves: published lists, other slots, and braids that are something else.

Lists: trade-facts, sections 1.1 and 1.2 ([SZ], [IT], [KB], simulation); the 8-cycle of section 7.1 by simulation.
"""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.catalogue.shelf import standard
from braidwright.domain.braid import Braid, Hand, Move, mirrored, turn
from braidwright.domain.kongoh import kongoh_columns, kongoh_of
from braidwright.domain.walk import cycles
from known_braids import MARU_YOTSU, ROUNDS, braid, kongoh, one_empty_slot, published_kongoh, repeated, slide
from strategies import braids

HANDS = st.sampled_from(("S", "Z"))


def seen(one: Braid) -> tuple[int, int, str] | None:
    """Columns, repeats in a row and hand."""
    found = kongoh_of(one)
    return (found.columns, found.repeats_per_row, found.hand) if found else None


def turned(one: Braid, by: int) -> Braid:
    """The same working begun at another slot of the disk."""
    moves = tuple(replace(m, take=turn(m.take, by, one.slots), put=turn(m.put, by, one.slots)) for m in one.moves)
    return replace(one, start=tuple(turn(slot, by, one.slots) for slot in one.start), moves=moves)


@pytest.mark.parametrize(("cords", "hand"), list(ROUNDS))
def test_published_rounds_are_two_smallest_repeats(cords: int, hand: Hand) -> None:
    assert seen(published_kongoh(cords, hand)) == (cords // 2, 2, hand)


@pytest.mark.parametrize("one", standard().braids, ids=lambda one: one.name)
def test_of_the_catalogue_only_the_kongoh_braids_are_recognised(one: Braid) -> None:
    wanted = (one.cord_count // 2, 1, "S") if one.name.startswith("kongoh") else None
    assert seen(one) == wanted
    assert seen(mirrored(one)) == (wanted and (*wanted[:2], "Z"))


@given(st.integers(2, 10), st.integers(3, 8), st.integers(1, 64), HANDS)
def test_any_size_spacing_and_first_slot_is_recognised(fours: int, gap: int, first: int, hand: Hand) -> None:
    cords = 4 * fours
    gap = min(gap, 64 // (2 * fours))
    if gap >= 3:
        assert seen(kongoh(cords, gap, hand, first)) == (cords // 2, 1, hand)


@given(st.sampled_from((8, 12, 16, 24)), HANDS, st.integers(0, 31), st.integers(1, 3), st.booleans())
def test_turning_repeating_and_swapping_the_moves_of_a_pair_change_nothing(
    cords: int, hand: Hand, by: int, times: int, swapped: bool
) -> None:
    one = repeated(turned(published_kongoh(cords, hand), by), times)
    if swapped:
        one = replace(one, moves=tuple(one.moves[at ^ 1] for at in range(len(one.moves))))
    assert seen(one) == (cords // 2, 2 * times, hand)


@given(st.integers(0, 3), HANDS)
def test_any_pair_may_be_the_first(skip: int, hand: Hand) -> None:
    """The same endless working, begun some pairs later: what went before is then part of the set-up."""
    one = published_kongoh(8, hand)
    early, late = one.moves[: 2 * skip], one.moves[2 * skip :]
    held = set(one.start)
    for move in early:
        held = (held - {move.take}) | {move.put}
    later = tuple(
        Move(take=turn(move.take, one.shift, one.slots), put=turn(move.put, one.shift, one.slots)) for move in early
    )
    assert seen(replace(one, start=tuple(sorted(held)), moves=(*late, *later))) == (4, 2, hand)


def test_re_spaces_do_not_hide_it() -> None:
    start = (32, 1, 8, 9, 16, 17, 24, 25)
    moves: list[Move | tuple[int, int]] = [
        (32, 19),
        slide(19, 18),
        (16, 3),
        slide(3, 2),
        (24, 10),
        (8, 28),
        slide(28, 26),
    ]
    assert seen(braid(32, start, moves, 1)) == (4, 1, "S")


def test_the_hand_is_read_off_the_moves_not_off_the_name() -> None:
    assert seen(replace(published_kongoh(8, "Z"), hand="S", name="mine")) == (4, 2, "Z")


def test_eight_cords_beginning_the_next_row_with_another_pair_are_another_braid() -> None:
    """North, east, east, north: the set-up allows a shift of 9 or 17 too, but that order of pairs is not the rule."""
    one = kongoh(8, 8, "S", first=32)
    assert seen(one) == (4, 1, "S")
    assert seen(replace(one, shift=9)) is None
    assert seen(replace(one, shift=17)) is None


def test_the_rule_broken_anywhere_is_noticed() -> None:
    rows = list(published_kongoh(16, "S").moves)
    start = published_kongoh(16, "S").start
    assert seen(braid(32, start, [*rows[2:4], *rows[:2], *rows[4:]], 2)) is None
    # 24 is laid before 8 and 9, not beyond them
    short: list[Move | tuple[int, int]] = [(32, 18), (16, 2), (24, 7), (8, 26), slide(9, 10), slide(7, 9)]
    assert seen(braid(32, (32, 1, 8, 9, 16, 17, 24, 25), short, 1)) is None


def test_sixteen_cords_turned_the_other_way_are_another_braid() -> None:
    """Trade-facts, check value 9: above eight cords the direction of turning makes a difference [PRU-TF]."""
    start = published_kongoh(16, "S").start
    other_way = [(32, 18), (16, 2), (4, 22), (20, 6), (8, 26), (24, 10), (12, 30), (28, 14)]
    assert seen(braid(32, start, other_way, 1)) is None


@given(braids(slots=(17, 40), cords=(8, 16)))
def test_a_random_braid_is_not_taken_for_kongoh(one: Braid) -> None:
    assert kongoh_columns(one) is None


def test_other_braids_are_not_kongoh() -> None:
    for one in (MARU_YOTSU, one_empty_slot(8, 3), one_empty_slot(9, 3), one_empty_slot(13, 5)):
        assert kongoh_columns(one) is None


def test_one_pair_of_moves_takes_eight_cords_through_the_published_cycle() -> None:
    """Trade-facts, section 7.1: 17, 24, 16, 9, 1, 8, 32, 25 for Z."""
    for one in (published_kongoh(8, "Z"), mirrored(kongoh(8, 8, "S", first=32))):
        found = kongoh_of(one)
        assert found is not None
        slots = [one.start[place] for place in cycles(found.pair_step)[0]]
        at = slots.index(17)
        assert slots[at:] + slots[:at] == [17, 24, 16, 9, 1, 8, 32, 25]


@pytest.mark.parametrize("cords", [8, 12, 16, 24])
def test_one_pair_of_moves_is_a_single_round_of_all_cords(cords: int) -> None:
    """Trade-facts, section 7.1: single 8-, 12-, 16- and 24-cycles."""
    for hand in ("S", "Z"):
        found = kongoh_of(published_kongoh(cords, "S" if hand == "S" else "Z"))
        assert found is not None
        assert list(map(len, cycles(found.pair_step))) == [cords]
