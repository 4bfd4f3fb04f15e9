"""Killed at any moment, the library loses nothing that was acknowledged, and the next start is sound.

No outside source: a promise of ours. Processes are killed outright (SIGKILL), so nothing of theirs runs afterwards; a
loss of power cannot be tried here and rests on SQLite's word for `synchronous = EXTRA`.
"""

import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import IO

import numpy as np
import pytest

import library_worker
from braidwright.store.library.archive_writer import write_archive
from braidwright.store.library.opening import DAMAGED
from braidwright.store.library.sql_library import SqlLibrary
from library_kit import change, file_in, later, opened, told_on_opening

KILLS = int(os.environ.get("BRAIDWRIGHT_KILLS", "200"))  # a quarter of them in each of four tests
LONGEST_S = 0.02  # how long a process goes on after what was waited for: some changes
TIMEOUT_S = 60

needs_sigkill = pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="this system kills in another way")


def worker(what: str, *words: object) -> "subprocess.Popen[str]":
    """A process at work, in Python as it is here."""
    return subprocess.Popen(
        [sys.executable, library_worker.__file__, what, *(str(word) for word in words)],
        stdout=subprocess.PIPE,
        text=True,
        env=os.environ | {"PYTHONPATH": os.pathsep.join(sys.path)},
    )


def killed(process: "subprocess.Popen[str]", after_s: float, lines: int = 0) -> list[list[str]]:
    """Kill a process some time after it said so many lines beyond that it is ready; the lines it finished."""
    stream: IO[str] | None = process.stdout
    assert stream is not None
    assert stream.readline() == "ready\n"
    read = "".join(stream.readline() for _ in range(lines))
    time.sleep(after_s)
    process.kill()
    said = read + process.communicate(timeout=TIMEOUT_S)[0]
    return [line.split() for line in said.splitlines(keepends=True) if line.endswith("\n")]


def check_kept(library: SqlLibrary, kept: list[list[str]]) -> None:
    """Every acknowledged state is there, whole, and its history is complete behind it."""
    for _, design, name in kept:
        library.content(int(design), name)
    for entry in library.entries():
        history = library.history(entry.design)
        assert [state.number for state in history] == list(range(1, len(history) + 1))
        assert [state.parent for state in history] == [None, *(state.name for state in history[:-1])]
        assert all(state.is_true for state in history)
        assert entry.newest == history[-1]


@pytest.mark.parametrize("part", range(4))
def test_killed_while_saving(tmp_path: Path, part: int) -> None:
    """One library after another is carried through a quarter of the kills."""
    chance = np.random.default_rng(part)
    kept: list[list[str]] = []
    beyond = 0
    for count in range(KILLS // 4):
        process = worker("save", tmp_path, 1000 * part + count)
        kept += killed(process, float(chance.uniform(0, LONGEST_S)), int(chance.integers(0, 6)))
        with opened(tmp_path) as library:
            check_kept(library, kept[-20:])
    with opened(tmp_path) as library:
        check_kept(library, kept)
        there = sum(len(library.history(entry.design)) for entry in library.entries())
        beyond = there - len(kept)
    assert len(kept) > KILLS // 4
    assert 0 <= beyond <= KILLS // 4  # at most one change of each process was kept and not yet acknowledged


def grown(folder: Path, designs: int = 6, states: int = 12) -> dict[int, list[str]]:
    """A library with designs of many states; the names of the states."""
    names: dict[int, list[str]] = {}
    chance = np.random.default_rng(7)
    with opened(folder) as library:
        for at in range(designs):
            entry = library.create(change(chance.bytes(100), title=f"Design {at}", at=later(at)))
            newest = entry.newest
            names[entry.design] = [newest.name]
            for _ in range(states - 1):
                newest = library.save(entry.design, newest.name, change(chance.bytes(int(chance.integers(9_000)))))
                names[entry.design].append(newest.name)
    return names


def names_in(folder: Path) -> dict[int, list[str]]:
    with opened(folder, sound=False) as library:
        check_kept(library, [])
        return {entry.design: [state.name for state in library.history(entry.design)] for entry in library.entries()}


@needs_sigkill
def test_killed_at_every_step_of_beginning_a_library(tmp_path: Path) -> None:
    for count in range(1, 100):
        folder = tmp_path / f"{count}"
        process = worker("die-at", folder, count)
        lived = process.communicate(timeout=TIMEOUT_S)[0] == "lived\n"
        assert told_on_opening(folder) == ()
        assert sorted(path.name for path in folder.iterdir()) == ["library.lock", "library.sqlite"]
        if lived:
            break
    assert lived
    assert count > 3


@needs_sigkill
def test_killed_at_every_step_of_saving_a_damaged_library(tmp_path: Path) -> None:
    whole = tmp_path / "whole"
    names = grown(whole, designs=2, states=6)
    content = file_in(whole).read_bytes()
    file_in(whole).write_bytes(b"\0" * 4096 + content[4096:])
    for count in range(1, 100):
        folder = tmp_path / f"{count}"
        shutil.copytree(whole, folder)
        process = worker("die-at", folder, count)
        lived = process.communicate(timeout=TIMEOUT_S)[0] == "lived\n"
        notes = told_on_opening(folder)
        assert len(notes) <= 1
        assert names_in(folder) == names
        aside = [path for path in folder.iterdir() if path.suffix == DAMAGED]
        assert [path.read_bytes() for path in aside] == [file_in(whole).read_bytes()]
        assert sorted(set(folder.iterdir()) - {*aside}) == [folder / "library.lock", folder / "library.sqlite"]
        assert told_on_opening(folder) == ()
        if lived:
            assert notes == ()
            break
    assert lived
    assert count > 8


def test_killed_while_taking_in_a_library_it_is_all_or_nothing(tmp_path: Path) -> None:
    names = grown(tmp_path / "source", designs=20, states=12)
    with opened(tmp_path / "source") as library, (tmp_path / "all.zip").open("wb") as stream:
        write_archive(library.entries(), library, stream)
    chance = np.random.default_rng(3)
    outcomes: set[int] = set()
    for count in range(12):
        folder = tmp_path / f"{count}"
        said = killed(worker("take-in", folder, tmp_path / "all.zip"), float(chance.uniform(0, 0.06)))
        found = names_in(folder)
        assert told_on_opening(folder) == ()
        assert len(found) in ((20,) if said else (0, 20))
        outcomes.add(len(found))
        if found:
            assert sorted(found.values()) == sorted(names.values())
    assert outcomes  # which of the two it was depends on how busy the machine is


def test_two_processes_change_one_design_and_nothing_is_lost(tmp_path: Path) -> None:
    with opened(tmp_path) as library:
        entry = library.create(change("0"))
    processes = [worker("together", tmp_path, entry.design, 40) for _ in range(3)]
    said = [process.communicate(timeout=TIMEOUT_S)[0].splitlines() for process in processes]
    kept = [line.split() for lines in said for line in lines if line.startswith("kept")]
    with opened(tmp_path) as library:
        check_kept(library, kept)
        assert len(kept) == 120
        assert len(library.history(entry.design)) == 121
