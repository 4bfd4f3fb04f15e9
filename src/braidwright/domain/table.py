"""Table: one table of a maker's file, read field by field, strictly, each fault told in one sentence.

A braid, bead or cord may stand in a TOML file or inside a design (JSON): both give the same plain mappings,
and what is read here must be what the maker meant. Nothing is guessed: `true` is not 1, "3" is not 3, 3.5 is
no slot.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from math import isfinite

from braidwright.domain.errors import BraidwrightError

# A number beyond this is a slip in any field of any file. It also keeps a number of five thousand digits,
# which Python refuses to print, out of the messages.
FAR_TOO_LARGE = 1_000_000_000
LONGEST_LINE = 200
LONGEST_TEXT = 20_000
SHOWN = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """One table of a file, and what to say when a field of it is wrong.

    Attributes:
        fields: The table as the file's reader gave it.
        where: What the messages begin with, such as "my-braid.toml".
        error: The kind of error to raise.
    """

    fields: Mapping[str, object]
    where: str
    error: type[BraidwrightError]

    def fault(self, field: str, what: str) -> BraidwrightError:
        """The error for one field: raise what this returns."""
        return self.error(f"{self.where}, {field}: {what}")

    def placed(self, error: BraidwrightError) -> str:
        """What an error of a type's own says, with the place before it when it does not name that already."""
        said = str(error)
        return said if said.startswith(self.where) else f"{self.where}: {said}"

    def has(self, field: str) -> bool:
        """Whether the file states this field."""
        return field in self.fields

    def get(self, field: str, known: Collection[str] = ()) -> object:
        """The value of a field that must be there.

        Raises:
            BraidwrightError: It is not; a field that may have been meant is named.
        """
        if field in self.fields:
            return self.fields[field]
        strangers = [name for name in self.fields if name not in known] if known else []
        near = get_close_matches(field, strangers, 1)
        meant = f" (is {shown(near[0])} meant to be it?)" if near else ""
        raise self.error(f"{self.where}: the field {field} is missing; add it{meant}.")

    def line(self, field: str, default: str | None = None) -> str:
        """A text of one line. Without a default it must be there."""
        if default is not None and field not in self.fields:
            return default
        value = self.get(field)
        if not isinstance(value, str) or not value.strip():
            raise self.fault(field, f"{shown(value)} was found; give a text of one line.")
        if len(value) > LONGEST_LINE or not value.isprintable():
            raise self.fault(field, f"give one line of at most {LONGEST_LINE} plain characters.")
        return value

    def text(self, field: str, default: str = "") -> str:
        """A text that may have several lines, or the default when the file has none."""
        value = self.fields.get(field, default)
        if not isinstance(value, str):
            raise self.fault(field, f"{shown(value)} was found; give a text.")
        if len(value) > LONGEST_TEXT or not all(sign.isprintable() or sign in "\n\t" for sign in value):
            raise self.fault(field, f"give plain text of at most {LONGEST_TEXT} characters.")
        return value

    def whole(self, field: str, known: Collection[str] = ()) -> int:
        """A whole number."""
        return self.as_whole(field, self.get(field, known))

    def as_whole(self, field: str, value: object) -> int:
        """`value` as a whole number; `field` says where it was found."""
        if isinstance(value, bool) or not isinstance(value, int):
            raise self.fault(field, f"{shown(value)} was found; give a whole number.")
        if abs(value) > FAR_TOO_LARGE:
            raise self.fault(field, "the number is far too large; check it.")
        return value

    def number(self, field: str, known: Collection[str] = ()) -> float:
        """A number, whole or not. A whole one stays whole, so that it is written as it was read."""
        value = self.get(field, known)
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise self.fault(field, f"{shown(value)} was found; give a number.")
        if abs(value) > FAR_TOO_LARGE or not isfinite(value):
            raise self.fault(field, "that is no size; give an ordinary number.")
        return value

    def choice(self, field: str, choices: Collection[str]) -> str:
        """One of a few words."""
        value = self.get(field)
        if not isinstance(value, str) or value not in choices:
            raise self.fault(field, f"{shown(value)} was found; use one of {', '.join(choices)}.")
        return value

    def items(self, field: str, known: Collection[str] = (), most: int = 10_000) -> tuple[object, ...]:
        """The members of a list."""
        return self.as_items(field, self.get(field, known), most)

    def as_items(self, field: str, value: object, most: int = 10_000) -> tuple[object, ...]:
        """`value` as the members of a list; `field` says where it was found."""
        if not isinstance(value, list | tuple):
            raise self.fault(field, f"{shown(value)} was found; give a list in square brackets.")
        if len(value) > most:
            raise self.fault(field, f"the list has {len(value)} members; give at most {most}.")
        return tuple(value)

    def lines(self, field: str) -> tuple[tuple[str, str], ...]:
        """A table of texts, as pairs in the order of the file; () when the file has none."""
        value = self.fields.get(field, {})
        if not isinstance(value, Mapping):
            raise self.fault(field, f"{shown(value)} was found; give a table of texts.")
        inner = Table(fields=value, where=f"{self.where}, {field}", error=self.error)
        return tuple((_plain(name), inner.line(name)) for name in value)

    def strangers(self, known: Collection[str]) -> tuple[str, ...]:
        """A warning for each field that is not known here."""
        return tuple(
            f"{self.where}: the field {shown(name)} is not known and is left alone{_or_meant(name, known)}."
            for name in self.fields
            if name not in known
        )


def as_table(value: object, *, where: str, error: type[BraidwrightError]) -> Table:
    """`value` as a table.

    Raises:
        BraidwrightError: It is something else.
    """
    if not isinstance(value, Mapping):
        raise error(f"{where}: {shown(value)} was found; give a table of fields.")
    return Table(fields=value, where=where, error=error)


def shown(value: object) -> str:
    """What was found, in a maker's words and never longer than a line."""
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        short = value if len(value) <= SHOWN else value[:SHOWN] + "..."
        return ascii(short) if not short.isprintable() else repr(short)
    if isinstance(value, int | float):
        return f"{value}" if abs(value) < FAR_TOO_LARGE or isinstance(value, float) else "a huge number"
    if isinstance(value, list | tuple):
        return "a list"
    return "a table" if isinstance(value, Mapping) else f"a {type(value).__name__}"


def _plain(name: str) -> str:
    return name if name.isprintable() else ascii(name)


def _or_meant(name: str, known: Collection[str]) -> str:
    near = get_close_matches(name, sorted(known), 1, 0.7)
    return f" (is {near[0]} meant?)" if near else ""
