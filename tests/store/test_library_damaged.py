"""A damaged library file is put aside, what can be saved of it is saved, and one sentence says so.

No outside source: promises of ours. What SQLite thinks of a file is SQLite's own integrity check.
"""

import shutil
import sqlite3
import zlib
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.domain.errors import LibraryError
from braidwright.store.library import salvage, schema
from braidwright.store.library.opening import DAMAGED, LOCK, SALVAGING
from braidwright.store.library.pages import rows_on_pages
from braidwright.store.library.records import sum_of
from braidwright.store.library.rows import unpacked
from library_kit import change, file_in, later, opened, told_on_opening

PAGE = 4096

Names = dict[int, list[str]]


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Names]:
    """A library of many pages, with contents that run over several, and the names of its states."""
    folder = tmp_path_factory.mktemp("whole")
    chance = np.random.default_rng(11)
    names: Names = {}
    with opened(folder) as library:
        for at in range(9):
            entry = library.create(change(chance.bytes(50), title=f"Design {at}", at=later(at), notes="n" * 200))
            newest = entry.newest
            names[entry.design] = [newest.name]
            for step in range(14):
                content = chance.bytes(int(chance.integers(12_000 if at == 0 else 600)))
                newest = library.save(entry.design, newest.name, change(content, title=f"Design {at}", at=later(step)))
                names[entry.design].append(newest.name)
        library.remove(3, later(5))
    return folder, names


def copied(folder: Path, to: Path, content: bytes) -> Path:
    """A folder with only a library file, of this content."""
    to.mkdir()
    file_in(to).write_bytes(content)
    assert folder != to
    return to


def saved(folder: Path) -> tuple[str, Names]:
    """The sentence on opening, and the names of the states that are there, each of which is whole."""
    (note,) = told_on_opening(folder)
    names: Names = {}
    with opened(folder) as library:
        for entry in (*library.entries(), *library.entries(removed=True)):
            history = library.history(entry.design)
            for state in history:
                assert state.is_true
                library.content(entry.design, state.name)
            names[entry.design] = [state.name for state in history]
    return note, names


def lost(names: Names, found: Names) -> int:
    """How many states are missing; none may be new, elsewhere or out of order."""
    for design, there in found.items():
        assert there == [name for name in names[design] if name in there]
    return sum(len(states) for states in names.values()) - sum(len(states) for states in found.values())


def set_aside(folder: Path) -> bytes:
    (aside,) = folder.glob(f"*{DAMAGED}")
    return aside.read_bytes()


def rows_on(content: bytes, page: int) -> int:
    """How many rows begin on a page; a page that a row runs over to, or of an index, counts as one."""
    head = page * PAGE
    return int.from_bytes(content[head + 3 : head + 5], "big") if content[head] == 13 else 1


def test_a_page_wiped_out_costs_only_what_lay_on_it(whole: tuple[Path, Names], tmp_path: Path) -> None:
    """Every page in turn: what is lost is at most the states whose own row or content was there."""
    folder, names = whole
    content = file_in(folder).read_bytes()
    pages = len(content) // PAGE
    total = 0
    for page in range(pages):
        damaged = content[: page * PAGE] + bytes(PAGE) + content[(page + 1) * PAGE :]
        place = copied(folder, tmp_path / f"{page}", damaged)
        if told_on_opening(place) == ():
            continue  # a free page
        shutil.rmtree(place)
        place = copied(folder, tmp_path / f"{page}", damaged)
        note, found = saved(place)
        missing = lost(names, found)
        assert missing <= rows_on(content, page), f"page {page}: {note}"
        assert note.startswith("The library file was damaged: ")
        assert set_aside(place) == damaged
        total += missing
    assert pages > 60
    assert 0 < total < 3 * 9 * 15  # each state lies on about three pages, and all but the indexes were wiped


