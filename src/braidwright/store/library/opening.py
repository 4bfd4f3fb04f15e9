"""opening: find the library file sound, or make it so, and say in sentences what had to be done.

One process at a time opens. A new library is made beside and renamed into its place; a damaged one is renamed first
(…salvaging), then read, and what was saved takes its place, so that a process killed anywhere in between leaves
something that the next start carries on from.
"""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Final

from braidwright.domain.errors import LibraryError
from braidwright.store.library.connection import PATIENCE_S, connect, is_damage, told
from braidwright.store.library.records import moment
from braidwright.store.library.rows import OF_STATES, moment_of, true_state
from braidwright.store.library.salvage import Saved, journal_of, salvage
from braidwright.store.library.schema import APPLICATION, TABLES, VERSION, create_tables, migrate, version_of
from braidwright.store.library.sql_library import SqlLibrary

FILE: Final = "library.sqlite"
LOCK: Final = "library.lock"
SALVAGING: Final = ".salvaging"
DAMAGED: Final = ".damaged"
PART: Final = "library.part"
WORK: Final = "library.work"


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """An opened library.

    Attributes:
        library: The library.
        notes: Sentences for the maker about what had to be done; usually none.
    """

    library: SqlLibrary
    notes: tuple[str, ...]


def open_library(folder: Path, at: datetime, patience_s: float = PATIENCE_S) -> Opened:
    """Open the library in a folder; it is begun when there is none, and saved from its file when that is damaged.

    Args:
        folder: Made when it is not there.
        at: Now, to date a damaged file that is put aside.
        patience_s: How long to wait for another process, seconds.

    Raises:
        LibraryError: The file cannot be read or written, is of a newer program, or is something else; it is untouched.
    """
    with told(folder / FILE):
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        file = (folder / FILE).resolve()
        with _alone(file.with_name(LOCK), patience_s):
            notes = [*_carried_on(file), *_made_sound(file, at, patience_s)]
            return Opened(library=SqlLibrary(file, patience_s), notes=tuple(notes))


def _made_sound(file: Path, at: datetime, patience_s: float) -> Iterator[str]:
    if not file.exists():
        _begin(file)
    elif file.is_dir():
        raise LibraryError(f"{file} is a folder, where the library file belongs; move it elsewhere and start again.")
    elif not _is_sound(file, patience_s):
        aside = _free_name(file, at)
        _rename(file, aside)
        yield _salvaged(file, aside)


def _is_sound(file: Path, patience_s: float) -> bool:
    """Whether the library is whole; an older one is brought up to date.

    Raises:
        LibraryError: It is of a newer program, or is no library.
    """
    if file.stat().st_size == 0:  # a library is never begun empty: this one was cut short
        return False
    try:
        with closing(connect(file, patience_s)) as db:
            _check_kind(db, file)
            migrate(db)
            return db.execute("PRAGMA integrity_check(1)").fetchone() == ("ok",) and not _contradicts_itself(db)
    except (KeyError, UnicodeDecodeError):  # a version that never was; a message that quotes damaged text
        return False
    except sqlite3.Error as error:
        if is_damage(error):
            return False
        raise


def _check_kind(db: sqlite3.Connection, file: Path) -> None:
    tables = {str(name) for (name,) in db.execute("SELECT name FROM sqlite_schema WHERE type = 'table'")}
    kind = db.execute("PRAGMA application_id").fetchone()[0]
    if kind != APPLICATION and "states" not in tables:  # else it is ours, and its head was damaged
        raise LibraryError(
            f"{file} is a database of another program and was not touched; move it elsewhere and start again."
        )
    if kind == APPLICATION and version_of(db) > VERSION:
        raise LibraryError(
            f"The library {file} was written by a newer version of this program and was not touched; get that version."
        )


