"""rows: states, contents and designs <-> rows of the tables."""

import json
import sqlite3
import zlib
from collections.abc import Iterable
from datetime import UTC, datetime

from braidwright.domain.errors import LibraryError
from braidwright.store.library.folding import folded
from braidwright.store.library.records import Change, Entry, Facts, History, State, moment, sum_of

COLUMNS = "name, parent, number, title, facts, doing, at, brought_back, content_sum, size"
OF_STATES = ", ".join(f"states.{column}" for column in COLUMNS.split(", "))


def state_of(row: tuple[object, ...]) -> State:
    """The state in the columns COLUMNS.

    Raises:
        ValueError: It holds what no state does, so the file is damaged.
    """
    name, parent, number, title, facts, doing, at, brought_back, content_sum, size = row
    if type(number) is not int or type(size) is not int:  # yes and no are numbers to isinstance
        raise ValueError("a number that is none")
    return State(
        name=_text(name),
        parent=None if parent is None else _text(parent),
        number=number,
        title=_text(title),
        facts=facts_of(_text(facts)),
        doing=_text(doing),
        at=moment_of(at),
        brought_back=None if brought_back is None else _text(brought_back),
        content_sum=_text(content_sum),
        size=size,
    )


def true_state(row: tuple[object, ...]) -> State | None:
    """The state in the columns COLUMNS, or None when what they hold is not what was written."""
    try:
        state = state_of(row)
        return state if state.is_true else None
    except (ValueError, OverflowError, RecursionError):
        return None


def entry_of(row: tuple[object, ...]) -> Entry:
    """The entry in the columns id, begun, removed of a design and COLUMNS of its newest state."""
    design, begun, removed, *state = row
    if not isinstance(design, int):
        raise ValueError("a number that is none")
    return Entry(
        design=design,
        newest=state_of(tuple(state)),
        begun=moment_of(begun),
        removed=None if removed is None else moment_of(removed),
    )


def facts_of(text: str) -> Facts:
    """Facts from their text, a list of pairs in JSON."""
    pairs = json.loads(text)
    if not isinstance(pairs, list) or not all(isinstance(pair, list) and len(pair) == 2 for pair in pairs):
        raise ValueError("facts that are none")
    return tuple((_text(name), _text(words)) for name, words in pairs)


def moment_of(value: object) -> datetime:
    """A moment from its text."""
    at = datetime.fromisoformat(_text(value))
    if at.tzinfo is None:
        raise ValueError("a moment without its time zone")
    return at.astimezone(UTC)


def unpacked(packed: object, size: int, content_sum: str) -> bytes:
    """A content as it was handed in.

    Raises:
        ValueError: It is not the content of this sum, so the file is damaged.
    """
    if not isinstance(packed, bytes):
        raise ValueError("a content that is none")
    opening = zlib.decompressobj()
    try:
        content = opening.decompress(packed, size + 1)  # a damaged one must not grow without end
    except zlib.error as error:
        raise ValueError(str(error)) from error
    if sum_of(content) != content_sum:
        raise ValueError("a content that does not match its sum")
    return content


def add_content(db: sqlite3.Connection, content: bytes) -> None:
    """Keep a content, once."""
    total = sum_of(content)
    if db.execute("SELECT 1 FROM contents WHERE sum = ?", (total,)).fetchone() is None:
        db.execute(
            "INSERT INTO contents (sum, size, packed) VALUES (?, ?, ?)", (total, len(content), zlib.compress(content))
        )


def add_state(db: sqlite3.Connection, design: int, state: State) -> int:
    """Add the row of a state, whose content is there, and return its number in the table."""
    facts = json.dumps([list(pair) for pair in state.facts])
    row = (
        design, state.name, state.parent, state.number, state.title, facts, state.doing, moment(state.at),
        state.brought_back, state.content_sum, state.size,
    )  # fmt: skip
    marks = ", ".join("?" * len(row))
    added = db.execute(f"INSERT INTO states (design, {COLUMNS}) VALUES ({marks})", row).lastrowid
    if added is None:
        raise LibraryError("The library did not take a state; try again.")
    return added


def add_design(db: sqlite3.Connection, history: History, design: int | None = None) -> int:
    """Add a design with its states, whose contents are there; return its number, a new one unless one is wanted."""
    # The number of the design and of its newest state each want the other first: 0 stands in until both are known.
    begun, newest = history.states[0], history.states[-1]
    removed = None if history.removed is None else moment(history.removed)
    row = (design, 0, moment(begun.at), removed, searched(newest.title, newest.facts))
    added = db.execute("INSERT INTO designs (id, newest, begun, removed, searched) VALUES (?, ?, ?, ?, ?)", row)
    number = design if design is not None else added.lastrowid
    if number is None:
        raise LibraryError("The library did not take a design; try again.")
    last = [add_state(db, number, state) for state in history.states][-1]
    db.execute("UPDATE designs SET newest = ? WHERE id = ?", (last, number))
    return number


def append(db: sqlite3.Connection, design: int, state: State, change: Change) -> None:
    """Add a state after the newest of a design."""
    add_content(db, change.content)
    added = add_state(db, design, state)
    found_by = searched(state.title, state.facts)
    db.execute("UPDATE designs SET newest = ?, searched = ? WHERE id = ?", (added, found_by, design))


def searched(title: str, facts: Facts) -> str:
    """What a search looks through."""
    return "\n".join(folded(words) for words in (title, *(words for _, words in facts)))


def words_of(text: str) -> Iterable[str]:
    """The words of a search, each of which has to be found."""
    return folded(text).split()


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise ValueError("a text that is none")
    return value
