"""The strings on paper hold the beads that the strings hold, in their order."""

from math import hypot

import pytest

from braidwright.domain.strings import runs, strings_of
from braidwright.domain.tray import BARE
from braidwright.drawings.pens.recording import Mark
from braidwright.drawings.sheet import Look, Subject
from braidwright.drawings.sheets.setup_disk import fitted
from drawings.subjects import BRAIDS, LOOKS, drawings, marks, pen, subject


def read_back(found: list[Mark]) -> dict[str, list[tuple[int, str]]]:
    """What a reader makes of the sheet: for each slot, counts and names from left to right, brackets written out."""
    strings: dict[str, list[tuple[int, str]]] = {}
    current, count, times, opened = "", 1, 1, 0
    for mark in found:
        if mark.kind == "group" and mark.of.startswith("string-"):
            current = mark.of.removeprefix("string-")
            strings[current] = []
        elif mark.kind == "text" and current and mark.lettering and mark.lettering.anchor == "middle":
            if mark.words == ")":
                strings[current] += strings[current][opened:] * (times - 1)
            elif mark.words.endswith("("):
                times, opened = int(mark.words.split()[0]), len(strings[current])
            else:
                count = int(mark.words)
        elif mark.kind == "group" and mark.of.startswith("run-"):
            strings[current].append((count, mark.words))
            count = 1
    return strings


@pytest.mark.parametrize("sheet", ["strings", "each-string"])
@pytest.mark.parametrize("name", sorted(BRAIDS))
@pytest.mark.parametrize("look", LOOKS)
def test_the_sheet_reads_back_as_the_strings(name: str, sheet: str, look: Look) -> None:
    of = subject(BRAIDS[name], 47)
    found = read_back(marks(sheet, of, look))
    for string in strings_of(of.design):
        beads = [(count, of.design.tray.name_of(key)) for count, key in runs(string.drops.replace(BARE, ""))]
        assert found[str(string.slot)] == beads


def test_each_string_says_its_beads_in_words() -> None:
    of = subject(BRAIDS["kongoh-8-S"], 4, keys="a")
    of = Subject(design=of.design.with_rows(("aaaa", "aaaa", "bbbb", "bbbb", "kkkk", "....", "aaaa", "aaaa")))
    said = {drawing.description for drawing in drawings("each-string", of)}
    assert said == {
        "First strung first: 1 Moss, 1 Barley, 1 stack (1 Moss, 1 Barley, 1 Moss), 1 Moss.",
        "First strung first: 1 Moss, 1 Barley, 1 Moss.",
    }


@pytest.mark.parametrize("name", sorted(BRAIDS))
def test_the_beads_by_the_disk_are_the_first_of_the_string(name: str) -> None:
    """Unfolded, what stands by the disk is the beginning of the string; the rest is told by dots."""
    of = subject(BRAIDS[name], 47)
    for string in strings_of(of.design):
        beads = [key for key in string.drops if key != BARE]
        items, has_more = fitted(string, 7)
        unfolded: list[str] = []
        ahead = 1
        for count, key in items:
            if key:
                unfolded += [key] * ahead
                ahead = 1
            else:
                ahead = count
        assert unfolded == beads[: len(unfolded)]
        assert has_more == (len(unfolded) < len(beads))
        assert len(items) <= 7


@pytest.mark.parametrize("name", sorted(BRAIDS))
def test_the_set_up_disk_names_every_slot_and_marks_the_starting_ones(name: str) -> None:
    of = subject(BRAIDS[name])
    (drawing,) = drawings("setup-disk", of)
    found = pen(drawing).marks
    braid = of.design.braid
    slots = [mark for mark in found if mark.kind == "text" and mark.words.isdigit() and _inside(mark, drawing.width_mm)]
    assert sorted(int(mark.words) for mark in slots) == list(range(1, braid.slots + 1))
    assert {int(mark.words) for mark in slots if mark.of.startswith("slot-")} == set(braid.start)
    assert [mark.words for mark in found if mark.words in tuple("NESW")] == ["N", "E", "S", "W"]


def _inside(mark: Mark, side: float) -> bool:
    x, y = mark.points[0]
    return hypot(x - side / 2, y - side / 2) < 0.25 * side


def test_numbers_rise_clockwise_from_the_first_right_of_north() -> None:
    """The numbering of the trade's disks: trade-facts, slot convention, [BL8]."""
    (drawing,) = drawings("setup-disk", subject(BRAIDS["kongoh-8-S"]))
    at = {m.words: m.points[0] for m in pen(drawing).marks if m.words.isdigit() and _inside(m, drawing.width_mm)}
    half = drawing.width_mm / 2
    assert at["1"][0] > half > at["32"][0]
    assert at["1"][1] < half
    assert at["8"][1] < half + 1.5 < at["9"][1] + 1.5
    assert at["8"][0] > half
    assert at["16"][0] > half > at["17"][0]
    assert at["24"][1] > at["25"][1]
    assert at["24"][0] < half
