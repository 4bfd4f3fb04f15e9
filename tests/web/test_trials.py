"""What is tried before it is taken: braids move by move, arrangements, pictures and words; and other small answers."""

import base64
import io
import json
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from asking import DESIGNS, asker, sentence_of
from braidwright.app.studio import open_studio

SERVER = asker()
DEMO = (DESIGNS / "hill-gorse.json").read_text(encoding="utf-8")
KONGOH: list[tuple[int, int]] = [(32, 18), (16, 2), (24, 10), (8, 26)]  # trade-facts 1.2
START = [32, 1, 8, 9, 16, 17, 24, 25]


def tried(moves: list[tuple[int, int]]) -> Any:
    entered = [{"take": take, "put": put, "slides": False} for take, put in moves]
    return SERVER.post("/api/braid", {"name": "mine", "slots": 32, "start": START, "moves": entered})


def test_a_braid_entered_move_by_move_closes_with_its_last_move() -> None:
    for many in range(1, 4):
        told = tried(KONGOH[:many])
        assert (told["wrong"], told["facts"]) == ("", None)
        assert len(told["held"]) == many + 1
    told = tried(KONGOH)
    assert told["open_because"] == ""
    assert (told["facts"]["braid"]["shift"], told["facts"]["braid"]["hand"]) == (1, "S")
    assert told["facts"]["is_kongoh"]


@pytest.mark.parametrize(
    ("moves", "at", "words"),
    [
        ([(32, 18), (32, 2)], 2, "Slot 32 is empty"),
        ([(32, 17)], 1, "Slot 17 holds a cord"),
        ([(32, 40)], 1, "slots 1 to 32"),
        ([(32, 32)], 1, "another slot"),
    ],
)
def test_a_move_that_cannot_be_made_is_told_with_its_number(moves: list[tuple[int, int]], at: int, words: str) -> None:
    told = tried(moves)
    assert len(told["held"]) == at
    assert words in told["wrong"]


def test_the_wall_has_as_many_arrangements_as_the_formula_says() -> None:
    """Necklaces of 8 beads, 4 of them red: 10; at most two colours: 36 (OEIS A000031), 30 turned over (A000029)."""
    wall = SERVER.post(
        "/api/arrangements",
        {"design": DEMO, "colours": [{"colour": "#aa0000", "count": 4}, {"colour": "#ffffff", "count": 4}]},
    )
    assert (wall["count"], len(wall["arrangements"]), wall["all_looks"], wall["all_turned"]) == (10, 10, 36, 30)
    assert all(sorted(each).count("#aa0000") == 4 for each in wall["arrangements"])


@pytest.mark.parametrize(("wish", "wanted"), [({"turned": True}, 30), ({"swapped": True}, 20), ({}, 36)])
def test_pairing_looks_leaves_as_many_as_the_formulas_say(wish: dict[str, bool], wanted: int) -> None:
    """Over all numbers of red cords: A000031(8) = 36, A000029(8) = 30; exchanged, A000013(8) = 20 (OEIS, from memory).

    An exchange turns 3 red into 5 red, so numbers of red cords other than half come out twice: they are halved here.
    """
    found = 2 if not wish.get("swapped") else 1  # all of one colour, which the wall does not ask for
    for red in range(1, 8):
        colours = [{"colour": "#aa0000", "count": red}, {"colour": "#ffffff", "count": 8 - red}]
        wall = SERVER.post("/api/arrangements", {"design": DEMO, "colours": colours, **wish})
        if wish.get("swapped") and red > 4:
            continue
        found += wall["count"]
    assert found == wanted


def test_colours_that_do_not_add_up_are_refused() -> None:
    assert "8 cords" in SERVER.refused(
        "/api/arrangements", {"design": DEMO, "colours": [{"colour": "#aa0000", "count": 3}]}
    )


def png(pixels: Any) -> str:
    stream = io.BytesIO()
    Image.fromarray(np.array(pixels, dtype=np.uint8)).save(stream, "PNG")
    return base64.b64encode(stream.getvalue()).decode()


