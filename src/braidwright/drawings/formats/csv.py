"""csv: strings and supplies for a spreadsheet (RFC 4180, UTF-8).

A name that a spreadsheet would take for a formula gets an apostrophe before it, which spreadsheets hide.
"""

import csv
import io
from collections.abc import Iterable

from braidwright.domain.strings import runs, strings_of
from braidwright.domain.supplies import Supplies
from braidwright.domain.tray import BARE
from braidwright.drawings.format import Format, Written
from braidwright.drawings.pattern import HandPart, Pattern

FORMULA_SIGNS = ("=", "+", "-", "@", "\t", "\r")

STRING_HEAD = ("hand", "slot", "cord_colour", "cord_name", "run", "count", "key", "name", "beads")
SUPPLY_HEAD = (
    "item", "key", "name", "kind", "colour", "count", "grams", "spare_percent", "buy_count", "buy_grams", "cut_mm",
    "total_mm", "folded_count", "folded_mm", "single_count", "cost",
)  # fmt: skip

Value = str | int | float | None


def strings_csv(part: HandPart) -> str:
    """One line for each run of equal drops, in stringing order: count times the drop `key`, which is `beads` beads."""
    design = part.design
    rows: list[dict[str, Value]] = []
    for string in strings_of(design):
        drops = tuple(key for key in string.drops if key != BARE)
        for number, (count, key) in enumerate(runs(drops), 1):
            rows.append(
                {
                    "hand": part.hand,
                    "slot": string.slot,
                    "cord_colour": design.cords.colour(string.cord),
                    "cord_name": design.cords.colour_name(string.cord),
                    "run": number,
                    "count": count,
                    "key": key,
                    "name": design.tray.name_of(key),
                    "beads": count * len(design.tray.beads_of(key)),
                }
            )
    return table(STRING_HEAD, rows)


def supplies_csv(supplies: Supplies) -> str:
    """One line for each thing to buy or cut."""
    return table(SUPPLY_HEAD, [*_beads(supplies), *_cords(supplies), *_rest(supplies)])


def _beads(supplies: Supplies) -> list[dict[str, Value]]:
    return [
        {
            "item": "bead",
            "key": need.key,
            "name": need.name,
            "kind": need.bead,
            "colour": need.colour,
            "count": need.count,
            "grams": round(need.grams, 3),
            "spare_percent": need.spare_percent,
            "buy_count": need.buy_count,
            "buy_grams": round(need.buy_grams, 3),
            "cost": _money(need.cost),
        }
        for need in supplies.beads
    ]


def _cords(supplies: Supplies) -> list[dict[str, Value]]:
    return [
        {
            "item": "cord",
            "name": need.name,
            "kind": need.kind,
            "colour": need.colour,
            "count": need.count,
            "cut_mm": need.cut_mm,
            "total_mm": need.total_mm,
            "folded_count": need.doubled_count,
            "folded_mm": need.doubled_mm,
            "single_count": need.single_count,
            "cost": _money(need.cost),
        }
        for need in supplies.cord
    ]


def _rest(supplies: Supplies) -> list[dict[str, Value]]:
    rows: list[dict[str, Value]] = [
        {"item": need.what, "name": need.name, "count": need.count} for need in supplies.findings
    ]
    if supplies.core is not None:
        core = supplies.core
        rows.append(
            {"item": "core cord", "name": core.thickness, "kind": core.kind, "count": core.count, "cut_mm": core.cut_mm}
        )
    return rows


def _money(cost: float | None) -> float | None:
    return None if cost is None else round(cost, 2)


def table(head: tuple[str, ...], rows: Iterable[dict[str, Value]]) -> str:
    """Lines of a CSV file with a head; what a row does not have stays empty."""
    text = io.StringIO(newline="")
    writer = csv.DictWriter(text, head, restval="")
    writer.writeheader()
    for row in rows:
        writer.writerow({name: _shown(value) for name, value in row.items()})
    return text.getvalue()


def _shown(value: Value) -> Value:
    if isinstance(value, float) and value == int(value):
        return int(value)
    if isinstance(value, str) and len(value) > 1 and value.startswith(FORMULA_SIGNS):
        return "'" + value
    return value


def write(pattern: Pattern) -> Written:
    """Strings of each hand, and the supplies."""
    files = [(f"tables/strings-{part.hand.lower()}.csv", strings_csv(part)) for part in pattern.hands]
    files.append(("tables/supplies.csv", supplies_csv(pattern.supplies)))
    return Written(files=tuple((name, text.encode("utf-8", "replace")) for name, text in files))


FORMAT = Format(
    name="csv",
    title="Writing the tables",
    note="Strings and supplies as tables for a spreadsheet.",
    weight=0.02,
    write=write,
)