@pytest.mark.parametrize("pages_left", [1, 2, 20, 45, 60])
@pytest.mark.parametrize("bytes_more", [0, 1, 4000])
def test_a_file_cut_short_keeps_what_is_left(
    whole: tuple[Path, Names], tmp_path: Path, pages_left: int, bytes_more: int
) -> None:
    folder, names = whole
    content = file_in(folder).read_bytes()[: pages_left * PAGE + bytes_more]
    note, found = saved(copied(folder, tmp_path / "cut", content))
    assert set_aside(tmp_path / "cut") == content
    lost(names, found)
    assert bool(found) is ("could be saved" in note)
    assert found or pages_left < 45  # before that, no page with states


@pytest.mark.parametrize("head", [b"", b"\0" * PAGE, b"not a database", b"SQLite format 3\0", b"SQLite format 4\0"])
def test_without_its_head_nothing_is_lost(whole: tuple[Path, Names], tmp_path: Path, head: bytes) -> None:
    folder, names = whole
    content = file_in(folder).read_bytes()
    damaged = head + content[len(head) :]
    if damaged == content:
        damaged = content[:18] + b"\x07\x07" + content[20:]
    note, found = saved(copied(folder, tmp_path / "headless", damaged))
    assert found == names
    assert "9 designs with 135 states could be saved; the damaged file is kept as" in note
    with opened(tmp_path / "headless") as library:
        assert [entry.removed for entry in library.entries(removed=True)] == [later(5)]


@pytest.mark.parametrize("content", [b"", b"hello", b"\0" * 100_000, b"\x0d" * 100_000, b"\xff" * 8192])
def test_a_file_with_nothing_in_it_is_put_aside_and_one_is_begun(tmp_path: Path, content: bytes) -> None:
    file_in(tmp_path).write_bytes(content)
    (note,) = told_on_opening(tmp_path)
    assert "nothing in it could be read, so an empty library was begun" in note
    assert "“library 2026-11-25 040000.damaged”" in note
    assert set_aside(tmp_path) == content
    with opened(tmp_path) as library:
        assert library.entries() == ()


@given(seed=st.integers(0, 2**32 - 1), count=st.integers(1, 30))
def test_bytes_flipped_anywhere_never_get_through(
    whole: tuple[Path, Names], tmp_path_factory: pytest.TempPathFactory, seed: int, count: int
) -> None:
    """Either they are noticed on opening, or nothing is read that was not written."""
    folder, names = whole
    place = tmp_path_factory.mktemp("flipped")
    content = bytearray(file_in(folder).read_bytes())
    chance = np.random.default_rng(seed)
    for at in chance.integers(0, len(content), count):
        content[at] ^= int(chance.integers(1, 256))
    file_in(place).write_bytes(content)
    try:
        notes = told_on_opening(place)
    except LibraryError as refused:  # the number of its version was hit
        assert "newer version" in str(refused)  # noqa: PT017
        return
    assert len(notes) <= 1
    unreadable = 0
    with opened(place) as library:
        for entry in (*library.entries(), *library.entries(removed=True)):
            history = library.history(entry.design)
            for state in history:
                try:
                    library.content(entry.design, state.name)
                except LibraryError as told:
                    assert "damaged on the disk" in str(told)  # noqa: PT017
                    unreadable += 1
            if notes:
                assert [state.name for state in history] == [
                    name for name in names[entry.design] if name in {state.name for state in history}
                ]
    assert not notes or unreadable == 0
    shutil.rmtree(place)


def test_a_content_that_was_damaged_is_never_handed_out(tmp_path: Path) -> None:
    """SQLite does not notice: the sum of the content does, and its neighbours are still there."""
    with opened(tmp_path) as library:
        entry = library.create(change(np.random.default_rng(1).bytes(500)))
        newest = library.save(entry.design, entry.newest.name, change("2"))
    content = bytearray(file_in(tmp_path).read_bytes())
    place = content.find(np.random.default_rng(1).bytes(500)[100:120])
    assert place > 0
    content[place] ^= 1
    file_in(tmp_path).write_bytes(content)
    with opened(tmp_path) as library:
        with pytest.raises(LibraryError, match="State 1 of “Hedge” is damaged on the disk"):
            library.content(entry.design, entry.newest.name)
        assert library.content(entry.design, newest.name) == b"2"


