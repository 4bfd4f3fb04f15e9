"""braid_table: whatever stands in a maker's file either becomes a braid or is refused in one clear sentence."""

import math
import re
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.domain.braid import Braid
from braidwright.domain.braid_table import BRAID_FIELDS, braid_from_table, braid_to_table
from braidwright.domain.errors import BraidError, BraidwrightError
from strategies import braids

KONGOH: dict[str, Any] = {
    "slots": 32,
    "start": [32, 1, 8, 9, 16, 17, 24, 25],
    "moves": [[32, 18], [16, 2], [24, 10], [8, 26]],
}
MARU: dict[str, Any] = {
    "slots": 32,
    "start": [32, 8, 16, 24],
    "moves": [[32, 17], [16, 32], [17, 16, "re-space"], [8, 23], [24, 8], [23, 24, "re-space"]],
}


def read(table: object) -> Braid:
    return braid_from_table(table, name="mine", where="mine.toml")[0]


def test_the_least_a_braid_needs() -> None:
    braid, warnings = braid_from_table(KONGOH, name="mine", where="mine.toml")
    assert (braid.name, braid.english, braid.slots, braid.shift, braid.hand) == ("mine", "mine", 32, 1, "S")
    assert braid.start == (32, 1, 8, 9, 16, 17, 24, 25)
    assert [(move.take, move.put) for move in braid.moves] == [(32, 18), (16, 2), (24, 10), (8, 26)]
    assert warnings == ()


def test_every_field_is_taken() -> None:
    words = {word: f"the {word}" for word in ("name", "english", "japanese", "source", "sure", "notes")}
    table = {**KONGOH, **words, "shift": 1, "hand": "Z"}
    assert set(table) == set(BRAID_FIELDS)
    braid = read(table)
    assert {word: getattr(braid, word) for word in words} == words
    assert braid.hand == "Z"


def test_a_re_space_makes_no_stitch() -> None:
    assert [move.is_stitch for move in read(MARU).moves] == [True, True, False] * 2
    assert read(MARU).stitches_per_row == 4


def test_a_hand_that_is_not_stated_is_the_one_given_or_follows_the_turn() -> None:
    """Kongoh gumi S turns its pattern clockwise: [SZ] topcenter.typepad.com/blog/2016/05 (address in its file)."""
    back = {**KONGOH, "moves": [[1, 15], [17, 31], [9, 23], [25, 7]]}
    assert (read(KONGOH).shift, read(KONGOH).hand) == (1, "S")
    assert (read(back).shift, read(back).hand) == (-1, "Z")
    assert (read(MARU).shift, read(MARU).hand) == (0, "Z")
    for table in (KONGOH, back, MARU):
        assert braid_from_table(table, name="x", where="x", unstated_hand="S")[0].hand == "S"
        assert braid_from_table({**table, "hand": "Z"}, name="x", where="x", unstated_hand="S")[0].hand == "Z"


def test_the_smallest_turn_is_taken_unless_another_is_said() -> None:
    """A start that looks alike after a part turn leaves the shift open."""
    assert read({**KONGOH, "shift": 9}).shift == 9
    assert read({**KONGOH, "shift": -7}).shift == -7
    assert read(KONGOH).shift == 1


def test_a_field_nobody_knows_is_told_and_left_alone() -> None:
    braid, warnings = braid_from_table({**KONGOH, "colour": "red", "handd": "S"}, name="m", where="m.toml")
    assert braid == braid_from_table(KONGOH, name="m", where="m.toml")[0]
    assert warnings == (
        "m.toml: the field 'colour' is not known and is left alone.",
        "m.toml: the field 'handd' is not known and is left alone (is hand meant?).",
    )


def without(field: str) -> dict[str, Any]:
    return {name: value for name, value in KONGOH.items() if name != field}


