"""Troubles that are nobody's damage: a full disk, a file that went away, a process that holds the file.

No outside source: promises of ours. A full disk is SQLite's own limit on the pages of a file.
"""

import os
import sqlite3
import threading
from pathlib import Path

import pytest

from braidwright.domain.errors import LibraryError
from braidwright.store.library import connection, opening
from braidwright.store.library.opening import PART, SALVAGING, open_library
from library_kit import NOW, change, file_in, later, opened, told_on_opening


def limit_pages(monkeypatch: pytest.MonkeyPatch, most: int) -> None:
    """From now on every connection finds its disk full at so many pages."""
    before = connection.connect

    def limited(path: Path, patience_s: float = 1.0) -> sqlite3.Connection:
        db = before(path, patience_s)
        db.execute(f"PRAGMA max_page_count = {most}")
        return db

    for module in ("connection", "opening", "salvage"):
        monkeypatch.setattr(f"braidwright.store.library.{module}.connect", limited)


def test_a_full_disk_loses_only_the_change_that_did_not_fit(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    limit_pages(monkeypatch, 40)
    with opened(tmp_path) as library:
        entry = library.create(change("0"))
        newest = entry.newest
        told = ""
        for step in range(1000):
            try:
                newest = library.save(entry.design, newest.name, change(os.urandom(5000), at=later(step)))
            except LibraryError as error:
                told = str(error)
                break
        assert "so the last change was not kept; all earlier ones are; make room" in told
        assert library.entry(entry.design).newest == newest
        library.save(entry.design, newest.name, change("small"))  # what fits is still kept
    with opened(tmp_path) as library:
        assert library.history(entry.design)[-2] == newest


def test_a_disk_full_while_saving_a_damaged_library_leaves_it_for_the_next_start(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with opened(tmp_path) as library:
        for at in range(30):
            library.create(change(os.urandom(3000), title=f"{at}", at=later(at)))
    damaged = b"\0" * 4096 + file_in(tmp_path).read_bytes()[4096:]
    file_in(tmp_path).write_bytes(damaged)
    with monkeypatch.context() as full:
        limit_pages(full, 20)
        for _ in range(2):
            with pytest.raises(LibraryError, match="no room left"):
                told_on_opening(tmp_path)
    (left,) = tmp_path.glob(f"*{SALVAGING}")
    assert left.read_bytes() == damaged
    assert not file_in(tmp_path).exists()
    (note,) = told_on_opening(tmp_path)
    assert "30 designs with 30 states could be saved;" in note


def test_a_disk_full_while_beginning_leaves_nothing_half_made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with monkeypatch.context() as full:
        limit_pages(full, 3)
        with pytest.raises(LibraryError, match="no room left"):
            told_on_opening(tmp_path)
    assert not file_in(tmp_path).exists()
    assert told_on_opening(tmp_path) == ()
    assert not (tmp_path / PART).exists()


@pytest.mark.parametrize("what", ["removed", "renamed", "replaced"])
def test_a_file_that_went_away_while_it_was_open_acknowledges_nothing(tmp_path: Path, what: str) -> None:
    (tmp_path / "other").mkdir()
    with opened(tmp_path / "other") as library:
        library.create(change())
    with opened(tmp_path) as library:
        entry = library.create(change("0"))
        match what:
            case "removed":
                file_in(tmp_path).unlink()
            case "renamed":
                file_in(tmp_path).rename(tmp_path / "elsewhere")
            case _:
                file_in(tmp_path / "other").replace(file_in(tmp_path))
        with pytest.raises(LibraryError, match=r"moved or replaced|cannot be read or written"):
            library.save(entry.design, entry.newest.name, change("1"))


def test_the_file_in_its_place_is_compared_with_the_one_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """SQLite notices a moved file on some systems only."""
    with opened(tmp_path) as library:
        entry = library.create(change("0"))
        monkeypatch.setattr(connection, "_identity", lambda _: (1, 2))
        with pytest.raises(LibraryError, match="moved or replaced while it was open"):
            library.save(entry.design, entry.newest.name, change("1"))


def test_a_process_that_holds_the_file_is_waited_for_and_then_told(tmp_path: Path) -> None:
    with opened(tmp_path) as library:
        entry = library.create(change("0"))
    found = open_library(tmp_path, NOW, patience_s=0.2)
    other = sqlite3.connect(file_in(tmp_path), isolation_level=None, check_same_thread=False)
    other.execute("BEGIN IMMEDIATE")
    with pytest.raises(LibraryError, match="Another window is busy"):
        found.library.save(entry.design, entry.newest.name, change("1"))
    assert len(found.library.history(entry.design)) == 1  # reading goes on meanwhile
    other.execute("ROLLBACK")
    found.library.save(entry.design, entry.newest.name, change("1"))
    found.library.close()
    patient = open_library(tmp_path, NOW, patience_s=20.0)
    other.execute("BEGIN EXCLUSIVE")
    letting_go = threading.Timer(0.3, lambda: other.execute("ROLLBACK"))
    letting_go.start()
    patient.library.remove(entry.design, NOW)
    letting_go.join()
    patient.library.close()
    other.close()


def test_one_process_at_a_time_opens(tmp_path: Path) -> None:
    lock = sqlite3.connect(tmp_path / opening.LOCK, isolation_level=None)
    lock.execute("BEGIN EXCLUSIVE")
    with pytest.raises(LibraryError, match="Another window is busy"):
        open_library(tmp_path, NOW, patience_s=0.1)
    lock.close()
    assert told_on_opening(tmp_path) == ()


def test_a_place_that_cannot_be_is_a_sentence(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"")
    with pytest.raises(LibraryError, match="cannot be reached"):
        told_on_opening(tmp_path / "file" / "library")


def test_a_link_to_the_library_is_followed(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    (tmp_path / "linked").mkdir()
    with opened(tmp_path / "real") as library:
        library.create(change())
    file_in(tmp_path / "linked").symlink_to(file_in(tmp_path / "real"))
    with opened(tmp_path / "linked") as library:
        assert len(library.entries()) == 1
    file_in(tmp_path / "real").write_bytes(b"damaged")
    told_on_opening(tmp_path / "linked")
    assert file_in(tmp_path / "linked").is_symlink()
    assert list((tmp_path / "real").glob("*.damaged"))


@pytest.mark.parametrize("name", ["a b", "50%", "what?mode=ro", "a#b", "é漢字 🧶", "it's", "file:x"])
def test_a_folder_may_have_any_name(tmp_path: Path, name: str) -> None:
    with opened(tmp_path / name) as library:
        library.create(change())
    with opened(tmp_path / name) as library:
        assert len(library.entries()) == 1
    assert file_in(tmp_path / name).exists()


def test_only_its_owner_reads_a_new_library(tmp_path: Path) -> None:
    told_on_opening(tmp_path / "new")
    if os.name == "posix":
        assert file_in(tmp_path / "new").stat().st_mode & 0o077 == 0
        assert (tmp_path / "new").stat().st_mode & 0o077 == 0


def test_every_change_is_on_the_disk_before_it_is_acknowledged(tmp_path: Path) -> None:
    """What SQLite's documents say is needed for that: `synchronous` is 3 (EXTRA), and the journal is deleted."""
    with opened(tmp_path) as library, library._connection.reading() as db:
        assert db.execute("PRAGMA synchronous").fetchone() == (3,)
        assert db.execute("PRAGMA journal_mode").fetchone() == ("delete",)
        assert db.execute("PRAGMA foreign_keys").fetchone() == (1,)
        assert db.execute("PRAGMA trusted_schema").fetchone() == (0,)
