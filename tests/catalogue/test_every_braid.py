"""Laws over every braid of the catalogue, present and future.

Making a `Braid` works its repeat once and refuses what cannot be worked, so reading the files is half the law.
"""

from pathlib import Path

import pytest

from braidwright.catalogue.family import BRAIDS
from braidwright.catalogue.shelf import standard
from braidwright.domain.braid import Braid, find_shift, in_hand, mirrored
from braidwright.domain.braid_table import braid_from_table, braid_to_table
from braidwright.domain.walk import slots_after, walk

EVERY_FILE = sorted(BRAIDS.files().items())
EVERY_BRAID = standard().braids


def name_of(braid: Braid) -> str:
    return braid.name


def worked(braid: Braid, repeats: int) -> dict[int, int]:
    """Slot -> start slot of the cord there, by lifting and laying only; the check of the trade facts' appendix."""
    held = {slot: slot for slot in braid.start}
    for repeat in range(repeats):
        by = braid.shift * repeat
        for move in braid.moves:
            take, put = ((slot - 1 + by) % braid.slots + 1 for slot in (move.take, move.put))
            assert take in held, f"repeat {repeat + 1}: {take} is empty"
            assert put not in held, f"repeat {repeat + 1}: {put} is full"
            held[put] = held.pop(take)
    return held


def test_the_family_is_what_was_promised() -> None:
    names = {braid.name for braid in EVERY_BRAID}
    assert names >= {"kongoh-8", "kongoh-12", "kongoh-16", "kongoh-24", "maru-yotsu", "seven-cord"}
    assert names >= {"tubular-8", "tubular-16"}


@pytest.mark.parametrize(("stem", "path"), EVERY_FILE, ids=[stem for stem, _ in EVERY_FILE])
def test_a_file_is_found_by_its_name_and_has_no_strange_field(stem: str, path: Path) -> None:
    braid, warnings = BRAIDS.from_file(path)
    assert braid.name == stem
    assert warnings == ()


@pytest.mark.parametrize("braid", EVERY_BRAID, ids=name_of)
def test_it_names_its_source_and_how_sure_it_is(braid: Braid) -> None:
    known = ("two sources", "one source", "from memory", "simulation", "simulation only")
    assert "[" in braid.source or "no source" in braid.source
    assert any(word in braid.sure for word in known)
    assert braid.english != braid.name
    assert braid.notes


@pytest.mark.parametrize("hand", ["S", "Z"])
@pytest.mark.parametrize("braid", EVERY_BRAID, ids=name_of)
def test_it_can_be_worked_until_it_begins_again_in_both_hands(braid: Braid, hand: str) -> None:
    other = in_hand(braid, "S" if hand == "S" else "Z")
    assert other.hand == hand
    repeats = walk(other).repeats_same_slots
    assert worked(other, repeats) == {slot: slot for slot in other.start}
    fewer = [slots_after(other, n) for n in range(1, repeats)]
    assert other.start not in fewer


@pytest.mark.parametrize("braid", EVERY_BRAID, ids=name_of)
def test_its_mirror_image_is_another_braid_and_twice_is_itself(braid: Braid) -> None:
    assert mirrored(mirrored(braid)) == braid
    assert mirrored(braid) != braid
    assert mirrored(braid).shift == -braid.shift
    assert walk(mirrored(braid)) == walk(braid)


@pytest.mark.parametrize("braid", EVERY_BRAID, ids=name_of)
def test_its_shift_is_the_smallest_turn(braid: Braid) -> None:
    assert find_shift(braid.name, braid.slots, braid.start, braid.moves) == braid.shift


@pytest.mark.parametrize("braid", EVERY_BRAID, ids=name_of)
def test_written_as_a_table_and_read_again_it_is_the_same(braid: Braid) -> None:
    for each in (braid, mirrored(braid)):
        assert braid_from_table(braid_to_table(each), name="other", where="here") == (each, ())


@pytest.mark.parametrize("braid", EVERY_BRAID, ids=name_of)
def test_every_cord_makes_a_stitch_before_all_are_home(braid: Braid) -> None:
    """A cord that never moves would only be a core."""
    moving, place_of = set(), list(range(braid.cord_count))
    for _ in range(walk(braid).repeats_home):
        moving |= {place_of.index(place) for place in walk(braid).movers}
        place_of = [walk(braid).permutation[place] for place in place_of]
    assert moving == set(range(braid.cord_count))


@pytest.mark.parametrize("braid", EVERY_BRAID, ids=name_of)
def test_notes_that_speak_of_a_turning_say_for_which_hand(braid: Braid) -> None:
    """The notes are printed for both hands, so a direction without its hand would mislead half of the readers."""
    for sentence in " ".join(braid.notes.split()).split(". "):
        if "disk" in sentence and "clockwise" in sentence:
            assert "hand S" in sentence
            assert "hand Z" in sentence