def _contradicts_itself(db: sqlite3.Connection) -> bool:
    if db.execute("PRAGMA application_id").fetchone()[0] != APPLICATION or version_of(db) != VERSION:
        return True
    if not {sql for (sql,) in db.execute("SELECT sql FROM sqlite_schema")} >= {*TABLES}:
        return True
    if db.execute("PRAGMA foreign_key_check").fetchone() is not None:
        return True
    # Of the rows themselves, those that lists are made of: all of them would take a second in a library of many years.
    newest = db.execute(f"SELECT {OF_STATES} FROM designs JOIN states ON states.id = designs.newest")
    moments = db.execute("SELECT begun, removed FROM designs")
    return any(true_state(row) is None for row in newest) or not all(_are_moments(row) for row in moments)


def _are_moments(row: tuple[object, object]) -> bool:
    try:
        return all(each is None or moment_of(each) is not None for each in row)
    except (ValueError, OverflowError):
        return False


def _begin(file: Path) -> None:
    """A new library, whole or not at all."""
    part = file.with_name(PART)
    _fresh(part)
    part.replace(file)
    _sync(file.parent)


def _fresh(part: Path) -> None:
    for left in (part, journal_of(part)):  # by a process that died
        left.unlink(missing_ok=True)
    part.touch(mode=0o600)
    db = connect(part)
    try:
        create_tables(db)
    finally:
        db.close()


def _salvaged(file: Path, aside: Path) -> str:
    """Put what can be read of a file set aside in its place; the sentence that says so."""
    part, work = file.with_name(PART), file.with_name(WORK)
    for left in (work, journal_of(work)):
        left.unlink(missing_ok=True)
    _fresh(part)
    saved = salvage(aside, work, part)
    part.replace(file)
    _sync(file.parent)
    kept = _set_down(aside)
    return _told_saved(saved, kept)


def _set_down(aside: Path) -> Path:
    kept = aside.with_suffix(DAMAGED)
    aside.replace(kept)
    if journal_of(aside).exists():
        journal_of(aside).replace(journal_of(kept))
    return kept


def _told_saved(saved: Saved, kept: Path) -> str:
    found = "nothing in it could be read, so an empty library was begun"
    if saved.states:
        lost = f"; {_counted(saved.lost, 'state')} could not be read" if saved.lost else ""
        found = f"{_counted(saved.designs, 'design')} with {_counted(saved.states, 'state')} could be saved{lost}"
    return f"The library file was damaged: {found}; the damaged file is kept as “{kept.name}” in {kept.parent}."


def _counted(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"


def _carried_on(file: Path) -> Iterator[str]:
    """Finish what a process that died while salvaging left."""
    for aside in sorted(file.parent.glob(f"library *{SALVAGING}")):
        if file.exists():  # it died between the last two renames
            kept = _set_down(aside)
            yield (
                f"The library file was damaged, and what could be saved of it was; the damaged file is kept as "
                f"“{kept.name}” in {kept.parent}."
            )
        else:
            if journal_of(file).exists():
                journal_of(file).replace(journal_of(aside))
            yield _salvaged(file, aside)


def _rename(file: Path, aside: Path) -> None:
    """Put the library aside, with a journal that belongs to it; the library first, so that it is never without."""
    file.replace(aside)
    with suppress(FileNotFoundError):
        journal_of(file).replace(journal_of(aside))
    _sync(file.parent)


def _free_name(file: Path, at: datetime) -> Path:
    stamp = moment(at)[:19].replace("T", " ").replace(":", "")
    for more in range(1, 1000):
        name = f"library {stamp}" if more == 1 else f"library {stamp} {more}"
        aside = file.with_name(f"{name}{SALVAGING}")
        if not aside.exists() and not aside.with_suffix(DAMAGED).exists():
            return aside
    raise LibraryError(f"{file.parent} holds too many damaged libraries; move them elsewhere and start again.")


@contextmanager
def _alone(lock: Path, patience_s: float) -> Iterator[None]:
    """Hold a lock that the system lets go when the process ends, however it ends."""
    if lock.exists() and lock.stat().st_size:  # nothing is ever written there: it is damaged, and worth nothing
        lock.unlink(missing_ok=True)
    db = sqlite3.connect(lock, timeout=patience_s, isolation_level=None)
    try:
        db.execute("BEGIN EXCLUSIVE")
        yield
    finally:
        db.close()


def _sync(folder: Path) -> None:
    """Have renames in a folder on the disk; systems on which a folder cannot be opened do so on their own."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
