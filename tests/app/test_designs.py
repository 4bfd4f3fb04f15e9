"""Opening and saving files; what the command line adds to it is in tests/cli/test_bad_input.py."""

import io
from pathlib import Path

import pytest

from braidwright.app.designs import open_catalogue, open_design, read_bytes, save_bytes, save_design
from braidwright.domain.document import write_design as text_of
from braidwright.domain.errors import BraidwrightError, DocumentError, OutputError
from command_line import write_design


def test_a_design_is_read_from_a_file_and_from_a_stream(tmp_path: Path) -> None:
    name = write_design(tmp_path)
    catalogue = open_catalogue()
    from_file = open_design(name, catalogue).reading
    stream = io.BytesIO(Path(name).read_bytes())
    assert open_design("-", catalogue, stream).reading == from_file


def test_an_error_names_the_file_once_and_keeps_its_kind(tmp_path: Path) -> None:
    name = write_design(tmp_path, rows=["aa"])
    with pytest.raises(BraidwrightError, match="Row 1") as told:
        open_design(name, open_catalogue())
    assert str(told.value).startswith(f"{name}: ")
    assert type(told.value).__name__ == "DesignError"


def test_saving_then_reading_gives_the_design(tmp_path: Path) -> None:
    catalogue = open_catalogue()
    design = open_design(write_design(tmp_path), catalogue).reading.design
    save_design(text_of(design), tmp_path / "copy.json")
    assert open_design(str(tmp_path / "copy.json"), catalogue).reading.design == design


def test_a_file_in_use_keeps_its_permissions_and_its_link(tmp_path: Path) -> None:
    real, link = tmp_path / "real.json", tmp_path / "link.json"
    real.write_bytes(b"old")
    real.chmod(0o640)
    link.symlink_to(real)
    save_bytes(b"new", link)
    assert link.is_symlink()
    assert (real.read_bytes(), real.stat().st_mode & 0o777) == (b"new", 0o640)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["link.json", "real.json"]


def test_a_link_that_leads_in_a_circle_is_told(tmp_path: Path) -> None:
    one, other = tmp_path / "one", tmp_path / "other"
    one.symlink_to(other)
    other.symlink_to(one)
    with pytest.raises(OutputError):
        save_bytes(b"new", one)
    with pytest.raises(DocumentError):
        read_bytes(str(one))


def test_a_device_is_written_to_and_not_replaced() -> None:
    null = Path("/dev/null")
    if not null.is_char_device():
        pytest.skip("needs the device that swallows everything")
    save_bytes(b"gone", null)
    assert null.is_char_device()


def test_stopping_in_the_middle_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def stopped(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(Path, "replace", stopped)
    with pytest.raises(KeyboardInterrupt):
        save_bytes(b"new", tmp_path / "out.json")
    assert list(tmp_path.iterdir()) == []
