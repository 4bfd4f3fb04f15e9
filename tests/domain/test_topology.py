"""Crossings against hand-worked words, spherogram's links, and the turning of straight lines between slots.

Spherogram's sign of a generator is the one used here: the closure of [1, 1] has linking number +1.
"""

from itertools import combinations
from math import atan2, cos, pi, radians, sin

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from spherogram import Link
from sympy.combinatorics import Permutation

from braidwright.catalogue.shelf import standard
from braidwright.domain.braid import Braid, mirrored, turn
from braidwright.domain.topology import braid_word, closure_components, crossings, linking, turn_back
from braidwright.domain.walk import cycles, walk
from known_braids import MARU_YOTSU, braid, from_word, kongoh, published_kongoh, repeated, slide
from strategies import braids

CATALOGUE = standard().braids
EVERY = pytest.mark.parametrize("one", CATALOGUE, ids=lambda one: one.name)


def home_word(one: Braid) -> tuple[int, ...]:
    """The word that brings every cord home."""
    return tuple(crossing.generator for crossing in crossings(one, walk(one).repeats_home))


# --- by hand ---------------------------------------------------------------------------------------------


def test_kongoh_of_eight_by_hand() -> None:
    """Slots 1 8 9 16 17 24 25 32 are ranks 1 to 8.

    32 to 18 goes from rank 8 down to 6 (past 25 and 24), 16 to 2 from 4 to 2 (past 9 and 8), 24 to 10 from 7 to 5
    (past 18 and 17), 8 to 26 from 3 up to 8 (past 9 10 17 18 25). Then slot 1 goes back past the cut to 32.
    """
    one = kongoh(8, 8, "S", first=32)
    assert braid_word(one) == (-7, -6, -3, -2, -6, -5, 3, 4, 5, 6, 7)
    assert turn_back(one) == (1, 2, 3, 4, 5, 6, 7)


def test_maru_yotsu_by_hand() -> None:
    """Slots 8 16 24 32 are ranks 1 to 4: 32 to 17 past 24; 16 to 32 past 17 and 24; 8 to 23 past 16; 24 to 8 past both.

    The re-spaces and the shift of nothing give no generator.
    """
    assert braid_word(MARU_YOTSU) == (-3, 2, 3, 1, -2, -1)
    assert turn_back(MARU_YOTSU) == ()
    assert linking(MARU_YOTSU) == ((0, 1, 1, -1), (1, 0, -1, -1), (1, -1, 0, 1), (-1, -1, 1, 0))


def test_the_plait_of_three_is_left_over_middle_right_over_middle() -> None:
    """E. Artin, Theory of braids (1947): the plait is the power of 1, -2; its three loops are linked in no pair."""
    plait = from_word((1, -2), 3)
    assert braid_word(plait) == (1, -2)
    assert walk(plait).repeats_home == 3
    assert linking(plait) == ((0, 0, 0),) * 3


def test_a_slide_past_the_cut_and_back_is_nothing() -> None:
    one = braid(8, (2, 4, 7), [slide(7, 1), slide(1, 7), (2, 3), (3, 2)], 0)
    assert braid_word(one) == (-2, -1, 1, 2)
    assert linking(one) == ((0, 0, 0),) * 3


def test_a_turn_of_the_whole_disk_by_slides_is_undone_by_the_shift() -> None:
    one = braid(8, (2, 5, 8), [slide(8, 1), slide(5, 6), slide(2, 3), (1, 8), (8, 1)], 1)
    assert closure_components(one) == ((0,), (1,), (2,))
    assert linking(one) == ((0, 0, 0),) * 3


def test_two_cords_that_step_round_each_other_with_the_clock_are_left_handed() -> None:
    """A helix that goes clockwise seen from above as it rises is left-handed. Common knowledge."""
    one = braid(8, (1, 5), [slide(5, 8), slide(1, 4), (8, 1), slide(4, 5)], 0)
    assert walk(one).repeats_home == 2
    assert linking(one) == ((0, -1), (-1, 0))


# --- words as link diagrams: spherogram ----------------------------------------------------------------


def check_closure(one: Braid) -> None:
    """The closure of one repeat, turned back, has as many loops as the walk has cycles."""
    word = [*braid_word(one), *turn_back(one)]
    seen = len(Link(braid_closure=word).link_components) if word else 0
    # it forgets strands without a crossing, each a loop by itself
    idle = one.cord_count - len({end for letter in word for end in (abs(letter), abs(letter) + 1)})
    assert len(closure_components(one)) == seen + idle


@EVERY
def test_the_closure_has_as_many_loops_as_spherogram_finds(one: Braid) -> None:
    check_closure(one)
    check_closure(mirrored(one))


@given(braids(slots=(8, 24), moves=8))
def test_any_closure_has_as_many_loops_as_spherogram_finds(one: Braid) -> None:
    check_closure(one)


def check_linking(one: Braid) -> None:
    """The linking numbers of all loops, as spherogram reads them off the closed word, in whatever order."""
    word = home_word(one)
    theirs = Link(braid_closure=list(word)).linking_matrix()
    assert sorted(sorted(row) for row in theirs) == sorted(sorted(row) for row in linking(one))


@EVERY
def test_linking_numbers_are_those_of_spherogram(one: Braid) -> None:
    if len(home_word(one)) < 4000:
        check_linking(one)
        check_linking(mirrored(one))


@given(braids(slots=(8, 16), cords=(3, 7), moves=6))
def test_any_linking_numbers_are_those_of_spherogram(one: Braid) -> None:
    word = home_word(one)
    assume(len(word) < 1000)
    assume({abs(letter) for letter in word} == set(range(1, one.cord_count)))  # it forgets strands without a crossing
    check_linking(one)


