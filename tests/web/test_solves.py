"""Solves over HTTP: asked for, asked after, stopped, and not too many. A slow predictor stands in for the solver."""

import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from threading import Event
from typing import Any

import pytest

from asking import Asker, asker, demo, sentence_of
from braidwright.app.quick import Quick
from braidwright.app.solving import MOST_KEPT, MOST_WAITING, Solves
from braidwright.app.studio import Studio
from braidwright.domain.design import Design
from braidwright.domain.geometry import Geometry
from braidwright.domain.materials import Materials
from braidwright.domain.prediction import Prediction

PATIENCE_S = 20.0


@dataclass(kw_only=True)
class Slow:
    """The quick formula, which waits until it may go on or is told to stop."""

    watch: Callable[[float], bool]
    go: Event
    failing: bool = False
    seen: list[float] = field(default_factory=list)

    def predict(self, design: Design, materials: Materials, drift_deg: float) -> Prediction:
        while self.watch(0.25) and not self.go.wait(0.005):
            pass
        if self.failing:
            raise ZeroDivisionError
        return Quick().predict(design, materials, drift_deg)

    def shape(self, design: Design, materials: Materials, prediction: Prediction, drift_deg: float) -> Geometry | None:
        return Quick().shape(design, materials, prediction, drift_deg)


@dataclass(frozen=True, kw_only=True)
class Bench:
    """A server whose solves wait for `go`."""

    server: Asker
    go: Event

    def ask(self) -> int:
        answer = self.server.ask("POST", "/api/solves", json={"design": demo()})
        assert answer.status_code == 202
        return int(answer.json()["solve"])

    def until(self, solve: int, *stages: str) -> Any:
        end = time.monotonic() + PATIENCE_S
        while time.monotonic() < end:
            found = self.server.get(f"/api/solves/{solve}")
            if found["stage"] in stages:
                return found
            time.sleep(0.005)
        raise AssertionError(found["stage"])


def bench(go: Event, *, failing: bool = False) -> Iterator[Bench]:
    solves = Solves(predictor=lambda watch: Slow(watch=watch, go=go, failing=failing))
    yield Bench(server=asker(Studio(solves=solves)), go=go)
    solves.close()


@pytest.fixture
def slow() -> Iterator[Bench]:
    yield from bench(Event())


@pytest.fixture
def failing() -> Iterator[Bench]:
    go = Event()
    go.set()
    yield from bench(go, failing=True)


def test_a_solve_is_followed_to_its_end(slow: Bench) -> None:
    solve = slow.ask()
    assert slow.until(solve, "solving")["design"] is None
    assert 0.0 <= slow.server.get(f"/api/solves/{solve}")["share"] <= 0.25
    slow.go.set()
    found = slow.until(solve, "done")
    assert found["share"] == 1.0
    assert found["design"]["text"] == demo()
    assert found["design"]["geometry"]["keys"]
    assert [remark["sentence"] for remark in found["design"]["notes"]] == found["design"]["size"]["notes"]


def test_a_solve_is_stopped_and_the_next_one_begins(slow: Bench) -> None:
    first, second = slow.ask(), slow.ask()
    slow.until(first, "solving")
    assert slow.server.get(f"/api/solves/{second}")["stage"] == "waiting"
    slow.server.ask("DELETE", f"/api/solves/{first}")
    assert slow.until(first, "stopped")["design"] is None
    slow.until(second, "solving")


def test_one_that_waits_is_stopped_at_once(slow: Bench) -> None:
    slow.until(slow.ask(), "solving")
    waiting = slow.ask()
    assert slow.server.ask("DELETE", f"/api/solves/{waiting}").json()["stage"] == "stopped"


def test_not_too_many_wait(slow: Bench) -> None:
    for _ in range(MOST_WAITING):
        slow.ask()
    assert "stop one of them" in slow.server.refused("/api/solves", {"design": demo()})


def test_only_the_newest_are_kept(slow: Bench) -> None:
    slow.go.set()
    for _ in range(MOST_KEPT + 2):
        slow.until(slow.ask(), "done")
    slow.until(MOST_KEPT + 2, "done")
    assert "no solve 1" in sentence_of(slow.server.ask("GET", "/api/solves/1"))


def test_a_fault_in_one_does_not_end_the_others(failing: Bench) -> None:
    for _ in range(2):
        found = failing.until(failing.ask(), "failed")
        assert "could not be solved" in found["sentences"][0]


@pytest.mark.parametrize("solve", ["1", "0", "x", "99999999999999999999999"])
def test_a_solve_that_is_not_there_is_refused(solve: str) -> None:
    for method in ("GET", "DELETE"):
        sentence_of(asker().ask(method, f"/api/solves/{solve}"))


def test_what_is_no_design_is_not_solved() -> None:
    assert asker().refused("/api/solves", {"design": "{}"})
