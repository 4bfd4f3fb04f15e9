"""Output: files put into a folder so that nothing is ever half-written.

Everything is written beside first and moved into place when it is whole; when a move fails, all is put back. A list of
the files and their sums (pack.sha256, in the form that sum checkers read) tells a later pack which files are its own:
those are replaced, those no longer wanted go away unless they were changed, and what others put there stays untouched.
"""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from hashlib import sha256
from pathlib import Path, PurePosixPath
from tempfile import mkdtemp

from braidwright.domain.errors import OutputError

LIST = "pack.sha256"
STAGING = ".braidwright-"

File = tuple[str, bytes]


def write_pack(files: tuple[File, ...], folder: Path) -> tuple[Path, ...]:
    """Write a pack into a folder, which is made when it is not there.

    Args:
        files: Pairs (relative path with "/", bytes).
        folder: Where they go. An earlier pack there is replaced; other files are left alone.

    Returns:
        The paths written, in the order of `files`.

    Raises:
        OutputError: A file of someone else is in the way, or the system refuses; then nothing has changed.
    """
    wanted = (*files, (LIST, _list_of(files)))
    for path, _ in wanted:
        _check_path(path)
    try:
        earlier = _earlier(folder)
        _check_room(wanted, folder, earlier)
        _put(wanted, folder)
        _drop_stale(earlier, {path for path, _ in wanted}, folder)
    except (OSError, ValueError) as reason:  # ValueError: a path with a null character
        raise OutputError(
            f"The pack cannot be written to {folder}: {_why(reason)}; choose another folder, or mend that and try "
            f"again."
        ) from reason
    return tuple(folder / path for path, _ in files)


def _why(reason: Exception) -> str:
    return (reason.strerror or "the system refuses").lower() if isinstance(reason, OSError) else "that is no path"


def _list_of(files: tuple[File, ...]) -> bytes:
    return "".join(f"{sha256(content).hexdigest()}  {path}\n" for path, content in sorted(files)).encode()


def _check_path(path: str) -> None:
    """A pack stays inside its folder."""
    parts = PurePosixPath(path)
    if parts.is_absolute() or not parts.parts or ".." in parts.parts:
        raise OutputError(f"The file {path!r} would lie outside the pack; give it a plain relative path.")


def _earlier(folder: Path) -> dict[str, str]:
    """The files of a pack written here before, with their sums; {} when there is none."""
    try:
        lines = (folder / LIST).read_text("utf-8").splitlines()
    except (FileNotFoundError, NotADirectoryError, UnicodeDecodeError):
        return {}
    pairs = (line.partition("  ") for line in lines)
    return {path: total for total, _, path in pairs if len(total) == 64 and _stays_inside(path)}


def _stays_inside(path: str) -> bool:
    parts = PurePosixPath(path)
    return bool(parts.parts) and not parts.is_absolute() and ".." not in parts.parts


def _check_room(wanted: tuple[File, ...], folder: Path, earlier: dict[str, str]) -> None:
    """Refuse to write over what is not ours."""
    if os.path.lexists(folder) and not folder.is_dir():
        raise OutputError(f"{folder} is a file, not a folder; choose another folder for the pack.")
    for path, content in wanted:
        target = folder / path
        for above in target.relative_to(folder).parents:
            if os.path.lexists(folder / above) and not (folder / above).is_dir():
                raise OutputError(
                    f"{folder / above} is a file where the pack needs a folder; move it, or choose another folder."
                )
        mine = path == LIST or path in earlier or not os.path.lexists(target)
        if not mine and (target.is_dir() or target.read_bytes() != content):
            raise OutputError(
                f"{target} is there already and is of no earlier pack; move it, or choose another folder."
            )


def _put(wanted: tuple[File, ...], folder: Path) -> None:
    """Write everything beside, then move it into place."""
    with _new_parents(folder), _staging(folder) as staging:
        for path, content in wanted:
            beside = staging / "new" / path
            beside.parent.mkdir(parents=True, exist_ok=True)
            beside.write_bytes(content)
        if folder.is_dir():
            _exchange([path for path, _ in wanted], staging, folder)
        else:
            os.rename(staging / "new", folder)


@contextmanager
def _new_parents(folder: Path) -> Iterator[None]:
    """The folders above, made when they are missing and taken away again when the writing fails."""
    made = _make_folder(folder.parent)
    try:
        yield
    except BaseException:
        for place in made:
            place.rmdir()
        raise


def _make_folder(place: Path) -> list[Path]:
    """Make a folder and those above it; gives the ones that were missing, innermost first."""
    missing = [above for above in (place, *place.parents) if not above.exists()]
    place.mkdir(parents=True, exist_ok=True)
    return missing


@contextmanager
def _staging(folder: Path) -> Iterator[Path]:
    """A folder to write in, on the same disk as the place everything goes to."""
    staging = Path(mkdtemp(prefix=STAGING, dir=folder if folder.is_dir() else folder.parent))
    try:
        (staging / "new").mkdir()
        yield staging
    finally:
        shutil.rmtree(staging, ignore_errors=True)


def _exchange(paths: list[str], staging: Path, folder: Path) -> None:
    """Move the new files in and the old ones out; when a move fails, move everything back."""
    done: list[tuple[Path, Path | None]] = []
    made: list[Path] = []
    try:
        for path in paths:
            target, old = folder / path, staging / "old" / path
            made = _make_folder(target.parent) + made
            old.parent.mkdir(parents=True, exist_ok=True)
            kept = old if os.path.lexists(target) else None
            done.append((target, kept))
            if kept is not None:
                os.replace(target, kept)
            os.replace(staging / "new" / path, target)
    except BaseException:
        _put_back(done)
        for place in made:
            place.rmdir()
        raise


def _put_back(done: list[tuple[Path, Path | None]]) -> None:
    for target, kept in reversed(done):
        if kept is None:
            target.unlink(missing_ok=True)
        elif kept.exists():
            os.replace(kept, target)


def _drop_stale(earlier: dict[str, str], wanted: set[str], folder: Path) -> None:
    """Take away files of the earlier pack that this one does not have, unless someone changed them."""
    for path, total in earlier.items():
        target = folder / path
        if path in wanted or target.is_symlink() or not target.is_file():
            continue
        if sha256(target.read_bytes()).hexdigest() == total:
            target.unlink()
            _drop_empty(target.parent, folder)


def _drop_empty(place: Path, folder: Path) -> None:
    while place != folder and not any(place.iterdir()):
        place.rmdir()
        place = place.parent
