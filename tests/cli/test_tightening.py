"""While a braid is tightened: the estimate is there, progress is told to a person only, an interrupt stops the solve.

No outside source: the promises of docs/commands.md. A solve is stood in for, so that nothing here is timed.
"""

import io
import os
import signal
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from braidwright.app import keeping, tightened
from braidwright.app.keeping import STOPPED, Keeper
from braidwright.app.kept_ropes import WHOLES
from braidwright.app.ports import Watch
from braidwright.cli.show import Progress
from braidwright.cli.tightening import Watcher
from braidwright.physics.measures import Whole
from braidwright.physics.outcome import Outcome
from braidwright.physics.whole import Piece, solve_whole
from braidwright.store.solved import SolvedStore
from command_line import Spoken, speak

DESIGN = str(Path(__file__).resolve().parents[2] / "designs" / "two-becks.json")
COMMANDS = (("size", DESIGN), ("supplies", DESIGN), ("publish", DESIGN, "-o", "pack"))
QUIET = (("size", DESIGN, "--json"), ("supplies", DESIGN, "--json"), ("supplies", DESIGN, "--csv"))
Meanwhile = Callable[[Watch | None], None]


class Screen(io.TextIOWrapper):
    """Standard error that a person looks at."""

    def isatty(self) -> bool:
        return True


def solved_while(
    patch: pytest.MonkeyPatch, meanwhile: Meanwhile, *arguments: str, is_seen: bool = True
) -> tuple[Spoken, list[Piece]]:
    """A command while something happens in each of its solves, and what was solved."""
    asked: list[Piece] = []

    def busy(piece: Piece, watch: Watch | None) -> Whole | Outcome:
        asked.append(piece)
        meanwhile(watch)
        return (
            STOPPED
            if watch is not None and not watch(0.5)
            else solve_whole(piece, tightened.UNIFORMS_KEPT.found, watch)
        )

    patch.setattr(tightened, "WHOLES_KEPT", Keeper(WHOLES, busy, SolvedStore(None)))
    if is_seen:
        patch.setattr(io, "TextIOWrapper", Screen)
    return speak(*arguments, "--solve"), asked


def nothing(watch: Watch | None) -> None:
    """Nothing happens."""


def interrupted(watch: Watch | None) -> None:
    """Ctrl-C, once."""
    signal.raise_signal(signal.SIGINT)


def interrupted_while_waiting(watch: Watch) -> bool:
    """Ctrl-C while the solver is got ready."""
    signal.raise_signal(signal.SIGINT)
    return watch(0.0)


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


