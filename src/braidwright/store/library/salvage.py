"""salvage: read out of a damaged library file whatever is still true.

Every row that lies on whole pages is found (`pages`). A state counts when its name is the sum of what it holds and its
content matches its sum, so nothing damaged gets through.
"""

import sqlite3
from collections import defaultdict
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from braidwright.store.library.connection import connect
from braidwright.store.library.pages import Row, Value, rows_on_pages
from braidwright.store.library.records import History, State, moment
from braidwright.store.library.rows import add_content, add_design, moment_of, true_state, unpacked

WIDEST_GAP: Final = 1_000_000  # between two numbers: beyond it one of them was damaged

CONTENTS_COLUMNS: Final = 4  # as schema.py has them; each table has another number of columns
STATES_COLUMNS: Final = 12
DESIGNS_COLUMNS: Final = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Saved:
    """What was saved.

    Attributes:
        designs: How many designs.
        states: How many states of them.
        lost: How many states are known to be missing; some after the last one saved may be besides.
    """

    designs: int
    states: int
    lost: int


@dataclass(slots=True)
class _Found:
    """What was found."""

    states: dict[int, dict[int, State]] = field(default_factory=dict)  # of each design, by number
    removed: dict[int, str] = field(default_factory=dict)  # designs that were thrown away, and when
    left_out: set[tuple[object, object]] = field(default_factory=set)  # design and number of states seen and not true


def salvage(damaged: Path, beside: Path, fresh: Path) -> Saved:
    """Put what can be read of a damaged library into a new one.

    Args:
        damaged: The damaged file, which is not touched; a journal beside it is heeded.
        beside: A file that does not exist, to work on.
        fresh: An empty library, which is filled in one transaction.

    Raises:
        OSError, sqlite3.Error: The disk is full, or the system refuses; the damaged file is as it was.
    """
    content = _rolled_back(damaged, beside)
    found = _found(content)
    wanted = {state.content_sum for states in found.states.values() for state in states.values()}
    new = connect(fresh)
    try:
        new.execute("BEGIN IMMEDIATE")
        for total, whole in _contents(content):
            if total in wanted:
                add_content(new, whole)
        for design in sorted(found.states):
            removed = moment_of(found.removed[design]) if design in found.removed else None
            states = tuple(state for _, state in sorted(found.states[design].items()))
            add_design(new, History(states=states, removed=removed), design)
        new.execute("COMMIT")
    finally:
        new.close()
    count = sum(len(states) for states in found.states.values())
    return Saved(designs=len(found.states), states=count, lost=_lost(found))


def journal_of(path: Path) -> Path:
    """Where the journal of a database is."""
    return path.with_name(f"{path.name}-journal")


def _rolled_back(damaged: Path, beside: Path) -> bytes:
    """The file without the change that was being written when the machine stopped, if the journal can tell."""
    content = damaged.read_bytes()
    if not journal_of(damaged).exists():
        return content
    try:
        beside.write_bytes(content)
        journal_of(beside).write_bytes(journal_of(damaged).read_bytes())
        with suppress(sqlite3.DatabaseError):
            db = connect(beside)
            try:
                db.execute("SELECT count(*) FROM sqlite_schema").fetchone()  # the first reader rolls back
            finally:
                db.close()
        return beside.read_bytes()
    finally:
        beside.unlink(missing_ok=True)
        journal_of(beside).unlink(missing_ok=True)


def _found(content: bytes) -> _Found:
    found = _Found()
    whole = {total for total, _ in _contents(content)}
    states: list[tuple[int, Value, State]] = []
    for number, row in rows_on_pages(content):
        if len(row) == DESIGNS_COLUMNS:
            _note_removed(found, number, row)
        elif len(row) == STATES_COLUMNS:
            state = true_state(row[2:])
            if state is None or state.content_sum not in whole:
                found.left_out.add((row[1], row[4]))
            else:
                states.append((number, row[1], state))
    _sort_in(found, sorted(states, key=lambda each: each[0]))
    return found


def _sort_in(found: _Found, states: list[tuple[int, Value, State]]) -> None:
    """Give every state to its design; one whose neighbours all are in another was damaged there, and goes to them."""
    homes: dict[str, set[int]] = defaultdict(set)  # by the name of a state
    after: dict[str, set[int]] = defaultdict(set)  # by the name of a parent
    placed = [(design, state) for _, design, state in states if isinstance(design, int) and state.number > 0]
    for design, state in placed:
        homes[state.name].add(design)
        after[state.parent or ""].add(design)
    for said, state in placed:
        near = homes.get(state.parent or "", set()) | after.get(state.name, set())
        design = said if said in near or not near else min(near)
        homes[state.name].add(design)
        if design < 1 or state.number in found.states.get(design, {}):
            found.left_out.add((design, state.number))
        else:
            found.states.setdefault(design, {})[state.number] = state


def _contents(content: bytes) -> Iterator[tuple[str, bytes]]:
    for _, row in rows_on_pages(content):
        if len(row) != CONTENTS_COLUMNS:
            continue
        _, total, size, packed = row
        if isinstance(total, str) and isinstance(size, int):
            with suppress(ValueError, OverflowError):
                yield total, unpacked(packed, size, total)


def _note_removed(found: _Found, design: int, row: Row) -> None:
    removed = row[3]
    if isinstance(removed, str):
        with suppress(ValueError):  # rather back in the list than gone
            found.removed[design] = moment(moment_of(removed))


def _lost(found: _Found) -> int:
    """States known to be missing: seen and not true, or a gap in the numbers of a design."""
    gaps: set[tuple[object, object]] = {
        (design, number)
        for design, states in found.states.items()
        if max(states) < WIDEST_GAP
        for number in range(1, max(states))
        if number not in states
    }
    return len(gaps | {each for each in found.left_out if not _is_there(found, each)})


def _is_there(found: _Found, place: tuple[object, object]) -> bool:
    design, number = place
    return isinstance(design, int) and isinstance(number, int) and number in found.states.get(design, {})
