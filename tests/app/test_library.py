"""What a maker asks of the library, with real designs: nothing is kept that is no design, and everything comes back.

No outside source: promises of ours. The contents are the demo designs and such as hypothesis finds.
"""

import io
import json
import sqlite3
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings

from braidwright.app.designs import open_catalogue
from braidwright.app.library import Library, file_name
from braidwright.app.library_facts import facts_of
from braidwright.app.library_opening import open_usual_library
from braidwright.domain.design import Design
from braidwright.domain.document import read_design, write_design
from braidwright.domain.errors import BraidwrightError, DamagedError, DocumentError, RequestError, StaleError
from braidwright.store.library.archive_writer import write_archive
from braidwright.store.library.place import PLACE
from braidwright.store.library.records import Change
from command_line import DESIGN
from strategies import designs

NOW = datetime(2026, 11, 25, 4, 0, tzinfo=UTC)
DEMOS = sorted((Path(__file__).resolve().parent.parent.parent / "designs").glob("*.json"))


@pytest.fixture
def library(tmp_path: Path) -> Iterator[Library]:
    opened = open_usual_library(open_catalogue(), NOW, tmp_path)
    assert opened.notes == ()
    yield opened.library
    opened.library.store.close()


def written(**fields: Any) -> bytes:
    return json.dumps({**DESIGN, **fields}, indent=3).encode()


@pytest.mark.parametrize("demo", DEMOS, ids=lambda path: path.stem)
def test_a_design_file_goes_in_and_out_byte_for_byte(library: Library, demo: Path) -> None:
    for content in (demo.read_bytes(), b"\xef\xbb\xbf" + demo.read_bytes().replace(b"\n", b"\r\n")):
        entry = library.take_in(content, NOW)
        name, out = library.file_of(entry.design)
        assert out == content
        assert name == f"{demo.stem}.json"
        assert library.look(entry.design).reading.design.title == entry.newest.title


@settings(max_examples=15)
@given(design=designs())
def test_a_design_that_is_begun_is_the_design_that_is_looked_at(
    tmp_path_factory: pytest.TempPathFactory, design: Design
) -> None:
    library = open_usual_library(open_catalogue(), NOW, tmp_path_factory.mktemp("begun")).library
    entry = library.begin(design, NOW)
    assert write_design(library.look(entry.design).reading.design) == write_design(design)
    library.store.close()


@pytest.mark.parametrize("content", [b"", b"{}", b"\xff", b"[1]", written(rows=["aa"]), written(title="")])
def test_what_is_no_design_is_not_kept(library: Library, content: bytes) -> None:
    entry = library.take_in(written(), NOW)
    with pytest.raises(BraidwrightError):
        library.take_in(content, NOW)
    with pytest.raises(BraidwrightError):
        library.save(entry.design, entry.newest.name, content, "broken", NOW)
    assert library.search() == (entry,)
    assert len(library.history(entry.design)) == 1


def test_two_windows_never_overwrite_each_other_unseen(library: Library) -> None:
    entry = library.take_in(written(), NOW)
    one = library.save(entry.design, entry.newest.name, written(notes="one"), "wrote a note", NOW)
    mine = written(notes="two")
    with pytest.raises(StaleError, match=r"changed elsewhere since \(state 2, .*: wrote a note\)") as told:
        library.save(entry.design, entry.newest.name, mine, "wrote another", NOW)
    assert library.look(entry.design, told.value.newest).content == written(notes="one")
    copy = library.take_in(mine, NOW, "kept as a copy")
    assert library.look(copy.design).content == mine
    assert library.look(entry.design).state == one


def test_every_state_can_be_looked_at_and_brought_back(library: Library) -> None:
    entry = library.take_in(written(), NOW)
    newest = entry.newest
    for note in "abc":
        newest = library.save(entry.design, newest.name, written(notes=note), f"note {note}", NOW)
    second = library.history(entry.design)[1]
    back = library.bring_back(entry.design, newest.name, second.name, NOW)
    assert (back.number, back.parent, back.brought_back, back.doing) == (
        5,
        newest.name,
        second.name,
        "state 2 brought back",
    )
    assert library.look(entry.design).content == written(notes="a")
    assert [state.doing for state in library.history(entry.design)][1:4] == ["note a", "note b", "note c"]
    assert library.search("a") != ()
    with pytest.raises(StaleError):
        library.bring_back(entry.design, newest.name, entry.newest.name, NOW)


def test_from_a_newest_state_that_was_damaged_one_goes_back_to_the_one_before(library: Library, tmp_path: Path) -> None:
    entry = library.take_in(written(), NOW)
    newest = library.save(entry.design, entry.newest.name, written(notes="n" * 50), "note", NOW)
    db = sqlite3.connect(tmp_path / "library.sqlite", isolation_level=None)
    db.execute("UPDATE contents SET packed = x'00' WHERE sum = ?", (newest.content_sum,))
    db.close()
    with pytest.raises(DamagedError, match=r"State 2 of “Hedge” is damaged on the disk .* bring back the one before"):
        library.look(entry.design)
    library.bring_back(entry.design, newest.name, entry.newest.name, NOW)
    assert library.look(entry.design).content == written()


