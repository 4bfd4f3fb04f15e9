"""connection: one connection to the library file, safe for threads, and what its troubles are called.

A rollback journal and not a write-ahead log: see docs/decisions.md. `synchronous = EXTRA` has every change on the disk,
journal and folder too, before it is acknowledged.
"""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from threading import RLock
from typing import Final

from braidwright.domain.errors import LibraryError

PATIENCE_S: Final = 15.0  # how long to wait for another process that is writing
DAMAGED: Final = (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB)


class Connection:
    """The library file, open.

    Args:
        path: The file, which exists.
        patience_s: How long to wait for another process, seconds.

    Raises:
        LibraryError: It cannot be opened.
    """

    def __init__(self, path: Path, patience_s: float = PATIENCE_S) -> None:
        self._path = path
        self._lock = RLock()
        with told(path):
            self._db = connect(path, patience_s)
            self._opened = _identity(path)

    def close(self) -> None:
        """Close it; closing twice does nothing."""
        with self._lock:
            self._db.close()

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """Inside, everything that is read is of one moment."""
        with self._lock, told(self._path), _within(self._db, "BEGIN"):
            yield self._db

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """Inside, everything is written when the block ends without an error, or nothing; then it is on the disk."""
        with self._lock, told(self._path):
            with _within(self._db, "BEGIN IMMEDIATE"):
                yield self._db
            if _identity(self._path) != self._opened:
                raise LibraryError(
                    f"The library file {self._path} was moved or replaced while it was open, so this change was not "
                    f"kept there; close every window and start again."
                )


def connect(path: Path, patience_s: float = PATIENCE_S) -> sqlite3.Connection:
    """A connection with the settings of the house; raises sqlite3.Error. The file must exist."""
    db = sqlite3.connect(
        f"{path.as_uri()}?mode=rw", timeout=patience_s, isolation_level=None, check_same_thread=False, uri=True
    )
    try:
        db.text_factory = _text
        for setting in (
            "trusted_schema = OFF",
            "cell_size_check = ON",
            "foreign_keys = ON",
            "secure_delete = ON",  # what is deleted is overwritten: purged is gone, and free pages hold no rows
            "synchronous = EXTRA",
            "fullfsync = ON",  # macOS: through the disk's own cache, too
        ):
            db.execute(f"PRAGMA {setting}")
    except BaseException:
        db.close()
        raise
    return db


@contextmanager
def told(path: Path) -> Iterator[None]:
    """Say in one sentence what is wrong with the library file."""
    try:
        yield
    except UnicodeDecodeError as error:  # SQLite quotes damaged text in a message
        raise LibraryError(_sentence(path, sqlite3.SQLITE_CORRUPT, "") or "") from error
    except sqlite3.Error as error:
        code = getattr(error, "sqlite_errorcode", None)
        sentence = _sentence(path, None if code is None else code & 0xFF, str(error))
        if sentence is None:
            raise
        raise LibraryError(sentence) from error
    except OSError as error:
        reason = error.strerror or "no reason given"
        raise LibraryError(
            f"The library {path} cannot be reached ({reason}); check the disk and the permissions of its folder."
        ) from error


def is_damage(error: sqlite3.Error) -> bool:
    """Whether an error says that the file itself is damaged."""
    code = getattr(error, "sqlite_errorcode", None)
    return code is not None and code & 0xFF in DAMAGED


def _sentence(path: Path, code: int | None, said: str) -> str | None:
    match code:
        case sqlite3.SQLITE_FULL:
            return (
                f"There is no room left for the library {path}, so the last change was not kept; all earlier ones "
                f"are; make room and try again."
            )
        case sqlite3.SQLITE_BUSY | sqlite3.SQLITE_LOCKED:
            return (
                f"Another window is busy with the library {path}, so the last change was not kept; try again in a "
                f"moment."
            )
        case sqlite3.SQLITE_CORRUPT | sqlite3.SQLITE_NOTADB:
            return (
                f"The library file {path} was damaged while it was open, so the last change was not kept; close every "
                f"window and start again: what can be saved is saved then."
            )
        case sqlite3.SQLITE_READONLY | sqlite3.SQLITE_PERM | sqlite3.SQLITE_CANTOPEN | sqlite3.SQLITE_IOERR:
            return (
                f"The library {path} cannot be read or written ({said}), so the last change was not kept; check the "
                f"disk and the permissions of the file and its folder."
            )
    return "The library is closed; start again." if "closed database" in said else None


@contextmanager
def _within(db: sqlite3.Connection, begin: str) -> Iterator[None]:
    db.execute(begin)
    try:
        yield
        db.execute("COMMIT")
    except BaseException:
        if db.in_transaction:
            with suppress(sqlite3.Error):
                db.execute("ROLLBACK")
        raise


def _identity(path: Path) -> tuple[int, int] | None:
    try:
        about = os.stat(path)
    except FileNotFoundError:
        return None
    return (about.st_dev, about.st_ino)


def _text(content: bytes) -> str:
    """Damaged text is read too, and then does not match its sum."""
    return content.decode("utf-8", "replace")
