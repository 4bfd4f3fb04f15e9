"""What a design is, as the screen gets it: the same as the craft says, every bead once, hostile text as text."""

import json
from base64 import b64decode
from collections import Counter
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from asking import asker, demo
from braidwright.app.designs import open_catalogue, open_design
from braidwright.app.pipeline import work_out
from braidwright.app.seeing import MOST_STITCHES

SERVER = asker()
ROOT = Path(__file__).resolve().parent.parent.parent
HOSTILE = "<script>alert(1)</script>\"'&{{7*7}}"


def unpacked(packed: Any) -> NDArray[Any]:
    assert packed["kind"] in ("f4", "i4")
    return np.frombuffer(b64decode(packed["base64"]), dtype=f"<{packed['kind']}").reshape(packed["shape"])


def changed(**fields: object) -> str:
    return json.dumps(json.loads(demo()) | fields)


@pytest.mark.parametrize("name", [path.stem for path in sorted((ROOT / "designs").glob("*.json"))])
def test_a_design_is_read_as_the_command_line_reads_it(name: str) -> None:
    found = SERVER.post("/api/read", {"design": demo(name)})
    opened = open_design(str(ROOT / "designs" / f"{name}.json"), open_catalogue())
    worked = work_out(opened.reading.design, opened.catalogue)
    assert found["size"]["length_mm"] == worked.size.length_mm
    assert found["rows"] == list(opened.reading.design.rows)
    assert [need["count"] for need in found["supplies"]["beads"]] == [need.count for need in worked.supplies.beads]
    assert [string["drops"] for string in found["strings"]] == [string.drops for string in worked.strings]
    assert found["text"] == demo(name)


def test_strung_placed_and_charted_are_the_same_beads() -> None:
    """The house's own law: no bead is lost."""
    found = SERVER.post("/api/read", {"design": demo()})
    strung: Counter[str] = Counter()
    for string in found["strings"]:
        for count, key in string["runs"]:
            strung[key] += count
    assert strung == Counter(found["geometry"]["keys"])
    charted = {stitch for column in found["columns"] for stitch in column["stitches"]}
    assert charted == set(range(len(found["rows"][0])))


def test_the_geometry_is_that_of_the_craft_to_a_thousandth_of_a_millimetre() -> None:
    found = SERVER.post("/api/read", {"design": demo()})["geometry"]
    opened = open_design(str(ROOT / "designs" / "hill-gorse.json"), open_catalogue())
    geometry = work_out(opened.reading.design, opened.catalogue).geometry
    assert geometry is not None
    for name in ("centres", "holes", "outward", "heights", "reaches"):
        assert np.allclose(unpacked(found[name]), getattr(geometry, name), rtol=0.0, atol=1e-3)
    for name in ("stitches", "bead_cords"):
        assert np.array_equal(unpacked(found[name]), getattr(geometry, name))
    for packed, curve in zip(found["cords"], geometry.cords, strict=True):
        assert np.allclose(unpacked(packed), curve, rtol=0.0, atol=1e-3)
    assert found["basis"] == "estimated"


def test_hostile_names_and_notes_stay_text() -> None:
    answer = SERVER.ask("POST", "/api/read", json={"design": changed(notes=HOSTILE, title="<b>Hedge</b> & Sons")})
    assert answer.json()["title"] == "<b>Hedge</b> & Sons"
    assert answer.headers["content-type"] == "application/json"
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert json.loads(answer.json()["text"])["notes"] == HOSTILE


def test_half_a_surrogate_pair_in_a_design_comes_back_so_that_it_can_be_sent_again() -> None:
    text = changed(strange="X").replace('"X"', '"\\ud800"')
    first = SERVER.post("/api/read", {"design": text})
    assert "\\ud800" in first["text"]
    assert SERVER.post("/api/read", {"design": first["text"]})["text"] == first["text"]


def test_a_bead_that_is_not_known_is_a_fault_and_the_chart_is_shown() -> None:
    design = json.loads(demo())
    design["tray"][next(iter(design["tray"]))]["bead"] = "no-such-bead"
    found = SERVER.post("/api/read", {"design": json.dumps(design)})
    assert "no-such-bead" in found["faults"][0]["sentence"]
    assert found["size"] is found["geometry"] is found["supplies"] is None
    assert found["columns"]
    assert found["strings"]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "empty"),
        ("{}", "braidwright"),
        ("not JSON", "JSON"),
        ('{"braidwright": 99}', "newer"),
        (changed(braid="../../etc/passwd"), "braid"),
        (changed(rows=["aa"]), "stitches"),
        (changed(title="Hedge\u202e"), "title"),
        (changed(notes="a\u0000b"), "notes"),
        ("[" * 100_000, "deep"),
    ],
)
def test_what_is_no_design_is_refused_in_a_sentence(text: str, said: str) -> None:
    sentence = SERVER.refused("/api/read", {"design": text})
    assert said.lower() in sentence.lower()


def test_a_design_larger_than_a_screen_is_refused() -> None:
    rows = [json.loads(demo())["rows"][0]] * (MOST_STITCHES // 4 + 1)
    assert "stitches" in SERVER.refused("/api/read", {"design": changed(rows=rows, motifs=[])})


def test_a_field_that_is_not_known_is_refused() -> None:
    assert "path" in SERVER.refused("/api/read", {"design": demo(), "path": "x"})


def test_a_new_design_is_begun() -> None:
    found = SERVER.post(
        "/api/new", {"title": "Hedge", "braid": "kongoh-8", "hand": "Z", "rows": 12, "colour": "#102030"}
    )
    assert found["title"] == "Hedge"
    assert found["braid"]["hand"] == "Z"
    assert len(found["rows"]) == 12
    assert found["tray"][0]["colour"] == "#102030"


def test_no_file_of_this_machine_is_read_as_a_braid(tmp_path: Path) -> None:
    """The command line takes a braid file; a page must not have one read."""
    braid = tmp_path / "own.toml"
    braid.write_text((ROOT / "src/braidwright/catalogue/braids/kongoh-8.toml").read_text("utf-8"), "utf-8")
    sentence = SERVER.refused("/api/new", {"title": "x", "braid": str(braid), "rows": 4})
    assert "not" in sentence or "no " in sentence


@pytest.mark.parametrize(
    ("wish", "said"),
    [
        ({"title": "x", "bead": "no-such"}, "no-such"),
        ({"title": "x", "rows": 0}, "rows"),
        ({"title": "x", "rows": 5, "wrist_mm": 160.0}, "one of them"),
        ({"title": "x", "colour": "red"}, "colour"),
        ({"title": 7}, "title"),
        ({}, "title"),
    ],
)
def test_a_wish_that_cannot_be_met_is_refused(wish: dict[str, object], said: str) -> None:
    assert said in SERVER.refused("/api/new", wish)


def test_the_catalogue_holds_everything_there_is() -> None:
    found, shelf = SERVER.get("/api/catalogue"), open_catalogue()
    assert [each["braid"]["name"] for each in found["braids"]] == [braid.name for braid in shelf.braids]
    for family in ("beads", "cords", "end_caps"):
        assert [each["name"] for each in found[family]] == [each.name for each in getattr(shelf, family)]
