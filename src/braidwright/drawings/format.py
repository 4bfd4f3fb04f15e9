"""format: what a member of the family of output formats is: from a pattern to files."""

from collections.abc import Callable
from dataclasses import dataclass

from braidwright.drawings.pattern import Pattern

File = tuple[str, bytes]  # relative path with "/", and the bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """What a format made.

    Attributes:
        files: The files.
        warnings: Sentences for the maker: what this format could not show.
    """

    files: tuple[File, ...]
    warnings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Format:
    """A member of the family of formats.

    Attributes:
        name: Short name, as on the command line.
        title: What is being made, for progress and lists: "Setting the pages".
        note: One sentence for the reader of the pack: what these files are for.
        weight: Its usual share of the time a pack takes, for progress.
        write: Makes the files.
    """

    name: str
    title: str
    note: str
    weight: float
    write: Callable[[Pattern], Written]
