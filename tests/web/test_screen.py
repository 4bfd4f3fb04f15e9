"""The built screen is served by the names it was built under, and by nothing else."""

import re
from pathlib import Path

import pytest

from asking import asker
from braidwright.web.screen import built_files

SERVER = asker()


def test_the_page_and_all_it_asks_for_are_there() -> None:
    page = SERVER.ask("GET", "/")
    assert (page.status_code, page.headers["content-type"]) == (200, "text/html; charset=utf-8")
    asked = re.findall(r'(?:src|href)="(/[^"]+)"', page.text)
    assert len(asked) > 2
    for address in asked:
        answer = SERVER.ask("GET", address)
        assert answer.status_code == 200
        assert answer.headers["x-content-type-options"] == "nosniff"


def test_the_page_holds_no_script_of_its_own_and_names_no_other_place() -> None:
    page = SERVER.ask("GET", "/").text
    assert re.findall(r"<script(?![^>]*src=)[^>]*>", page) == []
    assert re.findall(r"""(?:src|href)=["'](?!/)[^"']+""", page) == []


def test_without_a_build_the_page_says_what_to_do(tmp_path: Path) -> None:
    page = built_files(tmp_path)["/"].content.decode()
    assert "make run" in page


@pytest.mark.parametrize("name", ["secret.txt", "page.py", ".hidden"])
def test_only_kinds_of_a_screen_are_served(name: str, tmp_path: Path) -> None:
    (tmp_path / name).write_text("x")
    assert list(built_files(tmp_path)) == ["/"]
