"""Which braids can be worked, what is said about those that cannot, and the other hand.

Rules of working: trade-facts, section 1.0 (each move takes from a full slot and puts into an empty one; the end slots
are the start slots turned).
"""

import pytest
from hypothesis import given

from braidwright.domain.braid import Braid, find_shift, in_hand, mirrored, turn
from braidwright.domain.errors import BraidError
from known_braids import MARU_YOTSU, braid, published_kongoh, slide
from strategies import braids

START = (32, 1, 8, 9, 16, 17, 24, 25)
ROUND = ((32, 18), (16, 2), (24, 10), (8, 26))


def test_a_move_from_an_empty_slot_is_named() -> None:
    with pytest.raises(BraidError, match=r"move 2 \(15 to 2\): slot 15 is empty"):
        braid(32, START, [(32, 18), (15, 2), (24, 10), (8, 26)], 1)


def test_a_move_into_a_full_slot_is_named() -> None:
    with pytest.raises(BraidError, match=r"move 1 \(32 to 17\): slot 17 already holds a cord"):
        braid(32, START, [(32, 17), *ROUND[1:]], 1)


def test_a_slot_emptied_earlier_is_free_and_one_filled_earlier_is_not() -> None:
    with pytest.raises(BraidError, match=r"move 2 \(16 to 18\): slot 18 already holds a cord"):
        braid(32, START, [(32, 18), (16, 18)], 1)
    assert MARU_YOTSU.moves[1].put == MARU_YOTSU.moves[0].take


def test_a_cord_laid_where_it_is_does_not_move() -> None:
    with pytest.raises(BraidError, match="slot 32 is where the cord already is"):
        braid(32, START, [(32, 32), *ROUND], 1)


def test_a_repeat_that_does_not_come_back_says_where_it_ends() -> None:
    with pytest.raises(BraidError, match=r"shift of 1 .*ends in 1, 2, 8, 9, 17, 18, 24, 25"):
        braid(32, START, ROUND[:2], 1)


def test_a_wrong_shift_is_refused() -> None:
    with pytest.raises(BraidError, match="with a shift of 2"):
        braid(32, START, ROUND, 2)


def test_a_re_space_may_slide_along_the_rim_but_not_past_a_cord() -> None:
    start = (1, 5, 10)
    assert braid(32, start, [(1, 7), slide(7, 9), slide(9, 6), slide(5, 1), slide(6, 5)], 0).stitches_per_row == 1
    with pytest.raises(BraidError, match="this re-space would cross a cord both ways"):
        braid(32, start, [slide(5, 12), (1, 5)], 0)


def test_a_re_space_may_slide_past_the_last_slot_to_the_first() -> None:
    assert braid(8, (2, 7), [(2, 3), slide(7, 1), slide(1, 7), (3, 2)], 0).stitches_per_row == 2


@pytest.mark.parametrize(
    ("slots", "start", "moves", "said"),
    [
        (7, (1, 2), [(1, 3)], "a disk of 7 slots"),
        (65, (1, 2), [(1, 3)], "a disk of 65 slots"),
        (8, (1, 9), [(1, 3)], "start: there is no slot 9"),
        (8, (1, 2), [(1, 0)], "move 1: there is no slot 0"),
        (8, (1, 2, 1), [(1, 3)], "slot 1 is listed twice"),
        (8, (1,), [(1, 3)], "1 cords on 8 slots"),
        (8, tuple(range(1, 9)), [(1, 3)], "leave at least one slot empty"),
        (8, (1, 2), [], "give at least one move"),
        (8, (1, 2), [slide(2, 3), slide(3, 2)], "give at least one move"),
    ],
)
def test_what_no_disk_has_is_refused(
    slots: int, start: tuple[int, ...], moves: list[tuple[int, int]], said: str
) -> None:
    with pytest.raises(BraidError, match=said):
        braid(slots, start, moves, 0)


def test_slots_are_counted_round_and_round() -> None:
    assert [turn(32, 1, 32), turn(1, -1, 32), turn(5, 64, 32), turn(5, 0, 32)] == [1, 32, 5, 5]


def test_angles_run_clockwise_from_north_between_the_last_slot_and_the_first() -> None:
    """Trade-facts, slot convention: north lies between 32 and 1, east between 8 and 9 [BL8]."""
    disk = published_kongoh(8, "S")
    assert disk.angle(32) - 360 == -disk.angle(1)
    assert (disk.angle(8) + disk.angle(9)) / 2 == 90
    assert (disk.angle(16) + disk.angle(17)) / 2 == 180


@pytest.mark.parametrize("cords", [8, 16])
def test_the_mirror_map_turns_the_z_list_into_the_s_list(cords: int) -> None:
    """Trade-facts, check value 8 (16 cords) and section 1.1, [SZ]: slot k becomes 33 - k, pair by pair."""
    other = mirrored(published_kongoh(cords, "Z"))
    wanted = published_kongoh(cords, "S")
    assert set(other.start) == set(wanted.start)
    assert (other.hand, other.shift) == ("S", 2)
    bars = [{(move.take, move.put) for move in one.moves[:2]} for one in (other, wanted)]
    assert bars[0] == bars[1]


@given(braids())
def test_mirrored_twice_is_the_braid_itself(one: Braid) -> None:
    assert mirrored(one) != one
    assert mirrored(mirrored(one)) == one


@given(braids())
def test_the_hand_asked_for_is_the_hand_given(one: Braid) -> None:
    assert in_hand(one, one.hand) is one
    assert {in_hand(one, "S").hand, in_hand(one, "Z").hand} == {"S", "Z"}


@given(braids())
def test_the_smallest_turn_is_found(one: Braid) -> None:
    found = find_shift(one.name, one.slots, one.start, one.moves)
    assert abs(found) <= abs(one.shift)
    ends = {turn(slot, one.shift, one.slots) for slot in one.start}
    assert {turn(slot, found, one.slots) for slot in one.start} == ends


def test_moves_that_never_come_back_have_no_shift() -> None:
    with pytest.raises(BraidError, match="which is not the start"):
        find_shift("mine", 32, START, published_kongoh(8, "S").moves[:2])
