"""document: the text of a design file <-> a design, with a version and upgrade steps.

The file is JSON with a published schema (braidwright/schema/design-1.schema.json). Reading, then writing, changes
nothing: fields this program does not know are kept and warned about. Files of older versions are upgraded a step at a
time when they are read; files of newer ones are refused, since what they mean is not known here.
"""

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from braidwright.domain.design import Design
from braidwright.domain.design_reader import FindBraid, read_document
from braidwright.domain.design_writer import VERSION, plain_document
from braidwright.domain.errors import DocumentError
from braidwright.domain.table import shown

MOST_CHARACTERS = 64_000_000
DEEPEST = 40

Upgrade = Callable[[dict[str, object]], dict[str, object]]

# UPGRADES[n] turns a document of version n into one of version n + 1. Version 1 is the first, so there is none yet:
# add the step here when the format changes, and a stored file of the old version to the tests.
UPGRADES: Mapping[int, Upgrade] = {}


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A design file, read.

    Attributes:
        design: The design.
        warnings: Sentences about fields that are not known, and the like.
    """

    design: Design
    warnings: tuple[str, ...]


def read_design(text: str, find_braid: FindBraid) -> Reading:
    """Read the text of a design file.

    Args:
        text: The file's text.
        find_braid: Gives the braid of a catalogue name.

    Raises:
        DocumentError, DesignError, BraidError, CatalogueError: What is wrong, where, and what to do.
    """
    document = upgraded(parse(text))
    design, warnings = read_document(document, find_braid)
    return Reading(design=design, warnings=warnings)


def write_design(design: Design) -> str:
    """The text of a design file: JSON that people can read and diff, one row to a line."""
    return _laid_out(plain_document(design), 0) + "\n"


def parse(text: str) -> dict[str, object]:
    """The plain document in a text.

    Raises:
        DocumentError: It is not JSON, not an object, too large, or a name stands twice in one table.
    """
    if len(text) > MOST_CHARACTERS:
        raise DocumentError(
            f"Design: the file has {len(text)} characters; that is no design, give at most {MOST_CHARACTERS}."
        )
    try:
        document = json.loads(text, object_pairs_hook=_no_doubles, parse_constant=_no_constant)
    except json.JSONDecodeError as error:
        raise DocumentError(
            f"Design, line {error.lineno}, column {error.colno}: this is not JSON ({error.msg}); mend it there."
        ) from error
    except (RecursionError, ValueError) as error:
        raise DocumentError(
            "Design: the file is nested too deeply or holds a number too long to read; check it."
        ) from error
    if not isinstance(document, dict):
        raise DocumentError(f"Design: {shown(document)} was found; a design file holds one table of fields in braces.")
    _check_depth(document, DEEPEST)
    return document


def upgraded(document: dict[str, object], upgrades: Mapping[int, Upgrade] | None = None) -> dict[str, object]:
    """The document in the present version.

    Raises:
        DocumentError: It states no version, or one that is not known.
    """
    steps = UPGRADES if upgrades is None else upgrades
    newest = max(steps, default=VERSION - 1) + 1
    while True:
        version = document.get("braidwright")
        if isinstance(version, bool) or not isinstance(version, int):
            found = shown(version) if "braidwright" in document else "nothing"
            raise DocumentError(
                f"Design, braidwright: {found} was found; "
                f'a design file says "braidwright": {newest}, the version of its format.'
            )
        if version == newest:
            return document
        if version not in steps:
            raise DocumentError(
                f"Design, braidwright: version {shown(version)} is not known here; "
                f"this program reads versions up to {newest}, so get a newer one or correct the number."
            )
        document = {**steps[version](document), "braidwright": version + 1}


def _no_doubles(pairs: list[tuple[str, object]]) -> dict[str, object]:
    table = dict(pairs)
    if len(table) != len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        raise DocumentError(f"Design: the field {shown(twice)} stands twice in one table; remove one of the two.")
    return table


def _no_constant(name: str) -> object:
    raise DocumentError(f"Design: {name} stands where a number belongs; write an ordinary number.")


def _check_depth(value: object, left: int) -> None:
    if left == 0:
        raise DocumentError(f"Design: tables or lists are nested more than {DEEPEST} deep; check the file.")
    if isinstance(value, dict):
        for inner in value.values():
            _check_depth(inner, left - 1)
    elif isinstance(value, list):
        for inner in value:
            if isinstance(inner, dict | list):
                _check_depth(inner, left - 1)


def _laid_out(value: object, depth: int) -> str:
    """JSON with a line for each field and each row, and short things kept on one line."""
    flat = json.dumps(value, ensure_ascii=False)
    if not isinstance(value, dict | list) or not value or (depth > 0 and len(flat) <= 100 and depth > 1):
        return flat
    inner = "  " * (depth + 1)
    if isinstance(value, dict):
        parts = [
            f"{inner}{json.dumps(name, ensure_ascii=False)}: {_laid_out(each, depth + 1)}"
            for name, each in value.items()
        ]
        return "{\n" + ",\n".join(parts) + "\n" + "  " * depth + "}"
    if len(flat) <= 100 and depth > 0 and not _is_rows(value):
        return flat
    return "[\n" + ",\n".join(inner + _laid_out(each, depth + 1) for each in value) + "\n" + "  " * depth + "]"


def _is_rows(value: list[object]) -> bool:
    return (
        len(value) > 1 and all(isinstance(each, str) for each in value) and len({len(str(each)) for each in value}) == 1
    )
