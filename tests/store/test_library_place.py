"""Where the library lies: as the system has it, or as the maker says."""

from pathlib import Path

import platformdirs
import pytest

from braidwright.domain.errors import LibraryError
from braidwright.store.library.place import PLACE, usual_library_folder


def test_the_environment_places_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(PLACE, str(tmp_path / "mine"))
    assert usual_library_folder() == tmp_path / "mine"
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv(PLACE, " here ")
    assert usual_library_folder() == tmp_path / "here"


@pytest.mark.parametrize("said", [None, "", "  "])
def test_else_it_is_where_this_system_keeps_such_things(said: str | None, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(PLACE, raising=False)
    if said is not None:
        monkeypatch.setenv(PLACE, said)
    assert usual_library_folder() == platformdirs.user_data_path("braidwright", appauthor=False)


def test_a_user_without_a_home_is_asked_for_a_folder(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(PLACE, raising=False)
    monkeypatch.setattr(platformdirs, "user_data_path", lambda *_, **__: Path("~/.local/share/braidwright"))
    with pytest.raises(LibraryError, match=f"name one in {PLACE}"):
        usual_library_folder()
    monkeypatch.setenv(PLACE, "~nobody-of-this-name/library")
    with pytest.raises(LibraryError, match="names no folder"):
        usual_library_folder()
