"""warming: getting the solver ready on a machine where it never ran, in a process of its own, out of everybody's way.

The solver is turned into machine code at its first use, which takes half a minute, and is kept from then on. `warm_up`
has that done by a second process of low priority: one at a time on a machine, bounded, silent. A mark in the user's
cache folder says that it was done; without such a folder nothing is started, and the solver gets ready where it is
asked. Nothing here ever fails a command.
"""

import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from hashlib import sha256
from importlib.metadata import PackageNotFoundError
from importlib.metadata import version as version_of
from pathlib import Path
from platform import machine, python_implementation, python_version
from threading import Thread, Timer
from typing import IO, Any, Final

from braidwright.store.folder import usual_folder

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

PHYSICS: Final = Path(__file__).resolve().parent.parent / "physics"
READY: Final = "solver-ready"
AT_WORK: Final = "solver-at-work"
COMMAND: Final = ("-m", "braidwright.app.warming")
MOST_SECONDS: Final = 300.0
LOOK_EVERY_S: Final = 0.1
NICENESS: Final = 10
TRIES: Final = 5  # someone who only looks holds the lock for a moment


def is_ready() -> bool:
    """Whether the solver, as it is now, got ready on this machine before."""
    folder = usual_folder()
    return folder is not None and _is_marked(folder)


def warm_up() -> None:
    """Have the solver made ready in the background, when it is not and nobody is at it; returns at once."""
    folder = usual_folder()
    if folder is not None and not _is_marked(folder) and not is_at_work(folder):
        _start(folder)


def get_ready(watch: Callable[[float], bool]) -> bool:
    """Wait until the solver is ready, and have it made ready if need be.

    Args:
        watch: Asked now and then, with 0, whether to go on.

    Returns:
        Whether to go on: then it is ready, or, where a second process cannot do it, will get ready as it is used.
    """
    folder = usual_folder()
    if folder is None or _is_marked(folder):
        return True
    process = None if is_at_work(folder) else _start(folder)
    until = time.monotonic() + MOST_SECONDS
    while (process is not None and process.poll() is None) or is_at_work(folder):
        if not watch(0.0):
            return False
        if _is_marked(folder) or time.monotonic() > until:
            break
        time.sleep(LOOK_EVERY_S)
    return True


def is_at_work(folder: Path) -> bool:
    """Whether a process is making the solver ready just now."""
    try:
        with (folder / AT_WORK).open("r+b") as stream, _alone(stream) as is_alone:
            return not is_alone
    except OSError:
        return False


def make_ready(folder: Path, work: Callable[[], str]) -> bool:
    """Do the work, when nobody else is at it, and mark that it was done.

    Args:
        folder: Of the mark.
        work: Makes the solver ready; tells the folder in which its machine code is kept.

    Returns:
        Whether it was done.
    """
    with (folder / AT_WORK).open("a+b") as stream:
        for _ in range(TRIES):
            with _alone(stream) as is_alone:
                if is_alone:
                    kept_in = work()
                    beside = folder / f"{READY}.part"
                    beside.write_text(f"{_token()}\n{kept_in}\n", encoding="utf-8")
                    os.replace(beside, folder / READY)
                    return True
            time.sleep(LOOK_EVERY_S)
    return False


def use_every_solver() -> str:
    """Solve something small of every kind, so that all of the solver is machine code; tells where that is kept."""
    from braidwright.catalogue.shelf import standard
    from braidwright.physics.balance import energy
    from braidwright.physics.solids import reaching_solid, round_solid
    from braidwright.physics.uniform import solve_uniform
    from braidwright.physics.whole import Piece, solve_whole

    reaching = reaching_solid(2.0, ((0.0, 1.0), (2.0, 1.2)))
    kinds = (round_solid(3.0, 2.1), round_solid(4.0, 2.9), reaching)
    for name, width in (("kongoh-8", 4), ("maru-yotsu", 4)):
        rows = (*[((0,),) * width] * 2, ((1,), (2,), (), (0, 0)), ((0,),) * width)
        for core in (0.0, 1.5):
            piece = Piece(
                braid=standard().braid(name), rows=rows, kinds=kinds, cord_mm=0.5, drift_deg=5.0, core_mm=core
            )
            solve_whole(piece, solve_uniform)
    compiled: Any = energy
    return str(compiled.stats.cache_path)


def _start(folder: Path) -> "subprocess.Popen[bytes] | None":
    """The process that makes the solver ready, or None where none can be started."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        (folder / AT_WORK).touch()
        process = _started(folder)
    except (OSError, ValueError):
        return None
    Thread(
        target=process.wait, name="braidwright solver", daemon=True
    ).start()  # so that its end is noticed, and no dead process is left about
    return process


def _started(folder: Path) -> "subprocess.Popen[bytes]":
    """It is of this very program, hears no interrupt of this terminal, says nothing, and keeps no other folder busy."""
    flags = 0
    paths = (str(PHYSICS.parent.parent), os.environ.get("PYTHONPATH", ""))
    if sys.platform == "win32":
        flags = subprocess.CREATE_NO_WINDOW | subprocess.BELOW_NORMAL_PRIORITY_CLASS
    return subprocess.Popen(
        [sys.executable, *COMMAND],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        cwd=folder,
        env=os.environ | {"PYTHONPATH": os.pathsep.join(path for path in paths if path)},
        start_new_session=True,
        creationflags=flags,
    )


def _is_marked(folder: Path) -> bool:
    """Whether the mark is of this solver on this machine, and the machine code still there."""
    try:
        token, kept_in = (folder / READY).read_text(encoding="utf-8").splitlines()
        return token == _token() and any(Path(kept_in).glob("*.nbi"))  # one index for each compiled function
    except (OSError, ValueError):
        return False


def _token() -> str:
    """What makes the compiler begin anew: another Python, another compiler, another file of the physics."""
    told = [python_implementation(), python_version(), machine(), os.environ.get("NUMBA_CACHE_DIR", ""), str(PHYSICS)]
    with suppress(PackageNotFoundError):
        told.append(version_of("numba"))
    for path in sorted(PHYSICS.rglob("*.py")):
        about = path.stat()
        told.append(f"{path.name} {about.st_size} {about.st_mtime_ns}")
    return sha256("\n".join(told).encode()).hexdigest()


@contextmanager
def _alone(stream: IO[bytes]) -> Iterator[bool]:
    """Hold the lock of a file for a while; gives whether it could be had. The system frees it when a process dies."""
    try:
        if sys.platform == "win32":
            stream.seek(0)
            msvcrt.locking(stream.fileno(), msvcrt.LK_NBLCK, 1)
        else:
            fcntl.flock(stream.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)
    except (BlockingIOError, PermissionError):
        yield False
        return
    except OSError:  # a disk that knows no locks: better two at work than none
        yield True
        return
    try:
        yield True
    finally:
        if sys.platform == "win32":
            stream.seek(0)
            msvcrt.locking(stream.fileno(), msvcrt.LK_UNLCK, 1)
        else:
            fcntl.flock(stream.fileno(), fcntl.LOCK_UN)


def main() -> None:
    """What the second process does."""
    if sys.platform != "win32":
        os.nice(NICENESS)
    bound = Timer(MOST_SECONDS, os._exit, (1,))
    bound.daemon = True
    bound.start()
    folder = usual_folder()
    if folder is not None:
        make_ready(folder, use_every_solver)


if __name__ == "__main__":
    main()