def test_a_picture_is_laid_on_as_a_preview() -> None:
    halves = np.zeros((20, 40, 3))
    halves[:, :20] = (0x1F, 0x6B, 0x58)
    halves[:, 20:] = (0xEC, 0xE3, 0xCF)
    told = SERVER.post("/api/preview/picture", {"design": DEMO, "picture": png(halves), "fit": "fill"})
    first, last = "".join(told["rows"][:30]), "".join(told["rows"][-30:])
    assert last.count("b") > first.count("b") + 20
    assert json.loads(told["text"])["rows"] == told["rows"]


@pytest.mark.parametrize("picture", ["", "not base64!", "äöü", base64.b64encode(b"GIF89a, no picture").decode()])
def test_what_is_no_picture_is_a_sentence(picture: str) -> None:
    assert sentence_of(SERVER.ask("POST", "/api/preview/picture", json={"design": DEMO, "picture": picture}), 422)


def test_a_word_is_laid_on_as_a_preview_and_kept_as_a_motif() -> None:
    told = SERVER.post("/api/preview/word", {"design": DEMO, "text": "LEA", "key": "b", "way": "stacked"})
    assert told["rows"] != json.loads(DEMO)["rows"]
    assert "word LEA" in {motif["name"] for motif in json.loads(told["text"])["motifs"]}


def test_the_reader_of_the_other_hand_gets_the_mirror_image() -> None:
    """Slot k and slot 33 - k swap, product.md."""
    own, other = (SERVER.post("/api/reader", {"design": DEMO, "reader": reader}) for reader in ("own", "mirror"))
    assert (own["braid"]["hand"], other["braid"]["hand"]) == ("S", "Z")
    assert {33 - string["slot"]: string["drops"] for string in own["strings"]} == {
        string["slot"]: string["drops"] for string in other["strings"]
    }


@pytest.mark.parametrize("sheet", ["setup-disk", "strings", "flat-chart", "rope-front"])
def test_a_sheet_is_a_drawing(sheet: str) -> None:
    drawings = SERVER.post("/api/sheet", {"design": DEMO, "sheet": sheet})["drawings"]
    assert drawings
    assert all(drawing.startswith(("<svg", "<?xml")) for drawing in drawings)


def test_supplies_for_several_pieces() -> None:
    one, three = (SERVER.post("/api/supplies", {"design": DEMO, "pieces": pieces}) for pieces in (1, 3))
    assert [bead["count"] * 3 for bead in one["beads"]] == [bead["count"] for bead in three["beads"]]


def test_the_beads_have_closed_solids() -> None:
    """Euler: corners less edges and faces are 0 for a ring, once double corners of sharp edges are one."""
    meshes = SERVER.post("/api/meshes", {"design": DEMO})["meshes"]
    assert set(meshes) == {"m", "b", "g"}
    for mesh in meshes.values():
        points = np.frombuffer(base64.b64decode(mesh["points"]["base64"]), "<f4").reshape(-1, 3)
        faces = np.frombuffer(base64.b64decode(mesh["faces"]["base64"]), "<i4").reshape(-1, 3)
        _, one = np.unique(np.round(points, 5), axis=0, return_inverse=True)
        sides = np.sort(one.reshape(-1)[faces][:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
        edges, times = np.unique(sides, axis=0, return_counts=True)
        assert set(times.tolist()) == {2}
        assert int(one.max()) + 1 - len(edges) + len(faces) == 0


def test_demos_can_be_begun_with(tmp_path: Path) -> None:
    with open_studio(tmp_path, datetime(2026, 11, 25, tzinfo=UTC)) as studio:
        server = asker(studio)
        names = [demo["name"] for demo in server.get("/api/demos")["demos"]]
        assert "hill-gorse" in names
        entry = server.post("/api/demos/hill-gorse")
        picture = server.ask("GET", f"/api/library/{entry['design']}/picture/{entry['newest']['name']}")
        assert picture.headers["content-type"].startswith("image/svg+xml")
        assert "<svg" in picture.text
        assert "use one of" in sentence_of(server.ask("POST", "/api/demos/none"), 422)
