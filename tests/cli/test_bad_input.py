"""Bad input of every kind: one clear sentence, exit code 2, no traceback, nothing half-written."""

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from command_line import DESIGN, READERS, WRITERS, speak, typed, write_design

ROOT = Path(__file__).resolve().parent.parent.parent


BAD_FILES: dict[str, tuple[bytes, str]] = {
    "empty": (b"", "empty"),
    "white": (b" \n\t", "empty"),
    "binary": (b"\x7fELF\x00\x01\x02", "no text file"),
    "not-utf-8": (b'{\n"title": "\xff"}', "line 2"),
    "utf-16": ('{"braidwright": 1}'.encode("utf-16"), "UTF-8|no text"),
    "not-json": (b"braidwright = 1", "line 1, column 1"),
    "cut-off": (json.dumps(DESIGN).encode()[:-40], "JSON"),
    "a-list": (b"[]", "braces"),
    "deep-list": (b"[" * 100_000, "nested"),
    "deep-table": (b'{"a":' * 50_000 + b"1" + b"}" * 50_000, "nested"),
    "long-number": (b'{"braidwright": ' + b"9" * 10_000 + b"}", "number"),
    "not-a-number": (b'{"braidwright": NaN}', "NaN"),
    "newer": (b'{"braidwright": 99}', "version 99"),
    "twice": (b'{"braidwright": 1, "braidwright": 1}', "twice"),
}


@pytest.mark.parametrize("command", [*READERS, "mirror"])
@pytest.mark.parametrize("kind", BAD_FILES)
def test_a_bad_file_is_refused(command: str, kind: str, tmp_path: Path) -> None:
    content, why = BAD_FILES[kind]
    path, output = tmp_path / f"{kind}.json", tmp_path / "out"
    path.write_bytes(content)
    told = speak(*typed(command, str(path), str(output)))
    assert told.is_one_sentence(), told
    assert any(word in told.err for word in why.split("|")), told.err
    assert f"{kind}.json" in told.err
    assert not output.exists()


@pytest.mark.parametrize("command", [*READERS, *WRITERS])
def test_what_is_no_file_is_refused(command: str, tmp_path: Path) -> None:
    for name, why in (
        (tmp_path / "none.json", "no such file"),
        (tmp_path, "folder"),
        ("a\0b", "file name"),
        ("x" * 5000, "cannot be read"),
        ("", "no such file"),
    ):
        told = speak(*typed(command, str(name), str(tmp_path / "out")))
        assert told.is_one_sentence(), told
        assert why in told.err or name == ""
        assert len(told.err) < 600


def test_a_far_too_large_file_is_refused_without_reading_it_all(tmp_path: Path) -> None:
    path = tmp_path / "huge.json"
    with path.open("wb") as stream:
        stream.truncate(200_000_000)
    told = speak("check", str(path))
    assert told.is_one_sentence()
    assert "64 MB" in told.err


