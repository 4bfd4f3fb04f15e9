"""solved: what a solver found, kept on disk under a key that says all it was asked.

One file a result. A file says its key and its sum, so one that was damaged, cut short, renamed or written by something
else is passed over and, in time, replaced. Everything is written beside and then renamed. Keeping is a help and never
a duty: where the folder cannot be read or written, nothing is kept and nobody is told.
"""

import json
import os
import time
from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, fields, is_dataclass
from hashlib import sha256
from io import BytesIO
from pathlib import Path
from tempfile import mkstemp
from types import MappingProxyType
from typing import Any, Final
from zipfile import BadZipFile

import numpy as np
from numpy.typing import NDArray

from braidwright.store.folder import usual_folder

Fact = str | float | int | bool | None

HEAD: Final = b"braidwright solved 1"
ENDING: Final = ".solved"
BESIDE: Final = ".part"
MOST_BYTES: Final = 64 * 2**20  # some thousand bracelets
ABANDONED_S: Final = 3600.0  # a file still written beside after an hour was left there by a process that died
EXACT: Final = 2**53  # up to here a whole number is the same as a decimal one


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Kept:
    """A result as it is kept.

    Attributes:
        arrays: Named arrays of numbers, any shape, read-only when they come from the store.
        facts: Named words, numbers and yes or no.
    """

    arrays: Mapping[str, NDArray[Any]]
    facts: Mapping[str, Fact]


def key_of(asked: object, version: str) -> str:
    """The key of a question: 64 hexadecimal digits, the same for equal questions on every machine.

    Args:
        asked: A frozen dataclass, or a tuple, of numbers, words, None and more of these. Fields that do not count when
            two are compared do not count here.
        version: What answers; another version shares no answers with this one.

    Raises:
        TypeError: Something in it can change, so that it says nothing for good.
    """
    return sha256(f"{json.dumps(version)} {''.join(_spelled(asked))}".encode()).hexdigest()


class SolvedStore:
    """Results on disk, the ones longest unused going when there are too many.

    Args:
        folder: Where they are; None keeps nothing.
        most_bytes: How much they may take up together.
    """

    def __init__(self, folder: Path | None, most_bytes: int = MOST_BYTES) -> None:
        self._folder = folder
        self._most_bytes = most_bytes

    def get(self, key: str) -> Kept | None:
        """What is kept under a key, or None when there is nothing sound."""
        path = self._path(key)
        if path is None:
            return None
        try:
            if path.stat().st_size > self._most_bytes:
                return None
            found = _read(key, path.read_bytes())
        except (OSError, ValueError, KeyError, EOFError, BadZipFile, RecursionError):
            return None
        with suppress(OSError):
            os.utime(path)  # used just now
        return found

    def put(self, key: str, kept: Kept) -> None:
        """Keep a result, if it can be done."""
        path = self._path(key)
        content = _written(key, kept)
        if path is None or len(content) > self._most_bytes:
            return
        with suppress(OSError, ValueError):  # ValueError: a folder with a null character in its name
            _put(path, content)
            self._tidy(path.parent)

    def _path(self, key: str) -> Path | None:
        if len(key) != 64 or not set(key) <= set("0123456789abcdef"):
            raise ValueError(f"{key!r} is no key: it has 64 hexadecimal digits.")
        return None if self._folder is None else self._folder / f"{key}{ENDING}"

    def _tidy(self, folder: Path) -> None:
        """Take away what was left half-written, and the longest unused beyond the bound."""
        found = [(path, path.stat()) for path in folder.iterdir() if path.suffix in (ENDING, BESIDE)]
        for path, about in found:
            if path.suffix == BESIDE and about.st_mtime < time.time() - ABANDONED_S:
                path.unlink(missing_ok=True)
        whole = sorted(
            ((path, about) for path, about in found if path.suffix == ENDING), key=lambda each: -each[1].st_mtime_ns
        )
        room = self._most_bytes
        for path, about in whole:
            room -= about.st_size
            if room < 0:
                path.unlink(missing_ok=True)


def usual_store() -> SolvedStore:
    """The store in the folder of this user, which keeps nothing when that is switched off."""
    folder = usual_folder()
    return SolvedStore(None if folder is None else folder / "solved")


def _put(path: Path, content: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = mkstemp(dir=path.parent, suffix=BESIDE)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
        os.replace(name, path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


def _written(key: str, kept: Kept) -> bytes:
    """The head, the sum, the facts, and the arrays in the form of numpy; objects of Python are never among them."""
    arrays = BytesIO()
    np.savez(arrays, allow_pickle=False, **{f"of {name}": array for name, array in kept.arrays.items()})
    body = json.dumps(dict(kept.facts)).encode() + b"\n" + arrays.getvalue()
    return HEAD + b"\n" + _sum(key, body) + b"\n" + body


def _read(key: str, content: bytes) -> Kept:
    """The other way round; raises ValueError, or what the readers of its parts raise, when it is not of this key."""
    head, total, body = content.split(b"\n", 2)
    if head != HEAD or total != _sum(key, body):
        raise ValueError("damaged, or of another key")
    facts, _, rest = body.partition(b"\n")
    with np.load(BytesIO(rest), allow_pickle=False) as found:
        arrays = {name.removeprefix("of "): found[name] for name in found.files}
    for array in arrays.values():
        array.flags.writeable = False
    return Kept(arrays=MappingProxyType(arrays), facts=MappingProxyType(json.loads(facts)))


def _sum(key: str, body: bytes) -> bytes:
    return sha256(key.encode() + b"\n" + body).hexdigest().encode()


def _spelled(value: object) -> Iterator[str]:
    """A value letter by letter; equal values are spelled alike."""
    if value is None or isinstance(value, bool):
        yield repr(value)
    elif isinstance(value, str):
        yield json.dumps(value)
    elif isinstance(value, int | float | np.integer | np.floating):
        yield _spelled_number(value)
    elif isinstance(value, tuple):
        yield from _spelled_all("", [("", each) for each in value])
    elif is_dataclass(value) and not isinstance(value, type) and _is_frozen(value):
        pairs = [(each.name, getattr(value, each.name)) for each in fields(value) if each.compare]
        yield from _spelled_all(type(value).__qualname__, pairs)
    else:
        raise TypeError(f"A {type(value).__qualname__} cannot be part of a key: give numbers, words and tuples.")


def _spelled_number(value: "float | np.integer[Any] | np.floating[Any]") -> str:
    if isinstance(value, int | np.integer) and abs(int(value)) > EXACT:
        return repr(int(value))
    return repr(float(value) + 0.0)  # -0.0 is 0.0


def _spelled_all(name: str, pairs: list[tuple[str, object]]) -> Iterator[str]:
    yield f"{name}("
    for each, value in pairs:
        yield f"{each}="
        yield from _spelled(value)
        yield ","
    yield ")"


def _is_frozen(value: object) -> bool:
    return bool(getattr(type(value), "__dataclass_params__").frozen)  # noqa: B009  (typed as absent)
