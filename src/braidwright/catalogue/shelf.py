"""shelf: the catalogue as one value: the standard files, and a maker's own on top.

A maker's own file is TOML with tables [[bead]], [[cord]], [[end_cap]] and [[braid]], each with a name and the fields
of the standard files; a file that holds one braid and nothing else serves too.
"""

from dataclasses import dataclass, replace
from pathlib import Path

from braidwright.catalogue.family import BEADS, BRAIDS, CORDS, END_CAPS, Family, Member
from braidwright.catalogue.toml_file import parse_toml, read_toml
from braidwright.domain.bead import Bead
from braidwright.domain.braid import Braid
from braidwright.domain.cord import Cord, EndCap
from braidwright.domain.errors import CatalogueError
from braidwright.domain.table import Table, as_table, shown

TABLES = ("bead", "cord", "end_cap", "braid")
MOST_OWN = 5_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Catalogue:
    """Beads, cords, end caps and braids by name. The standard ones are read from their files when asked for.

    Attributes:
        own_braids: Braids from makers' own files; like the three below they come before standard ones of the
            same name.
        own_beads: Beads from makers' own files.
        own_cords: Cords from makers' own files.
        own_end_caps: End caps from makers' own files.
        warnings: Sentences about those files: fields that are not known, names that replace others.
    """

    own_braids: tuple[Braid, ...] = ()
    own_beads: tuple[Bead, ...] = ()
    own_cords: tuple[Cord, ...] = ()
    own_end_caps: tuple[EndCap, ...] = ()
    warnings: tuple[str, ...] = ()

    def braid(self, name: str) -> Braid:
        """The braid of this name, in the hand of its file.

        Raises:
            CatalogueError: There is none; near names are told.
        """
        return _find(BRAIDS, self.own_braids, name)

    def bead(self, name: str) -> Bead:
        """The bead of this name. Raises CatalogueError when there is none."""
        return _find(BEADS, self.own_beads, name)

    def cord(self, name: str) -> Cord:
        """The cord of this name. Raises CatalogueError when there is none."""
        return _find(CORDS, self.own_cords, name)

    def end_cap(self, name: str) -> EndCap:
        """The end cap of this name. Raises CatalogueError when there is none."""
        return _find(END_CAPS, self.own_end_caps, name)

    @property
    def braids(self) -> tuple[Braid, ...]:
        """Every braid, the makers' own first."""
        return _all(BRAIDS, self.own_braids)

    @property
    def beads(self) -> tuple[Bead, ...]:
        """Every bead, the makers' own first."""
        return _all(BEADS, self.own_beads)

    @property
    def cords(self) -> tuple[Cord, ...]:
        """Every cord, the makers' own first."""
        return _all(CORDS, self.own_cords)

    @property
    def end_caps(self) -> tuple[EndCap, ...]:
        """Every end cap, the makers' own first and the standard ones from small to large."""
        return _all(END_CAPS, self.own_end_caps)

    def with_user_file(self, path: Path) -> "Catalogue":
        """This catalogue with a maker's own file on top.

        Raises:
            CatalogueError, BraidError: The file cannot be read, or something in it cannot be.
        """
        return self._with(read_toml(path), str(path), path.stem)

    def with_user_text(self, text: str, *, where: str) -> "Catalogue":
        """The same from the text of such a file; `where` is what messages begin with."""
        return self._with(parse_toml(text, where=where), where, "own braid")

    def _with(self, content: dict[str, object], where: str, stem: str) -> "Catalogue":
        if "moves" in content:
            content = {"braid": [{"name": stem, **content}]}
        table = as_table(content, where=where, error=CatalogueError)
        braids, about_braids = _own(BRAIDS, self.own_braids, table)
        beads, about_beads = _own(BEADS, self.own_beads, table)
        cords, about_cords = _own(CORDS, self.own_cords, table)
        end_caps, about_end_caps = _own(END_CAPS, self.own_end_caps, table)
        return replace(
            self,
            own_braids=braids,
            own_beads=beads,
            own_cords=cords,
            own_end_caps=end_caps,
            warnings=self.warnings
            + table.strangers(TABLES)
            + about_braids
            + about_beads
            + about_cords
            + about_end_caps,
        )


def standard() -> Catalogue:
    """The catalogue that comes with the program."""
    return Catalogue()


def read_braid_file(path: Path) -> tuple[Braid, tuple[str, ...]]:
    """A braid from a TOML file anywhere, with warnings about fields that are not known.

    Raises:
        CatalogueError: The file cannot be read.
        BraidError: The braid cannot be worked.
    """
    return BRAIDS.from_file(path)


def _find(family: Family[Member], own: tuple[Member, ...], name: str) -> Member:
    for member in own:
        if member.name == name:
            return member
    found = family.named(name)
    if found is None:
        raise family.unknown(name, tuple(member.name for member in _all(family, own)))
    return found


def _all(family: Family[Member], own: tuple[Member, ...]) -> tuple[Member, ...]:
    taken = {member.name for member in own}
    return own + tuple(member for member in family.standard() if member.name not in taken)


def _own(
    family: Family[Member], before: tuple[Member, ...], table: Table
) -> tuple[tuple[Member, ...], tuple[str, ...]]:
    """What a maker's file adds to one family, before what was there, and warnings."""
    added: list[Member] = []
    warnings: list[str] = []
    listed = table.items(family.word, most=MOST_OWN) if table.has(family.word) else ()
    for number, value in enumerate(listed, 1):
        member, told = _one(family, value, f"{table.where}, {family.title} {number}")
        if any(member.name == other.name for other in added):
            raise CatalogueError(
                f"{table.where}, {family.title} {number}: the name {shown(member.name)} is used twice "
                f"in this file; give each {family.title} its own."
            )
        warnings.extend(told)
        if any(member.name == other.name for other in before) or family.named(member.name):
            warnings.append(
                f"{table.where}, {family.title} {number}: it takes the place of the {family.title} "
                f"{shown(member.name)} that was there before."
            )
        added.append(member)
    kept = tuple(other for other in before if all(other.name != member.name for member in added))
    return (*added, *kept), tuple(warnings)


def _one(family: Family[Member], value: object, where: str) -> tuple[Member, tuple[str, ...]]:
    name = as_table(value, where=where, error=CatalogueError).line("name")
    return family.read(value, name, where)
