"""library_port: what the use cases of the library ask of whatever keeps it."""

from collections.abc import Iterable
from datetime import datetime
from typing import Protocol

from braidwright.store.library.records import Change, Entry, History, State

__all__ = ["Change", "Entry", "History", "LibraryStore", "State"]


class LibraryStore(Protocol):
    """Where designs are kept with every state they ever had.

    Every method raises LibraryError when the library cannot be read or written, and RequestError for a design or a
    state that is not there; then nothing has changed.
    """

    def close(self) -> None:
        """Let go of it."""

    def create(self, change: Change) -> Entry:
        """A new design, of one state."""

    def save(self, design: int, made_from: str, change: Change) -> State:
        """Keep a change. Raises StaleError when it was made from a state that is no longer the newest."""

    def entry(self, design: int) -> Entry:
        """A design, thrown away or not."""

    def entries(self, words: str = "", *, removed: bool = False) -> tuple[Entry, ...]:
        """The designs in which all words are found, or those thrown away; the one changed last first."""

    def history(self, design: int) -> tuple[State, ...]:
        """Every state of a design, the first one first."""

    def state(self, design: int, name: str) -> State:
        """One state of a design."""

    def content(self, design: int, name: str) -> bytes:
        """The content of a state, byte for byte."""

    def remove(self, design: int, at: datetime) -> None:
        """Throw a design away."""

    def take_back(self, design: int) -> None:
        """Undo that."""

    def purge(self, before: datetime) -> int:
        """Delete for good what was thrown away before a moment; returns how many designs."""

    def holds(self, name: str) -> bool:
        """Whether a design that is not thrown away has or had this state."""

    def add(self, histories: Iterable[tuple[History, Iterable[bytes]]]) -> tuple[int, ...]:
        """Add designs with all their states, together or not at all."""
