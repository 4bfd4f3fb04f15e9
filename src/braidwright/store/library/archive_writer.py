"""archive_writer: a library into one file (`archive` says what is in it). The same library gives the same bytes."""

import json
from collections.abc import Iterable
from typing import BinaryIO, Protocol
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from braidwright.domain.errors import DamagedError, RequestError
from braidwright.store.library.archive import (
    FORMAT,
    MANIFEST,
    MOST_BYTES_UNPACKED,
    MOST_DESIGNS,
    MOST_LIST_BYTES,
    VERSION,
    names_of,
)
from braidwright.store.library.records import Entry, State, moment, sum_of

EPOCH = (1980, 1, 1, 0, 0, 0)  # the first date a zip can say
READABLE = 0o600 << 16


class Source(Protocol):
    """Where the states of a design come from."""

    def history(self, design: int) -> tuple[State, ...]:
        """Every state of a design, the first one first."""

    def content(self, design: int, name: str) -> bytes:
        """The content of a state."""


def write_archive(entries: Iterable[Entry], source: Source, stream: BinaryIO) -> tuple[str, ...]:
    """Write designs with all their states.

    Returns:
        Sentences about states that were damaged on the disk and are left out; usually none.

    Raises:
        RequestError: They are too many or too large for one file that could be read again.
        LibraryError: The library cannot be read.
    """
    listed, histories, notes = [], [], []
    for entry in sorted(entries, key=lambda entry: entry.design):
        states = source.history(entry.design)
        whole = tuple(state for state in states if _is_whole(source, entry, state))
        if len(whole) < entry.newest.number:
            notes.append(
                f"Of “{entry.newest.title}” {len(whole)} of {entry.newest.number} states are in the file; the others "
                f"were damaged on the disk."
            )
        if whole:
            listed.append(entry)
            histories.append(whole)
    _write(listed, histories, source, stream)
    return tuple(notes)


def _is_whole(source: Source, entry: Entry, state: State) -> bool:
    try:
        source.content(entry.design, state.name)
    except DamagedError:
        return False
    return True


def _write(listed: list[Entry], histories: list[tuple[State, ...]], source: Source, stream: BinaryIO) -> None:
    lists = [_list_of(states) for states in histories]
    manifest = {
        FORMAT: VERSION,
        "designs": [
            {"states": sum_of(text), "removed": None if entry.removed is None else moment(entry.removed)}
            for entry, text in zip(listed, lists, strict=True)
        ],
    }
    head = json.dumps(manifest, indent=1).encode()
    _check_bounds(histories, [head, *lists])
    with ZipFile(stream, "w", ZIP_DEFLATED) as file:
        _put(file, MANIFEST, [head])
        for number, (entry, states, text) in enumerate(zip(listed, histories, lists, strict=True), 1):
            names = names_of(number)
            contents = (source.content(entry.design, state.name) for state in states[:-1])
            _put(file, names.newest, [source.content(entry.design, states[-1].name)])
            _put(file, names.states, [text])
            if len(states) > 1:
                _put(file, names.earlier, contents)


def _check_bounds(histories: list[tuple[State, ...]], lists: list[bytes]) -> None:
    unpacked = sum(state.size for states in histories for state in states) + sum(len(text) for text in lists)
    if (
        len(histories) > MOST_DESIGNS
        or max(len(text) for text in lists) > MOST_LIST_BYTES
        or unpacked > MOST_BYTES_UNPACKED
    ):
        raise RequestError(
            f"The library is too large for one file ({len(histories)} designs, {unpacked // 1_000_000} MB with all "
            f"their states); export designs one by one, or keep a copy of the library file itself."
        )


def _list_of(states: tuple[State, ...]) -> bytes:
    return json.dumps([_plain(state) for state in states], indent=1).encode()


def _plain(state: State) -> dict[str, object]:
    return {
        "name": state.name,
        "parent": state.parent,
        "number": state.number,
        "title": state.title,
        "facts": [list(pair) for pair in state.facts],
        "doing": state.doing,
        "at": moment(state.at),
        "brought_back": state.brought_back,
        "content_sum": state.content_sum,
        "size": state.size,
    }


def _put(file: ZipFile, name: str, parts: Iterable[bytes]) -> None:
    about = ZipInfo(name, EPOCH)
    about.compress_type = ZIP_DEFLATED
    about.external_attr = READABLE
    about.create_system = 3  # else it would say on which system it was written
    with file.open(about, "w") as entry:
        for part in parts:
            entry.write(part)
