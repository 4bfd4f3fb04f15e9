"""Getting the solver ready in the background: once, one at a time, bounded, and never in anybody's way.

No outside source: promises of ours, in docs/decisions.md. The second process is a stand-in but in the last test.
"""

import json
import os
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from braidwright.app import warming
from braidwright.app.warming import READY, get_ready, is_at_work, is_ready, make_ready, warm_up
from braidwright.store.folder import PLACE

HOLDS = (
    "import sys; from pathlib import Path; from braidwright.app.warming import make_ready; "
    "make_ready(Path(sys.argv[1]), lambda: print('held', flush=True) or sys.stdin.read() or sys.argv[1])"
)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A cache folder of its own, and machine code in it."""
    monkeypatch.setenv(PLACE, str(tmp_path))
    (tmp_path / "energy.nbi").touch()
    return tmp_path


@pytest.fixture
def begun(folder: Path, monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """The processes that would have been started: each is done at once, and marks that it was."""
    started: list[Path] = []

    def stand_in(place: Path) -> "subprocess.Popen[bytes]":
        started.append(place)
        make_ready(place, lambda: str(folder))
        return subprocess.Popen([sys.executable, "-c", ""])

    monkeypatch.setattr(warming, "_started", stand_in)
    return started


def test_it_is_made_ready_once(folder: Path, begun: list[Path]) -> None:
    assert not is_ready()
    warm_up()
    assert is_ready()
    warm_up()
    assert get_ready(lambda _: True)
    assert begun == [folder]


def test_waiting_for_it_makes_it_ready(folder: Path, begun: list[Path]) -> None:
    assert get_ready(lambda _: True)
    assert is_ready()
    assert begun == [folder]


def test_it_is_not_ready_for_another_solver_or_without_its_code(
    folder: Path, begun: list[Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    del begun
    warm_up()
    with monkeypatch.context() as patch:
        patch.setenv("NUMBA_CACHE_DIR", "elsewhere")
        assert not is_ready()
    with monkeypatch.context() as patch:
        patch.setattr(warming, "PHYSICS", folder)
        (folder / "core.py").touch()
        assert not is_ready()
    assert is_ready()
    (folder / "energy.nbi").unlink()
    assert not is_ready()


@pytest.mark.parametrize("damage", [b"", b"\xff\xfe", b"one line", b"\n" * 9])
def test_a_damaged_mark_is_no_mark(folder: Path, damage: bytes) -> None:
    (folder / READY).write_bytes(damage)
    assert not is_ready()


def test_nothing_is_started_where_nothing_may_be_kept(begun: list[Path], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(PLACE, "off")
    warm_up()
    assert get_ready(lambda _: False)  # it will get ready where it is used
    assert not is_ready()
    assert begun == []


def test_where_no_process_can_be_started_it_gets_ready_as_it_is_used(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(place: Path) -> "subprocess.Popen[bytes]":
        raise BlockingIOError(11, "Resource temporarily unavailable")

    monkeypatch.setattr(warming, "_started", refuse)
    warm_up()
    assert get_ready(lambda _: True)
    monkeypatch.setenv(PLACE, str(folder / "energy.nbi" / "below"))  # a file is in the way
    warm_up()
    assert get_ready(lambda _: True)


def test_where_the_process_fails_it_gets_ready_as_it_is_used(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(warming, "COMMAND", ("-c", "raise SystemExit(1)"))
    assert get_ready(lambda _: True)
    assert not is_ready()
    assert not is_at_work(folder)


def test_only_one_is_at_work(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """While another process holds the lock no second one is started, nor would it do anything; then it dies."""
    other = subprocess.Popen(
        [sys.executable, "-c", HOLDS, str(folder)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        env=os.environ | {"PYTHONPATH": str(warming.PHYSICS.parent.parent)},
    )
    with other:
        assert other.stdout is not None
        assert other.stdout.readline() == b"held\n"
        assert is_at_work(folder)
        monkeypatch.setattr(warming, "_started", lambda _: pytest.fail("a second one was started"))
        warm_up()
        asked: list[float] = []
        assert not get_ready(lambda share: asked.append(share) or len(asked) < 2)  # type: ignore[func-returns-value]
        assert asked == [0.0, 0.0]
        monkeypatch.setattr(warming, "LOOK_EVERY_S", 0.001)
        assert not make_ready(folder, lambda: pytest.fail("a second one was at work"))
        other.kill()
    assert not is_at_work(folder)
    assert not is_ready()


def test_waiting_is_bounded(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(warming, "is_at_work", lambda _: True)
    monkeypatch.setattr(warming, "MOST_SECONDS", 0.0)
    assert get_ready(lambda _: True)
    assert not (folder / READY).exists()


@pytest.mark.skipif(sys.platform == "win32", reason="sessions are of other systems")
def test_the_process_is_silent_apart_and_noticed_when_it_ends(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """It works in the cache folder, in a session of its own, with nothing to read from or write to."""
    code = (
        "import json, os; ends = [os.fstat(n).st_rdev for n in range(3)]; "
        "told = [os.getcwd(), os.getsid(0) == os.getpid(), ends]; open('report', 'w').write(json.dumps(told))"
    )
    monkeypatch.setattr(warming, "COMMAND", ("-c", code))
    process = warming._start(folder)
    assert process is not None
    for thread in threading.enumerate():
        if thread.name == "braidwright solver":
            thread.join(20)
    assert process.returncode == 0  # nobody asked for it here, so no dead process is left about
    where, is_apart, ends = json.loads((folder / "report").read_text(encoding="utf-8"))
    assert (Path(where), is_apart) == (folder.resolve(), True)
    assert ends == [os.stat(os.devnull).st_rdev] * 3


def test_the_real_process_says_that_it_is_at_work_and_can_be_ended(folder: Path) -> None:
    """Not waited for till its end: that takes half a minute on a fresh machine."""
    process = warming._start(folder)
    assert process is not None
    until = time.monotonic() + 60.0
    while not is_at_work(folder) and not is_ready() and time.monotonic() < until:
        time.sleep(0.02)
    assert is_at_work(folder) or is_ready()
    process.kill()
    process.wait(20)
    assert not is_at_work(folder)
