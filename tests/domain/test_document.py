"""Design files: reading then writing changes nothing, unknown fields are kept, faults are told in one sentence."""

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st

import braidwright.domain.document as document_module
from braidwright.domain.braid import Braid, Move
from braidwright.domain.document import parse, read_design, upgraded, write_design
from braidwright.domain.errors import BraidwrightError, DocumentError
from braidwright.domain.mirror import mirror_everything
from braidwright.domain.tray import SYMBOLS
from strategies import designs

SCHEMA = json.loads((Path(document_module.__file__).parent / "design-1.schema.json").read_text("utf-8"))
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)

KONGOH = Braid(
    name="kongoh-8",
    english="round braid of eight",
    slots=32,
    start=(32, 1, 8, 9, 16, 17, 24, 25),
    moves=tuple(Move(take=take, put=put) for take, put in ((32, 18), (16, 2), (24, 10), (8, 26))),
    shift=1,
    hand="S",
)
WRITTEN_OUT = {
    "slots": 32,
    "start": [32, 1, 8, 9, 16, 17, 24, 25],
    "moves": [[32, 18], [16, 2], [24, 10], [8, 26]],
    "why": "kept",
}


def find_braid(name: str) -> Braid:
    assert name == "kongoh-8"
    return KONGOH


def full() -> dict[str, Any]:
    """A design that uses every field, with strangers at every depth."""
    return {
        "braidwright": 1,
        "title": "Rain on <slate> & «stone»",
        "author": "A maker",
        "licence": "For your own use.\nTwo lines.",
        "language": "en-GB",
        "skill": "a second braid",
        "story": "",
        "notes": "",
        "braid": "kongoh-8",
        "hand": "Z",
        "cords": {
            "kind": "tex-210",
            "colours": ["#2F2f2f"],
            "names": ["Slate"],
            "price": 0.4,
            "dye lot": [1, None],
            "core": {"mm": 3, "soft": True},
        },
        "tray": {
            "a": {"bead": "round-8/0", "colour": "#1b6e5a", "finish": "opaque", "name": "Moss", "lot": 7},
            "g": {"bead": "teardrop-3.4", "colour": "#c08a2b", "symbol": "star", "price": 0.3},
            "漢": {
                "bead": {
                    "shape": "round",
                    "diameter_mm": 3,
                    "length_mm": 2.1,
                    "hole_mm": 1,
                    "grams": 0.028,
                    "found": "attic",
                },
                "colour": "#ffffff",
            },
            "k": {"stack": ["a", "g", "a"], "name": "Bunch", "tied": True},
        },
        "rows": ["aaaa", "ak.漢", "gaaa"],
        "lead_in_mm": 12.5,
        "lead_out_mm": 15,
        "twist": {"deg": -14.50, "felt": "firm"},
        "front": {"deg": 0, "comfort_arc_deg": 90, "mark": "x"},
        "motifs": [{"name": "bunch", "lines": ["k"], "anchors": [[2, 2]], "by": {"hand": 1}}],
        "findings": {"clasp": "toggle", "clasp_mm": 20, "end_cap": "cap-7", "price": 3, "finish": "brass"},
        "spare_percent": 5,
        "swatch": {"rows": 20, "length_mm": 46, "turn_rows": 31.5, "date": "spring"},
        "swatches": [
            {"rows": 40, "length_mm": 92.0, "cord_cut_mm": 400, "cord_left_mm": 0, "room": "warm"},
            {"rows": 30, "diameter_mm": 7, "braid": "kongoh-12", "cord": "tex-70", "bead": "round-11/0"},
        ],
        "weather": {"rain": [1, 2.50, "x", None, True]},
    }


def changed(**fields: object) -> dict[str, Any]:
    return {**full(), **fields}


def test_reading_then_writing_changes_nothing() -> None:
    text = json.dumps(full(), ensure_ascii=False)
    written = write_design(read_design(text, find_braid).design)
    assert json.loads(written) == full()
    assert write_design(read_design(written, find_braid).design) == written


def test_numbers_keep_how_they_were_written() -> None:
    text = json.dumps(changed(lead_in_mm=15, lead_out_mm=15.0))
    written = write_design(read_design(text, find_braid).design)
    assert '"lead_in_mm": 15,' in written
    assert '"lead_out_mm": 15.0,' in written


@pytest.mark.parametrize("twist", ["held", "hanging", {"deg": 90}, {"deg": -0.5, "why": 1}])
@pytest.mark.parametrize("core", ["satin-3", {"mm": 0.1}, {"mm": 30.0, "why": 1}])
def test_every_way_to_say_core_and_twist_comes_back(twist: object, core: object) -> None:
    document = changed(twist=twist)
    document["cords"]["core"] = core
    VALIDATOR.validate(document)
    written = write_design(read_design(json.dumps(document), find_braid).design)
    assert json.dumps(json.loads(written), sort_keys=True) == json.dumps(document, sort_keys=True)
    assert write_design(read_design(written, find_braid).design) == written


