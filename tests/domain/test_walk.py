"""Who sits where, against sympy's permutations, the published numbers and a disk worked slot by slot."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from sympy.combinatorics import Permutation

from braidwright.catalogue.shelf import standard
from braidwright.domain.braid import Braid, Hand, mirrored, turn
from braidwright.domain.walk import cycles, holders, slots_after, stitch_cords, walk
from known_braids import MARU_YOTSU, one_empty_slot, published_kongoh
from strategies import braids

CATALOGUE = standard().braids


def worked(braid: Braid, repeats: int) -> tuple[dict[int, int], list[int]]:
    """Slot to starting slot after so many repeats, and the starting slot of the cord of every stitch."""
    held = {slot: slot for slot in braid.start}
    stitches = []
    for row in range(repeats):
        for move in braid.moves:
            take, put = (turn(slot, row * braid.shift, braid.slots) for slot in (move.take, move.put))
            assert take in held
            assert put not in held
            held[put] = held.pop(take)
            if move.kind == "move":
                stitches.append(held[put])
    return held, stitches


def check_against_sympy(braid: Braid) -> None:
    """Cycles and order by an independent library."""
    found = walk(braid)
    theirs = Permutation(list(found.permutation))
    assert found.repeats_home == theirs.order()
    longer = sorted(tuple(cycle) for cycle in theirs.cyclic_form)
    assert sorted(cycle for cycle in cycles(found.permutation) if len(cycle) > 1) == longer
    assert sum(map(len, cycles(found.permutation))) == braid.cord_count


@pytest.mark.parametrize("braid", CATALOGUE, ids=lambda braid: braid.name)
def test_permutations_of_the_catalogue_have_the_cycles_and_the_order_sympy_finds(braid: Braid) -> None:
    check_against_sympy(braid)
    check_against_sympy(mirrored(braid))


@given(braids())
def test_permutations_have_the_cycles_and_the_order_sympy_finds(braid: Braid) -> None:
    check_against_sympy(braid)


@given(braids(), st.integers(1, 12))
def test_cords_are_where_working_the_disk_puts_them(braid: Braid, repeats: int) -> None:
    held, stitches = worked(braid, repeats)
    assert {slot: braid.start[cord] for cord, slot in enumerate(slots_after(braid, repeats))} == held
    assert [braid.start[cord] for cord in stitch_cords(braid, repeats).ravel()] == stitches


@given(braids(), st.integers(1, 9))
def test_the_table_of_places_is_the_power_of_the_permutation(braid: Braid, repeats: int) -> None:
    step = Permutation(list(walk(braid).permutation))
    table = holders(braid, repeats + 1)
    for cord in range(braid.cord_count):
        assert table[repeats, (step**repeats)(cord)] == cord


@given(braids(slots=(8, 24)))
def test_home_is_the_first_time_every_cord_is_in_its_place(braid: Braid) -> None:
    table = holders(braid, min(walk(braid).repeats_home, 500) + 1)
    home = [row for row in range(1, len(table)) if np.array_equal(table[row], table[0])]
    assert home == ([walk(braid).repeats_home] if walk(braid).repeats_home <= 500 else [])


@given(braids(slots=(8, 12), cords=(2, 6)))
def test_the_same_slots_come_again_first_when_the_walk_says(braid: Braid) -> None:
    again = walk(braid).repeats_same_slots
    where = [slots_after(braid, repeats) for repeats in range(min(again, 200) + 1)]
    # A start that looks alike after a part turn can let the cords meet their slots earlier, but then the working that
    # follows is not the same: the pattern itself must have turned whole too.
    whole = [n for n in range(1, len(where)) if where[n] == braid.start and braid.shift * n % braid.slots == 0]
    assert whole == ([again] if again <= 200 else [])


@pytest.mark.parametrize("hand", ["S", "Z"])
@pytest.mark.parametrize(("cords", "moves"), [(8, 128), (12, 192), (16, 256), (24, 384)])
def test_kongoh_is_home_after_two_rounds_and_in_the_same_slots_after_sixteen(
    cords: int, moves: int, hand: Hand
) -> None:
    """Trade-facts, check values 2 ([FACK]: four double movements bring eight cords home) and 3."""
    braid = published_kongoh(cords, hand)
    found = walk(braid)
    assert sorted(map(len, cycles(found.permutation))) == [2] * (cords // 2)
    assert (found.repeats_home, found.repeats_same_slots) == (2, 16)
    assert found.repeats_same_slots * braid.stitches_per_row == moves


def test_after_one_round_of_z_the_cords_sit_where_the_stand_text_says() -> None:
    """Trade-facts, section 1.1: 30 31 6 7 14 15 22 23."""
    assert sorted(slots_after(published_kongoh(8, "Z"), 1)) == [6, 7, 14, 15, 22, 23, 30, 31]


def test_maru_yotsu_exchanges_north_with_south_and_east_with_west() -> None:
    """Trade-facts, section 1.3: (N S)(E W), order 2."""
    assert cycles(walk(MARU_YOTSU).permutation) == ((0, 2), (1, 3))
    assert (walk(MARU_YOTSU).repeats_home, walk(MARU_YOTSU).repeats_same_slots) == (2, 2)


@pytest.mark.parametrize("slots", [8, 10, 11, 13, 16])
def test_one_empty_slot_comes_round_after_n_less_one_moves_and_exactly_after_n_times_that(slots: int) -> None:
    """Trade-facts, check value 7 and section 1.4: 7 and 56 moves for eight slots; n(n - 1) in general."""
    braid = one_empty_slot(slots, 3)
    found = walk(braid)
    assert list(map(len, cycles(found.permutation))) == [slots - 1]
    assert (found.repeats_home, found.repeats_same_slots) == (slots - 1, slots * (slots - 1))


@given(braids())
def test_the_other_hand_has_the_same_walk(braid: Braid) -> None:
    """Trade-facts, section 9, recipe 3: mirroring does not change the order of stringing."""
    assert walk(mirrored(braid)) == walk(braid)
