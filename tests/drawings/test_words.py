"""The working in words agrees with the published words, and with the moves of any braid."""

import re

import pytest

from braidwright.domain.braid import Braid, turn
from braidwright.domain.strings import String
from braidwright.domain.tray import BARE
from braidwright.domain.walk import slots_after, walk
from braidwright.drawings.words import (
    CAUTIONS,
    bead_words,
    finishing_steps,
    lead_in_sentence,
    listed,
    move_sentences,
    set_up_sentences,
    string_words,
    turn_sentence,
)
from drawings.subjects import BRAIDS, design, subject
from known_braids import braid

# Position terms of trade-facts 1.1, [SZ], seen with the whole disk north up: where from, where to. At the foot of the
# disk "left" is the higher number, so left and right swap when south is turned to the top, as our sentences have it.
PUBLISHED = {
    "S": [("North", "left", "south", "right"), ("South", "left", "north", "right")],
    "Z": [("North", "right", "south", "left"), ("South", "right", "north", "left")],
}


@pytest.mark.parametrize("hand", ["S", "Z"])
def test_kongoh_of_eight_in_words(hand: str) -> None:
    """S: top-left down to outside of bottom-left, bottom-right up to outside of top-right; Z its mirror. [SZ], A.

    Outside of bottom-left, seen with south at the top, is just right of the right cord of the south pair.
    """
    sentences = move_sentences(design(BRAIDS[f"kongoh-8-{hand}"]))
    for sentence, (start, cord, end, beside) in zip(sentences, PUBLISHED[hand], strict=False):
        assert sentence.startswith(f"{start}: lift the {cord} cord of the ")
        assert f" at the {end}, just {beside} of the cord in slot " in sentence


def test_kongoh_of_eight_word_for_word() -> None:
    """Slots 32 to 18 and 16 to 2: trade-facts 1.1."""
    first, second, *_ = move_sentences(design(BRAIDS["kongoh-8-S"]))
    assert first == (
        "North: lift the left cord of the pair (slot 32), let its next bead fall, carry it across the middle "
        "and lay it in slot 18 at the south, just right of the cord in slot 17."
    )
    assert second == (
        "South: lift the left cord of the three (slot 16), let its next bead fall, carry it across the middle "
        "and lay it in slot 2 at the north, just right of the cord in slot 1."
    )


@pytest.mark.parametrize("name", sorted(BRAIDS))
def test_sentences_name_the_slots_of_their_moves(name: str) -> None:
    """First number said: where from. Number after "lay it in slot" or "rim to slot": where to. Neighbours are real."""
    known = BRAIDS[name]
    held = set(known.start)
    for move, sentence in zip(known.moves, move_sentences(design(known)), strict=True):
        numbers = [int(number) for number in re.findall(r"\d+", sentence)]
        assert numbers[0] == move.take
        assert re.search(rf"(lay it in|rim to) slot {move.put}\b", sentence)
        rest = held - {move.take}
        beside = re.search(r"just (left|right) of the cord in slot (\d+)", sentence)
        if beside:
            by = 1 if beside[1] == "right" else -1
            assert int(beside[2]) in rest
            assert turn(int(beside[2]), by, known.slots) == move.put
        held = rest | {move.put}
        assert "bead" in sentence
        assert ("Tidy" in sentence) == (not move.is_stitch)


def test_the_maypole_rule_is_said() -> None:
    """Each clockwise cord passes over one cord of the other family: trade-facts 1.5 (SIM)."""
    known = BRAIDS.get("tubular-8-S") or BRAIDS["tubular-8-Z"]
    for move, sentence in zip(known.moves, move_sentences(design(known)), strict=True):
        assert (" over the cord in slot " in sentence) == move.is_stitch


def test_a_landing_among_neighbours() -> None:
    between = braid(16, (1, 3, 9, 12), [(9, 2), (2, 9)], 0)
    first = move_sentences(design(between))[0]
    assert "between the cords in slots 1 and 3" in first


def test_a_plain_braid_says_nothing_of_beads() -> None:
    plain = design(BRAIDS["kongoh-8-S"], keys=BARE)
    for words in (*move_sentences(plain), *set_up_sentences(plain), *finishing_steps(plain)):
        assert "bead" not in words


@pytest.mark.parametrize("name", sorted(BRAIDS))
def test_what_is_said_of_the_next_repeat_is_so(name: str) -> None:
    known = BRAIDS[name]
    said = turn_sentence(known)
    change = re.search(r"(add|take) (\d+) (to|from) every number", said)
    by = 0 if change is None else int(change[2]) * (1 if change[1] == "add" else -1)
    assert {turn(slot, by, known.slots) for slot in known.start} == set(slots_after(known, 1))
    again = re.search(r"After (\d+) repeats? every cord is back", said)
    assert again is not None
    assert slots_after(known, int(again[1])) == known.start
    assert all(slots_after(known, n) != known.start for n in range(1, int(again[1])))


def test_thirty_three_means_one() -> None:
    assert "33 means 1" in turn_sentence(BRAIDS["kongoh-8-S"])
    assert "0 means 32" in turn_sentence(BRAIDS["kongoh-8-Z"])


@pytest.mark.parametrize("name", sorted(BRAIDS))
def test_the_bare_beginning_brings_every_cord_to_its_own_string(name: str) -> None:
    """After the group of repeats it names, each cord stands where it started, turned by the slots it names."""
    known: Braid = BRAIDS[name]
    said = lead_in_sentence(design(known))
    group = re.search(r"group of (\d+) repeats", said)
    repeats = 1 if group is None else int(group[1])
    change = re.search(r"(add|take) (\d+) (to|from) every number", said)
    by = 0 if change is None else int(change[2]) * (1 if change[1] == "add" else -1)
    assert repeats == walk(known).repeats_home
    assert slots_after(known, repeats) == tuple(turn(slot, by, known.slots) for slot in known.start)


def test_strings_in_words() -> None:
    of = design(BRAIDS["kongoh-8-S"])
    assert string_words(of, String(cord=0, slot=32, drops="aaa.bkka")) == (
        "3 Moss, 1 Barley, 2 stack (1 Moss, 1 Barley, 1 Moss), 1 Moss"
    )
    assert string_words(of, String(cord=0, slot=32, drops="...")) == "no beads"


def test_beads_in_words() -> None:
    of = subject(BRAIDS["kongoh-8-S"])
    assert bead_words(of, "g") == "teardrop-3.4, 3.4 mm across, 2.4 mm along the hole, transparent"
    assert bead_words(of, "k") == "falls together: 1 Moss, 1 Barley and 1 Moss, in this order"
    assert bead_words(type(of)(design=of.design), "a") == "round-8/0"


def test_cautions_cover_what_the_product_promises() -> None:
    """The list of product.md, "Cautions"; 15 cm: trade-facts 8, [SCA][SWISS], A."""
    said = " ".join(caution.text for caution in CAUTIONS)
    promised = ("eye protection", "cloth", "fresh air", "gloves", "label", "15 cm", "child", "3 years", "nickel")
    for word in (*promised, "breaks away", "nylon"):
        assert word in said


def test_lists_in_words() -> None:
    assert [listed(words) for words in ((), ("a",), ("a", "b"), ("a", "b", "c"))] == ["", "a", "a and b", "a, b and c"]
