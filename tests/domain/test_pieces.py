"""One piece or several: braids that makers know to hold, and words whose pieces are known by construction.

Sources: the plait is Brunnian, every pair unlinked and yet it holds (H. Brunn 1892; E. Artin, Theory of braids, 1947);
trade-facts, section 1.4 (the one-empty-slot braid does not braid when each cord only slides into the gap); the
catalogue holds together by common practice.
"""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.catalogue.shelf import standard
from braidwright.domain.braid import Braid, mirrored
from braidwright.domain.pieces import Pieces, pieces_of
from braidwright.domain.topology import linking
from known_braids import MARU_YOTSU, braid, from_word, kongoh, one_empty_slot, repeated, side_by_side, slide
from strategies import braids

Parts = set[frozenset[int]]


def parts(one: Braid) -> Parts:
    """The pieces as sets of cords."""
    cord = {slot: index for index, slot in enumerate(one.start)}
    return {frozenset(cord[slot] for slot in piece) for piece in pieces_of(one).pieces}


def back(word: tuple[int, ...]) -> tuple[int, ...]:
    return tuple(-letter for letter in reversed(word))


def round_all(first: int, strands: int) -> tuple[int, ...]:
    """Strand `strands` once round strand `first`, in front of those between."""
    way = tuple(range(strands - 1, first, -1))
    return (*way, first, first, *back(way))


@pytest.mark.parametrize("one", standard().braids, ids=lambda one: one.name)
def test_every_braid_of_the_catalogue_is_one_piece_in_both_hands(one: Braid) -> None:
    for hand in (one, mirrored(one)):
        assert pieces_of(hand) == Pieces(pieces=(hand.start,), certain=True)


def test_the_plait_of_three_is_one_piece_though_no_two_cords_are_linked() -> None:
    plait = from_word((1, -2), 3)
    assert linking(plait) == ((0, 0, 0),) * 3
    assert parts(plait) == {frozenset({0, 1, 2})}


def test_two_maru_yotsu_side_by_side_fall_into_two() -> None:
    found = pieces_of(side_by_side())
    assert found.certain
    assert [set(piece) for piece in found.pieces] == [{2, 5, 8, 11}, {18, 21, 24, 27}]
    assert not found.is_one


def test_two_maru_yotsu_one_lying_over_the_other_fall_into_two() -> None:
    """Cords 1 3 5 7 work in front of 2 4 6 8; the front ones are brought together first and go back after."""
    gather = (-2, -4, -3, -6, -5, -4)  # 3, 5 and 7 pass in front, so that 1 3 5 7 stand together and 2 4 6 8 too
    work = (-3, 2, 3, 1, -2, -1)  # maru yotsu on the first four ranks
    one = from_word((*gather, *work, *(letter + 4 if letter > 0 else letter - 4 for letter in work), *back(gather)), 8)
    assert parts(one) == {frozenset({0, 2, 4, 6}), frozenset({1, 3, 5, 7})}
    assert pieces_of(one).certain


def test_the_same_two_linked_once_are_one_piece() -> None:
    gather = (-2, -4, -3, -6, -5, -4)
    work = (-3, 2, 3, 1, -2, -1)
    one = from_word((*gather, *work, *(letter + 4 if letter > 0 else letter - 4 for letter in work), 4, 4), 8)
    assert pieces_of(from_word((*work, 4, 4), 5)).is_one
    assert pieces_of(one).is_one


@pytest.mark.parametrize(("slots", "take"), [(8, 1), (8, 7), (13, 1), (64, 1)])
def test_cords_that_only_slide_into_the_gap_beside_them_fall_apart(slots: int, take: int) -> None:
    found = pieces_of(one_empty_slot(slots, take))
    assert found == Pieces(pieces=tuple((slot,) for slot in range(1, slots)), certain=True)


@pytest.mark.parametrize(("slots", "take"), [(8, 3), (8, 5), (16, 7), (64, 27)])
def test_cords_that_jump_over_others_into_the_gap_hold(slots: int, take: int) -> None:
    assert pieces_of(one_empty_slot(slots, take)).is_one


@pytest.mark.parametrize(("slots", "take", "groups"), [(16, 5, 3), (13, 4, 3), (10, 3, 3), (11, 5, 2)])
def test_cords_that_only_jump_over_their_own_group_fall_apart_into_groups(slots: int, take: int, groups: int) -> None:
    """When `take` divides the cords, each cord jumps over the rest of its own group and lands beside it. By hand."""
    found = pieces_of(one_empty_slot(slots, take))
    wanted = tuple(tuple(range(at * take + 1, (at + 1) * take + 1)) for at in range(groups))
    assert found.pieces == (wanted if groups > 2 else (tuple(range(1, slots)),))


@pytest.mark.parametrize("cords", [8, 12, 20, 40])
def test_kongoh_of_any_size_holds(cords: int) -> None:
    assert pieces_of(kongoh(cords, 3)).is_one


def test_a_chain_is_one_piece() -> None:
    """A round B and B round C hold all three, though A and C never meet."""
    assert parts(from_word((1, 1, 2, 2), 3)) == {frozenset({0, 1, 2})}
    assert parts(from_word((1, 1, 2, 2, 3, 3), 4)) == {frozenset({0, 1, 2, 3})}


