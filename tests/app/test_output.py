"""output: nothing half-written, nothing of anyone else's touched."""

import os
import subprocess
from pathlib import Path

import pytest

from braidwright.app.output import LIST, write_pack
from braidwright.domain.errors import OutputError

FIRST = (("a.txt", b"one"), ("pictures/b.svg", b"<svg/>"), ("pictures/deep/c.png", b"png"))
SECOND = (("a.txt", b"two"), ("pictures/d.svg", b"<svg/>"))


def tree(folder: Path) -> dict[str, bytes]:
    """Every file below a folder."""
    return {str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def test_files_are_written_and_named(tmp_path: Path) -> None:
    folder = tmp_path / "new" / "pack"
    written = write_pack(FIRST, folder)
    assert written == tuple(folder / path for path, _ in FIRST)
    found = tree(folder)
    assert {path: found[path] for path, _ in FIRST} == dict(FIRST)
    assert set(found) == {*dict(FIRST), LIST}


def test_a_sum_checker_reads_the_list(tmp_path: Path) -> None:
    """The list is read by another program: sha256sum of GNU coreutils."""
    write_pack(FIRST, tmp_path / "pack")
    done = subprocess.run(["sha256sum", "-c", LIST], cwd=tmp_path / "pack", capture_output=True, check=False)
    assert done.returncode == 0
    (tmp_path / "pack" / "a.txt").write_bytes(b"three")
    done = subprocess.run(["sha256sum", "-c", LIST], cwd=tmp_path / "pack", capture_output=True, check=False)
    assert done.returncode == 1


def test_the_folder_can_be_read_by_others(tmp_path: Path) -> None:
    write_pack(FIRST, tmp_path / "pack")
    (tmp_path / "usual").mkdir()
    assert (tmp_path / "pack").stat().st_mode == (tmp_path / "usual").stat().st_mode


def test_an_earlier_pack_is_replaced_and_what_it_alone_had_goes_away(tmp_path: Path) -> None:
    write_pack(FIRST, tmp_path)
    write_pack(SECOND, tmp_path)
    found = tree(tmp_path)
    found.pop(LIST)
    assert found == dict(SECOND)
    assert not (tmp_path / "pictures" / "deep").exists()


def test_the_same_pack_twice_changes_nothing(tmp_path: Path) -> None:
    write_pack(FIRST, tmp_path)
    before = tree(tmp_path)
    write_pack(FIRST, tmp_path)
    assert tree(tmp_path) == before


def test_files_of_others_stay(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_bytes(b"mine")
    (tmp_path / "pictures").mkdir()
    (tmp_path / "pictures" / "photo.jpg").write_bytes(b"photo")
    write_pack(FIRST, tmp_path)
    write_pack(SECOND, tmp_path)
    assert (tmp_path / "mine.txt").read_bytes() == b"mine"
    assert (tmp_path / "pictures" / "photo.jpg").read_bytes() == b"photo"


def test_a_file_of_someone_else_in_the_way_is_refused_and_kept(tmp_path: Path) -> None:
    (tmp_path / "pictures").mkdir()
    (tmp_path / "pictures" / "b.svg").write_bytes(b"drawn by hand")
    before = tree(tmp_path)
    with pytest.raises(OutputError, match=r"b\.svg is there already"):
        write_pack(FIRST, tmp_path)
    assert tree(tmp_path) == before


def test_a_changed_file_that_is_no_longer_wanted_stays(tmp_path: Path) -> None:
    write_pack(FIRST, tmp_path)
    (tmp_path / "pictures" / "b.svg").write_bytes(b"improved by hand")
    write_pack(SECOND, tmp_path)
    assert (tmp_path / "pictures" / "b.svg").read_bytes() == b"improved by hand"


@pytest.mark.parametrize("blocked", ["pack", "pack/pictures"])
def test_a_file_where_a_folder_is_needed_is_refused(tmp_path: Path, blocked: str) -> None:
    (tmp_path / blocked).parent.mkdir(exist_ok=True)
    (tmp_path / blocked).write_bytes(b"a file")
    before = tree(tmp_path)
    with pytest.raises(OutputError, match="is a file"):
        write_pack(FIRST, tmp_path / "pack")
    assert tree(tmp_path) == before


def test_a_folder_below_a_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"a file")
    with pytest.raises(OutputError, match="cannot be written"):
        write_pack(FIRST, tmp_path / "file" / "pack")


@pytest.mark.parametrize("path", ["../a.txt", "/a.txt", "a/../../b", ""])
def test_a_pack_stays_inside_its_folder(tmp_path: Path, path: str) -> None:
    with pytest.raises(OutputError, match="outside the pack"):
        write_pack(((path, b"x"),), tmp_path / "pack")
    assert not (tmp_path / "pack").exists()


def test_a_list_that_names_paths_outside_takes_nothing_away(tmp_path: Path) -> None:
    outside = tmp_path / "outside.txt"
    outside.write_bytes(b"keep")
    folder = tmp_path / "pack"
    folder.mkdir()
    total = "6e0aa6ba8b4f7cbf3bf1de1a5bbb2bd6b8f9b2a0a0fd7a2a4d2d2df6b9a0aa00"
    (folder / LIST).write_text(f"{total}  ../outside.txt\nnot a line\n", encoding="utf-8")
    write_pack(FIRST, folder)
    assert outside.read_bytes() == b"keep"


@pytest.mark.parametrize("fails_at", [0, 1, 2, 3, 5, 7])
def test_when_a_move_fails_everything_is_put_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fails_at: int
) -> None:
    write_pack(FIRST, tmp_path)
    (tmp_path / "mine.txt").write_bytes(b"mine")
    before = tree(tmp_path)
    calls = 0
    real = os.replace

    def failing(source: Path, target: Path) -> None:
        nonlocal calls
        calls += 1
        if calls == fails_at + 1:
            raise OSError(28, "No space left on device")
        real(source, target)

    monkeypatch.setattr(os, "replace", failing)
    with pytest.raises(OutputError, match="no space left on device"):
        write_pack((*SECOND, ("pictures/b.svg", b"new"), ("new/e.txt", b"e")), tmp_path)
    assert tree(tmp_path) == before
    assert not (tmp_path / "new").exists()
    assert [path.name for path in tmp_path.iterdir() if path.name.startswith(".")] == []


def test_a_failure_leaves_no_new_folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def failing(*_: object) -> None:
        raise OSError(13, "Permission denied")

    monkeypatch.setattr(os, "rename", failing)
    with pytest.raises(OutputError, match="permission denied"):
        write_pack(FIRST, tmp_path / "some" / "where" / "pack")
    assert list(tmp_path.iterdir()) == []


def test_a_path_that_is_none_is_one_sentence(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="cannot be written"):
        write_pack(FIRST, tmp_path / "nul\0l")