def test_a_twist_no_rope_has_is_refused() -> None:
    """The schema leaves this bound to the program, as it says: it hangs on the braid."""
    with pytest.raises(BraidwrightError, match=r"Twist: 91 degrees a row .* give -90 to 90"):
        read_design(json.dumps(changed(twist={"deg": 91})), find_braid)


def test_unknown_fields_are_told_wherever_they_are() -> None:
    warnings = read_design(json.dumps(full()), find_braid).warnings
    for stranger in (
        "weather",
        "dye lot",
        "lot",
        "found",
        "tied",
        "mark",
        "by",
        "finish",
        "date",
        "room",
        "soft",
        "felt",
    ):
        assert any(f"'{stranger}'" in warning for warning in warnings), stranger


def test_one_row_stands_on_one_line_so_that_people_can_diff() -> None:
    lines = write_design(read_design(json.dumps(full()), find_braid).design).splitlines()
    assert [line.strip().rstrip(",") for line in lines if line.startswith(('    "a', '    "ga'))][-3:] == [
        '"aaaa"',
        '"ak.漢"',
        '"gaaa"',
    ]


@pytest.mark.parametrize("hand", ["S", "Z"])
@pytest.mark.parametrize("stated", [None, "S", "Z"])
def test_a_braid_written_into_the_design(hand: str, stated: str | None) -> None:
    braid = WRITTEN_OUT | ({"hand": stated} if stated else {})
    document = changed(braid=braid, hand=hand)
    design = read_design(json.dumps(document), find_braid).design
    assert json.loads(write_design(design)) == document
    # A braid that states no hand is taken as written; one that states the other hand is mirrored.
    as_written = stated is None or stated == hand
    assert design.braid.start[0] == (32 if as_written else 1)
    assert design.hand == hand
    turned = mirror_everything(design)
    again = read_design(write_design(turned), find_braid).design
    assert (again.braid.start, again.braid.moves, again.hand) == (turned.braid.start, turned.braid.moves, turned.hand)


@given(designs(rows=(1, 6)))
def test_every_design_survives_the_trip(design: Any) -> None:
    text = write_design(design)
    VALIDATOR.validate(json.loads(text))
    again = read_design(text, find_braid).design
    assert write_design(again) == text
    assert (again.rows, again.braid.moves, again.tray.keys, again.hand) == (
        design.rows,
        design.braid.moves,
        design.tray.keys,
        design.hand,
    )


def test_the_schema_is_a_schema_and_takes_the_full_design() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    VALIDATOR.validate(full())
    VALIDATOR.validate(changed(braid=WRITTEN_OUT))


def test_the_schema_knows_the_symbols_of_the_tray() -> None:
    assert tuple(SCHEMA["$defs"]["symbol"]["enum"]) == SYMBOLS


WRONG: list[tuple[str, object, str]] = [
    ("title", 5, "Design, title"),
    ("title", "", "Design, title"),
    ("hand", "L", "Design, hand"),
    ("hand", None, "Design, hand"),
    ("braid", 8, "Design, braid"),
    ("cords", [], "Cords"),
    ("cords", {"kind": "tex-210", "colours": []}, "Cords"),
    ("cords", {"kind": "tex-210", "colours": ["green"]}, "#rrggbb"),
    ("cords", {"kind": "tex-210"}, "colours"),
    ("tray", [], "Tray"),
    ("tray", {"ab": {"bead": "round-8/0", "colour": "#1b6e5a"}}, "'ab'"),
    ("tray", {".": {"bead": "round-8/0", "colour": "#1b6e5a"}}, "'.'"),
    ("tray", {"a": {"bead": "round-8/0"}}, "colour"),
    ("tray", {"a": {"bead": "round-8/0", "colour": "#1b6e5a", "finish": "shiny"}}, "finish"),
    ("tray", {"a": {"stack": []}}, "stack"),
    ("tray", {"a": {"stack": ["a"], "bead": "round-8/0", "colour": "#1b6e5a"}}, "stack"),
    ("rows", "aaaa", "rows"),
    ("rows", [], "rows"),
    ("rows", ["aaaa", 4], "rows, entry 2"),
    ("lead_in_mm", "15 mm", "lead_in_mm"),
    ("lead_in_mm", True, "lead_in_mm"),
    ("lead_in_mm", -1, "lead_in_mm"),
    ("cords", {"kind": "tex-210", "colours": ["#2f2f2f"], "core": {"mm": 0}}, "Cords, core: 0 mm"),
    ("cords", {"kind": "tex-210", "colours": ["#2f2f2f"], "core": {"mm": 31}}, "Cords, core: 31 mm"),
    ("cords", {"kind": "tex-210", "colours": ["#2f2f2f"], "core": {"mm": "3"}}, "Cords, core, mm"),
    ("cords", {"kind": "tex-210", "colours": ["#2f2f2f"], "core": {"thick": 3}}, "Cords, core: the field mm"),
    ("cords", {"kind": "tex-210", "colours": ["#2f2f2f"], "core": 3}, "Cords, core: 3 was found"),
    ("cords", {"kind": "tex-210", "colours": ["#2f2f2f"], "core": ""}, "Cords, core"),
    ("twist", "loose", "Design, twist: 'loose' was found; use one of held, hanging"),
    ("twist", 14.5, "Twist: 14.5 was found"),
    ("twist", None, "Twist"),
    ("twist", {"deg": "14"}, "Twist, deg"),
    ("twist", {}, "Twist: the field deg"),
    ("front", {"deg": 1000}, "Front, deg"),
    ("motifs", [{"name": "x", "lines": ["k"], "anchors": [[1]]}], "anchors"),
    ("findings", {"clasp_mm": 9999}, "Findings, clasp_mm"),
    ("swatch", {"length_mm": 46}, "rows"),
    ("swatch", {"rows": 0}, "rows"),
    ("swatch", {"rows": 20, "cord_cut_mm": 400}, "cord_left_mm"),
    ("swatches", {"rows": 20}, "swatches"),
    ("swatches", [{"rows": 20}, {"rows": 0}], "Swatch 2: 0 rows"),
    ("swatches", [{"rows": 20}, {"length_mm": 46}], "Swatch 2"),
    ("swatches", [{"rows": 20, "bead": 8}], "Swatch 1, bead"),
    ("swatches", [{"rows": 20, "cord_left_mm": 8}], "Swatch 1: cord_left_mm"),
    ("swatches", [{"rows": 20}] * 201, "201"),
]