def test_a_content_packed_soundly_that_is_another_one_is_noticed() -> None:
    assert unpacked(zlib.compress(b"right"), 5, sum_of(b"right")) == b"right"
    for packed in (zlib.compress(b"wrong"), zlib.compress(b"right and more"), zlib.compress(bytes(10**7)), b"", None):
        with pytest.raises(ValueError, match=r"content|check|header"):
            unpacked(packed, 5, sum_of(b"right"))


def test_tables_that_contradict_each_other_are_damage(whole: tuple[Path, Names], tmp_path: Path) -> None:
    folder, names = whole
    for number, spoilt in enumerate(
        ("DELETE FROM designs WHERE id = 2", "UPDATE designs SET newest = 99999", "DROP TABLE designs")
    ):
        place = copied(folder, tmp_path / f"{number}", file_in(folder).read_bytes())
        db = sqlite3.connect(file_in(place), isolation_level=None)
        db.execute(spoilt)
        db.close()
        _, found = saved(place)
        assert found == names


def test_a_state_put_down_to_another_design_finds_home(whole: tuple[Path, Names], tmp_path: Path) -> None:
    folder, names = whole
    for number, spoilt in enumerate(("design = 77 WHERE number = 1", "design = 5 WHERE number = 9 AND design = 2")):
        place = copied(folder, tmp_path / f"{number}", file_in(folder).read_bytes())
        db = sqlite3.connect(file_in(place), isolation_level=None)
        if number == 0:
            spoilt += " AND design = 2"
        else:  # its number is taken there
            db.execute("DROP TABLE designs")
            db.execute("UPDATE states SET number = 99 WHERE design = 5 AND number = 9")
        db.execute(f"UPDATE states SET {spoilt}")
        db.close()
        _, found = saved(place)
        if number == 0:
            assert found == names
        else:
            assert lost(names, found) == 1
            assert found[2] == names[2]


def test_the_journal_of_a_damaged_file_stays_with_it(whole: tuple[Path, Names], tmp_path: Path) -> None:
    """Else SQLite would roll it back into the file that takes its place."""
    folder, names = whole
    content = file_in(folder).read_bytes()
    place = copied(folder, tmp_path / "hot", b"\xff" * 100 + content[100:])
    journal = salvage.journal_of(file_in(place))
    journal.write_bytes(b"no journal of any kind")
    _, found = saved(place)
    assert found == names
    assert not journal.exists()


def test_damage_while_it_is_open_is_a_sentence(whole: tuple[Path, Names], tmp_path: Path) -> None:
    folder, names = whole
    place = copied(folder, tmp_path / "open", file_in(folder).read_bytes())
    with opened(place) as library:
        with file_in(place).open("r+b") as stream:
            stream.seek(24)
            stream.write(b"\x77" * 4)  # the counter of changes: SQLite forgets what it had in memory
            stream.seek(PAGE)
            stream.write(b"\xff" * 40 * PAGE)
        with pytest.raises(LibraryError, match=r"damaged while it was open.*start again"):
            library.create(change("x" * 10))
    _, found = saved(place)
    assert lost(names, found) > 0


def test_a_newer_library_is_refused_and_not_touched(whole: tuple[Path, Names], tmp_path: Path) -> None:
    folder, _ = whole
    place = copied(folder, tmp_path / "newer", file_in(folder).read_bytes())
    db = sqlite3.connect(file_in(place))
    db.execute("PRAGMA user_version = 2")
    db.execute("CREATE TABLE of_tomorrow (x)")
    db.commit()
    db.close()
    before = file_in(place).read_bytes()
    with pytest.raises(LibraryError, match="newer version of this program and was not touched"):
        told_on_opening(place)
    assert file_in(place).read_bytes() == before
    assert sorted(path.name for path in place.iterdir()) == [LOCK, "library.sqlite"]


def test_a_database_of_another_program_is_refused_and_not_touched(tmp_path: Path) -> None:
    db = sqlite3.connect(file_in(tmp_path))
    db.execute("CREATE TABLE birds (name)")
    db.commit()
    db.close()
    before = file_in(tmp_path).read_bytes()
    with pytest.raises(LibraryError, match="database of another program and was not touched"):
        told_on_opening(tmp_path)
    assert file_in(tmp_path).read_bytes() == before


