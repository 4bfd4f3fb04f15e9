"""Where the store lies: as the system has it, as the maker says, or nowhere."""

from pathlib import Path

import platformdirs
import pytest

from braidwright.store.folder import PLACE, usual_folder
from braidwright.store.solved import Kept, usual_store

KEY = "a" * 64


def test_the_environment_places_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(PLACE, str(tmp_path))
    assert usual_folder() == tmp_path
    usual_store().put(KEY, Kept(arrays={}, facts={"rise_mm": 2.3}))
    assert [path.parent for path in tmp_path.rglob("*.solved")] == [tmp_path / "solved"]
    found = usual_store().get(KEY)
    assert found is not None
    assert found.facts == {"rise_mm": 2.3}


def test_a_place_from_here_stays_where_it_is(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The process that gets the solver ready works in another folder."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv(PLACE, "kept")
    assert usual_folder() == tmp_path / "kept"
    monkeypatch.setenv(PLACE, "~nobody-of-this-name/kept")
    assert usual_folder() is None


@pytest.mark.parametrize("word", ["off", " OFF ", ""])
def test_the_environment_switches_it_off(word: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(PLACE, word)
    assert usual_folder() is None
    usual_store().put(KEY, Kept(arrays={}, facts={}))
    assert usual_store().get(KEY) is None


def test_else_it_is_where_this_system_keeps_such_things(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(PLACE)
    assert usual_folder() == platformdirs.user_cache_path("braidwright", appauthor=False)
    monkeypatch.setattr(platformdirs, "user_cache_path", lambda *_, **__: Path("~/.cache/braidwright"))
    assert usual_folder() is None  # no home: nothing is put beside the design