@pytest.mark.parametrize("line", COMMANDS, ids=lambda line: line[0])
def test_a_person_sees_the_estimate_at_once_and_how_far_it_is(
    line: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    told, asked = solved_while(monkeypatch, nothing, *line)
    assert (told.code, len(asked)) == (0, 1)
    seen = told.err.split("\r")
    estimate = "Estimated 437 mm, 7.0 mm thick; "
    assert seen[1].startswith(f"  0%  {estimate}")
    assert any(f"%  {estimate}tightening, Ctrl-C keeps this" in each and "  0%" not in each for each in seen)
    assert max(len(each) for each in seen) < 80
    assert (seen[-2].strip(), seen[-1]) == ("", "")  # the line is taken away


@pytest.mark.parametrize("line", QUIET, ids=" ".join)
def test_other_programs_are_told_the_answer_only(line: tuple[str, ...], monkeypatch: pytest.MonkeyPatch) -> None:
    told, asked = solved_while(monkeypatch, nothing, *line)
    assert (told.code, told.err) == (0, "")
    assert asked


@pytest.mark.parametrize("line", COMMANDS[:2], ids=lambda line: line[0])
def test_nothing_of_it_goes_into_a_pipe(line: tuple[str, ...], monkeypatch: pytest.MonkeyPatch) -> None:
    told, _ = solved_while(monkeypatch, nothing, *line, is_seen=False)
    assert (told.code, told.err) == (0, "")


@pytest.mark.parametrize("is_seen", [True, False])
def test_an_interrupt_stops_the_solve_and_keeps_the_estimate(is_seen: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    told, asked = solved_while(monkeypatch, interrupted, "size", DESIGN, is_seen=is_seen)
    assert told.code == 0
    assert len(asked) == 1  # the second solve of the command did not begin
    assert f"Know: {STOPPED.sentence}" in told.out
    assert "reckoned by a formula" in told.out
    assert ("Stopping" in told.err or "stopping" in told.err) is is_seen


def test_in_json_too(monkeypatch: pytest.MonkeyPatch) -> None:
    told, _ = solved_while(monkeypatch, interrupted, "size", DESIGN, "--json", "--wrist", "165mm")
    assert told.answer["basis"] == "estimated"
    assert STOPPED.sentence in told.answer["notes"]
    quick = speak("size", DESIGN, "--json", "--wrist", "165mm").answer
    assert {**told.answer, "notes": []} == {**quick, "notes": []}


def test_the_pack_is_made_from_the_estimate(monkeypatch: pytest.MonkeyPatch) -> None:
    told, asked = solved_while(monkeypatch, interrupted, "publish", DESIGN, "-o", "stopped")
    assert (told.code, len(asked)) == (0, 1)
    assert told.err.endswith(f"Note: {STOPPED.sentence}\n")
    assert "437 mm (17 1/4 in), give or take 13 mm (estimated)" in Path("stopped/pattern.txt").read_text("utf-8")


def test_supplies_say_that_they_rest_on_the_estimate(monkeypatch: pytest.MonkeyPatch) -> None:
    told, asked = solved_while(monkeypatch, interrupted, "supplies", DESIGN, "--json")
    assert (told.code, told.err, len(asked)) == (0, f"Note: {STOPPED.sentence}\n", 1)
    assert told.answer == speak("supplies", DESIGN, "--json").answer


def test_a_second_interrupt_ends_the_command(monkeypatch: pytest.MonkeyPatch) -> None:
    def twice(watch: Watch | None) -> None:
        signal.raise_signal(signal.SIGINT)
        signal.raise_signal(signal.SIGINT)
        raise AssertionError("still here")

    told, asked = solved_while(monkeypatch, twice, "publish", DESIGN, "-o", "pack")
    assert (told.code, told.out, len(asked)) == (130, "", 1)
    assert list(Path().iterdir()) == []


def test_outside_a_solve_the_first_interrupt_ends_the_command(monkeypatch: pytest.MonkeyPatch) -> None:
    def late(*_: object) -> None:
        signal.raise_signal(signal.SIGINT)

    monkeypatch.setattr(tightened, "_told", late)
    told, _ = solved_while(monkeypatch, nothing, "size", DESIGN)
    assert (told.code, told.out) == (130, "")


def test_interrupts_are_what_they_were_afterwards(monkeypatch: pytest.MonkeyPatch) -> None:
    before = signal.getsignal(signal.SIGINT)
    solved_while(monkeypatch, interrupted, "size", DESIGN)
    assert signal.getsignal(signal.SIGINT) is before
    monkeypatch.setattr(tightened, "piece_of", lambda *_: 1 / 0)
    assert speak("size", DESIGN, "--solve").code == 70
    assert signal.getsignal(signal.SIGINT) is before


def test_interrupts_set_aside_stay_so(monkeypatch: pytest.MonkeyPatch) -> None:
    """As a shell does for what it runs in the background."""
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        told, asked = solved_while(monkeypatch, interrupted, "size", DESIGN)
        assert signal.getsignal(signal.SIGINT) is signal.SIG_IGN
    finally:
        signal.signal(signal.SIGINT, before)
    assert len(asked) == 1
    assert "worked out from the contact" in told.out


def test_the_first_run_says_that_it_is_one(monkeypatch: pytest.MonkeyPatch) -> None:
    """And can be stopped while the solver is got ready."""
    told, _ = solved_while(monkeypatch, nothing, "size", DESIGN)
    assert "getting the solver ready (first run only)" in told.err
    monkeypatch.setattr(keeping, "get_ready", interrupted_while_waiting)
    told, asked = solved_while(monkeypatch, nothing, "size", DESIGN)
    assert (told.code, asked) == (0, [])
    assert STOPPED.sentence in told.out


def test_a_line_that_would_wrap_is_cut(monkeypatch: pytest.MonkeyPatch) -> None:
    seen = io.BytesIO()
    screen = Screen(seen, encoding="utf-8")
    monkeypatch.setattr(sys, "stderr", screen)
    monkeypatch.setattr(screen, "fileno", lambda: 2, raising=False)
    monkeypatch.setattr(os, "get_terminal_size", lambda _: os.terminal_size((30, 5)))
    watcher = Watcher(Progress(), "Estimated 437 mm, 7.0 mm thick; ", is_ready=True)
    watcher(0.5)
    screen.flush()
    assert [len(each) for each in seen.getvalue().split(b"\r")] == [0, 29, 29]
