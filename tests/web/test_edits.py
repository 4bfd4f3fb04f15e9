"""Edits: each answers with the design that the craft makes, and refuses what it refuses, by a sentence."""

import json
from typing import Any

import pytest

from asking import asker, demo

SERVER = asker()
DEMO = demo()
ROWS = json.loads(DEMO)["rows"]
KEYS = list(json.loads(DEMO)["tray"])


def edited(which: str, **wish: object) -> Any:
    return SERVER.post(f"/api/edit/{which}", {"design": DEMO, **wish})


def test_painting_changes_those_stitches_and_nothing_else() -> None:
    found = edited("paint", stitches=[{"row": 1, "stitch": 2}, {"row": 3, "stitch": 1}], key=KEYS[1])
    expected = [list(row) for row in ROWS]
    expected[0][1] = expected[2][0] = KEYS[1]
    assert found["rows"] == ["".join(row) for row in expected]
    assert json.loads(found["text"])["rows"] == found["rows"]


def test_filling_changes_those_rows() -> None:
    found = edited("fill", key=".", first=2, last=3)
    assert found["rows"] == [ROWS[0], "....", "....", *ROWS[3:]]
    assert set("".join(edited("fill", key=KEYS[0])["rows"])) == {KEYS[0]}


def test_one_bead_takes_the_place_of_another() -> None:
    found = edited("exchange", old=KEYS[0], new=KEYS[1])
    assert found["rows"] == [row.replace(KEYS[0], KEYS[1]) for row in ROWS]


def test_a_whole_cord_is_painted() -> None:
    """The string of that cord is of that bead alone, and no other string has changed."""
    before = SERVER.post("/api/read", {"design": DEMO})["strings"]
    slot = before[2]["slot"]
    after = edited("cord", slot=slot, key=KEYS[1])["strings"]
    assert set(after[2]["drops"]) == {KEYS[1]}
    assert [each for each in after if each["slot"] != slot] == [each for each in before if each["slot"] != slot]


def test_a_motif_is_placed_and_remembered() -> None:
    found = edited("motif", name="Spot", lines=[KEYS[1]], at=[{"row": 5, "stitch": 1}])
    assert found["rows"][4][0] == KEYS[1]
    assert "Spot" in [motif["name"] for motif in json.loads(found["text"])["motifs"]]


def test_motifs_are_placed_along_the_front() -> None:
    found = edited("front", name="Spot", lines=[KEYS[1]], spacing_mm=30.0, count=3)
    placed = next(motif for motif in json.loads(found["text"])["motifs"] if motif["name"] == "Spot")
    assert len(placed["anchors"]) == 3


def test_mirroring_twice_gives_the_design_back() -> None:
    once = edited("mirror")
    assert once["braid"]["hand"] != json.loads(DEMO).get("hand", "S")
    assert once["rows"] == ROWS
    again = SERVER.post("/api/edit/mirror", {"design": once["text"]})
    assert again["text"] == SERVER.post("/api/read", {"design": DEMO})["text"]
    assert edited("mirror", keep_picture=True)["rows"] != ROWS


@pytest.mark.parametrize(("wish", "rows"), [({"rows": 90}, 90), ({"rows": 10}, 10)])
def test_a_design_is_made_longer_and_shorter(wish: dict[str, object], rows: int) -> None:
    assert len(edited("resize", **wish)["rows"]) == rows


def test_a_design_is_fitted_to_a_wrist() -> None:
    found = [len(edited("resize", wrist_mm=wrist)["rows"]) for wrist in (150.0, 180.0)]
    assert found[0] < found[1]


@pytest.mark.parametrize(
    ("which", "wish", "said"),
    [
        ("paint", {"stitches": [{"row": 999, "stitch": 1}], "key": "."}, "Row 999"),
        ("paint", {"stitches": [{"row": 1, "stitch": 5}], "key": "."}, "stitch 5"),
        ("paint", {"stitches": [{"row": 1, "stitch": 1}], "key": "?"}, "'?'"),
        ("paint", {"stitches": [{"row": 1.5, "stitch": 1}], "key": "."}, "stitches, 0, row"),
        ("paint", {"stitches": [], "key": "."}, "stitches"),
        ("paint", {"stitches": [{"row": 1, "stitch": 1}], "key": "ab"}, "key"),
        ("fill", {"key": ".", "first": 9, "last": 2}, "rows 9 to 2"),
        ("exchange", {"old": "?", "new": "."}, "'?'"),
        ("cord", {"slot": 7, "key": "."}, "No cord starts in slot 7"),
        ("motif", {"name": "x", "lines": [""], "at": [{"row": 1, "stitch": 1}]}, "otif"),
        ("motif", {"name": "x", "lines": ["?"], "at": [{"row": 1, "stitch": 1}]}, "?"),
        ("front", {"name": "x", "lines": ["."], "spacing_mm": 0.0}, "spacing_mm"),
        ("front", {"name": "x", "lines": ["."], "spacing_mm": 30.0, "count": 900}, "do not fit"),
        ("resize", {}, "one of rows, length, wrist or neckline"),
        ("resize", {"rows": 5, "wrist_mm": 150.0}, "one of rows"),
        ("resize", {"neckline": "<b>"}, "<b>"),
        ("resize", {"rows": 500_000}, "stitches"),
        ("mirror", {"keep_picture": "yes"}, "keep_picture"),
    ],
)
def test_a_wish_that_cannot_be_met_is_refused(which: str, wish: dict[str, object], said: str) -> None:
    assert said in SERVER.refused(f"/api/edit/{which}", {"design": DEMO, **wish})
