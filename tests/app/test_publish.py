"""publish: the whole pack, the same every time, with both hands complete."""

import json
from dataclasses import replace
from hashlib import sha256
from typing import Any

import pytest
from hypothesis import given, settings

from braidwright.app.publish import Wishes, format_names, gather, publish
from braidwright.domain.design import CoreCord, Design
from braidwright.domain.document import read_design, write_design
from braidwright.domain.errors import CatalogueError, RequestError
from braidwright.domain.mirror import same_picture
from braidwright.domain.strings import strings_of
from braidwright.domain.twist import HANGING
from braidwright.drawings.formats.csv import strings_csv
from packs import EVERY, LANTERN_ROPE, SEVEN, SHELF, files, pack, pattern
from strategies import designs

WORDS = Wishes(formats=("csv", "json", "txt"))


@pytest.mark.parametrize("name", EVERY)
def test_the_pack_holds_every_kind_of_file(name: str) -> None:
    paths = set(files(name))
    hands = {"s", "z"}
    assert {"README.txt", "pattern.pdf", "pattern.txt", "design.json", "tables/supplies.csv"} <= paths
    assert {f"tables/strings-{hand}.csv" for hand in hands} <= paths
    for hand in hands:
        assert f"pictures/hand-{hand}/setup-disk.svg" in paths
        assert f"pictures/hand-{hand}/setup-disk.png" in paths
        assert f"pictures/hand-{hand}/flat-chart-1.svg" in paths


def test_no_path_is_used_twice() -> None:
    paths = [path.casefold() for path, _ in pack().files]
    assert len(paths) == len(set(paths))


def test_the_same_design_makes_the_same_bytes() -> None:
    again = publish(LANTERN_ROPE, SHELF)
    assert again == pack()
    assert sums(dict(publish(replace(LANTERN_ROPE, title="Fen Lantern"), SHELF, WORDS).files)) != sums(
        dict(publish(LANTERN_ROPE, SHELF, WORDS).files)
    )


def sums(made: dict[str, bytes]) -> dict[str, str]:
    return {path: sha256(content).hexdigest() for path, content in made.items()}


@pytest.mark.parametrize("name", EVERY)
def test_the_design_in_the_pack_is_the_design(name: str) -> None:
    text = files(name)["design.json"].decode()
    assert text == write_design(EVERY[name])
    assert read_design(text, SHELF.braid).design == EVERY[name]


def test_the_own_hand_comes_first_and_the_other_is_its_mirror() -> None:
    own, other = pattern().hands
    assert (own.hand, own.kind, other.hand, other.kind) == ("S", "own", "Z", "mirror")
    assert [part.hand for part in pattern("plain").hands] == ["Z", "S"]
    assert [string.drops for string in strings_of(other.design)] == [string.drops for string in strings_of(own.design)]
    assert [string.slot for string in strings_of(other.design)] == [33 - s.slot for s in strings_of(own.design)]


def test_the_same_picture_has_strings_of_its_own() -> None:
    made = pattern(wishes=Wishes(other_hand="same-picture"))
    assert made.hands[1].kind == "same-picture"
    assert made.hands[1].design == same_picture(LANTERN_ROPE, made.size.drift_deg)
    drops = [string.drops for string in strings_of(made.hands[1].design)]
    assert drops != [string.drops for string in strings_of(LANTERN_ROPE)]


def test_one_hand_alone_when_wished() -> None:
    made = files(wishes=Wishes(other_hand="none", formats=("csv", "txt")))
    assert "tables/strings-s.csv" in made
    assert "tables/strings-z.csv" not in made
    assert "Hand Z" not in made["pattern.txt"].decode()


def test_notes_of_a_catalogue_braid_are_printed_for_both_hands_and_those_of_a_makers_own_only_for_its_own() -> None:
    own, other = pattern().hands
    assert own.notes == other.notes == SHELF.braid("kongoh-8").notes
    written = replace(LANTERN_ROPE, braid_name=None, braid=replace(LANTERN_ROPE.braid, notes="Turn to the right."))
    own, other = gather(written, SHELF, Wishes())[0].hands
    assert (own.notes, other.notes) == ("Turn to the right.", "")


