"""Pattern packs made in the background: progress, the files, stopping; and that a path opens nothing."""

import io
import time
import zipfile
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from asking import DESIGNS, Asker, asker, sentence_of
from braidwright.app.packing import Packs
from braidwright.app.studio import Studio

DEMO = (DESIGNS / "hill-gorse.json").read_text(encoding="utf-8")
PATIENCE = 400  # looks, a tenth of a second apart


@pytest.fixture
def server() -> Iterator[Asker]:
    studio = replace(Studio(), packs=Packs())
    yield asker(studio)
    studio.packs.close()


def finished(server: Asker, pack: int) -> Any:
    for _ in range(PATIENCE):
        told = server.get(f"/api/packs/{pack}")
        if told["stage"] not in ("waiting", "making"):
            return told
        time.sleep(0.1)
    pytest.fail("the pack was never finished")


def test_a_pack_holds_what_was_asked_for(server: Asker) -> None:
    asked = server.ask("POST", "/api/packs", json={"design": DEMO, "formats": ["txt", "csv", "json"]})
    assert asked.status_code == 202
    told = finished(server, asked.json()["pack"])
    assert (told["stage"], told["share"]) == ("done", 1.0)
    paths = {file["path"] for file in told["files"]}
    assert {"pattern.txt", "README.txt"} <= paths
    whole = server.ask("GET", f"/api/packs/{told['pack']}/file")
    assert "hill-gorse.zip" in whole.headers["content-disposition"]
    with zipfile.ZipFile(io.BytesIO(whole.content)) as archive:
        assert set(archive.namelist()) == paths
        text = archive.read("pattern.txt")
    assert server.ask("GET", f"/api/packs/{told['pack']}/files/pattern.txt").content == text
    assert b"Hill Gorse" in text


@pytest.mark.parametrize("path", ["nothing.txt", "../README.txt", "%2e%2e/README.txt", "/etc/passwd"])
def test_only_what_was_made_can_be_asked_for(server: Asker, path: str) -> None:
    asked = server.ask("POST", "/api/packs", json={"design": DEMO, "formats": ["json"]}).json()
    finished(server, asked["pack"])
    answer = server.ask("GET", f"/api/packs/{asked['pack']}/files/{path}")
    assert answer.status_code in (404, 422)
    assert sentence_of(answer, answer.status_code)


def test_a_pack_can_be_stopped(server: Asker) -> None:
    asked = server.ask("POST", "/api/packs", json={"design": DEMO}).json()
    server.ask("DELETE", f"/api/packs/{asked['pack']}")
    told = finished(server, asked["pack"])
    assert told["stage"] == "stopped"
    assert told["files"] == []
    assert server.ask("GET", f"/api/packs/{asked['pack']}/file").status_code == 422


def test_no_more_wait_than_can_be_remembered(server: Asker) -> None:
    answers = [server.ask("POST", "/api/packs", json={"design": DEMO}) for _ in range(4)]
    assert [answer.status_code for answer in answers] == [202, 202, 202, 422]


def test_a_wish_that_cannot_be_met_is_a_sentence(server: Asker) -> None:
    assert "not known" in server.refused("/api/packs", {"design": DEMO, "formats": ["odt"]})


def test_the_same_pack_is_the_same_file(server: Asker, tmp_path: Path) -> None:
    del tmp_path
    found = []
    for _ in range(2):
        asked = server.ask("POST", "/api/packs", json={"design": DEMO, "formats": ["txt", "json"]}).json()
        finished(server, asked["pack"])
        found.append(server.ask("GET", f"/api/packs/{asked['pack']}/file").content)
    assert found[0] == found[1]