def test_a_file_that_may_not_be_read_is_refused(design: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """As the system refuses it; taking the permission away would not hinder root."""

    def forbidden(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", forbidden)
    told = speak("check", design)
    assert told.is_one_sentence()
    assert "may not read" in told.err


def test_a_byte_order_mark_is_passed_over(design: str) -> None:
    Path(design).write_bytes(b"\xef\xbb\xbf" + Path(design).read_bytes())
    assert speak("check", design).code == 0


BAD_FLAGS = (
    ("new", "x.json", "--rows", "0"),
    ("new", "x.json", "--rows", "-5"),
    ("new", "x.json", "--rows", "1e3"),
    ("new", "x.json", "--rows", "9" * 5000),
    ("new", "x.json", "--rows", "\u0663"),
    ("new", "x.json", "--rows", "9", "--length", "10cm"),
    ("new", "x.json", "--length", "nan"),
    ("new", "x.json", "--length", "10 furlongs"),
    ("new", "x.json", "--length", ""),
    ("new", "x.json", "--wrist", "6.5"),
    ("new", "x.json", "--wrist", "170mm", "--ease", "baggy"),
    ("new", "x.json", "--hand", "left"),
    ("new", "x.json", "--bead", "gravel"),
    ("new", "x.json", "--cord", "rope"),
    ("new", "x.json", "--braid", "kongoh-9"),
    ("new", "x.json", "--braid", "none.toml"),
    ("new", "x.json", "--braid", "tubular-8", "--wrist", "170mm"),
    ("new", "x.json", "--colour", "green"),
    ("new", "x.json", "--title", "two\nlines"),
    ("new", "x.json", "--catalogue", "none.toml"),
    ("new", "no-folder/x.json"),
    ("new", ""),
    ("new", "x" * 5000),
    ("new", "a\0b"),
    ("braids", "x" * 5000),
    ("braids", "a\0b"),
    ("braids", "."),
    ("check", "no-such.toml"),
    ("new",),
    ("new", "x.json", "y.json"),
    ("new", "x.json", "--rows"),
    ("new", "x.json", "--lenght", "10cm"),
    ("chek", "x.json"),
    ("--nothing",),
    ("braids", "kongoh"),
    ("braids", "none.toml"),
    ("braids", "kongoh-8", "--hand", "Q"),
    ("steps", "hedge.json", "--from", "0"),
    ("steps", "hedge.json", "--from", "97"),
    ("steps", "hedge.json", "--from", "9", "--to", "8"),
    ("size", "hedge.json", "--wrist", "170mm", "--neckline", "choker"),
    ("size", "hedge.json", "--neckline", "scarf"),
    ("size", "hedge.json", "--twist", "fast"),
    ("size", "hedge.json", "--twist", "nan"),
    ("size", "hedge.json", "--twist", "91"),
    ("supplies", "hedge.json", "--twist", ""),
    ("publish", "hedge.json", "-o", "x", "--twist", "-1e9"),
    ("supplies", "hedge.json", "--pieces", "0"),
    ("supplies", "hedge.json", "--spare", "-1"),
    ("supplies", "hedge.json", "--spare", "inf"),
    ("supplies", "hedge.json", "--json", "--csv"),
    ("mirror", "hedge.json"),
    ("mirror", "hedge.json", "-o", "."),
    ("mirror", "hedge.json", "-o", "no-folder/x.json"),
    ("mirror", "hedge.json", "-o", "a\0b"),
    ("mirror", "hedge.json", "-o", "x" * 5000),
    ("resize", "hedge.json", "-o", "x.json"),
    ("resize", "hedge.json", "-o", "x.json", "--rows", "9", "--wrist", "17cm"),
    ("resize", "hedge.json", "-o", "x.json", "--rows", "500001"),
    ("resize", "hedge.json", "-o", "x.json", "--length", "0mm"),
    ("resize", "hedge.json", "-o", "x.json", "--wrist", "5mm"),
    ("resize", "hedge.json", "-o", "x.json", "--wrist", "17cm", "--findings", "99cm"),
    ("publish", "hedge.json"),
    ("publish", "hedge.json", "-o", "x", "--paper", "a3"),
    ("publish", "hedge.json", "-o", "x", "--other-hand", "left"),
)


@pytest.mark.parametrize("line", BAD_FLAGS, ids=lambda line: " ".join(line)[:60].replace("\0", "?"))
def test_a_bad_flag_is_refused(line: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_design(tmp_path)
    monkeypatch.chdir(tmp_path)
    told = speak(*line)
    assert told.is_one_sentence(), told
    assert told.out == ""
    assert [path.name for path in tmp_path.iterdir()] == ["hedge.json"]


def test_check_with_json_tells_the_fault_in_json_too(tmp_path: Path) -> None:
    name = write_design(tmp_path, rows=["aaaa", "aaa"])
    told = speak("check", name, "--json")
    assert told.is_one_sentence()
    assert told.answer["can_be_braided"] is False
    assert "Row 2" in told.answer["faults"][0]["sentence"]


def test_a_failed_write_leaves_the_old_file(design: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    target = tmp_path / "out.json"
    target.write_text("old", encoding="utf-8")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    told = speak("mirror", design, "-o", str(target))
    assert told.is_one_sentence()
    assert "No space" in told.err
    assert target.read_text(encoding="utf-8") == "old"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["hedge.json", "out.json"]


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs the device that is always full")
def test_a_full_disk_is_told(design: str) -> None:
    assert "No space" in speak("mirror", design, "-o", "/dev/full").err
    assert Path("/dev/full").is_char_device()
    done = started("braids", stdout="/dev/full")
    assert (done.returncode, done.stderr.count(b"\n")) == (2, 1)


def started(*arguments: str, stdout: str) -> subprocess.CompletedProcess[bytes]:
    """The command in a process of its own, answering into a file."""
    with Path(stdout).open("wb") as stream:
        return subprocess.run(
            [sys.executable, "-m", "braidwright.cli.main", *arguments],
            env=os.environ | {"PYTHONPATH": str(ROOT / "src"), "PYTHONUNBUFFERED": ""},  # buffered, as users have it
            stdout=stream,
            stderr=subprocess.PIPE,
            check=False,
        )


def begun(*arguments: str) -> subprocess.Popen[bytes]:
    """The command in a process of its own, still at work."""
    return subprocess.Popen(
        [sys.executable, "-m", "braidwright.cli.main", *arguments],
        env=os.environ | {"PYTHONPATH": str(ROOT / "src")},
        stdout=subprocess.PIPE,
        # a shell that runs this in the background would have it ignore the interrupt from the start
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),
        stderr=subprocess.PIPE,
    )


def test_a_pipe_that_is_closed_early_is_no_fault(tmp_path: Path) -> None:
    work = begun("steps", write_design(tmp_path, rows=["aaaa"] * 50_000, motifs=[]), "--json")
    assert work.stdout is not None
    assert work.stderr is not None
    assert work.stdout.read(10) == b'[{"n": 1, '
    work.stdout.close()
    assert work.stderr.read() == b""
    work.stderr.close()
    assert work.wait(20) == 0


@pytest.mark.skipif(sys.platform == "win32", reason="signals are sent otherwise there")
def test_stopping_ends_it_quietly_with_130(tmp_path: Path) -> None:
    work = begun("steps", write_design(tmp_path, rows=["aaaa"] * 400_000, motifs=[]), "--json")
    assert work.stdout is not None
    work.stdout.read(10)
    time.sleep(0.1)
    work.send_signal(signal.SIGINT)
    _, told = work.communicate(timeout=20)
    assert (work.returncode, told) == (130, b"")
