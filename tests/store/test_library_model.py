"""Whatever is done in whatever order, the library holds what a dict of lists holds, also after opening it again.

No outside source: the model is the specification.
"""

from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from braidwright.domain.errors import RequestError, StaleError
from braidwright.store.library.folding import folded
from braidwright.store.library.opening import open_library
from braidwright.store.library.records import Change
from library_kit import later

TITLES = st.text(max_size=12)
CONTENTS = st.binary(max_size=8)


@dataclass
class Modelled:
    """A design as the model has it: (content, title, notes) of every state, and when it was thrown away."""

    states: list[tuple[bytes, str, str]] = field(default_factory=list)
    names: list[str] = field(default_factory=list)
    removed: datetime | None = None


class LibraryMachine(RuleBasedStateMachine):
    """Random work on a library and on its model."""

    @initialize()
    def begin(self) -> None:
        self.folder = TemporaryDirectory()
        self.library = open_library(Path(self.folder.name), later(0)).library
        self.model: dict[int, Modelled] = {}
        self.clock = 0

    def teardown(self) -> None:
        if hasattr(self, "folder"):
            self.library.close()
            self.folder.cleanup()

    def now(self) -> datetime:
        self.clock += 1
        return later(self.clock)

    def change(self, content: bytes, title: str, notes: str) -> Change:
        return Change(content=content, title=title, facts=(("notes", notes),), doing="any", at=self.now())

    def pick(self, data: st.DataObject) -> int:
        return data.draw(st.sampled_from(sorted(self.model)))

    @rule(content=CONTENTS, title=TITLES, notes=TITLES)
    def create(self, content: bytes, title: str, notes: str) -> None:
        made = self.change(content, title, notes)
        entry = self.library.create(made)
        assert entry.design not in self.model
        self.model[entry.design] = Modelled([(content, made.title, made.facts[0][1])], [entry.newest.name])

    @precondition(lambda self: self.model)
    @rule(data=st.data(), content=CONTENTS, title=TITLES, notes=TITLES)
    def save(self, data: st.DataObject, content: bytes, title: str, notes: str) -> None:
        design = self.pick(data)
        kept = self.model[design]
        made_from = data.draw(st.sampled_from(kept.names[-3:]))
        made = self.change(content, title, notes)
        wanted = (content, made.title, made.facts[0][1])
        is_there = kept.states[-1] == wanted and made_from in kept.names[-2:]
        if kept.removed is not None:
            with pytest.raises(RequestError):
                self.library.save(design, made_from, made)
        elif is_there:
            assert self.library.save(design, made_from, made).name == kept.names[-1]
        elif made_from != kept.names[-1]:
            with pytest.raises(StaleError):
                self.library.save(design, made_from, made)
        else:
            kept.names.append(self.library.save(design, made_from, made).name)
            kept.states.append(wanted)

    @precondition(lambda self: self.model)
    @rule(data=st.data())
    def remove(self, data: st.DataObject) -> None:
        design, at = self.pick(data), self.now()
        self.library.remove(design, at)
        self.model[design].removed = self.model[design].removed or at

    @precondition(lambda self: self.model)
    @rule(data=st.data())
    def take_back(self, data: st.DataObject) -> None:
        design = self.pick(data)
        self.library.take_back(design)
        self.model[design].removed = None

    @rule(ago=st.integers(0, 30))
    def purge(self, ago: int) -> None:
        before = later(self.clock - ago)
        gone = [design for design, kept in self.model.items() if kept.removed is not None and kept.removed < before]
        assert self.library.purge(before) == len(gone)
        for design in gone:
            del self.model[design]

    @rule()
    def open_again(self) -> None:
        self.library.close()
        found = open_library(Path(self.folder.name), self.now())
        assert found.notes == ()
        self.library = found.library

    @rule(words=TITLES)
    def search(self, words: str) -> None:
        wanted = {
            design
            for design, kept in self.model.items()
            if kept.removed is None
            and all(
                word in f"{folded(kept.states[-1][1])}\n{folded(kept.states[-1][2])}" for word in folded(words).split()
            )
        }
        assert {entry.design for entry in self.library.entries(words)} == wanted

    @invariant()
    def holds_what_the_model_holds(self) -> None:
        if not hasattr(self, "model"):
            return
        listed = {e.design: e.removed for e in (*self.library.entries(), *self.library.entries(removed=True))}
        assert listed == {design: kept.removed for design, kept in self.model.items()}
        for design, kept in self.model.items():
            history = self.library.history(design)
            assert [state.name for state in history] == kept.names
            found = [
                (self.library.content(design, state.name), state.title, dict(state.facts)["notes"]) for state in history
            ]
            assert found == kept.states


LibraryMachine.TestCase.settings = settings(max_examples=30, stateful_step_count=30, deadline=None)
TestLibraryAgainstItsModel = LibraryMachine.TestCase
