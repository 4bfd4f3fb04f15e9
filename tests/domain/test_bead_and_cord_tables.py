"""bead_table and cord_table: whatever stands in a maker's file becomes a bead, a cord or an end cap, or a sentence."""

import math
import re
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.domain.bead_table import BEAD_FIELDS, bead_from_table, bead_to_table, bead_warnings
from braidwright.domain.cord_table import (
    CORD_FIELDS,
    END_CAP_FIELDS,
    cord_from_table,
    cord_to_table,
    cord_warnings,
    end_cap_from_table,
    end_cap_to_table,
    end_cap_warnings,
)
from braidwright.domain.errors import BraidwrightError, CatalogueError

BEAD: dict[str, Any] = {"shape": "round", "diameter_mm": 3, "length_mm": 2.1, "hole_mm": 1.0, "grams": 0.03}
TEARDROP: dict[str, Any] = {**BEAD, "shape": "teardrop", "reach_mm": 2.5}
CORD: dict[str, Any] = {"diameter_mm": 0.5, "tex": 210}
CAP: dict[str, Any] = {"inside_mm": 6, "adds_mm": 8.0}


def bead(table: object) -> object:
    return bead_from_table(table, name="mine", where="mine.toml")


def cord(table: object) -> object:
    return cord_from_table(table, name="mine", where="mine.toml")


def cap(table: object) -> object:
    return end_cap_from_table(table, name="mine", where="mine.toml")


def test_the_least_a_bead_needs() -> None:
    read = bead_from_table(BEAD, name="mine", where="mine.toml")
    assert (read.name, read.english, read.shape, read.reach_mm) == ("mine", "mine", "round", 1.5)
    assert (read.diameter_mm, read.length_mm, read.hole_mm, read.grams) == (3, 2.1, 1.0, 0.03)
    assert not read.sources


def test_sources_keep_the_order_of_the_file() -> None:
    sources = {"hole_mm": "calipers", "diameter_mm": "calipers", "a note": "mine"}
    read = bead_from_table({**BEAD, "sources": sources}, name="mine", where="mine.toml")
    assert read.sources == tuple(sources.items())


def test_a_whole_number_is_written_as_it_was_read() -> None:
    read = bead_from_table(BEAD, name="mine", where="mine.toml")
    assert repr(bead_to_table(read)["diameter_mm"]) == "3"
    assert bead_to_table(read) == {"name": "mine", **BEAD}


def test_cords_and_end_caps_are_written_as_they_were_read() -> None:
    words = {"name": "n", "english": "e", "sources": {"diameter_mm": "calipers"}, "sure": "quite"}
    for table in (CORD, {"diameter_mm": 2}, {**CORD, **words}):
        read = cord_from_table(table, name="mine", where="here")
        assert cord_to_table(read) == {"name": "mine", **table}
    for table in (CAP, {**CAP, **words}):
        assert end_cap_to_table(end_cap_from_table(table, name="mine", where="here")) == {"name": "mine", **table}


def test_fields_nobody_knows_are_told() -> None:
    assert bead_warnings({**BEAD, "color": 1}, where="b") == ("b: the field 'color' is not known and is left alone.",)
    assert "is tex meant?" in cord_warnings({**CORD, "texx": 1}, where="c")[0]
    assert "is adds_mm meant?" in end_cap_warnings({**CAP, "add_mm": 1}, where="e")[0]
    assert bead_warnings(BEAD, where="b") == cord_warnings(CORD, where="c") == end_cap_warnings(CAP, where="e") == ()


def without(table: dict[str, Any], field: str) -> dict[str, Any]:
    return {name: value for name, value in table.items() if name != field}


