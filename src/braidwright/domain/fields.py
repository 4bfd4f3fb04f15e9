"""fields: read one table of a file field by field, with a sentence for everything that is not as it should be."""

import json
from collections.abc import Mapping
from math import isfinite

from braidwright.domain.errors import BraidwrightError, DocumentError

Extra = tuple[tuple[str, object], ...]
LONGEST_TEXT = 20_000


class Fields:
    """One table (a JSON object or TOML table) being read.

    What was asked for is remembered, so that `rest` can tell what nobody knows.
    """

    def __init__(self, table: object, where: str, error: type[BraidwrightError] = DocumentError) -> None:
        """Start reading.

        Args:
            table: What the file holds there.
            where: How to name the place to a maker, such as "Tray, 'a'".
            error: The error to raise.
        """
        self.where = where
        self.error = error
        self._asked: set[str] = set()
        if not isinstance(table, Mapping) or not all(isinstance(key, str) for key in table):
            raise error(f"{where}: {_kind(table)} stands here where a table of named fields belongs; write {{...}}.")
        self.table: Mapping[str, object] = table

    def fail(self, name: str, what: str, cure: str) -> BraidwrightError:
        """The error for one field, to be raised."""
        return self.error(f"{self.where}, {name}: {what}; {cure}.")

    def has(self, name: str) -> bool:
        """Whether the field is there."""
        self._asked.add(name)
        return name in self.table

    def raw(self, name: str) -> object:
        """The value as it stands; the field must be there."""
        if not self.has(name):
            raise self.error(f"{self.where}: the field {name!r} is missing; add it.")
        return self.table[name]

    def text(self, name: str) -> str:
        """A text."""
        value = self.raw(name)
        if not isinstance(value, str):
            raise self.fail(name, f"{_kind(value)} stands where a text belongs", 'write it in "quotes"')
        if len(value) > LONGEST_TEXT:
            raise self.fail(name, f"the text is {len(value)} characters long", f"use at most {LONGEST_TEXT}")
        if any(ord(sign) < 32 and sign not in "\n\t" or 0xD800 <= ord(sign) <= 0xDFFF for sign in value):
            raise self.fail(name, "the text holds a control character", "remove it")
        return value

    def text_or_none(self, name: str) -> str | None:
        """A text, or None when the field is not there."""
        return self.text(name) if self.has(name) else None

    def number(self, name: str, low: float, high: float) -> float:
        """A number from low to high. Whole numbers stay whole, so that writing gives back what was read."""
        value = self.raw(name)
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise self.fail(name, f"{_kind(value)} stands where a number belongs", "write a number without quotes")
        if not (isfinite(value) and low <= value <= high):
            shown = f"{value:g}" if isfinite(value) else str(value)
            raise self.fail(name, f"{shown} is out of range", f"give {low:g} to {high:g}")
        return value

    def number_or_none(self, name: str, low: float, high: float) -> float | None:
        """A number, or None when the field is not there."""
        return self.number(name, low, high) if self.has(name) else None

    def whole(self, name: str, low: int, high: int) -> int:
        """A whole number from low to high."""
        return self.check_whole(name, self.raw(name), low, high)

    def check_whole(self, name: str, value: object, low: int, high: int) -> int:
        """The value as a whole number, or a sentence that says why not."""
        if isinstance(value, bool) or not isinstance(value, int):
            raise self.fail(name, f"{_kind(value)} stands where a whole number belongs", "write a whole number")
        if not low <= value <= high:
            raise self.fail(name, f"{_short(value)} is out of range", f"give {low} to {high}")
        return value

    def choice(self, name: str, allowed: tuple[str, ...]) -> str:
        """One of a few words."""
        value = self.text(name)
        if value not in allowed:
            raise self.fail(name, f"{_short(value)} is not known", f"use one of {', '.join(allowed)}")
        return value

    def listing(self, name: str, most: int) -> list[object]:
        """A list of anything."""
        value = self.raw(name)
        if not isinstance(value, list):
            raise self.fail(name, f"{_kind(value)} stands where a list belongs", "write it in [brackets]")
        if len(value) > most:
            raise self.fail(name, f"the list has {len(value)} entries", f"use at most {most}")
        return value

    def texts(self, name: str, most: int) -> tuple[str, ...]:
        """A list of texts."""
        found = []
        for number, value in enumerate(self.listing(name, most), 1):
            if not isinstance(value, str):
                raise self.fail(f"{name}, entry {number}", f"{_kind(value)} stands where a text belongs", "write a text")
            found.append(value)
        return tuple(found)

    def colour(self, name: str, value: str) -> str:
        """A colour written #rrggbb."""
        if len(value) != 7 or value[0] != "#" or any(sign not in "0123456789abcdefABCDEF" for sign in value[1:]):
            raise self.fail(name, f"{_short(value)} is not a colour", "write it as #rrggbb, such as #1b6e5a")
        return value

    def rest(self) -> Extra:
        """What nobody asked for: name and value, the value as JSON text so that it can be kept unchanged."""
        return tuple(
            (name, json.dumps(value, ensure_ascii=False, default=str))
            for name, value in self.table.items()
            if name not in self._asked
        )


def thaw(extra: Extra) -> dict[str, object]:
    """Kept fields as a plain table again."""
    return {name: json.loads(str(text)) for name, text in extra}


def _kind(value: object) -> str:
    """What a value is, in words."""
    if value is None:
        return "nothing (null)"
    if isinstance(value, bool):
        return "true or false"
    for types, word in (((int, float), "a number"), (str, "a text"), (list, "a list"), (Mapping, "a table")):
        if isinstance(value, types):
            return word
    return f"a {type(value).__name__}"


def _short(value: object) -> str:
    text = repr(value) if not isinstance(value, int) or abs(value) < 10**12 else "a very large number"
    return text if len(text) <= 40 else text[:37] + "..."
