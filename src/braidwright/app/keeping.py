"""keeping: what was solved once is not solved again: not in this run, and not in the next one.

A keeper answers a question from its memory, then from the store on disk, and else has it solved. What answers is told
apart by the text of the physics, so that a changed solver never gets an earlier one's answers.
"""

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from hashlib import sha256
from math import inf
from threading import Lock
from typing import Generic, TypeVar, cast

from braidwright import __version__
from braidwright.app.ports import Watch
from braidwright.app.warming import PHYSICS, get_ready
from braidwright.domain.errors import RequestError
from braidwright.physics.outcome import ENDINGS, Ending, Outcome
from braidwright.store.solved import Fact, Kept, SolvedStore, key_of, usual_store

Ask = TypeVar("Ask")
Result = TypeVar("Result")

STOPPED = Outcome(ending="stopped", steps=0, energy=0.0, largest_force=inf)
REMEMBERED = 256


@dataclass(frozen=True, slots=True, kw_only=True)
class Codec(Generic[Ask, Result]):
    """How one kind of result is kept.

    Attributes:
        name: Of the kind, a word.
        pack: The result as it is kept, or None for one that must not be kept, as when a solve was stopped.
        unpack: The result of a question again; raises ValueError, KeyError or TypeError when it is not whole.
    """

    name: str
    pack: Callable[[Result], Kept | None]
    unpack: Callable[[Ask, Kept], Result]


class Keeper(Generic[Ask, Result]):
    """Answers questions of one kind: frozen dataclasses of numbers, words and tuples.

    Args:
        codec: How results are kept.
        solve: What answers; it asks the watcher, when there is one, whether to go on.
        store: Where they are kept on disk; None for the usual place, looked up at each question.
    """

    def __init__(
        self,
        codec: Codec[Ask, Result],
        solve: Callable[[Ask, Watch | None], Result],
        store: SolvedStore | None = None,
    ) -> None:
        self._codec = codec
        self._solve = solve
        self._store = store
        self._memory: OrderedDict[Ask, Result] = OrderedDict()
        self._lock = Lock()

    def found(self, ask: Ask, watch: Watch | None = None) -> Result:
        """The answer, from memory, from disk or solved.

        Args:
            ask: The question.
            watch: Told what share of a solve is done, 0 when it begins and 1 when it ends; answers whether to go on.
                Not told anything when nothing has to be solved.

        Raises:
            RequestError: The watcher would not have it begin.
        """
        known = self._remembered(ask)
        if known is not None:
            return known
        store = self._store or usual_store()
        key = key_of(ask, f"{self._codec.name} {version()}")
        kept = self._unpacked(ask, store.get(key))
        if kept is not None:
            self._remember(ask, kept)
            return kept
        result = self._solved(ask, watch)
        packed = self._codec.pack(result)
        if packed is not None:
            self._remember(ask, result)
            store.put(key, packed)
        return result

    def forget(self) -> None:
        """Nothing is remembered; what is on disk stays."""
        with self._lock:
            self._memory.clear()

    def _solved(self, ask: Ask, watch: Watch | None) -> Result:
        if watch is None:
            return self._solve(ask, None)
        try:
            if not (watch(0.0) and get_ready(watch)):
                raise RequestError(STOPPED.sentence)
            return self._solve(ask, watch)
        finally:
            watch(1.0)

    def _unpacked(self, ask: Ask, kept: Kept | None) -> Result | None:
        try:
            return None if kept is None else self._codec.unpack(ask, kept)
        except (ValueError, KeyError, TypeError):
            return None

    def _remembered(self, ask: Ask) -> Result | None:
        with self._lock:
            if ask in self._memory:
                self._memory.move_to_end(ask)
            return self._memory.get(ask)

    def _remember(self, ask: Ask, result: Result) -> None:
        with self._lock:
            self._memory[ask] = result
            while len(self._memory) > REMEMBERED:
                self._memory.popitem(last=False)


def facts_of(outcome: Outcome) -> dict[str, Fact]:
    """How a solve ended, as it is kept."""
    return {
        "ending": outcome.ending,
        "steps": outcome.steps,
        "energy": outcome.energy,
        "largest_force": outcome.largest_force,
    }


def outcome_from(kept: Kept) -> Outcome:
    """How a solve ended, again.

    Raises:
        KeyError: It was not kept.
        ValueError: It is no such thing.
    """
    ending = kept.facts["ending"]
    if ending not in ENDINGS:
        raise ValueError(f"no solve ends with {ending!r}")
    return Outcome(
        ending=cast(Ending, ending),
        steps=int(number(kept, "steps")),
        energy=number(kept, "energy"),
        largest_force=number(kept, "largest_force"),
    )


def number(kept: Kept, name: str) -> float:
    """A number that was kept.

    Raises:
        KeyError: It was not kept.
        ValueError: It is no number.
    """
    found = kept.facts[name]
    if isinstance(found, bool) or not isinstance(found, int | float):
        raise ValueError(f"{name} is no number")
    return float(found)


@lru_cache(maxsize=1)
def version() -> str:
    """What answers: a digest of the text of the physics, so that nobody has to remember to count a version up."""
    told = sha256(__version__.encode())
    for path in sorted(PHYSICS.rglob("*.py")):
        told.update(f"{path.relative_to(PHYSICS).as_posix()}\n".encode())
        told.update(path.read_bytes())
    return told.hexdigest()