def test_a_new_title_is_a_change_of_the_design(library: Library) -> None:
    entry = library.take_in(written(), NOW)
    renamed = library.rename(entry.design, entry.newest.name, "Hawthorn <b>", NOW)
    assert renamed.title == library.look(entry.design).reading.design.title == "Hawthorn <b>"
    assert library.look(entry.design, entry.newest.name).reading.design.title == "Hedge"
    assert library.search("hawthorn") != ()
    assert library.search("hedge") == ()
    for title in ("", "two\nlines"):
        with pytest.raises(BraidwrightError):
            library.rename(entry.design, renamed.name, title, NOW)


def test_a_duplicate_goes_its_own_way(library: Library) -> None:
    entry = library.take_in(written(), NOW)
    copy = library.duplicate(entry.design, "Hedge again", NOW + timedelta(seconds=1))
    assert copy.newest.doing == "copied from “Hedge”"
    library.save(copy.design, copy.newest.name, written(notes="mine"), "note", NOW)
    assert library.look(entry.design).content == written()
    assert {each.newest.title for each in library.search("hedge")} == {"Hedge"}


@pytest.mark.parametrize("words", ["hedge", "kongoh", "spiral", "moss pearl", "magatama", "PÄRLÓR", "sommar"])
def test_it_is_found_by_title_braid_beads_and_notes(library: Library, words: str) -> None:
    entry = library.take_in(written(notes="Pärlor från sommaren"), NOW)
    library.take_in(written(title="Wall", braid="maru-yotsu", rows=["abab"] * 4, tray=OTHER, motifs=[]), NOW)
    assert library.search(words) == (entry,)


OTHER = {"a": {"bead": "cylinder-11/0", "colour": "#102030"}, "b": {"bead": "cylinder-11/0", "colour": "#203040"}}


def test_a_bead_that_is_not_known_here_is_no_hindrance() -> None:
    catalogue = open_catalogue()
    tray = {"a": {"bead": "from-my-own-file", "colour": "#102030"}}
    design = read_design(written(tray=tray, rows=["aaaa"] * 4, motifs=[]).decode(), catalogue.braid).design
    assert dict(facts_of(design, catalogue))["beads"] == "from-my-own-file"


def test_thrown_away_taken_back_and_purged(library: Library) -> None:
    entry = library.take_in(written(), NOW)
    library.throw_away(entry.design, NOW)
    assert library.search() == ()
    assert [each.design for each in library.thrown_away()] == [entry.design]
    assert library.take_back(entry.design) == entry
    library.throw_away(entry.design, NOW)
    assert library.purge(NOW) == 0
    assert library.purge(NOW + timedelta(seconds=1)) == 1
    with pytest.raises(RequestError):
        library.look(entry.design)


def test_the_whole_library_goes_out_and_in(library: Library, tmp_path: Path) -> None:
    entry = library.take_in(written(), NOW)
    newest = library.save(entry.design, entry.newest.name, written(notes="n"), "note", NOW)
    library.throw_away(library.take_in(written(title="Gone"), NOW).design, NOW)
    stream = io.BytesIO()
    library.write_all(stream)
    other = open_usual_library(open_catalogue(), NOW, tmp_path / "other").library
    taken = other.take_in_all(stream)
    assert taken.notes == ()
    assert [each.newest.title for each in taken.entries] == ["Hedge", "Gone"]
    assert other.history(taken.entries[0].design) == library.history(entry.design)
    assert len(other.search()) == len(other.thrown_away()) == 1
    again = library.take_in_all(stream)
    assert again.notes == ("“Hedge” is in the library already and was left as it is.",)
    library.save(entry.design, newest.name, written(notes="further on"), "note", NOW)
    assert library.take_in_all(stream).notes == again.notes
    other.store.close()


def test_a_design_in_it_that_cannot_be_read_is_left_out_and_named(library: Library, tmp_path: Path) -> None:
    other = open_usual_library(open_catalogue(), NOW, tmp_path / "other").library
    other.take_in(written(), NOW)
    other.store.create(Change(content=b"{}", title="Of tomorrow", facts=(), doing="", at=NOW))
    stream = io.BytesIO()
    write_archive(other.search(), other.store, stream)
    taken = library.take_in_all(stream)
    assert [each.newest.title for each in taken.entries] == ["Hedge"]
    (note,) = taken.notes
    assert note.startswith("“Of tomorrow” was left out, since it cannot be read: Design")
    with pytest.raises(DocumentError):
        library.take_in_all(io.BytesIO(b"no library"))
    other.store.close()


def test_it_opens_where_the_environment_says_and_tells_what_happened(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv(PLACE, str(tmp_path))
    (tmp_path / "library.sqlite").write_bytes(b"damaged")
    opened = open_usual_library(open_catalogue(), NOW)
    opened.library.store.close()
    (note,) = opened.notes
    assert note.startswith("The library file was damaged: nothing in it could be read")


@pytest.mark.parametrize(
    ("title", "name"),
    [
        ("Ridge at dusk", "ridge-at-dusk"),
        ("../../etc/passwd", "etc-passwd"),
        ("C:\\x|y?*", "c-x-y"),
        ("CON", "con-design"),
        ("<script>", "script"),
        ("...", "design"),
        ("漢字 Ünïcode", "漢字-ünïcode"),
        ("a" * 500, "a" * 60),
        ("\0\n\u202e", "design"),
    ],
)
def test_a_file_name_is_safe_on_every_system(title: str, name: str) -> None:
    assert file_name(title) == name
