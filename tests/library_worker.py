"""A process that works on a library until it is killed: `python library_worker.py what folder ...`.

What it has been told is done, it says on a line of its own; whoever kills it may hold the library to that.
"""

import os
import signal
import sys
from collections.abc import Callable
from pathlib import Path

from braidwright.store.library.archive_reader import Archive
from braidwright.store.library.opening import open_library
from library_kit import NOW, change, later

SIZES = (10, 3_000, 200_000)  # bytes of a content, which cannot be packed any smaller
TOUCHING_FILES = ("open", "os.rename", "os.remove", "sqlite3.connect")


def say(*words: object) -> None:
    """A line, out at once."""
    sys.stdout.write(" ".join(str(word) for word in words) + "\n")
    sys.stdout.flush()


def save_on_and_on(folder: str, seed: str) -> None:
    """Begin designs and change them, small and large, and say the name of each state that was acknowledged."""
    library = open_library(Path(folder), NOW).library
    say("ready")
    while True:
        entry = library.create(change(os.urandom(20), title=f"by {seed}"))
        newest = entry.newest
        say("kept", entry.design, newest.name)
        for step in range(8):
            content = os.urandom(SIZES[step % len(SIZES)])
            newest = library.save(entry.design, newest.name, change(content, at=later(step)))
            say("kept", entry.design, newest.name)


def take_in(folder: str, archive: str) -> None:
    """Add all designs of a library file."""
    library = open_library(Path(folder), NOW).library
    with Path(archive).open("rb") as stream:
        found = Archive(stream)
        say("ready")
        library.add((history, found.contents(number)) for number, history in enumerate(found.histories, 1))
        say("kept all")


def save_together(folder: str, design: str, count: str) -> None:
    """Change one design `count` times, from its newest state, as often as that takes; say how often it was stale."""
    from braidwright.domain.errors import StaleError

    library = open_library(Path(folder), NOW).library
    stale = 0
    for step in range(int(count)):
        while True:
            newest = library.entry(int(design)).newest
            try:
                state = library.save(int(design), newest.name, change(f"{os.getpid()} {step}", title=f"{os.getpid()}"))
            except StaleError:
                stale += 1
            else:
                say("kept", design, state.name)
                break
    library.close()
    say("stale", stale)


def die_at(folder: str, count: str) -> None:
    """Open the library, and be killed just before the `count`th time a file is touched."""
    left = int(count)

    def watch(event: str, _: tuple[object, ...]) -> None:
        nonlocal left
        if event in TOUCHING_FILES:
            left -= 1
            if left == 0:
                os.kill(os.getpid(), signal.SIGKILL)

    sys.addaudithook(watch)
    open_library(Path(folder), NOW).library.close()
    left = 0
    say("lived")


WORK: dict[str, Callable[..., None]] = {
    "save": save_on_and_on,
    "take-in": take_in,
    "together": save_together,
    "die-at": die_at,
}

if __name__ == "__main__":
    WORK[sys.argv[1]](*sys.argv[2:])
