"""library: what a maker can ask of the library: begin, keep, look and bring back, search, throw away, take in and out.

Whatever is kept was read as a design first. The moment is handed in, since no clock ticks below the doors.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from typing import BinaryIO

from braidwright.app.designs import decoded
from braidwright.app.library_facts import facts_of
from braidwright.app.library_port import LibraryStore
from braidwright.catalogue.shelf import Catalogue
from braidwright.domain.design import Design
from braidwright.domain.document import Reading, read_design, write_design
from braidwright.domain.errors import BraidwrightError
from braidwright.store.library.archive_reader import Archive
from braidwright.store.library.archive_writer import write_archive
from braidwright.store.library.records import Change, Entry, History, State

LONGEST_FILE_NAME = 60  # letters, before its ending
DEVICES = re.compile("aux|con|nul|prn|com[0-9]|lpt[0-9]")  # names that one system keeps for itself, whatever the ending


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """A state of a design, read.

    Attributes:
        state: The state.
        reading: The design and what reading it had to tell.
        content: The design file, byte for byte as it was kept.
    """

    state: State
    reading: Reading
    content: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenIn:
    """What came in with a library file.

    Attributes:
        entries: The designs that were added.
        notes: Sentences about those that were not, and why.
    """

    entries: tuple[Entry, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Library:
    """A maker's designs.

    Every method raises LibraryError when the library cannot be read or written, and RequestError for a design or a
    state that is not there; then nothing has changed.

    Attributes:
        store: Where they are kept.
        catalogue: What their braids and beads are looked up in.
    """

    store: LibraryStore
    catalogue: Catalogue

    def begin(self, design: Design, at: datetime, doing: str = "begun") -> Entry:
        """A new design in the library."""
        return self.take_in(_text_of(design), at, doing)

    def take_in(self, content: bytes, at: datetime, doing: str = "taken in from a file") -> Entry:
        """A design file as a new design, kept byte for byte.

        Raises:
            BraidwrightError: It is no design: what is wrong, where, and what to do.
        """
        return self.store.create(self._change(content, doing, at))

    def save(self, design: int, made_from: str, content: bytes, doing: str, at: datetime) -> State:
        """Keep a change.

        Args:
            design: The number of the design.
            made_from: The name of the state the maker was looking at.
            content: The design file as it is now.
            doing: What was done, in a few words.
            at: Now.

        Returns:
            The newest state.

        Raises:
            StaleError: It was changed elsewhere since; nothing was kept. `take_in` keeps it as a copy.
            BraidwrightError: It is no design.
        """
        return self.store.save(design, made_from, self._change(content, doing, at))

    def look(self, design: int, name: str | None = None) -> Looked:
        """A state of a design; the newest when none is named.

        Raises:
            BraidwrightError: That state can no longer be read.
        """
        wanted = self.store.entry(design).newest.name if name is None else name
        state = self.store.state(design, wanted)
        content = self.store.content(design, wanted)
        return Looked(state=state, content=content, reading=self._read(content))

    def rename(self, design: int, made_from: str, title: str, at: datetime) -> State:
        """Give a design another title, which is a change like any other."""
        named = replace(self.look(design, made_from).reading.design, title=title)
        return self.save(design, made_from, _text_of(named), "renamed", at)

    def duplicate(self, design: int, title: str, at: datetime) -> Entry:
        """A new design that begins where another one is now."""
        looked = self.look(design)
        named = replace(looked.reading.design, title=title)
        return self.begin(named, at, f"copied from “{looked.state.title}”")

    def bring_back(self, design: int, made_from: str, name: str, at: datetime) -> State:
        """Make an earlier state the newest one again; the ones in between stay in the history.

        Args:
            design: The number of the design.
            made_from: The name of the newest state the maker saw.
            name: The state to bring back.
            at: Now.

        Raises:
            StaleError: It was changed elsewhere since.
            BraidwrightError: That state can no longer be read.
        """
        looked = self.look(design, name)
        change = self._change(looked.content, f"state {looked.state.number} brought back", at)
        return self.store.save(design, made_from, replace(change, brought_back=name))

    def search(self, words: str = "") -> tuple[Entry, ...]:
        """The designs in whose title, braid, beads or notes every word is found, the one changed last first."""
        return self.store.entries(words)

    def thrown_away(self) -> tuple[Entry, ...]:
        """The designs that can still be taken back."""
        return self.store.entries(removed=True)

    def history(self, design: int) -> tuple[State, ...]:
        """Every state of a design, the first one first."""
        return self.store.history(design)

    def throw_away(self, design: int, at: datetime) -> None:
        """Take a design out of the list; it can be taken back."""
        self.store.remove(design, at)

    def take_back(self, design: int) -> Entry:
        """Put a design that was thrown away back in the list."""
        self.store.take_back(design)
        return self.store.entry(design)

    def purge(self, before: datetime) -> int:
        """Delete for good, with all their states, the designs thrown away before a moment; returns how many."""
        return self.store.purge(before)

    def file_of(self, design: int, name: str | None = None) -> tuple[str, bytes]:
        """A file name made from the title, and the design file of a state, byte for byte as it was kept."""
        state = self.store.entry(design).newest if name is None else self.store.state(design, name)
        return f"{file_name(state.title)}.json", self.store.content(design, state.name)

    def write_all(self, stream: BinaryIO) -> tuple[str, ...]:
        """Write the whole library, those thrown away too, with all states, as one file.

        Returns:
            Sentences about states that were damaged on the disk and are left out; usually none.

        Raises:
            RequestError: It is too large for one file.
        """
        return write_archive((*self.search(), *self.thrown_away()), self.store, stream)

    def take_in_all(self, stream: BinaryIO) -> TakenIn:
        """Add the designs of a library file, with all their states; what is here stays as it is.

        A design that is here already, at that state or further on, is passed over, and so is one that cannot be read.

        Raises:
            DocumentError: It is no library file, or damaged; then nothing was added.
        """
        archive = Archive(stream)
        wanted, notes = [], []
        for number, history in enumerate(archive.histories, 1):
            note = self._why_not(history, archive.newest(number))
            if note is None:
                wanted.append((number, history))
            else:
                notes.append(note)
        added = self.store.add(_with_contents(archive, wanted))
        return TakenIn(entries=tuple(self.store.entry(design) for design in added), notes=tuple(notes))

    def _why_not(self, history: History, content: bytes) -> str | None:
        newest = history.states[-1]
        if history.removed is None and self.store.holds(newest.name):
            return f"“{newest.title}” is in the library already and was left as it is."
        try:
            self._read(content)
        except BraidwrightError as error:
            return f"“{newest.title}” was left out, since it cannot be read: {error}"
        return None

    def _change(self, content: bytes, doing: str, at: datetime) -> Change:
        design = self._read(content).design
        facts = facts_of(design, self.catalogue)
        return Change(content=content, title=design.title, facts=facts, doing=doing, at=at)

    def _read(self, content: bytes) -> Reading:
        return read_design(decoded(content, "The design"), self.catalogue.braid)


def file_name(title: str) -> str:
    """A file name that every system takes, made from a title: its letters and digits, joined by hyphens."""
    words = re.findall(r"[^\W_]+", title.casefold())
    name = "-".join(words)[:LONGEST_FILE_NAME].strip("-") or "design"
    return f"{name}-design" if DEVICES.fullmatch(name) else name


def _text_of(design: Design) -> bytes:
    # A lone half of a surrogate pair, in a field this program does not know, becomes the JSON escape it came from.
    return write_design(design).encode("utf-8", "backslashreplace")


def _with_contents(
    archive: Archive, wanted: Iterable[tuple[int, History]]
) -> Iterator[tuple[History, Iterator[bytes]]]:
    for number, history in wanted:
        yield history, archive.contents(number)
