"""Keepers: what was solved once is not solved again, what was stopped is not kept, and a changed solver starts anew.

No outside source: these are promises of ours, in docs/decisions.md.
"""

from dataclasses import dataclass
from pathlib import Path

import pytest

from braidwright.app import keeping
from braidwright.app.keeping import REMEMBERED, Codec, Keeper, facts_of, number, outcome_from
from braidwright.app.ports import Watch
from braidwright.domain.errors import RequestError
from braidwright.physics.outcome import ENDINGS, Outcome
from braidwright.store.solved import Kept, SolvedStore, key_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Sum:
    """A question that is quickly answered."""

    of: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Total:
    """Its answer; a negative one counts as stopped."""

    total: float


def packed(found: Total) -> Kept | None:
    return None if found.total < 0.0 else Kept(arrays={}, facts={"total": found.total})


TOTALS: Codec[Sum, Total] = Codec(name="total", pack=packed, unpack=lambda _, kept: Total(total=number(kept, "total")))


class Adder:
    """Adds up, and counts how often it was asked."""

    def __init__(self) -> None:
        self.asked = 0

    def __call__(self, ask: Sum, watch: Watch | None) -> Total:
        self.asked += 1
        if watch is not None and not watch(0.5):
            return Total(total=-1.0)
        return Total(total=sum(ask.of))


def test_nothing_is_solved_twice_in_one_run() -> None:
    adder = Adder()
    keeper = Keeper(TOTALS, adder, SolvedStore(None))
    assert [keeper.found(Sum(of=(1.0, 2.0))).total for _ in range(3)] == [3.0, 3.0, 3.0]
    assert adder.asked == 1
    assert keeper.found(Sum(of=(1.0, 2.5))).total == 3.5
    keeper.forget()
    keeper.found(Sum(of=(1.0, 2.0)))
    assert adder.asked == 3


def test_nor_in_the_next_run(tmp_path: Path) -> None:
    adder = Adder()
    for _ in range(2):
        assert Keeper(TOTALS, adder, SolvedStore(tmp_path)).found(Sum(of=(1.0, 2.0))).total == 3.0
    assert adder.asked == 1


def test_memory_is_bounded() -> None:
    adder = Adder()
    keeper = Keeper(TOTALS, adder, SolvedStore(None))
    for value in range(REMEMBERED + 1):
        keeper.found(Sum(of=(float(value),)))
        keeper.found(Sum(of=(0.0,)))  # always used, so it stays
    assert adder.asked == REMEMBERED + 1
    keeper.found(Sum(of=(1.0,)))
    assert adder.asked == REMEMBERED + 2


def test_another_solver_gets_no_answers_of_this_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    adder = Adder()
    Keeper(TOTALS, adder, SolvedStore(tmp_path)).found(Sum(of=(1.0,)))
    monkeypatch.setattr(keeping, "version", lambda: "another")
    Keeper(TOTALS, adder, SolvedStore(tmp_path)).found(Sum(of=(1.0,)))
    other: Codec[Sum, Total] = Codec(name="another kind", pack=TOTALS.pack, unpack=TOTALS.unpack)
    Keeper(other, adder, SolvedStore(tmp_path)).found(Sum(of=(1.0,)))
    assert adder.asked == 3


def test_the_version_follows_the_text_of_the_physics(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    keeping.version.cache_clear()
    monkeypatch.setattr(keeping, "PHYSICS", tmp_path)
    (tmp_path / "forces").mkdir()
    told = set()
    for text in ("KAP = 0.3\n", "KAP = 0.4\n"):
        for name in ("core.py", "forces/contact.py"):
            (tmp_path / name).write_text(text, encoding="utf-8")
            keeping.version.cache_clear()
            told.add(keeping.version())
    keeping.version.cache_clear()
    assert len(told) == 4


def test_what_is_not_whole_is_solved_again(tmp_path: Path) -> None:
    adder, store = Adder(), SolvedStore(tmp_path)
    key = key_of(Sum(of=(1.0,)), f"total {keeping.version()}")
    for broken in ({}, {"total": "much"}, {"total": True}):
        store.put(key, Kept(arrays={}, facts=broken))
        assert Keeper(TOTALS, adder, store).found(Sum(of=(1.0,))).total == 1.0
    assert adder.asked == 3
    assert Keeper(TOTALS, adder, store).found(Sum(of=(1.0,))).total == 1.0  # the sound one was put in its place
    assert adder.asked == 3


def test_a_watcher_is_told_of_the_beginning_and_the_end(tmp_path: Path) -> None:
    told: list[float] = []

    def watch(share: float) -> bool:
        told.append(share)
        return True

    keeper = Keeper(TOTALS, Adder(), SolvedStore(tmp_path))
    keeper.found(Sum(of=(1.0,)), watch)
    assert told == [0.0, 0.5, 1.0]
    keeper.found(Sum(of=(1.0,)), watch)
    Keeper(TOTALS, Adder(), SolvedStore(tmp_path)).found(Sum(of=(1.0,)), watch)
    assert told == [0.0, 0.5, 1.0]  # nothing had to be solved


def test_what_was_stopped_is_not_kept(tmp_path: Path) -> None:
    adder, told = Adder(), []

    def stop(share: float) -> bool:
        told.append(share)
        return share < 0.5

    keeper = Keeper(TOTALS, adder, SolvedStore(tmp_path))
    assert keeper.found(Sum(of=(1.0,)), stop).total == -1.0
    assert told == [0.0, 0.5, 1.0]
    assert list(tmp_path.iterdir()) == []
    assert keeper.found(Sum(of=(1.0,))).total == 1.0
    assert adder.asked == 2


def test_what_may_not_begin_does_not(tmp_path: Path) -> None:
    """As for the second solve of a command whose first one was stopped."""
    adder = Adder()
    keeper = Keeper(TOTALS, adder, SolvedStore(tmp_path))
    with pytest.raises(RequestError, match="stopped before the braid had settled"):
        keeper.found(Sum(of=(1.0,)), lambda _: False)
    assert adder.asked == 0


def test_the_end_is_told_of_a_solve_that_fails() -> None:
    told: list[float] = []

    def fail(ask: Sum, watch: Watch | None) -> Total:
        raise RequestError("no such braid")

    def watch(share: float) -> bool:
        told.append(share)
        return True

    with pytest.raises(RequestError, match="no such braid"):
        Keeper(TOTALS, fail, SolvedStore(None)).found(Sum(of=()), watch)
    assert told == [0.0, 1.0]


@pytest.mark.parametrize("ending", ENDINGS)
def test_an_outcome_is_kept_whole(ending: str) -> None:
    outcome = Outcome(ending=ending, steps=336, energy=12.5, largest_force=float("inf"))  # type: ignore[arg-type]
    assert outcome_from(Kept(arrays={}, facts=facts_of(outcome))) == outcome