def test_a_pair_twisted_beside_others_leaves_them_alone() -> None:
    assert parts(from_word((1, 1, 1), 3)) == {frozenset({0, 1}), frozenset({2})}
    assert parts(from_word((1, 1, -4, -4), 5)) == {frozenset({0, 1}), frozenset({2}), frozenset({3, 4})}


def test_a_pair_twisted_in_front_of_a_third_leaves_it_alone() -> None:
    assert parts(from_word(round_all(1, 3), 3)) == {frozenset({0, 2}), frozenset({1})}


def test_two_pairs_twisted_across_each_other_hold_unless_one_lies_over_the_other() -> None:
    front = (-2, 1, 1, 2)
    assert parts(from_word((*front, 3, 2, 2, -3), 4)) == {frozenset({0, 2}), frozenset({1, 3})}
    assert parts(from_word((*front, -3, 2, 2, 3), 4)) == {frozenset({0, 1, 2, 3})}


def test_a_common_turn_holds_nothing() -> None:
    turn = (1, 2, 3) * 4
    assert parts(from_word(turn, 4)) == {frozenset({cord}) for cord in range(4)}
    assert parts(from_word((*turn, 1, 1), 4)) == {frozenset({0, 1}), frozenset({2}), frozenset({3})}


def test_four_strands_of_which_any_three_are_loose_hold_together() -> None:
    """The commutator of commutators of three loops is Brunnian: leave out any strand and the rest is nothing."""
    a, b, c = (round_all(first, 4) for first in (1, 2, 3))
    inner = (*b, *c, *back(b), *back(c))
    word = (*a, *inner, *back(a), *back(inner))
    assert pieces_of(from_word(word, 4)) == Pieces(pieces=(from_word(word, 4).start,), certain=True)


def test_the_same_with_five_strands() -> None:
    a, b, c, d = (round_all(first, 5) for first in (1, 2, 3, 4))
    inner = (*c, *d, *back(c), *back(d))
    middle = (*b, *inner, *back(b), *back(inner))
    assert pieces_of(from_word((*a, *middle, *back(a), *back(middle)), 5)).is_one
    loose = pieces_of(from_word(middle, 5))
    assert loose.pieces == ((2,), (6, 10, 14, 18))
    assert loose.certain


def test_two_cords_hold_when_they_turn_round_each_other_in_the_turned_pattern() -> None:
    assert parts(from_word((1,), 2)) == {frozenset({0, 1})}
    assert parts(from_word((1, 1, -1, -1), 2)) == {frozenset({0}), frozenset({1})}
    turning = braid(8, (1, 5), [slide(1, 2), (5, 6)], 1)
    assert parts(turning) == {frozenset({0}), frozenset({1})}


def letters(low: int, high: int, least: int = 0, most: int = 8) -> st.SearchStrategy[tuple[int, ...]]:
    """Words in the generators low to high."""
    one = st.integers(low, high).flatmap(lambda at: st.sampled_from((at, -at)))
    return st.lists(one, min_size=least, max_size=most).map(tuple)


@given(letters(1, 2, 1), letters(4, 5, 1), letters(1, 5))
def test_what_was_built_apart_is_never_joined(
    left: tuple[int, ...], right: tuple[int, ...], comb: tuple[int, ...]
) -> None:
    """Two braids of three side by side, seen after combing all six strands any way: strands 1 2 3 and 4 5 6."""
    combed = from_word((*comb, *left, *right, *back(comb)), 6)
    line = list(range(6))
    for letter in comb:
        at = abs(letter) - 1
        line[at], line[at + 1] = line[at + 1], line[at]
    first, second = frozenset(line[:3]), frozenset(line[3:])
    plain = parts(from_word((*left, *right), 6))
    assert all(piece <= first or piece <= second for piece in parts(combed))
    assert {frozenset(line[cord] for cord in piece) for piece in plain} == parts(combed)


@given(braids(slots=(8, 30), moves=6))
def test_the_other_hand_has_the_same_pieces(one: Braid) -> None:
    assert parts(mirrored(one)) == parts(one)


@given(braids(slots=(8, 24), cords=(3, 10), moves=5), st.integers(2, 3))
def test_several_repeats_written_as_one_have_the_same_pieces(one: Braid, times: int) -> None:
    assert parts(repeated(one, times)) == parts(one)


@given(braids(slots=(8, 30), moves=8))
def test_every_cord_is_in_one_piece(one: Braid) -> None:
    found = pieces_of(one)
    assert sorted(slot for piece in found.pieces for slot in piece) == sorted(one.start)
    for piece, other in combinations(found.pieces, 2):
        assert not set(piece) & set(other)


@given(braids(slots=(8, 20), cords=(3, 8), moves=4))
def test_cords_that_turn_otherwise_round_each_other_than_round_a_third_are_one_piece(one: Braid) -> None:
    turns = linking(one)
    for a, b, c in combinations(range(one.cord_count), 3):
        if turns[a][b] != turns[a][c] == turns[b][c]:
            assert any({a, b} <= piece for piece in parts(one))


def test_maru_yotsu_is_one_piece() -> None:
    assert pieces_of(MARU_YOTSU) == Pieces(pieces=((32, 8, 16, 24),), certain=True)