def test_pieces_and_spare_reach_the_supplies() -> None:
    one, many = pattern(), pattern(wishes=Wishes(pieces=3, spare_percent=10.0))
    assert [need.count for need in many.supplies.beads] == [3 * need.count for need in one.supplies.beads]
    assert {need.spare_percent for need in many.supplies.beads} == {10.0}


@pytest.mark.parametrize(
    ("wish", "named"),
    [
        ({"paper": "a5"}, "'a5'"),
        ({"other_hand": "both"}, "'both'"),
        ({"formats": ("docx",)}, "'docx'"),
    ],
)
def test_a_wish_that_is_not_known_is_refused(wish: dict[str, Any], named: str) -> None:
    with pytest.raises(RequestError, match=named):
        Wishes(**wish)


def test_a_bead_that_is_not_known_is_refused() -> None:
    beads = tuple(replace(entry, bead="moon-rock") for entry in LANTERN_ROPE.tray.beads)
    unknown = replace(LANTERN_ROPE, tray=replace(LANTERN_ROPE.tray, entries=beads))
    with pytest.raises(CatalogueError, match="moon-rock"):
        publish(unknown, SHELF)


def test_a_rope_without_end_is_refused() -> None:
    endless = replace(LANTERN_ROPE, rows=("mmmm",) * 25_001)
    with pytest.raises(RequestError, match="100004 stitches"):
        publish(endless, SHELF, WORDS)


def test_progress_is_told_and_never_goes_back() -> None:
    told: list[tuple[str, float]] = []
    publish(SEVEN, SHELF, progress=lambda doing, share: told.append((doing, share)))
    shares = [share for _, share in told]
    assert shares == sorted(shares)
    assert (shares[0], shares[-1]) == (0.0, 1.0)
    assert len(told) == len(format_names()) + 2


@pytest.mark.parametrize("name", EVERY)
def test_the_readme_says_what_is_what(name: str) -> None:
    text = files(name)["README.txt"].decode()
    for path in files(name):
        folder, _, file = path.rpartition("/")
        assert path in text or f"{folder}/*.{file.rpartition('.')[2]}" in text or path == "README.txt"


def test_what_the_type_cannot_show_is_told() -> None:
    (warning,) = [told for told in pack("strange").warnings if "type has no sign" in told]
    assert "U+6F22" in warning
    assert not [told for told in pack().warnings if "type has no sign" in told]


@settings(max_examples=30)
@given(design=designs())
def test_any_legal_design_can_be_put_into_words(design: Design) -> None:
    made = dict(publish(design, SHELF, WORDS).files)
    assert json.loads(made["design.json"])["braidwright"] == 1
    assert strings_csv(pattern_of(design)).encode() == made[f"tables/strings-{design.hand.lower()}.csv"]
    assert b"### Set up the disk" in made["pattern.txt"]


def pattern_of(design: Design) -> Any:
    return gather(design, SHELF, WORDS)[0].own


def test_a_core_and_work_that_hangs_free_are_told_in_words_and_lists() -> None:
    """[CORE1]: a core is cut longer than the finished braid; physics.md, 5: work that hangs free may turn."""
    core = CoreCord(kind="satin-3")
    wide = replace(LANTERN_ROPE, cords=replace(LANTERN_ROPE.cords, core=core), twist=HANGING)
    made = dict(publish(wide, SHELF, WORDS).files)
    text = made["pattern.txt"].decode()
    assert "braided around a core cord: satin-3, 3 mm thick." in text
    assert text.count("Tie the core cord into the knot") == 2  # for each hand
    assert text.count("Let the braid hang free") == 2
    assert b"core cord,,3 mm thick,satin-3," in made["tables/supplies.csv"]
    assert json.loads(made["design.json"])["twist"] == "hanging"
    plain = dict(publish(LANTERN_ROPE, SHELF, WORDS).files)["pattern.txt"].decode()
    assert "core cord into the knot" not in plain
    assert "hang free" not in plain
