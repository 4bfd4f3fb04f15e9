"""The library over HTTP: kept, found, looked at and brought back; two windows never overwrite each other unseen."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from asking import Asker, asker, demo, sentence_of
from braidwright.app.studio import open_studio
from braidwright.web.routes import library
from library_kit import NOW, file_in

DEMO = demo()
BYTES = {"content-type": "application/octet-stream"}


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Asker]:
    with open_studio(tmp_path / "kept", NOW) as studio:
        yield asker(studio)


def begun(server: Asker, text: str = DEMO) -> Any:
    return server.post("/api/library", {"design": text})


def titled(title: str) -> str:
    return json.dumps(json.loads(DEMO) | {"title": title})


def saved(server: Asker, entry: Any, title: str) -> Any:
    wish = {"design": titled(title), "made_from": entry["newest"]["name"], "doing": "painted"}
    return server.post(f"/api/library/{entry['design']}/save", wish)


def test_a_design_is_kept_and_opened(server: Asker) -> None:
    entry = begun(server)
    found = server.get(f"/api/library/{entry['design']}")
    assert found["state"] == entry["newest"]
    assert found["design"] == server.post("/api/read", {"design": DEMO})
    assert [each["design"] for each in server.get("/api/library")["entries"]] == [entry["design"]]


def test_designs_are_found_by_words(server: Asker) -> None:
    one, other = begun(server, titled("Hedge")), begun(server, titled("Brook"))
    for words, expected in (("hedge", one), ("BROOK", other)):
        found = server.get("/api/library", params={"words": words})["entries"]
        assert [each["design"] for each in found] == [expected["design"]]
    assert server.get("/api/library", params={"words": "'; DROP TABLE designs; --"})["entries"] == []


def test_a_change_is_saved_and_every_state_can_be_looked_at(server: Asker) -> None:
    entry = begun(server, titled("First"))
    state = saved(server, entry, "Second")
    where = f"/api/library/{entry['design']}"
    assert [each["title"] for each in server.get(f"{where}/states")["states"]] == ["First", "Second"]
    assert server.get(where)["state"] == state
    assert server.get(f"{where}/states/{entry['newest']['name']}")["design"]["title"] == "First"


def test_a_second_window_is_told_and_nothing_is_overwritten(server: Asker) -> None:
    entry = begun(server, titled("First"))
    newest = saved(server, entry, "Window one")
    where = f"/api/library/{entry['design']}"
    late = {"design": titled("Window two"), "made_from": entry["newest"]["name"], "doing": "painted"}
    answer = server.ask("POST", f"{where}/save", json=late)
    assert sentence_of(answer, 409)
    assert answer.json()["kind"] == "stale"
    assert answer.json()["newest"] == newest["name"]
    assert server.get(f"{where}/states/{answer.json()['newest']}")["design"]["title"] == "Window one"
    for which, wish in (("rename", {"title": "x"}), ("bring-back", {"state": entry["newest"]["name"]})):
        refused = server.ask("POST", f"{where}/{which}", json={"made_from": entry["newest"]["name"], **wish})
        assert sentence_of(refused, 409)
    assert server.get(where)["state"] == newest


def test_an_earlier_state_is_brought_back(server: Asker) -> None:
    entry = begun(server, titled("First"))
    newest = saved(server, entry, "Second")
    where, first = f"/api/library/{entry['design']}", entry["newest"]["name"]
    state = server.post(f"{where}/bring-back", {"made_from": newest["name"], "state": first})
    assert (state["title"], state["brought_back"], state["number"]) == ("First", first, 3)


def test_a_design_is_renamed_and_copied(server: Asker) -> None:
    entry = begun(server)
    where = f"/api/library/{entry['design']}"
    assert (
        server.post(f"{where}/rename", {"made_from": entry["newest"]["name"], "title": "<i>Rill</i>"})["title"]
        == "<i>Rill</i>"
    )
    copy = server.post(f"{where}/copy", {"title": "Rill, again"})
    assert copy["design"] != entry["design"]
    assert server.get(f"/api/library/{copy['design']}")["design"]["title"] == "Rill, again"


def test_a_design_is_thrown_away_and_taken_back(server: Asker) -> None:
    entry = begun(server)
    where = f"/api/library/{entry['design']}"
    assert server.ask("DELETE", where).status_code == 204
    assert server.get("/api/library")["entries"] == []
    assert len(server.get("/api/library/thrown-away")["entries"]) == 1
    server.post(f"{where}/take-back")
    assert len(server.get("/api/library")["entries"]) == 1


def test_one_design_leaves_as_a_file_byte_for_byte(server: Asker) -> None:
    """Its name is made of the title's letters; letters beyond ASCII are written as RFC 6266 and RFC 5987 say."""
    text = titled('R\u00edll / "x"; ../..') + "\n\n"
    answer = server.ask("GET", f"/api/library/{begun(server, text)['design']}/file")
    assert answer.content == text.encode()
    assert answer.headers["content-disposition"] == "attachment; filename*=UTF-8''r%C3%ADll-x.json"
    assert answer.headers["content-type"] == "application/octet-stream"


