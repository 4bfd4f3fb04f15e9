"""Bad input of every kind: one clear sentence, exit code 2, no traceback, nothing half-written."""

import copy
import json
import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from command_line import DESIGN, Spoken, speak, write_design

ROOT = Path(__file__).resolve().parent.parent.parent
READERS = ("check", "strings", "steps", "size", "supplies")
WRITERS = ("mirror", "resize", "publish")


def typed(command: str, design: str, output: str) -> tuple[str, ...]:
    """A command line for a design."""
    extra = {
        "mirror": ("-o", output),
        "resize": ("-o", output, "--rows", "30"),
        "publish": ("-o", output),
        "steps": ("--to", "9"),
    }
    return (command, design, *extra.get(command, ()))


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


# --- fuzz ------------------------------------------------------------------------------------------------

odd_values = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-3, 70),
    st.sampled_from([0, -1, 10**9, 10**30, 1e308, -0.5, 1e-300]),
    st.floats(allow_nan=False, allow_infinity=False),
    st.text(max_size=6),
    st.sampled_from(
        ["", ".", "a", "aaaa", "S", "Z", "kongoh-8", "kongoh-16", "#12345", "\ud800", "\0", "x" * 300, "é"]
    ),
    st.lists(st.integers(-1, 40), max_size=5),
    st.lists(st.text(max_size=4), max_size=4),
    st.dictionaries(st.sampled_from(["bead", "stack", "colour", "slots", "start", "moves"]), st.integers(), max_size=3),
)
OWN_BRAID = {"slots": 32, "start": [32, 8, 16, 24], "moves": [[32, 17], [16, 32], [17, 16, "re-space"]]}


def places(value: object, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    """Every place of a document, by the way to it."""
    found = [path] if path else []
    pairs = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, inner in pairs:
        found += places(inner, (*path, key))
    return found


@st.composite
def mutants(draw: st.DrawFn) -> dict[str, Any]:
    """A valid design with a few places changed, removed or added to."""
    document = copy.deepcopy(DESIGN)
    if draw(st.booleans()):
        document["braid"] = copy.deepcopy(OWN_BRAID)
        document["rows"] = ["aa", "b."]
        document["motifs"] = []
    for _ in range(draw(st.integers(1, 3))):
        *way, last = draw(st.sampled_from(places(document)))
        inside: Any = document
        for key in way:
            inside = inside[key]
        match draw(st.sampled_from(["change", "remove", "add"])):
            case "change":
                inside[last] = draw(odd_values)
            case "remove":
                del inside[last]
            case _ if isinstance(inside, dict):
                inside[draw(st.text(max_size=5))] = draw(odd_values)
            case _:
                inside.insert(int(last), draw(odd_values))
        if not document:
            break
    return document


@st.composite
def broken_bytes(draw: st.DrawFn) -> bytes:
    """The bytes of a valid design with some of them changed, lost or doubled."""
    content = bytearray(json.dumps(DESIGN, indent=1).encode())
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(content) - 1))
        upto = at + draw(st.integers(1, 30))
        match draw(st.sampled_from(["change", "lose", "double", "cut"])):
            case "change":
                content[at] = draw(st.integers(0, 255))
            case "lose":
                del content[at:upto]
            case "double":
                content[at:at] = content[at:upto]
            case _:
                del content[at:]
        if not content:
            break
    return bytes(content)


def answered_well(told: Spoken, output: Path) -> bool:
    """Done, or refused with one sentence and nothing written."""
    return told.code == 0 or (told.is_one_sentence() and not output.exists())


commands = st.sampled_from([*READERS, "mirror", "mirror --same-picture", "resize"])


def try_it(content: bytes, command: str, folder: Path) -> None:
    path, output = folder / "fuzz.json", folder / "out.json"
    output.unlink(missing_ok=True)
    path.write_bytes(content)
    word, _, flag = command.partition(" ")
    told = speak(*typed(word, str(path), str(output)), *flag.split())
    assert answered_well(told, output), told
    if output.exists():
        assert speak("strings", str(output)).code == 0
    assert {each.name for each in folder.iterdir()} <= {"fuzz.json", "out.json"}


many = settings(suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])


@many
@given(document=mutants(), command=commands)
def test_no_changed_document_upsets_a_command(document: dict[str, Any], command: str, tmp_path: Path) -> None:
    try_it(json.dumps(document).encode(), command, tmp_path)


@many
@given(content=broken_bytes(), command=commands)
def test_no_broken_bytes_upset_a_command(content: bytes, command: str, tmp_path: Path) -> None:
    try_it(content, command, tmp_path)


flags = st.lists(
    st.one_of(
        st.sampled_from(
            ["--rows", "--length", "--wrist", "--ease", "--neckline", "--findings", "--hand", "--json", "--csv",
             "--folded", "--pieces", "--spare", "--from", "--to", "--same-picture", "--catalogue", "-o", "--", "-",
             "-x", "--help"]
        ),
        st.sampled_from(
            ["3", "-1", "1e9", "16cm", "6 1/2 in", "snug", "princess", "S", "nan", "", "hedge.json", "%", "99%"]
        ),
        st.text(max_size=8),
    ),
    max_size=5,
)  # fmt: skip


@many
@given(command=st.sampled_from(["new", "check", "braids", *READERS, "mirror", "resize"]), more=flags)
def test_no_flags_upset_a_command(command: str, more: list[str], tmp_path: Path) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(tmp_path)
        write_design(tmp_path)
        given_file = () if command == "braids" else ("hedge.json",)
        told = speak(command, *given_file, *more)
        assert told.code == 0 or told.is_one_sentence(), told


def test_a_fault_of_the_program_is_told_apart(design: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The twin of the tests above: they would see it if the program broke."""

    def broken(*_: object) -> None:
        raise KeyError("rows")

    monkeypatch.setattr("braidwright.domain.strings.strings_of", broken)
    told = speak("strings", design)
    assert (told.code, told.is_one_sentence()) == (70, False)
    assert "Traceback" not in told.err


@settings(many, max_examples=12)
@given(document=mutants())
def test_no_changed_document_leaves_half_a_pack(document: dict[str, Any], tmp_path: Path) -> None:
    path, folder = tmp_path / "fuzz.json", tmp_path / "pack"
    shutil.rmtree(folder, ignore_errors=True)
    path.write_bytes(json.dumps(document).encode())
    told = speak("publish", str(path), "-o", str(folder), "--other-hand", "none")
    assert answered_well(told, folder), told
    assert {each.name for each in tmp_path.iterdir()} <= {"fuzz.json", "pack"}


def test_words_that_mean_something_to_a_typesetter_are_only_words(tmp_path: Path) -> None:
    odd = "#panic(1) $x$ *b* _i_ `c` <l> @r [ ] { } \\ \" ' & % ~ // /* 漢字 😀"
    beads = {"a": {"bead": "round-8/0", "colour": "#1b6e5a", "name": "#set <b>&amp;"}}
    changes = {"story": odd, "notes": odd, "author": "<&>\"'", "licence": odd, "tray": beads, "rows": ["aaaa"] * 5}
    name = write_design(tmp_path, title="#x ]]> <svg> \"'&", motifs=[], **changes)
    told = speak("publish", name, "-o", str(tmp_path / "pack"))
    assert told.code == 0, told
    text = (tmp_path / "pack" / "pattern.txt").read_text(encoding="utf-8")
    assert "#panic(1) $x$ *b*" in " ".join(text.split())
