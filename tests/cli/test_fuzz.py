"""Bad input by chance: no changed document, broken byte or odd flag upsets a command or leaves a half-written file."""

import copy
import json
import shutil
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from command_line import DESIGN, READERS, Spoken, speak, typed, write_design

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
CORED = {"twist": {"deg": 12}, "cords": {**DESIGN["cords"], "core": {"mm": 1}}}


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
    document |= copy.deepcopy(draw(st.sampled_from([{}, CORED])))
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