Maker = Callable[[object], object]
BAD: list[tuple[Maker, object, str]] = [
    (bead, 3, "3 was found; give a table"),
    (bead, {}, "the field shape is missing"),
    *((bead, without(BEAD, field), f"the field {field} is missing") for field in BEAD),
    (bead, {**without(BEAD, "hole_mm"), "holemm": 1}, "hole_mm is missing; add it (is 'holemm' meant"),
    (bead, without(TEARDROP, "reach_mm"), "the field reach_mm is missing"),
    (bead, {**BEAD, "shape": "square"}, "shape: 'square' was found; use one of round, cylinder"),
    (bead, {**BEAD, "shape": ["round"]}, "shape: a list was found"),
    (bead, {**BEAD, "diameter_mm": "3"}, "diameter_mm: '3' was found; give a number"),
    (bead, {**BEAD, "diameter_mm": True}, "diameter_mm: true was found"),
    (bead, {**BEAD, "diameter_mm": 0}, "diameter_mm is 0; give a figure between 0 and 100"),
    (bead, {**BEAD, "diameter_mm": 100.5}, "diameter_mm is 100.5"),
    (bead, {**BEAD, "length_mm": -2.1}, "length_mm is -2.1"),
    (bead, {**BEAD, "length_mm": math.nan}, "length_mm: that is no size"),
    (bead, {**BEAD, "grams": math.inf}, "grams: that is no size"),
    (bead, {**BEAD, "grams": 10**5000}, "grams: that is no size"),
    (bead, {**BEAD, "grams": [1]}, "grams: a list was found"),
    (bead, {**BEAD, "hole_mm": 3}, "the hole (3 mm) is not smaller than the bead"),
    (bead, {**BEAD, "reach_mm": None}, "reach_mm: nothing was found"),
    (bead, {**BEAD, "sources": "calipers"}, "sources: 'calipers' was found; give a table of texts"),
    (bead, {**BEAD, "sources": {"hole_mm": 1}}, "sources, hole_mm: 1 was found"),
    (bead, {**BEAD, "sources": {"hole_mm": "\ud800"}}, "sources, hole_mm: give one line"),
    (bead, {**BEAD, "sure": 1}, "sure: 1 was found"),
    (bead, {**BEAD, "name": ""}, "name: '' was found"),
    (cord, [], "a list was found"),
    (cord, {}, "the field diameter_mm is missing"),
    (cord, {"diameter": 1}, "diameter_mm is missing; add it (is 'diameter' meant"),
    (cord, {"diameter_mm": 0.01}, "a diameter of 0.01 mm is not a braiding cord"),
    (cord, {"diameter_mm": 11}, "a diameter of 11 mm is not a braiding cord"),
    (cord, {**CORD, "tex": 0}, "0 Tex is not a braiding cord"),
    (cord, {**CORD, "tex": "210"}, "tex: '210' was found"),
    (cord, {**CORD, "tex": None}, "tex: nothing was found"),
    (cord, {**CORD, "english": 2}, "english: 2 was found"),
    (cap, {}, "the field inside_mm is missing"),
    (cap, {"inside_mm": 6}, "the field adds_mm is missing"),
    (cap, {**CAP, "inside_mm": 0.1}, "an inside of 0.1 mm is not one"),
    (cap, {**CAP, "adds_mm": -1}, "adding -1 mm is not one"),
    (cap, {**CAP, "adds_mm": False}, "adds_mm: false was found"),
]


@pytest.mark.parametrize(("read", "table", "said"), BAD, ids=[re.sub(r"\W+", "-", said) for _, _, said in BAD])
def test_what_is_wrong_is_said_in_one_sentence_that_names_the_file(read: Maker, table: object, said: str) -> None:
    with pytest.raises(CatalogueError) as caught:
        read(table)
    message = str(caught.value)
    assert message.startswith("mine.toml")
    assert said in message
    assert message.endswith(".")
    assert "\n" not in message
    assert len(message) < 400
    message.encode()


ODD = (
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.text(max_size=8)
    | st.sampled_from([10**5000, -(10**400)])
    | st.lists(st.integers(), max_size=3)
    | st.dictionaries(st.text(max_size=5), st.text(max_size=5) | st.integers(), max_size=3)
)


@given(st.data(), st.sampled_from(["bead", "teardrop", "cord", "cap"]))
def test_any_table_is_read_or_refused_with_one_of_our_errors(data: st.DataObject, kind: str) -> None:
    read: Maker
    base, fields, read, write = {
        "bead": (BEAD, BEAD_FIELDS, bead, bead_to_table),
        "teardrop": (TEARDROP, BEAD_FIELDS, bead, bead_to_table),
        "cord": (CORD, CORD_FIELDS, cord, cord_to_table),
        "cap": (CAP, END_CAP_FIELDS, cap, end_cap_to_table),
    }[kind]
    odd = data.draw(st.dictionaries(st.sampled_from(fields) | st.text(max_size=6), ODD, max_size=3))
    message, thing = None, None
    try:
        thing = read({**base, **odd})
    except BraidwrightError as error:
        message = str(error)
    if message is None:
        assert read(write(thing)) == thing  # type: ignore[operator]
    else:
        assert message.startswith("mine.toml")
        message.encode()
