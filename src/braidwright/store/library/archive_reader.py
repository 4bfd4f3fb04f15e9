"""archive_reader: a library back out of one file, which may come from anyone: nothing in it is believed unchecked.

Nothing is unpacked to the disk and no name in it is used as a path. What it says about its size is a bound on what is
read, never on trust; every content is compared with its sum before any is used.
"""

import json
import struct
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import chain
from os import SEEK_END
from stat import S_ISREG
from typing import BinaryIO, Final
from zipfile import ZIP_DEFLATED, ZIP_STORED, BadZipFile, LargeZipFile, ZipFile, ZipInfo

from braidwright.domain.errors import DocumentError
from braidwright.store.library.archive import (
    FORMAT,
    MANIFEST,
    MOST_BYTES_PACKED,
    MOST_BYTES_UNPACKED,
    MOST_DESIGNS,
    MOST_DIRECTORY_BYTES,
    MOST_LIST_BYTES,
    VERSION,
    names_of,
)
from braidwright.store.library.records import LONGEST_LABEL, MOST_BYTES, History, State, storable, sum_of
from braidwright.store.library.rows import moment_of, state_of

END: Final = b"PK\x05\x06"  # the record at the end of a zip
END_BYTES: Final = 22
LOCATOR: Final = b"PK\x06\x07"  # before it, where there is a record for larger zips
LOCATOR_BYTES: Final = 20
ENCRYPTED: Final = 1
LARGEST_NUMBER: Final = 2**53


class _FaultError(ValueError):
    """What is wrong with a library file, in words that end a sentence."""


class Archive:
    """A library file that was read and found whole.

    Args:
        stream: The file; it has to stay open while contents are asked for.

    Raises:
        DocumentError: It is no library, damaged, or built to do harm.
    """

    def __init__(self, stream: BinaryIO) -> None:
        with _refusing():
            _check_ends(stream)
            self._file = ZipFile(stream)
            files = self._file.infolist()
            self._files = {about.filename: about for about in files}
            _check_files(files)
            self.histories = tuple(self._histories())
            _check_names(set(self._files), self.histories)
            for number in range(1, len(self.histories) + 1):
                for _ in self.contents(number):
                    pass

    def contents(self, number: int) -> Iterator[bytes]:
        """The contents of the states of a design, the first one first, each compared with its sum.

        Args:
            number: Which of the histories, counted from 1.
        """
        states = self.histories[number - 1].states
        names = names_of(number)
        with _refusing():
            if len(states) > 1:
                with self._file.open(self._files[names.earlier]) as entry:
                    for state in states[:-1]:
                        yield _checked(entry.read(state.size), state)
                    _check(not entry.read(1), "a design has more than its states say")
            yield _checked(self._all_of(names.newest, states[-1].size), states[-1])

    def newest(self, number: int) -> bytes:
        """The content of the newest state of a design."""
        state = self.histories[number - 1].states[-1]
        with _refusing():
            return _checked(self._all_of(names_of(number).newest, state.size), state)

    def _histories(self) -> Iterator[History]:
        manifest = json.loads(self._all_of(MANIFEST, MOST_LIST_BYTES))
        _check(isinstance(manifest, dict) and FORMAT in manifest, "its manifest is not one of a library")
        if manifest[FORMAT] != VERSION:
            raise DocumentError(
                "The library file was written by another version of this program, which this one cannot read; get the "
                "newest version."
            )
        designs = manifest.get("designs")
        _check(isinstance(designs, list) and len(designs) <= MOST_DESIGNS, "its manifest lists no designs")
        for number, design in enumerate(designs, 1):
            _check(isinstance(design, dict), "its manifest lists something that is no design")
            text = self._all_of(names_of(number).states, MOST_LIST_BYTES)
            _check(sum_of(text) == design.get("states"), "a list of states does not match its sum")
            removed = design.get("removed")
            yield History(states=_states_in(text), removed=None if removed is None else moment_of(removed))

    def _all_of(self, name: str, most: int) -> bytes:
        with self._file.open(self._files[name]) as entry:
            content = entry.read(most + 1)
        _check(len(content) <= most, "a file in it is larger than it says")
        return content


