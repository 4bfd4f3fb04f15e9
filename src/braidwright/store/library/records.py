"""records: what the library is handed and hands out: a change, a state, the entry of a design."""

import json
from dataclasses import dataclass
from datetime import UTC, datetime
from hashlib import sha256
from typing import Final

Facts = tuple[tuple[str, str], ...]

MOST_BYTES: Final = 64_000_000  # of one content
LONGEST_LABEL: Final = 300  # letters of a title or of what was done, which stand in lists and sentences


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What is to be kept as a new state of a design.

    Attributes:
        content: The design file, kept byte for byte.
        title: What the design is called from now on; a very long one is cut, here and not in the content.
        facts: Pairs (what it is, words): searched, shown in lists, never understood.
        doing: What was done, in a few words, for whoever looks back.
        at: When, with its time zone.
        brought_back: The name of the earlier state this one repeats, or None.
    """

    content: bytes
    title: str
    facts: Facts
    doing: str
    at: datetime
    brought_back: str | None = None

    def __post_init__(self) -> None:
        """Bring moments to UTC and texts to what a file can hold."""
        if self.at.tzinfo is None:
            raise ValueError("A change says when it was made with its time zone.")
        object.__setattr__(self, "at", self.at.astimezone(UTC))
        object.__setattr__(self, "title", storable(self.title)[:LONGEST_LABEL])
        object.__setattr__(self, "doing", storable(self.doing)[:LONGEST_LABEL])
        object.__setattr__(self, "facts", tuple((storable(name), storable(words)) for name, words in self.facts))


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """A design as it was after one change.

    Attributes:
        name: 64 hexadecimal digits: a sum of all below, and so, by its parent's name, of the
            whole way to it. Whoever saves names by it the state the change was made from.
        parent: The name of the state before, or None for the first.
        number: 1 for the first state of a design; a state that was lost with a damaged file leaves a gap.
        title: See `Change`, also for `facts`, `doing`, `at` (in UTC) and `brought_back`.
        content_sum: SHA-256 of the content, hexadecimal.
        size: Bytes of the content.
    """

    name: str
    parent: str | None
    number: int
    title: str
    facts: Facts
    doing: str
    at: datetime
    brought_back: str | None
    content_sum: str
    size: int

    @property
    def is_true(self) -> bool:
        """Whether the name is the sum of the rest."""
        return self.name == _name_of(self)


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A design in the library.

    Attributes:
        design: Its number in this library, given once and never again.
        newest: Its newest state.
        begun: When its first state was made, UTC.
        removed: When it was thrown away, UTC, or None.
    """

    design: int
    newest: State
    begun: datetime
    removed: datetime | None


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """All states of a design that comes from elsewhere, the oldest first.

    Attributes:
        states: At least one.
        removed: When it was thrown away, or None.
    """

    states: tuple[State, ...]
    removed: datetime | None = None


def state_after(parent: State | None, change: Change) -> State:
    """The state a change makes of another, or of nothing."""
    unnamed = State(
        name="",
        parent=None if parent is None else parent.name,
        number=1 if parent is None else parent.number + 1,
        title=change.title,
        facts=change.facts,
        doing=change.doing,
        at=change.at,
        brought_back=change.brought_back,
        content_sum=sum_of(change.content),
        size=len(change.content),
    )
    return named(unnamed)


def named(state: State) -> State:
    """The state under the name that is its sum."""
    return State(**{field: getattr(state, field) for field in State.__slots__} | {"name": _name_of(state)})


def sum_of(content: bytes) -> str:
    """SHA-256, 64 hexadecimal digits."""
    return sha256(content).hexdigest()


def moment(at: datetime) -> str:
    """A moment as text: UTC, to the microsecond, so that texts sort as moments do."""
    return at.astimezone(UTC).isoformat(timespec="microseconds")


def storable(text: str) -> str:
    """The text; half of a surrogate pair, which UTF-8 cannot hold, becomes the escape it came from."""
    return text.encode("utf-8", "backslashreplace").decode()


def _name_of(state: State) -> str:
    parts = [
        state.parent,
        state.number,
        state.content_sum,
        state.size,
        state.title,
        [list(pair) for pair in state.facts],
        state.doing,
        moment(state.at),
        state.brought_back,
    ]
    return sum_of(json.dumps(parts).encode())
