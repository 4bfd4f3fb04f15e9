"""csv: read back by Python's own reader, the tables are the strings and the supplies."""

import csv
import io

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from braidwright.domain.strings import strings_of
from braidwright.drawings.formats.csv import FORMULA_SIGNS, STRING_HEAD, SUPPLY_HEAD, strings_csv, table
from braidwright.drawings.pattern import HandPart
from braidwright.drawings.sheet import Subject
from packs import EVERY, files, pattern
from strategies import designs


def read(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))


def strung(rows: list[dict[str, str]]) -> dict[int, str]:
    """The drops of each slot, in stringing order."""
    found: dict[int, str] = {}
    for row in rows:
        slot = int(row["slot"])
        found[slot] = found.get(slot, "") + row["key"] * int(row["count"])
    return found


@pytest.mark.parametrize("name", EVERY)
def test_the_strings_come_back(name: str) -> None:
    for part in pattern(name).hands:
        rows = read(files(name)[f"tables/strings-{part.hand.lower()}.csv"].decode())
        expected = {s.slot: s.drops.replace(".", "") for s in strings_of(part.design) if s.drops.strip(".")}
        assert strung(rows) == expected
        beads = sum(len(s.beads(part.design.tray)) for s in strings_of(part.design))
        assert sum(int(row["beads"]) for row in rows) == beads
        assert {row["hand"] for row in rows} <= {part.hand}


@settings(max_examples=40)
@given(design=designs())
def test_the_strings_of_any_design_come_back(design: object) -> None:
    part = HandPart(subject=Subject(design=design), kind="own")  # type: ignore[arg-type]
    expected = {s.slot: s.drops.replace(".", "") for s in strings_of(part.design) if s.drops.strip(".")}
    assert strung(read(strings_csv(part))) == expected


@pytest.mark.parametrize("name", EVERY)
def test_the_supplies_come_back(name: str) -> None:
    supplies = pattern(name).supplies
    rows = read(files(name)["tables/supplies.csv"].decode())
    beads = [row for row in rows if row["item"] == "bead"]
    assert [(row["key"], int(row["count"]), int(row["buy_count"])) for row in beads] == [
        (need.key, need.count, need.buy_count) for need in supplies.beads
    ]
    assert [float(row["buy_grams"]) for row in beads] == pytest.approx(
        [need.buy_grams for need in supplies.beads], abs=0.0006
    )
    cords = [row for row in rows if row["item"] == "cord"]
    assert [(int(row["count"]), row["cut_mm"]) for row in cords] == [
        (need.count, "" if need.cut_mm is None else f"{need.cut_mm:.0f}") for need in supplies.cord
    ]
    assert [row["name"] for row in rows if row["item"] == "clasp"] == [
        need.name for need in supplies.findings if need.what == "clasp"
    ]


def test_a_price_becomes_a_cost() -> None:
    (barley,) = [row for row in read(files()["tables/supplies.csv"].decode()) if row["name"] == "Barley"]
    assert float(barley["cost"]) == pytest.approx(float(barley["buy_grams"]) * 0.5, abs=0.01)


def test_heads_are_the_same_whatever_the_design() -> None:
    for name in EVERY:
        text = files(name)["tables/supplies.csv"].decode()
        assert text.splitlines()[0] == ",".join(SUPPLY_HEAD)
        assert files(name)["tables/strings-s.csv"].decode().splitlines()[0] == ",".join(STRING_HEAD)


def test_lines_end_as_the_standard_says() -> None:
    """RFC 4180, section 2: each record ends with CRLF."""
    for path, content in files().items():
        if path.endswith(".csv"):
            assert content.endswith(b"\r\n")
            assert content.count(b"\n") == content.count(b"\r\n")


def test_no_name_is_a_formula() -> None:
    """A spreadsheet runs a cell that begins with one of these signs (common advice on CSV injection; no source)."""
    rows = read(files("strange")["tables/strings-s.csv"].decode())
    assert "'=1+1" in {row["name"] for row in rows}
    for path, content in files("strange").items():
        if path.endswith(".csv"):
            for row in read(content.decode()):
                assert not any(len(cell) > 1 and cell.startswith(FORMULA_SIGNS) for cell in row.values())


@given(st.lists(st.text(), min_size=1, max_size=5))
def test_any_text_comes_back_from_a_cell(texts: list[str]) -> None:
    made = table(("what", "end"), [{"what": text, "end": 1} for text in texts])
    cells = [row["what"] for row in read(made)]
    assert [cell.removeprefix("'") for cell in cells] == [text.removeprefix("'") for text in texts]
