"""Twist: what a way of working gives, for rows of one smallest repeat and of several, and what is refused."""

from dataclasses import replace

import pytest

from braidwright.domain.braid import Braid, Move, mirrored, turn
from braidwright.domain.design import Design
from braidwright.domain.errors import DesignError
from braidwright.domain.mirror import mirror_everything, same_picture
from braidwright.domain.resize import resize
from braidwright.domain.twist import HANGING, HELD, Twist, disk_drift, drift_of, drift_range, way_round
from rope import kongoh, maru_yotsu, rope

ROUND_MM = (35.0, 50.0)  # photographs, from memory: mm a turn (physics.md, 5), for 8/0 with 2.3 mm a row


def repeated(braid: Braid, times: int) -> Braid:
    """The same braid with several of its repeats to a row."""
    moves = [
        replace(move, take=turn(move.take, braid.shift * n, 32), put=turn(move.put, braid.shift * n, 32))
        for n in range(times)
        for move in braid.moves
    ]
    return replace(braid, moves=tuple(moves), shift=braid.shift * times)


def slid_back(braid: Braid) -> Braid:
    """Kongoh gumi of eight whose cords are slid back into the starting slots after every repeat."""
    now = [turn(slot, 1, 32) for slot in braid.start]
    slides = tuple(Move(take=slot, put=turn(slot, -1, 32), kind="re-space") for slot in sorted(now))
    return replace(braid, moves=(*braid.moves, *slides), shift=0)


@pytest.mark.parametrize("cords", [8, 12, 16, 24])
def test_a_disk_held_still_gives_one_slot_a_repeat(cords: int) -> None:
    """physics.md, 5: 11.25 of 32 slots, with the shift; it is what an absent field means."""
    braid = kongoh(cords)
    assert drift_of(None, braid) == drift_of(HELD, braid) == disk_drift(braid) == 11.25
    assert drift_of(HELD, mirrored(braid)) == -11.25


@pytest.mark.parametrize("hand", ["S", "Z"])
def test_work_that_hangs_free_turns_farther_the_same_way(hand: str) -> None:
    """physics.md, 5: a preset of 16 to 20 degrees."""
    braid = kongoh(8) if hand == "S" else mirrored(kongoh(8))
    drift = drift_of(HANGING, braid)
    assert 16.0 <= abs(drift) <= 20.0
    assert drift * braid.shift > 0.0


def test_the_preset_counts_for_every_smallest_repeat_of_a_row() -> None:
    """The published round of eight moves is two smallest repeats (trade-facts, 1.1)."""
    for times in (2, 4):
        whole = repeated(kongoh(8), times)
        assert drift_of(HANGING, whole) == times * drift_of(HANGING, kongoh(8))
        assert drift_of(None, whole) == times * 11.25


def test_kongoh_slid_back_into_its_slots_turns_only_when_it_hangs() -> None:
    braid = slid_back(kongoh(8))
    assert (drift_of(HELD, braid), drift_of(HANGING, braid)) == (0.0, 18.0)
    assert drift_of(HANGING, mirrored(braid)) == -18.0
    assert (way_round(braid), way_round(mirrored(braid)), way_round(maru_yotsu())) == (1.0, -1.0, 0.0)


def test_where_nothing_tells_which_way_a_braid_turns_none_is_made_up() -> None:
    assert drift_of(HANGING, maru_yotsu()) == 0.0


def test_a_figure_is_taken_as_it_is() -> None:
    assert drift_of(Twist(deg=-14.5), kongoh(8)) == -14.5
    assert drift_of(Twist(deg=5), maru_yotsu()) == 5.0


def test_the_range_of_work_that_hangs_free_is_that_of_the_photographs() -> None:
    """physics.md, 5: photographs, from memory, 35 to 50 mm a turn; a disk held still 74 mm."""
    least, most = drift_range(HANGING, kongoh(8))
    assert 2.3 * 360.0 / most == pytest.approx(ROUND_MM[0], abs=1.0)
    assert 2.3 * 360.0 / least == pytest.approx(ROUND_MM[1], abs=2.0)
    assert 2.3 * 360.0 / drift_range(None, kongoh(8))[0] == pytest.approx(74.0, abs=1.0)


@pytest.mark.parametrize("deg", [0, 3, 11.25, 14.5, -20, 30, 60])
def test_the_range_holds_what_was_asked_for(deg: float) -> None:
    for braid in (kongoh(8), slid_back(kongoh(8))):
        least, most = drift_range(Twist(deg=deg), braid)
        assert least <= abs(deg) <= most


@pytest.mark.parametrize("deg", [90.5, -91, 1e300])
def test_a_figure_no_rope_can_have_is_refused(deg: float) -> None:
    with pytest.raises(DesignError, match=r"Twist: .* give -90 to 90 degrees, clockwise seen from above"):
        twisted(rope(("aaaa",) * 4), deg)
    with pytest.raises(DesignError, match="give -180 to 180"):
        twisted(rope(("aaaaaaaa",) * 4, braid=repeated(kongoh(8), 2)), 2.0 * deg)


def test_the_bounds_themselves_are_taken() -> None:
    for deg in (90, -90):
        assert twisted(rope(("aaaa",) * 4), deg).twist == Twist(deg=deg)
    assert twisted(rope(("aaaaaaaa",) * 4, braid=repeated(kongoh(8), 2)), 180).twist == Twist(deg=180)


def twisted(design: Design, deg: float) -> Design:
    return replace(design, twist=Twist(deg=deg))


def test_a_twist_says_one_thing() -> None:
    for wrong in ({}, {"way": "held", "deg": 3.0}):
        with pytest.raises(DesignError, match="one of the two"):
            Twist(**wrong)  # type: ignore[arg-type]


def test_mirrored_a_figure_turns_the_other_way_and_a_way_of_working_stays() -> None:
    for other_hand in (mirror_everything, same_picture):
        for twist, there in ((Twist(deg=14), Twist(deg=-14)), (HANGING, HANGING), (None, None)):
            design = replace(rope(("aaaa", "aada")), twist=twist)
            assert other_hand(design).twist == there
            assert other_hand(other_hand(design)) == design
            drifts = [drift_of(each.twist, each.braid) for each in (design, other_hand(design))]
            assert drifts[0] == -drifts[1]


def test_longer_and_shorter_keep_the_twist() -> None:
    design = replace(rope(("aaaa",) * 8), twist=Twist(deg=14))
    assert resize(design, 20).twist == resize(design, 3).twist == design.twist