def _states_in(text: bytes) -> tuple[State, ...]:
    listed = json.loads(text)
    _check(isinstance(listed, list) and len(listed) > 0, "a design in it has no states")
    states = tuple(_state_in(each) for each in listed)
    for before, state in zip((None, *states), states, strict=False):
        _check(0 < state.number < LARGEST_NUMBER, "a state has an impossible number")
        _check(0 <= state.size <= MOST_BYTES, "a state has an impossible size")
        _check(state.is_true, "a state does not match its sum")
        _check(before is None or before.number < state.number, "the states of a design are out of order")
    return states


def _state_in(plain: object) -> State:
    if not isinstance(plain, dict):
        raise TypeError
    fields = ("name", "parent", "number", "title", "facts", "doing", "at", "brought_back", "content_sum", "size")
    row = {field: plain[field] for field in fields}
    facts = json.dumps(row["facts"])  # as a row of the table has them
    state = state_of(tuple(facts if field == "facts" else value for field, value in row.items()))
    texts = (state.title, state.doing, state.parent or "", state.brought_back or "", *chain(*state.facts))
    _check(all(storable(words) == words for words in texts), "a text in it cannot be kept")
    _check(max(len(state.title), len(state.doing)) <= LONGEST_LABEL, "a title in it is too long")
    return state


def _checked(content: bytes, state: State) -> bytes:
    _check(len(content) == state.size and sum_of(content) == state.content_sum, "a design does not match its sum")
    return content


def _check_ends(stream: BinaryIO) -> None:
    """Judge the size of the file and of its own list of files before that list is read.

    Ours end with the record of the end and nothing after it; the larger kind of record, which would overrule it, is
    not used.
    """
    size = stream.seek(0, SEEK_END)
    _check(size <= MOST_BYTES_PACKED, "it is too large")
    stream.seek(max(0, size - END_BYTES - LOCATOR_BYTES))
    tail = stream.read()
    end = tail[-END_BYTES:]
    _check(end.startswith(END) and end.endswith(b"\0\0"), "it is no library, or was cut short")
    _check(not tail.startswith(LOCATOR), "it holds too many files")
    count, directory_bytes = struct.unpack("<HL", end[10:16])
    _check(count <= 3 * MOST_DESIGNS + 1 and directory_bytes <= MOST_DIRECTORY_BYTES, "it holds too many files")


def _check_files(files: list[ZipInfo]) -> None:
    _check(len({about.filename for about in files}) == len(files), "it holds two files of one name")
    for about in files:
        kind = about.external_attr >> 16
        _check(kind >> 12 == 0 or S_ISREG(kind), "it holds a link or something else that is no file")
        _check(not about.flag_bits & ENCRYPTED, "it is locked with a password")
        _check(about.compress_type in (ZIP_STORED, ZIP_DEFLATED), "it is packed in an unusual way")
    _check(sum(about.file_size for about in files) <= MOST_BYTES_UNPACKED, "it is too large when unpacked")


def _check_names(found: set[str], histories: tuple[History, ...]) -> None:
    wanted = {MANIFEST}
    for number, history in enumerate(histories, 1):
        names = names_of(number)
        wanted |= {names.newest, names.states} | ({names.earlier} if len(history.states) > 1 else set())
    _check(found == wanted, "it holds files that do not belong to a library, or lacks some")


def _check(is_so: bool, what: str) -> None:
    if not is_so:
        raise _FaultError(what)


@contextmanager
def _refusing() -> Iterator[None]:
    """Whatever a reader stumbles over is one sentence."""
    try:
        yield
    except _FaultError as error:
        raise _refusal(str(error)) from error
    except (KeyError, TypeError, ValueError) as error:
        raise _refusal("something in it is missing or of the wrong kind") from error
    except (BadZipFile, LargeZipFile, EOFError, OSError, zlib.error, struct.error) as error:
        raise _refusal("it is damaged or was cut short") from error
    except (NotImplementedError, RuntimeError, OverflowError) as error:  # RecursionError is a RuntimeError
        raise _refusal("it is built in an unusual way") from error


def _refusal(what: str) -> DocumentError:
    return DocumentError(f"The library file cannot be taken in: {what}; nothing was changed, export it again.")
