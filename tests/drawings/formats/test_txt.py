"""txt: the whole pattern in words. Order and form: trade-facts, section 8, "Accessible" ([BL8], [FL8], [ROB4])."""

import re
from itertools import pairwise

import pytest
from hypothesis import given, settings

from braidwright.app.publish import Wishes, gather
from braidwright.domain.design import Design
from braidwright.domain.strings import strings_of
from braidwright.drawings import words
from braidwright.drawings.formats.txt import text_of
from packs import EVERY, SHELF, files, pattern
from strategies import designs


def lines(name: str) -> list[str]:
    return files(name)["pattern.txt"].decode().splitlines()


def section(text: str, hand: str) -> str:
    """The chapter of one hand."""
    return text.split(f"## Hand {hand}: ", 1)[1].split("\n## ", 1)[0]


@pytest.mark.parametrize("name", EVERY)
def test_both_hands_are_there_with_every_string_and_move(name: str) -> None:
    text = files(name)["pattern.txt"].decode()
    for part in pattern(name).hands:
        own = section(text, part.hand)
        for sentence in words.move_sentences(part.design):
            assert sentence in own
        for sentence in words.set_up_sentences(part.design):
            assert sentence in own
        for string in strings_of(part.design):
            beads = len(string.beads(part.design.tray))
            found = next(line for line in own.splitlines() if line.startswith(f"Slot {string.slot}, "))
            if beads:
                assert found.endswith(f"{' '.join(words.string_words(part.design, string).split())}.")
                assert f" {beads} bead" in found
            else:
                assert found.endswith("no beads.")


@pytest.mark.parametrize("name", EVERY)
def test_one_move_to_a_line_and_its_slots_with_it(name: str) -> None:
    moves = [line for line in lines(name) if re.match(r"Move \d+\. ", line)]
    assert len(moves) == sum(len(part.design.braid.moves) for part in pattern(name).hands)
    expected = [move for part in pattern(name).hands for move in part.design.braid.moves]
    for line, move in zip(moves, expected, strict=True):
        assert re.search(rf"\b{move.take}\b", line)
        assert re.search(rf"\b{move.put}\b", line)


def test_compass_words_go_with_slot_numbers() -> None:
    for line in lines("lanterns"):
        if line.startswith("Slot ") and "bead" in line:
            assert re.match(r"Slot \d+, (north|east|south|west)", line)


@pytest.mark.parametrize("name", EVERY)
def test_what_must_be_known_first_comes_first(name: str) -> None:
    text = "\n".join(lines(name))
    order = ["## At a glance", "## How to read", "## Before you begin", "## Cautions", "## What you need"]
    order += [f"## Hand {part.hand}" for part in pattern(name).hands]
    order += ["## When something is wrong", "## Longer or shorter", "## Finish the ends", "## Notes"]
    places = [text.index(f"\n{heading}") for heading in order]
    assert places == sorted(places)


def test_every_row_can_be_checked_by_ear() -> None:
    """The rows, read back from the words, are the rows of the design."""
    design = EVERY["lanterns"]
    names = {design.tray.name_of(key): key for key in design.tray.keys}
    own = section("\n".join(lines("lanterns")), "S").split("### The rows, to check by")[1].split("###")[0]
    found: list[str] = []
    for line in own.splitlines():
        told = re.match(r"Rows? (\d+)(?: to (\d+), \d+ rows alike)?: (.*)\.$", line)
        if told:
            first, last = int(told[1]), int(told[2] or told[1])
            assert first == len(found) + 1
            found += [row_of(told[3], names)] * (last - first + 1)
    assert tuple(found) == design.rows


def row_of(told: str, names: dict[str, str]) -> str:
    if told.startswith("all "):
        return names[told.removeprefix("all ")] * 4
    stitches = []
    for part in told.split(", "):
        *sides, name = part.split(" ")
        stitches += [names[name]] * len(sides)
    return "".join(stitches)


def test_no_line_is_left_to_be_guessed() -> None:
    """A screen reader reads a line at a time: no tabs, no drawn boxes, no line that is only signs."""
    for name in EVERY:
        for line in lines(name):
            assert line == line.rstrip()
            assert "\t" not in line
            assert not line or re.search(r"\w", line)


def test_the_designer_s_words_stand_as_they_are() -> None:
    text = "\n".join(lines("strange"))
    assert EVERY["strange"].title in text
    assert (EVERY["strange"].story or "?") in text


@settings(max_examples=30)
@given(design=designs(rows=(1, 12)))
def test_any_design_reads_every_bead(design: Design) -> None:
    made = gather(design, SHELF, Wishes(other_hand="none"))[0]
    told = re.findall(r"^Slot \d+, .*?: (\d+) beads?: ", text_of(made), flags=re.MULTILINE)
    assert sum(int(count) for count in told) == sum(len(s.beads(design.tray)) for s in strings_of(design))


@pytest.mark.parametrize("name", sorted(EVERY))
def test_every_heading_has_something_under_it(name: str) -> None:
    lines = [line for line in files(name)["pattern.txt"].decode().splitlines() if line]
    for heading, then in pairwise([*lines, "#"]):
        if heading.startswith("###"):
            assert not then.startswith(("## ", "### ")), heading
