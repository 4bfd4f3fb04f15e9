"""The legend lists the tray, with what the drawings show and how many there are."""

from dataclasses import replace

import pytest

from braidwright.domain.strings import bead_counts
from braidwright.domain.tray import BARE
from braidwright.drawings.sheets.legend import entries
from drawings.subjects import BRAIDS, drawings, marks, subject


@pytest.mark.parametrize("name", sorted(BRAIDS))
def test_every_entry_of_the_tray_with_its_count(name: str) -> None:
    of = subject(BRAIDS[name])
    counts, drops = bead_counts(of.design), of.design.drop_counts()
    found = {entry.key: entry for entry in entries(of)}
    assert list(found) == ["a", "b", "g", "k", BARE]
    for key in "abg":
        assert found[key].count.split()[0] == str(counts[key])
    assert found["k"].count == f"{drops['k']} drop{'s' if drops['k'] != 1 else ''}"
    texts = [mark.words for mark in marks("legend", of) if mark.kind == "text"]
    assert texts == [words for entry in found.values() for words in (entry.name, entry.kind, entry.count)]


def test_sizes_are_given_in_millimetres_not_only_by_aught_number() -> None:
    """An aught number alone differs by 15 to 20 per cent between tables: trade-facts, 2.1, [RC]."""
    said = drawings("legend", subject(BRAIDS["kongoh-8-S"]))[0].description
    assert "3.0 mm across, 2.1 mm along the hole" in said
    assert "symbol dot" in said


def test_cords_that_differ_are_listed_with_their_slots() -> None:
    of = subject(BRAIDS["kongoh-8-S"], keys=BARE)
    cords = replace(of.design.cords, colours=("#aa0000", "#00aa00") * 4, names=("Rust", "Fern") * 4)
    lines = [entry for entry in entries(replace(of, design=replace(of.design, cords=cords))) if entry.key == ""]
    assert [(line.name, line.symbol, line.count) for line in lines] == [
        ("Rust", "letter A", "4 cords"),
        ("Fern", "letter B", "4 cords"),
    ]
    assert "slots 32, 8, 16 and 24" in lines[0].kind