BAD: list[tuple[object, str]] = [
    (None, "nothing was found"),
    ([], "a list was found"),
    ("kongoh-8", "'kongoh-8' was found"),
    ({}, "the field slots is missing"),
    (without("start"), "the field start is missing"),
    (without("moves"), "the field moves is missing"),
    ({**without("moves"), "move": [[1, 2]]}, "the field moves is missing; add it (is 'move' meant to be it?)"),
    ({**KONGOH, "slots": True}, "slots: true was found; give a whole number"),
    ({**KONGOH, "slots": "32"}, "slots: '32' was found"),
    ({**KONGOH, "slots": 32.0}, "slots: 32.0 was found"),
    ({**KONGOH, "slots": math.nan}, "slots: nan was found"),
    ({**KONGOH, "slots": math.inf}, "slots: inf was found"),
    ({**KONGOH, "slots": None}, "slots: nothing was found"),
    ({**KONGOH, "slots": 10**5000}, "slots: the number is far too large"),
    ({**KONGOH, "slots": 7}, "slots: 7 was found; use a disk of 8 to 64 slots"),
    ({**KONGOH, "slots": 65}, "slots: 65 was found"),
    ({**KONGOH, "slots": 0}, "slots: 0 was found"),
    ({**KONGOH, "start": 32}, "start: 32 was found; give a list"),
    ({**KONGOH, "start": "32 1"}, "start: '32 1' was found"),
    ({**KONGOH, "start": {"a": 1}}, "start: a table was found"),
    ({**KONGOH, "start": [32, False]}, "start: false was found"),
    ({**KONGOH, "start": [32, [1]]}, "start: a list was found"),
    ({**KONGOH, "start": [32, 1, 1]}, "start: slot 1 is listed twice"),
    ({**KONGOH, "start": [32, 33]}, "there is no slot 33"),
    ({**KONGOH, "start": [0, 1]}, "there is no slot 0"),
    ({**KONGOH, "start": [-(10**5000), 1]}, "start: the number is far too large"),
    ({**KONGOH, "start": [32]}, "1 cords on 32 slots cannot be braided"),
    ({**KONGOH, "start": list(range(1, 33))}, "leave at least one slot empty"),
    ({**KONGOH, "start": [1] * 100}, "start: the list has 100 members; give at most 64"),
    ({**KONGOH, "moves": []}, "no move passes over anything"),
    ({**KONGOH, "moves": [32, 18]}, "move 1: 32 was found; give a list"),
    ({**KONGOH, "moves": [[32, 18], [16]]}, "move 2: it has 1 parts"),
    ({**KONGOH, "moves": [[32, 18, "re-space", 1]]}, "move 1: it has 4 parts"),
    ({**KONGOH, "moves": [[32, "18"]]}, "move 1: '18' was found"),
    ({**KONGOH, "moves": [[32, True]]}, "move 1: true was found"),
    ({**KONGOH, "moves": [[32, 18, "respace"]]}, "move 1: 'respace' was found"),
    ({**KONGOH, "moves": [[32, 18, 5]]}, "move 1: 5 was found"),
    ({**KONGOH, "moves": [[32, 99]]}, "there is no slot 99"),
    ({**KONGOH, "moves": [[32, 18], [32, 19]]}, "move 2 (32 to 19): slot 32 is empty"),
    ({**KONGOH, "moves": [[32, 16]]}, "move 1 (32 to 16): slot 16 already holds a cord"),
    ({**KONGOH, "moves": [[32, 32]]}, "slot 32 is where the cord already is"),
    ({**KONGOH, "moves": [[32, 12, "re-space"], [12, 32]]}, "this re-space would cross a cord both ways"),
    ({**MARU, "moves": [[32, 2, "re-space"], [2, 32, "re-space"]]}, "no move passes over anything"),
    ({**KONGOH, "moves": [[32, 18]]}, "which is not the start"),
    ({**KONGOH, "moves": [[1, 2]] * 5000}, "moves: the list has 5000 members; give at most 4096"),
    ({**KONGOH, "shift": 2}, "with a shift of 2 the repeat should end with cords in slots"),
    ({**KONGOH, "shift": 31}, "shift: 31 is more than half a turn on 32 slots; write it the short way, -1"),
    ({**KONGOH, "shift": -31}, "write it the short way, 1"),
    ({**KONGOH, "shift": 33}, "write it the short way, 1"),
    ({**KONGOH, "shift": 1.0}, "shift: 1.0 was found"),
    ({**KONGOH, "shift": None}, "shift: nothing was found"),
    ({**KONGOH, "shift": 10**5000}, "shift: the number is far too large"),
    ({**KONGOH, "hand": "left"}, "hand: 'left' was found; use one of S, Z"),
    ({**KONGOH, "hand": 1}, "hand: 1 was found"),
    ({**KONGOH, "hand": ["S"]}, "hand: a list was found"),
    ({**KONGOH, "name": 8}, "name: 8 was found; give a text of one line"),
    ({**KONGOH, "name": "  "}, "name: '  ' was found"),
    ({**KONGOH, "name": "a\nb"}, "name: give one line"),
    ({**KONGOH, "english": "\ud800"}, "english: give one line"),
    ({**KONGOH, "english": "x" * 300}, "english: give one line of at most 200"),
    ({**KONGOH, "notes": 3.5}, "notes: 3.5 was found"),
    ({**KONGOH, "notes": "\ud800"}, "notes: give plain text"),
    ({**KONGOH, "source": "x" * 30_000}, "source: give plain text of at most 20000"),
    ({**KONGOH, "japanese": ["yatsu"]}, "japanese: a list was found"),
    ({**KONGOH, "sure": True}, "sure: true was found"),
]


