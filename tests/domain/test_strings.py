"""Strings and rows as exact inverses, and no bead lost, against a disk worked move by move."""

from collections import Counter
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.domain.braid import mirrored, turn
from braidwright.domain.design import Design
from braidwright.domain.errors import DesignError
from braidwright.domain.strings import String, bead_counts, deal, phrases, rows_of, runs, strings_of
from braidwright.domain.tray import TrayStack
from known_braids import published_kongoh
from strategies import designs


def dealt_by_hand(design: Design) -> dict[int, list[str]]:
    """The drops of every start slot, by carrying the cords round the disk one move at a time."""
    held = {slot: slot for slot in design.braid.start}
    drops: dict[int, list[str]] = {slot: [] for slot in design.braid.start}
    for row, text in enumerate(design.rows):
        keys = iter(text)
        for move in design.braid.moves:
            take, put = (turn(s, row * design.braid.shift, design.braid.slots) for s in (move.take, move.put))
            held[put] = held.pop(take)
            if move.kind == "move":
                drops[held[put]].append(next(keys))
    return drops


def beads_in(design: Design, key: str) -> list[str]:
    """The single beads of one drop, looked up by hand."""
    entry = next((entry for entry in design.tray.entries if entry.key == key), None)
    if entry is None:
        return []
    return list(entry.stack) if isinstance(entry, TrayStack) else [key]


@given(designs())
def test_rows_dealt_to_strings_come_back_as_they_were(design: Design) -> None:
    assert rows_of(design.braid, strings_of(design), len(design.rows)) == design.rows


@given(designs())
def test_strings_braided_to_rows_come_back_as_they_were(design: Design) -> None:
    strings = [replace(string, drops="".join(sorted(string.drops, reverse=True))) for string in strings_of(design)]
    rows = rows_of(design.braid, tuple(strings), len(design.rows))
    assert deal(design.braid, rows) == tuple(strings)


@given(designs())
def test_every_string_holds_the_drops_its_cord_makes_in_order(design: Design) -> None:
    wanted = dealt_by_hand(design)
    found = strings_of(design)
    assert [string.slot for string in found] == list(design.braid.start)
    assert [string.cord for string in found] == list(range(design.braid.cord_count))
    assert {string.slot: list(string.drops) for string in found} == wanted


@given(designs())
def test_no_bead_is_lost(design: Design) -> None:
    on_cords = Counter(bead for string in strings_of(design) for bead in string.beads(design.tray))
    in_rows = Counter(bead for text in design.rows for key in text for bead in beads_in(design, key))
    assert on_cords == in_rows
    assert {key: count for key, count in bead_counts(design).items() if count} == in_rows
    assert list(bead_counts(design)) == [entry.key for entry in design.tray.beads]


@given(designs(), st.data())
def test_painting_one_stitch_changes_one_drop_of_one_cord(design: Design, data: st.DataObject) -> None:
    row = data.draw(st.integers(0, len(design.rows) - 1))
    stitch = data.draw(st.integers(0, design.width - 1))
    old = design.rows[row]
    key = next(key for key in (*design.tray.keys, ".") if key != old[stitch])
    text = old[:stitch] + key + old[stitch + 1 :]
    painted = design.with_rows((*design.rows[:row], text, *design.rows[row + 1 :]))
    changed = [
        (one.drops, two.drops) for one, two in zip(strings_of(design), strings_of(painted), strict=True) if one != two
    ]
    assert len(changed) == 1
    assert sum(a != b for a, b in zip(*changed[0], strict=True)) == 1


@given(designs())
def test_the_other_hand_strings_the_same_beads_on_the_mirrored_slots(design: Design) -> None:
    """Trade-facts, section 9, recipe 3: assign each cord's beads to slot 33 - k; the order stays."""
    other = replace(design, braid=mirrored(design.braid))
    over = design.braid.slots + 1
    assert [(over - s.slot, s.drops) for s in strings_of(design)] == [(s.slot, s.drops) for s in strings_of(other)]


def test_the_jth_bead_of_a_cord_falls_with_its_jth_move() -> None:
    """Trade-facts, section 7.3: with eight cords the jth beads of all cords span one round of eight."""
    braid = published_kongoh(8, "Z")
    rows = tuple(key * 8 for key in "abcde")
    assert {string.drops for string in deal(braid, rows)} == {"abcde"}


@pytest.mark.parametrize("drops", ["ab", "abcd", ""])
def test_a_string_of_the_wrong_length_is_refused_by_its_slot(drops: str) -> None:
    braid = published_kongoh(8, "Z")
    strings = list(deal(braid, ("aaaaaaaa",) * 3))
    strings[2] = String(cord=2, slot=8, drops=drops)
    with pytest.raises(DesignError, match=rf"slot 8 has {len(drops)} drops.*makes 3 stitches"):
        rows_of(braid, tuple(strings), 3)


@given(st.text(alphabet="ab漢", max_size=30))
def test_runs_spell_the_string_and_never_repeat_a_key(drops: str) -> None:
    found = runs(drops)
    assert "".join(key * count for count, key in found) == drops
    assert all(one[1] != two[1] for one, two in pairwise(found))
    assert all(count > 0 for count, _ in found)


@given(st.text(alphabet="abc", max_size=60))
def test_phrases_unfold_to_the_runs(drops: str) -> None:
    unfolded = [run for phrase in phrases(drops) for run in phrase.runs * phrase.times]
    assert tuple(unfolded) == runs(drops)
    assert len([run for phrase in phrases(drops) for run in phrase.runs]) <= len(runs(drops))


def test_a_group_that_comes_again_is_said_once() -> None:
    (group, rest) = phrases("abcc" * 23 + "ab")
    assert (group.times, group.runs) == (23, ((1, "a"), (1, "b"), (2, "c")))
    assert (rest.times, rest.runs) == (1, ((1, "a"), (1, "b")))


def test_what_is_short_is_said_as_it_is() -> None:
    assert [phrase.times for phrase in phrases("abab")] == [1]
    assert phrases("") == ()
    assert [phrase.times for phrase in phrases("xy" + "ab" * 5 + "z")] == [1, 5, 1]