def test_a_folder_in_its_place_is_a_sentence(tmp_path: Path) -> None:
    file_in(tmp_path).mkdir()
    with pytest.raises(LibraryError, match="is a folder"):
        told_on_opening(tmp_path)


def test_two_damaged_files_of_one_second_have_two_names(tmp_path: Path) -> None:
    for _ in range(3):
        file_in(tmp_path).write_bytes(b"damaged")
        told_on_opening(tmp_path)
    assert sorted(path.name for path in tmp_path.glob(f"*{DAMAGED}")) == [
        "library 2026-11-25 040000 2.damaged",
        "library 2026-11-25 040000 3.damaged",
        "library 2026-11-25 040000.damaged",
    ]


def test_a_damaged_lock_is_no_hindrance(tmp_path: Path) -> None:
    (tmp_path / LOCK).write_bytes(b"garbage" * 1000)
    assert told_on_opening(tmp_path) == ()


def test_salvage_is_carried_on_where_it_stopped(whole: tuple[Path, Names], tmp_path: Path) -> None:
    folder, names = whole
    content = file_in(folder).read_bytes()
    tmp_path.joinpath(f"library 2026-11-24 010203{SALVAGING}").write_bytes(content)
    note, found = saved(tmp_path)
    assert found == names
    assert "“library 2026-11-24 010203.damaged”" in note


def test_older_tables_are_brought_up_to_date_or_left_alone(tmp_path: Path) -> None:
    """There is no older version yet: two made-up steps stand for those to come."""
    with opened(tmp_path) as library:
        library.create(change())

    def first(db: sqlite3.Connection) -> None:
        db.execute("ALTER TABLE designs ADD COLUMN shelf TEXT")

    def second(db: sqlite3.Connection) -> None:
        db.execute("UPDATE designs SET shelf = 'top'")

    def failing(db: sqlite3.Connection) -> None:
        db.execute("UPDATE designs SET shelf = 'bottom'")
        raise sqlite3.OperationalError

    db = sqlite3.connect(file_in(tmp_path), isolation_level=None)
    with pytest.raises(sqlite3.OperationalError):
        schema.migrate(db, {1: first, 2: failing}, 3)
    assert schema.version_of(db) == 1
    assert [row[1] for row in db.execute("PRAGMA table_info(designs)")][-1] == "searched"
    assert schema.migrate(db, {1: first, 2: second}, 3)
    assert schema.version_of(db) == 3
    assert db.execute("SELECT shelf FROM designs").fetchall() == [("top",)]
    assert not schema.migrate(db, {1: first, 2: second}, 3)
    db.close()


def test_pages_are_read_as_sqlite_reads_them(whole: tuple[Path, Names]) -> None:
    """The outside source is SQLite itself."""
    file = file_in(whole[0])
    db = sqlite3.connect(file)
    by_sqlite = {
        row
        for table in ("contents", "states", "designs")
        for row in ((found[0], (None, *found[1:])) for found in db.execute(f"SELECT * FROM {table}"))
    }
    db.close()
    by_us = {
        (number, row) for number, row in rows_on_pages(file.read_bytes()) if len(row) in (4, 5, 12) and number < 999
    }
    assert {each for each in by_us if each[1][0] is None} == by_sqlite


def test_salvage_knows_the_tables_by_their_columns(tmp_path: Path) -> None:
    told_on_opening(tmp_path)
    db = sqlite3.connect(file_in(tmp_path))
    columns = {
        table: len(db.execute(f"PRAGMA table_info({table})").fetchall()) for table in ("contents", "states", "designs")
    }
    db.close()
    assert columns == {
        "contents": salvage.CONTENTS_COLUMNS,
        "states": salvage.STATES_COLUMNS,
        "designs": salvage.DESIGNS_COLUMNS,
    }
    assert schema.VERSION == 1  # another version has other columns: teach salvage both