@pytest.mark.parametrize(("table", "said"), BAD, ids=[re.sub(r"\W+", "-", said) for _, said in BAD])
def test_what_is_wrong_is_said_in_one_sentence_that_names_the_file(table: object, said: str) -> None:
    with pytest.raises(BraidError) as caught:
        read(table)
    message = str(caught.value)
    assert message.startswith("mine.toml")
    assert said in message
    assert message.endswith(".")
    assert "\n" not in message
    assert len(message) < 400
    message.encode()


def test_an_impossible_move_is_told_before_a_repeat_that_does_not_come_back() -> None:
    """With no shift stated the end does not fit either, but the third move is the reason."""
    with pytest.raises(BraidError, match=r"move 3 \(5 to 6\): slot 5 is empty"):
        read({**KONGOH, "moves": [[32, 18], [16, 2], [5, 6], [8, 26]]})


@given(braids())
def test_every_legal_braid_comes_back_from_its_table(braid: Braid) -> None:
    assert braid_from_table(braid_to_table(braid), name="other", where="here") == (braid, ())


PLAIN = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.integers(-5, 70)
    | st.floats()
    | st.text(max_size=8)
    | st.sampled_from(["S", "Z", "re-space", "move", 10**400, -(10**400)]),
    lambda inner: st.lists(inner, max_size=6) | st.dictionaries(st.text(max_size=6), inner, max_size=4),
    max_leaves=12,
)


def refusal(table: object) -> str | None:
    """What the maker is told, or None when it is a braid."""
    try:
        read(table)
    except BraidwrightError as error:
        return str(error)
    return None


@given(
    st.dictionaries(st.sampled_from(BRAID_FIELDS) | st.text(max_size=6), PLAIN, max_size=8),
    st.sampled_from([{}, KONGOH, MARU]),
)
def test_any_table_is_a_braid_or_one_of_our_errors(odd: dict[str, Any], base: dict[str, Any]) -> None:
    table = {**base, **odd}
    message = refusal(table)
    if message is None:
        braid, warnings = braid_from_table(table, name="mine", where="mine.toml")
        assert braid_from_table(braid_to_table(braid), name="x", where="x")[0] == braid
        assert all(warning.endswith(".") for warning in warnings)
    else:
        assert message.startswith("mine.toml")
        message.encode()


@given(PLAIN)
def test_anything_at_all_is_a_braid_or_one_of_our_errors(value: object) -> None:
    with pytest.raises(BraidError, match=r"^mine\.toml"):
        read(value)


@given(st.lists(st.lists(st.integers(1, 12), min_size=2, max_size=2), min_size=1, max_size=5), st.integers(-6, 6))
def test_random_moves_make_a_braid_or_a_sentence(moves: list[list[int]], shift: int) -> None:
    table = {"slots": 12, "start": [1, 4, 7, 10], "moves": moves}
    for each in (table, {**table, "shift": shift}):
        message = refusal(each)
        assert message is None or message.startswith("mine.toml: Braid mine")
