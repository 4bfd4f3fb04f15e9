"""toml_file: a TOML text or file as a plain table, or one sentence that says why not."""

import tomllib
from pathlib import Path

from braidwright.domain.errors import CatalogueError

LARGEST_BYTES = 4_000_000


def read_toml(path: Path) -> dict[str, object]:
    """The table in a TOML file.

    Raises:
        CatalogueError: The file cannot be read, or it is not TOML.
    """
    try:
        with path.open("rb") as stream:
            content = stream.read(LARGEST_BYTES + 1)
    except (OSError, ValueError) as error:  # ValueError: a path with a null character
        reason = getattr(error, "strerror", None) or "that is no path"
        raise CatalogueError(f"{path}: the file cannot be read ({reason}); check its name and place.") from error
    if len(content) > LARGEST_BYTES:
        raise CatalogueError(f"{path}: the file is larger than {LARGEST_BYTES} bytes; give a catalogue file.")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise CatalogueError(f"{path}: the file is not text in UTF-8; save it as UTF-8.") from error
    return parse_toml(text.replace("\r\n", "\n"), where=str(path))


def parse_toml(text: str, *, where: str) -> dict[str, object]:
    """The table in a TOML text.

    Raises:
        CatalogueError: It is not TOML.
    """
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise CatalogueError(f"{where}: this is not TOML ({error}); mend it there.") from error
    except (RecursionError, ValueError) as error:  # a number of thousands of digits is a plain ValueError
        raise CatalogueError(
            f"{where}: lists are nested too deeply or a number is too long to read; check the file."
        ) from error
