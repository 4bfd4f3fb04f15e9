"""family: one folder of TOML files, each read only when it is asked for."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from pathlib import Path
from typing import Generic, TypeVar, cast

from braidwright.catalogue.toml_file import read_toml
from braidwright.domain.bead import Bead
from braidwright.domain.bead_table import bead_from_table, bead_warnings
from braidwright.domain.braid import Braid
from braidwright.domain.braid_table import braid_from_table
from braidwright.domain.cord import Cord, EndCap
from braidwright.domain.cord_table import cord_from_table, cord_warnings, end_cap_from_table, end_cap_warnings
from braidwright.domain.errors import CatalogueError
from braidwright.domain.table import shown

HERE = Path(__file__).parent
MOST_NAMES_TOLD = 12

# What has been read of the standard files so far: they do not change while the program runs.
_READ: dict[Path, Braid | Bead | Cord | EndCap] = {}

Member = TypeVar("Member", bound=Braid | Bead | Cord | EndCap)


@dataclass(frozen=True, slots=True, kw_only=True)
class Family(Generic[Member]):
    """One kind of thing the catalogue keeps.

    Attributes:
        word: What one member is called in messages and in a maker's own file, such as "end_cap".
        folder: The folder beside this module that holds the standard ones.
        read: Makes a member, and warnings about unknown fields, from (table, name, where).
    """

    word: str
    folder: str
    read: Callable[[object, str, str], tuple[Member, tuple[str, ...]]]

    @property
    def title(self) -> str:
        """The word as a sentence says it."""
        return self.word.replace("_", " ")

    def files(self) -> dict[str, Path]:
        """The standard files by the name of the file without its suffix, in the order of their names."""
        return _files(self.folder)

    def from_file(self, path: Path) -> tuple[Member, tuple[str, ...]]:
        """The member in a file, which need not be one of the standard ones, and warnings.

        Raises:
            CatalogueError, BraidError: The file cannot be read, or what it describes cannot be.
        """
        return self.read(read_toml(path), path.stem, str(path))

    def named(self, name: str) -> Member | None:
        """The standard member of this name, or None; reads that one file."""
        path = self.files().get(name.replace("/", "-"))
        if path is None:
            return None
        member = self._kept(path)
        return member if member.name == name else None

    def standard(self) -> tuple[Member, ...]:
        """Every standard member, in the order of their files."""
        return tuple(self._kept(path) for path in self.files().values())

    def unknown(self, name: str, names: tuple[str, ...]) -> CatalogueError:
        """What to say when no member has this name; `names` are those there are."""
        near = get_close_matches(name.lower(), names, 3, 0.5)
        many = "see the list of the catalogue" if len(names) > MOST_NAMES_TOLD else f"use {_either(names)}"
        cure = f"is {_either(tuple(near))} meant?" if near else f"{many}."
        return CatalogueError(f"The catalogue has no {self.title} called {shown(name)}; {cure}")

    def _kept(self, path: Path) -> Member:
        if path not in _READ:
            _READ[path] = self.from_file(path)[0]
        return cast(Member, _READ[path])


@cache
def _files(folder: str) -> dict[str, Path]:
    found = [path for path in (HERE / folder).iterdir() if path.suffix == ".toml"]
    return {path.stem: path for path in sorted(found, key=lambda path: _natural(path.stem))}


def _natural(stem: str) -> list[tuple[int, float, str]]:
    """Order "kongoh-8" before "kongoh-12", and "satin-1" before "satin-1.5"."""
    parts = re.findall(r"\d+(?:\.\d+)?|\D+", stem)
    return [(0, float(part), "") if part[0].isdigit() else (1, 0.0, part) for part in parts]


def _either(names: tuple[str, ...]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} or {names[-1]}"


def _braid(table: object, name: str, where: str) -> tuple[Braid, tuple[str, ...]]:
    return braid_from_table(table, name=name, where=where)


def _bead(table: object, name: str, where: str) -> tuple[Bead, tuple[str, ...]]:
    return bead_from_table(table, name=name, where=where), bead_warnings(table, where=where)


def _cord(table: object, name: str, where: str) -> tuple[Cord, tuple[str, ...]]:
    return cord_from_table(table, name=name, where=where), cord_warnings(table, where=where)


def _end_cap(table: object, name: str, where: str) -> tuple[EndCap, tuple[str, ...]]:
    return end_cap_from_table(table, name=name, where=where), end_cap_warnings(table, where=where)


BRAIDS = Family(word="braid", folder="braids", read=_braid)
BEADS = Family(word="bead", folder="beads", read=_bead)
CORDS = Family(word="cord", folder="cords", read=_cord)
END_CAPS = Family(word="end_cap", folder="end_caps", read=_end_cap)
