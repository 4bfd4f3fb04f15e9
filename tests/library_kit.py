"""What the tests of the library share: moments, changes, and a library in a folder."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path

from braidwright.store.library.opening import FILE, open_library
from braidwright.store.library.records import Change
from braidwright.store.library.sql_library import SqlLibrary

NOW = datetime(2026, 11, 25, 4, 0, tzinfo=UTC)


def later(seconds: float) -> datetime:
    """A moment after NOW."""
    return NOW + timedelta(seconds=seconds)


def change(content: bytes | str = b"{}", title: str = "Hedge", at: datetime = NOW, **facts: str) -> Change:
    """A change; the store does not mind what its content is."""
    raw = content.encode() if isinstance(content, str) else content
    return Change(content=raw, title=title, facts=tuple(facts.items()), doing="painted", at=at)


@contextmanager
def opened(folder: Path, at: datetime = NOW, *, sound: bool = True) -> Iterator[SqlLibrary]:
    """The library in a folder; `sound` demands that nothing had to be said."""
    found = open_library(folder, at)
    try:
        assert not sound or found.notes == ()
        yield found.library
    finally:
        found.library.close()


def file_in(folder: Path) -> Path:
    """The library file."""
    return folder / FILE


def told_on_opening(folder: Path, at: datetime = NOW) -> tuple[str, ...]:
    """What opening it has to say."""
    found = open_library(folder, at)
    found.library.close()
    return found.notes
