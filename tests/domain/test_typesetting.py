"""Letters put together into words, worked out by hand."""

import pytest

from braidwright.domain.letters import ALPHABETS, Dots
from braidwright.domain.typesetting import Way, typeset


def drawn(dots: Dots) -> list[str]:
    """Beads as lines, top first."""
    left, right = min(x for x, _ in dots), max(x for x, _ in dots)
    foot, top = min(y for _, y in dots), max(y for _, y in dots)
    return ["".join("#" if (x, y) in dots else "." for x in range(left, right + 1)) for y in range(top, foot - 1, -1)]


def test_letters_stand_side_by_side_with_one_free_between() -> None:
    ink, _ = typeset(ALPHABETS[5], "LI", "along")
    assert drawn(ink) == ["#...###", "#....#.", "#....#.", "#....#.", "###.###"]


def test_stacked_letters_stand_one_under_the_other_in_the_middle() -> None:
    ink, _ = typeset(ALPHABETS[5], "T!", "stacked")
    assert drawn(ink) == ["###", ".#.", ".#.", ".#.", ".#.", "...", ".#.", ".#.", ".#.", "...", ".#."]


def test_letters_stand_on_one_line_and_hang_below_it() -> None:
    ink, _ = typeset(ALPHABETS[5], "ap", "round")
    assert drawn(ink) == [".##.##.", "#.#.#.#", "#.#.##.", ".##.#..", "....#.."]


def test_a_space_is_wider_than_a_gap() -> None:
    gap, _ = typeset(ALPHABETS[5], "II", "along")
    space, _ = typeset(ALPHABETS[5], "I I", "along")
    assert max(x for x, _ in space) - max(x for x, _ in gap) == 3
    assert typeset(ALPHABETS[5], " II ", "along")[0] == gap


@pytest.mark.parametrize("way", ["along", "stacked", "round"])
def test_the_ground_is_all_round_the_letters(way: Way) -> None:
    ink, ground = typeset(ALPHABETS[7], "Bé", way)
    assert ink.isdisjoint(ground)
    assert all((x + dx, y + dy) in ink | ground for x, y in ink for dx in (-1, 0, 1) for dy in (-1, 0, 1))
    wide, high = (max(part) - min(part) + 1 for part in zip(*ink | ground, strict=True))
    assert len(ink | ground) == wide * high


def test_accents_that_come_by_themselves_join_their_letter() -> None:
    assert typeset(ALPHABETS[7], "e\u0301x\u0304", "along") == typeset(ALPHABETS[7], "\u00e9x\u0304", "along")
