"""Designs: open a design file, save one, start a new one. What is written is written beside and then renamed."""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from stat import S_ISDIR, S_ISREG
from typing import BinaryIO
from uuid import uuid4

from braidwright.catalogue.shelf import Catalogue, standard
from braidwright.domain.document import Reading, read_design, write_design
from braidwright.domain.errors import BraidwrightError, DocumentError, OutputError
from braidwright.domain.twist import Twist

LARGEST_BYTES = 64_000_000
STANDARD_INPUT = "-"
LONGEST_NAME = 200  # of a file in a message


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A design file that was opened, with the catalogue it was read with.

    Attributes:
        reading: The design and what reading it had to tell.
        catalogue: The standard catalogue with the maker's own files on top.
    """

    reading: Reading
    catalogue: Catalogue


def open_catalogue(files: tuple[Path, ...] = ()) -> Catalogue:
    """The standard catalogue with a maker's own files on top, the last one uppermost.

    Raises:
        CatalogueError, BraidError: A file cannot be read, or something in it cannot be.
    """
    catalogue = standard()
    for path in files:
        catalogue = catalogue.with_user_file(path)
    return catalogue


def open_design(name: str, catalogue: Catalogue, stdin: BinaryIO | None = None) -> Opened:
    """Read a design file; "-" reads what is sent to the program.

    Raises:
        BraidwrightError: The file cannot be read, or is no design; the sentence begins with the file's name.
    """
    text = decoded(read_bytes(name, stdin), called(name))
    try:
        reading = read_design(text, catalogue.braid)
    except BraidwrightError as error:
        raise type(error)(f"{called(name)}: {error}") from error
    return Opened(reading=reading, catalogue=catalogue)


def twisted(opened: Opened, twist: Twist) -> Opened:
    """The opened design with another twist.

    Raises:
        DesignError: More degrees than a rope of its braid can turn.
    """
    design = replace(opened.reading.design, twist=twist)
    return replace(opened, reading=replace(opened.reading, design=design))


def called(name: str) -> str:
    """What messages call a file."""
    if name == STANDARD_INPUT:
        return "Standard input"
    return name if len(name) <= LONGEST_NAME else f"{name[:LONGEST_NAME]}..."


def read_bytes(name: str, stdin: BinaryIO | None = None) -> bytes:
    """The bytes of a file, or of standard input for "-".

    Raises:
        DocumentError: It is missing, is no file, may not be read, or is far too large.
    """
    try:
        if name == STANDARD_INPUT:
            content = (stdin or sys.stdin.buffer).read(LARGEST_BYTES + 1)
        else:
            with _readable(Path(name)).open("rb") as stream:
                content = stream.read(LARGEST_BYTES + 1)
    except (OSError, ValueError) as error:  # ValueError: a path with a null character
        raise DocumentError(_why_unreadable(name, error)) from error
    if len(content) > LARGEST_BYTES:
        raise DocumentError(
            f"{called(name)}: the file is larger than {LARGEST_BYTES // 1_000_000} MB, which no design is; "
            f"give the design file itself."
        )
    return content


def _readable(path: Path) -> Path:
    """The path, when it is no folder: opening one says so on some systems and speaks of permissions on others."""
    if S_ISDIR(path.stat().st_mode):
        raise IsADirectoryError
    return path


def _why_unreadable(name: str, error: Exception) -> str:
    where = called(name)
    match error:
        case FileNotFoundError() | NotADirectoryError():
            return f"{where}: there is no such file; check its name and folder."
        case IsADirectoryError():
            return f"{where}: this is a folder; give the design file in it."
        case PermissionError():
            return f"{where}: you may not read this file; ask its owner, or change its permissions."
        case OSError():
            return f"{where}: the file cannot be read ({error.strerror or 'no reason given'}); try a copy of it."
    return f"{where}: that is no file name; check it."


def decoded(content: bytes, where: str) -> str:
    """The text in the bytes of a design file; a byte order mark at its start is passed over.

    Raises:
        DocumentError: There is nothing in it, or it is no text in UTF-8.
    """
    if not content.strip():
        raise DocumentError(f"{where}: the file is empty; give a design file, or start one with `braidwright new`.")
    if b"\0" in content[:4096]:
        raise DocumentError(f"{where}: this is no text file; give a design file, which is JSON in UTF-8.")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise DocumentError(f"{where}, line {line}: this is not UTF-8; save the file as UTF-8 text.") from error


def save_design(design_text: str, target: Path) -> None:
    """Write the text of a design file, whole or not at all.

    Raises:
        OutputError: It cannot be written there.
    """
    # A lone half of a surrogate pair, in a field this program does not know, becomes the JSON escape it came from.
    save_bytes(design_text.encode("utf-8", "backslashreplace"), target)


def save_bytes(content: bytes, target: Path) -> None:
    """Write a file, whole or not at all: beside it first, then renamed into its place.

    Raises:
        OutputError: It cannot be written there.
    """
    with _told(target):
        place = target.resolve() if target.is_symlink() else target
        mode = place.stat().st_mode if place.exists() else None
        if mode is not None and S_ISDIR(mode):
            raise IsADirectoryError
        if mode is not None and not S_ISREG(mode):  # a device or a pipe is written to, never replaced
            place.write_bytes(content)
            return
        _write_and_rename(content, place)


def _write_and_rename(content: bytes, place: Path) -> None:
    draft = place.with_name(f".{place.name[:100]}.{uuid4().hex[:8]}.part")
    try:
        with draft.open("xb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        if place.exists():
            draft.chmod(place.stat().st_mode & 0o777)
        draft.replace(place)
    except BaseException:
        draft.unlink(missing_ok=True)
        raise


@contextmanager
def _told(target: Path) -> Iterator[None]:
    """Say in one sentence why a file cannot be written."""
    try:
        yield
    except IsADirectoryError as error:
        raise OutputError(f"{target}: this is a folder; give the name of a file.") from error
    except (FileNotFoundError, NotADirectoryError) as error:
        raise OutputError(f"{target}: there is no such folder; make it first, or write elsewhere.") from error
    except PermissionError as error:
        raise OutputError(f"{target}: you may not write there; choose another folder.") from error
    except (OSError, ValueError, RuntimeError) as error:  # RuntimeError: links that go round in a circle
        reason = getattr(error, "strerror", None) or "that is no file name"
        raise OutputError(f"{target}: it cannot be written ({reason}); choose another place.") from error


def text_of(opened: Opened) -> str:
    """The text of an opened design as it would be saved."""
    return write_design(opened.reading.design)