@pytest.mark.parametrize(("field", "value", "told"), WRONG)
def test_a_wrong_field_is_told_by_name_and_the_schema_agrees(field: str, value: object, told: str) -> None:
    text = json.dumps(changed(**{field: value}))
    with pytest.raises(BraidwrightError) as caught:
        read_design(text, find_braid)
    message = str(caught.value)
    assert told.lower() in message.lower()
    assert message.endswith(".")
    assert "\n" not in message
    assert not VALIDATOR.is_valid(json.loads(text))


@pytest.mark.parametrize("field", ["braidwright", "title", "braid", "hand", "cords", "tray", "rows"])
def test_a_missing_field_is_told(field: str) -> None:
    document = full()
    del document[field]
    with pytest.raises(BraidwrightError, match=field):
        read_design(json.dumps(document), find_braid)
    assert not VALIDATOR.is_valid(document)


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        (["aaa"], "Row 1 ('aaa') has 3 stitches, but one repeat of kongoh-8 makes 4"),
        (["aaaa", "aaza"], "Row 2, stitch 3: 'z' is not in the tray"),
    ],
)
def test_rows_that_do_not_fit(rows: list[str], told: str) -> None:
    with pytest.raises(BraidwrightError) as caught:
        read_design(json.dumps(changed(rows=rows, motifs=[])), find_braid)
    assert told in str(caught.value)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "line 1, column 1"),
        ("{", "not JSON"),
        ("[]", "a list was found"),
        ("null", "nothing was found"),
        ('{"braidwright": NaN}', "NaN"),
        ('{"a": 1, "a": 2}', "'a' stands twice"),
        ('{"a": ' * 100 + "1" + "}" * 100, "deep"),
        ('{"a": ' * 100_000, "deep"),
        ('{"a": ' + "9" * 5000 + "}", "too long"),
        ('{"braidwright": 2}', "newer"),
        ('{"braidwright": true}', "true was found"),
        ("{}", "braidwright"),
    ],
)
def test_texts_that_are_no_design(text: str, told: str) -> None:
    with pytest.raises(DocumentError) as caught:
        read_design(text, find_braid)
    assert told in str(caught.value)


def test_old_versions_are_upgraded_a_step_at_a_time() -> None:
    steps = {
        1: lambda old: {"braidwright": 1, "title": old["name"]},
        2: lambda old: {**old, "hand": "S"},
    }
    assert upgraded({"braidwright": 1, "name": "x"}, steps) == {"braidwright": 3, "title": "x", "hand": "S"}
    with pytest.raises(DocumentError, match="version 4"):
        upgraded({"braidwright": 4}, steps)


JSON_VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=8,
)


@given(st.data())
def test_any_field_may_hold_anything_and_only_our_errors_come_out(data: st.DataObject) -> None:
    document = full()
    target: Any = document
    while isinstance(target, dict | list) and target:
        keys = list(target) if isinstance(target, dict) else list(range(len(target)))
        key = data.draw(st.sampled_from(keys))
        if not isinstance(target[key], dict | list) or data.draw(st.booleans()):
            target[key] = data.draw(JSON_VALUES)
            break
        target = target[key]
    try:
        text = json.dumps(document)
        design = read_design(text, find_braid).design
    except BraidwrightError as error:
        told = str(error)
    else:
        told = "."
        assert json.loads(write_design(design)) == json.loads(text)
    assert told.endswith(".")
    assert "\n" not in told


def test_parse_refuses_what_is_too_large(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(document_module, "MOST_CHARACTERS", 10)
    with pytest.raises(DocumentError, match="characters"):
        parse('{"a": "aaaaaaaaaaaaaaaa"}')