def test_the_comparison_of_linking_numbers_can_fail() -> None:
    one = published_kongoh(8, "Z")
    theirs = Link(braid_closure=[-letter for letter in home_word(one)]).linking_matrix()
    assert sorted(sorted(row) for row in theirs) != sorted(sorted(row) for row in linking(one))


# --- words as motions of points on a circle: no generators, no cut -------------------------------------


def winding(one: Braid, first: int, second: int) -> float:
    """Full turns, anticlockwise seen from above, of the line between two cords until all are home.

    A cord goes along the straight line between the two slots; afterwards the whole disk is turned back by the shift.
    Anticlockwise while time runs upward is a right-handed screw.
    """
    where = dict(enumerate(one.start))
    total = 0.0
    for row in range(walk(one).repeats_home):
        for move in one.moves:
            take, put = (turn(slot, row * one.shift, one.slots) for slot in (move.take, move.put))
            cord = next(cord for cord, slot in where.items() if slot == take)
            before = _direction(one, where[first], where[second])
            where[cord] = put
            after = _direction(one, where[first], where[second])
            total += (after - before + pi) % (2 * pi) - pi
        total += 2 * pi * one.shift / one.slots
    return total / (2 * pi)


def _direction(one: Braid, from_slot: int, to_slot: int) -> float:
    (x1, y1), (x2, y2) = (
        (sin(radians(one.angle(slot))), cos(radians(one.angle(slot)))) for slot in (from_slot, to_slot)
    )
    return atan2(y2 - y1, x2 - x1)


@given(braids(slots=(8, 24), cords=(2, 8), moves=8), st.data())
def test_linking_numbers_are_the_turns_of_the_line_between_two_cords(one: Braid, data: st.DataObject) -> None:
    assume(walk(one).repeats_home <= 60)
    pair = data.draw(st.lists(st.integers(0, one.cord_count - 1), min_size=2, max_size=2, unique=True))
    assert linking(one)[pair[0]][pair[1]] == pytest.approx(winding(one, pair[0], pair[1]), abs=1e-6)


@EVERY
def test_linking_numbers_of_the_catalogue_are_the_turns_of_the_lines(one: Braid) -> None:
    for first, second in list(combinations(range(one.cord_count), 2))[::7]:
        assert linking(one)[first][second] == pytest.approx(winding(one, first, second), abs=1e-6)


# --- laws ----------------------------------------------------------------------------------------------


@given(braids())
def test_the_word_moves_the_cords_as_the_walk_does(one: Braid) -> None:
    line = sorted(range(one.cord_count), key=lambda place: one.start[place])
    ranked = list(line)
    for letter in (*braid_word(one), *turn_back(one)):
        at = abs(letter) - 1
        line[at], line[at + 1] = line[at + 1], line[at]
    found = [0] * one.cord_count
    for rank, cord in enumerate(line):
        found[cord] = ranked[rank]
    assert Permutation(found) == Permutation(list(walk(one).permutation))
    assert sorted(map(len, closure_components(one))) == sorted(map(len, cycles(tuple(found))))


@given(braids())
def test_the_cord_that_moves_passes_inside_all_it_crosses(one: Braid) -> None:
    """product.md: a move goes over all the others between."""
    found = [crossing for crossing in crossings(one, 1) if crossing.move is not None]
    by_move: dict[int, set[int]] = {}
    for crossing in found:
        by_move.setdefault(crossing.move or 0, set()).add(crossing.inside)
    assert all(len(inside) == 1 for inside in by_move.values())


@given(braids(), st.integers(1, 4))
def test_crossings_of_later_repeats_are_those_of_the_first_with_the_cords_changed(one: Braid, repeats: int) -> None:
    found = list(crossings(one, repeats))
    once = (*braid_word(one), *turn_back(one))
    assert tuple(crossing.generator for crossing in found) == once * repeats
    line = sorted(range(one.cord_count), key=lambda cord: one.start[cord])
    for crossing in found:
        at = abs(crossing.generator) - 1
        pair = (line[at], line[at + 1]) if crossing.sign > 0 else (line[at + 1], line[at])
        assert (crossing.inside, crossing.outside) == pair
        line[at], line[at + 1] = line[at + 1], line[at]


@given(braids())
def test_the_mirror_image_has_the_mirrored_word_and_the_opposite_links(one: Braid) -> None:
    other = mirrored(one)

    def over(word: tuple[int, ...]) -> tuple[int, ...]:
        return tuple(abs(letter) - one.cord_count if letter > 0 else one.cord_count - abs(letter) for letter in word)

    assert braid_word(other) == over(braid_word(one))
    assert turn_back(other) == over(turn_back(one))
    assert linking(other) == tuple(tuple(-turns for turns in row) for row in linking(one))


@given(braids(slots=(8, 20), cords=(2, 8), moves=5), st.integers(2, 3))
def test_several_repeats_written_as_one_link_the_same(one: Braid, times: int) -> None:
    twice = repeated(one, times)
    scale = walk(twice).repeats_home * times // walk(one).repeats_home
    assert linking(twice) == tuple(tuple(turns * scale for turns in row) for row in linking(one))


@given(braids(slots=(8, 20), cords=(2, 8), moves=5))
def test_one_whole_turn_more_in_the_shift_is_a_right_handed_turn_more_of_every_pair(one: Braid) -> None:
    more = braid(one.slots, one.start, one.moves, one.shift + one.slots, one.hand)
    home = walk(one).repeats_home
    for first, second in combinations(range(one.cord_count), 2):
        assert linking(more)[first][second] == linking(one)[first][second] + home
