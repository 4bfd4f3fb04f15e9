"""The facts of braids, against the published ones."""

from pathlib import Path

import pytest

from braidwright.app.braids import facts_of, find_braid
from braidwright.app.designs import open_catalogue
from braidwright.domain.braid import in_hand
from braidwright.domain.errors import BraidError, CatalogueError

CATALOGUE = open_catalogue()


def test_kongoh_z_after_two_repeats_is_four_two_cycles() -> None:
    """Check 2 of trade-facts, section 10 [FACK]: after one round every cord lies half a turn away in the pattern."""
    facts = facts_of(in_hand(CATALOGUE.braid("kongoh-8"), "Z"))
    once = dict(zip(facts.braid.start, facts.permutation, strict=True))
    assert {slot: once[once[slot]] for slot in once} == {slot: (slot + 15) % 32 + 1 for slot in once}


@pytest.mark.parametrize(
    ("name", "home", "same_slots"),
    [("maru-yotsu", 2, 2), ("seven-cord", 7, 56), ("tubular-8", 4, 4), ("tubular-16", 8, 8)],
)
def test_repeats_until_home_are_the_published_ones(name: str, home: int, same_slots: int) -> None:
    """The table of trade-facts, section 1.0 (sources there; the last column by simulation)."""
    facts = facts_of(CATALOGUE.braid(name))
    assert (facts.repeats_home, facts.repeats_same_slots) == (home, same_slots)
    assert facts.pieces.is_one


def test_maru_yotsu_exchanges_north_and_south_east_and_west() -> None:
    """Trade-facts 1.3 [EE2][ROB4]: permutation (N S)(E W)."""
    facts = facts_of(CATALOGUE.braid("maru-yotsu"))
    assert dict(zip(facts.braid.start, facts.permutation, strict=True)) == {32: 16, 16: 32, 8: 24, 24: 8}


def test_a_braid_is_found_by_name_and_by_path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "kongoh-8.toml"
    path.write_text(
        "slots = 32\nstart = [32, 8, 16, 24]\nmoves = [[32, 17], [16, 32], [17, 16, 're-space']]\n", "utf-8"
    )
    assert find_braid("kongoh-8", CATALOGUE).name == "kongoh-8"
    assert find_braid(str(path), CATALOGUE).name is None
    assert find_braid(str(path), CATALOGUE).braid.cord_count == 4
    with pytest.raises(CatalogueError, match="kongoh-8"):
        find_braid("kongo-8", CATALOGUE)
    monkeypatch.chdir(tmp_path)
    path.rename("mine")
    assert find_braid("mine", CATALOGUE).braid.cord_count == 4


def test_an_impossible_braid_is_refused_with_move_slot_and_reason(tmp_path: Path) -> None:
    path = tmp_path / "bad.toml"
    path.write_text("slots = 32\nstart = [32, 8]\nmoves = [[32, 8]]\n", encoding="utf-8")
    with pytest.raises(BraidError, match=r"move 1 \(32 to 8\).*slot 8 already holds a cord"):
        find_braid(str(path), CATALOGUE)
