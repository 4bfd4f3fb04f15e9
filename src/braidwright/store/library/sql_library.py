"""sql_library: the library in its file: every change is on the disk when its method returns.

Nothing is overwritten, and each method is one transaction. Several threads may use one library, and several processes
one file.
"""

import sqlite3
from collections.abc import Iterable
from datetime import datetime
from pathlib import Path

from braidwright.domain.errors import DamagedError, LibraryError, RequestError, StaleError
from braidwright.store.library.connection import PATIENCE_S, Connection
from braidwright.store.library.records import MOST_BYTES, Change, Entry, History, State, moment, state_after
from braidwright.store.library.rows import (
    COLUMNS,
    OF_STATES,
    add_content,
    add_design,
    append,
    entry_of,
    true_state,
    unpacked,
    words_of,
)

ENTRIES = (
    f"SELECT designs.id, designs.begun, designs.removed, {OF_STATES} "
    "FROM designs JOIN states ON states.id = designs.newest"
)
LARGEST_NUMBER = 2**63 - 1  # SQLite has no larger ones

Row = tuple[object, ...]


class SqlLibrary:
    """The designs in one library file.

    Args:
        path: The file, which `open_library` has made and examined.
        patience_s: How long to wait for another process that is writing, seconds.

    Raises:
        LibraryError: Any method: the file cannot be read or written, in one sentence; then nothing has changed.
        RequestError: Any method that is given a design or a state: there is none.
    """

    def __init__(self, path: Path, patience_s: float = PATIENCE_S) -> None:
        self._path = path
        self._connection = Connection(path, patience_s)

    def close(self) -> None:
        """Close the file; every change is on the disk already."""
        self._connection.close()

    def create(self, change: Change) -> Entry:
        """A new design, of one state."""
        _check_size(change)
        state = state_after(None, change)
        with self._connection.writing() as db:
            add_content(db, change.content)
            return self._entry(db, add_design(db, History(states=(state,))))

    def save(self, design: int, made_from: str, change: Change) -> State:
        """Keep a change of a design as its newest state.

        A change that changes nothing, or that was kept just now and is sent again, makes no further state.

        Args:
            design: Its number.
            made_from: The name of the state the change was made from.
            change: The design as it is now.

        Returns:
            The newest state.

        Raises:
            StaleError: Somebody kept another change since; the sentence says which, and nothing was kept.
            RequestError: It was thrown away, or repeats a state it never had.
        """
        _check_size(change)
        with self._connection.writing() as db:
            entry = self._entry(db, design)
            if entry.removed is not None:
                raise RequestError(
                    f"“{entry.newest.title}” was thrown away, so it cannot be changed; take it back first."
                )
            if change.brought_back is not None:
                self._state(db, design, change.brought_back)
            if _is_there(entry.newest, made_from, change):
                return entry.newest
            if entry.newest.name != made_from:
                raise _stale(entry.newest)
            state = state_after(entry.newest, change)
            append(db, design, state, change)
            return state

    def entry(self, design: int) -> Entry:
        """A design, thrown away or not."""
        with self._connection.reading() as db:
            return self._entry(db, design)

    def entries(self, words: str = "", *, removed: bool = False) -> tuple[Entry, ...]:
        """The designs, the one changed last first.

        Args:
            words: Each has to be found in the title or the facts; case, accents and order do not count.
            removed: The ones thrown away instead of the others.
        """
        asked = tuple(words_of(words))
        filters = "".join(" AND instr(designs.searched, ?) > 0" for _ in asked[:100])
        query = (
            f"{ENTRIES} WHERE designs.removed IS {'NOT ' if removed else ''}NULL{filters} "
            f"ORDER BY states.at DESC, states.id DESC"
        )
        with self._connection.reading() as db:
            return tuple(self._made(row) for row in db.execute(query, asked[:100]))

    def history(self, design: int) -> tuple[State, ...]:
        """Every state of a design, the first one first; one that was damaged on the disk is left out."""
        with self._connection.reading() as db:
            self._entry(db, design)
            rows = db.execute(f"SELECT {COLUMNS} FROM states WHERE design = ? ORDER BY number", (design,))
            return tuple(state for row in rows if (state := true_state(row)) is not None)

    def state(self, design: int, name: str) -> State:
        """One state of a design."""
        with self._connection.reading() as db:
            return self._state(db, design, name)

    def content(self, design: int, name: str) -> bytes:
        """The content of a state, byte for byte as it was handed in.

        Raises:
            DamagedError: It was damaged since.
        """
        with self._connection.reading() as db:
            state = self._state(db, design, name)
            row = db.execute("SELECT packed FROM contents WHERE sum = ?", (state.content_sum,)).fetchone()
        try:
            return unpacked(None if row is None else row[0], state.size, state.content_sum)
        except ValueError as error:
            raise DamagedError(
                f"State {state.number} of “{state.title}” is damaged on the disk and cannot be shown; bring back the "
                f"one before it."
            ) from error

    def remove(self, design: int, at: datetime) -> None:
        """Throw a design away; it can be taken back until it is purged. One thrown away keeps its date."""
        with self._connection.writing() as db:
            self._entry(db, design)
            db.execute("UPDATE designs SET removed = coalesce(removed, ?) WHERE id = ?", (moment(at), design))

    def take_back(self, design: int) -> None:
        """Undo `remove`."""
        with self._connection.writing() as db:
            self._entry(db, design)
            db.execute("UPDATE designs SET removed = NULL WHERE id = ?", (design,))

    def purge(self, before: datetime) -> int:
        """Delete for good the designs thrown away before a moment, and return how many there were."""
        gone = "SELECT id FROM designs WHERE removed < ?"
        with self._connection.writing() as db:
            db.execute(f"DELETE FROM states WHERE design IN ({gone})", (moment(before),))
            count = db.execute("DELETE FROM designs WHERE removed < ?", (moment(before),)).rowcount
            db.execute("DELETE FROM contents WHERE sum NOT IN (SELECT content_sum FROM states)")
            return count

    def holds(self, name: str) -> bool:
        """Whether a design that is not thrown away has, or had, the state of this name."""
        query = "SELECT 1 FROM states JOIN designs ON designs.id = design WHERE name = ? AND removed IS NULL"
        with self._connection.reading() as db:
            return db.execute(query, (name,)).fetchone() is not None

    def add(self, histories: Iterable[tuple[History, Iterable[bytes]]]) -> tuple[int, ...]:
        """Add designs from elsewhere with all their states, together or not at all.

        Args:
            histories: Each with the contents of its states, in their order.

        Returns:
            Their numbers here.
        """
        with self._connection.writing() as db:
            return tuple(self._added(db, history, contents) for history, contents in histories)

    def _added(self, db: sqlite3.Connection, history: History, contents: Iterable[bytes]) -> int:
        for content in contents:
            add_content(db, content)
        return add_design(db, history)

    def _entry(self, db: sqlite3.Connection, design: int) -> Entry:
        row = None
        if 0 < design <= LARGEST_NUMBER:
            row = db.execute(f"{ENTRIES} WHERE designs.id = ?", (design,)).fetchone()
        if row is None:
            raise RequestError(f"There is no design {str(design)[:20]} in the library; choose one from the list.")
        return self._made(row)

    def _state(self, db: sqlite3.Connection, design: int, name: str) -> State:
        title = self._entry(db, design).newest.title
        is_name = len(name) == 64 and name.isascii()
        query = f"SELECT {COLUMNS} FROM states WHERE design = ? AND name = ?"
        row = db.execute(query, (design, name)).fetchone() if is_name else None
        if row is None:
            raise RequestError(f"“{title}” never was in the state asked for; choose one from its history.")
        state = true_state(row)
        if state is None:
            raise DamagedError(f"That state of “{title}” is damaged on the disk and cannot be shown; take another one.")
        return state

    def _made(self, row: Row) -> Entry:
        try:
            return entry_of(row)
        except (ValueError, OverflowError, RecursionError) as error:
            raise LibraryError(
                f"The library file {self._path} was damaged while it was open; close every window and start again: "
                f"what can be saved is saved then."
            ) from error


def _check_size(change: Change) -> None:
    if len(change.content) > MOST_BYTES:
        raise RequestError(f"A design of more than {MOST_BYTES // 1_000_000} MB cannot be kept; make it smaller.")


def _is_there(newest: State, made_from: str, change: Change) -> bool:
    """Whether a change would repeat the newest state, or is the one that made it."""
    again = state_after(newest, change)
    same = (newest.content_sum, newest.title, newest.facts) == (again.content_sum, again.title, again.facts)
    return same and made_from in (newest.name, newest.parent)


def _stale(newest: State) -> StaleError:
    return StaleError(
        f"“{newest.title}” was changed elsewhere since (state {newest.number}, {newest.at:%Y-%m-%d %H:%M} UTC: "
        f"{newest.doing or 'no note'}), so this change was not kept; look at that state, or keep yours as a copy.",
        newest.name,
    )