def test_the_whole_library_leaves_and_comes_in_as_one_file(server: Asker, tmp_path: Path) -> None:
    saved(server, begun(server, titled("First")), "Second")
    answer = server.ask("GET", "/api/library/file")
    assert answer.status_code == 200
    again = good_file(server, answer.content)
    assert again["entries"] == []
    assert "already" in again["notes"][0]
    with open_studio(tmp_path / "elsewhere", NOW) as studio:
        other = asker(studio)
        taken = good_file(other, answer.content)
        assert [each["newest"]["title"] for each in taken["entries"]] == ["Second"]
        states = other.get(f"/api/library/{taken['entries'][0]['design']}/states")["states"]
        assert [each["title"] for each in states] == ["First", "Second"]


def good_file(server: Asker, content: bytes) -> Any:
    answer = server.ask("POST", "/api/library/file", content=content, headers=BYTES)
    assert answer.status_code == 200, answer.text
    return answer.json()


@pytest.mark.parametrize("content", [b"", b"PK\x03\x04", b"\x00" * 1000, b"{}", DEMO.encode()])
def test_what_is_no_library_file_is_refused(content: bytes, server: Asker) -> None:
    assert sentence_of(server.ask("POST", "/api/library/file", content=content, headers=BYTES), 422)
    assert server.get("/api/library")["entries"] == []


def test_a_library_file_over_the_limit_is_refused(server: Asker, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(library, "MOST_BYTES", 1_000_000)
    answer = server.ask("POST", "/api/library/file", content=b"\x00" * 1_000_001, headers=BYTES)
    assert "1 MB" in sentence_of(answer, 413)


@pytest.mark.parametrize(
    ("method", "path"),
    [
        ("GET", "/api/library/99"),
        ("GET", "/api/library/0"),
        ("GET", "/api/library/99999999999999999999"),
        ("GET", "/api/library/x"),
        ("GET", "/api/library/..%2f..%2fetc"),
        ("GET", "/api/library/1/states/" + "0" * 64),
        ("GET", "/api/library/1/states/../../x"),
        ("GET", "/api/library/1/file"),
        ("DELETE", "/api/library/99"),
        ("POST", "/api/library/99/take-back"),
    ],
)
def test_what_is_not_there_is_refused(method: str, path: str, server: Asker) -> None:
    answer = server.ask(method, path)
    assert answer.status_code in (404, 422)
    sentence_of(answer, answer.status_code)


def test_what_is_no_design_is_not_kept(server: Asker) -> None:
    entry = begun(server)
    wish = {"design": "{}", "made_from": entry["newest"]["name"], "doing": "painted"}
    assert server.refused(f"/api/library/{entry['design']}/save", wish)
    assert len(server.get(f"/api/library/{entry['design']}/states")["states"]) == 1


def test_a_library_that_is_gone_is_told_without_its_place(tmp_path: Path) -> None:
    folder = tmp_path / "kept"
    with open_studio(folder, NOW) as studio:
        server = asker(studio)
        entry = begun(server)
        file_in(folder).rename(folder / "moved")
        answer = server.ask("POST", f"/api/library/{entry['design']}/copy", json={"title": "x"})
    assert answer.json()["kind"] == "library"
    assert file_in(folder).name in sentence_of(answer, 503)
    assert str(tmp_path) not in answer.text


def test_without_a_library_a_sentence_says_so() -> None:
    assert "No library is open" in sentence_of(asker().ask("GET", "/api/library"))
