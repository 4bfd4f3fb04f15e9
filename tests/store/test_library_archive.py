"""A whole library as one file: out and in again exactly, and nothing hostile gets in.

No outside source: promises of ours. The zips are made by Python's own zipfile, or by hand where it would refuse.
"""

import io
import json
import stat
import struct
import zipfile
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.domain.errors import DocumentError, RequestError
from braidwright.store.library import archive_reader, archive_writer
from braidwright.store.library.archive_reader import Archive
from braidwright.store.library.archive_writer import write_archive
from braidwright.store.library.records import named, sum_of
from braidwright.store.library.rows import state_of
from braidwright.store.library.sql_library import SqlLibrary
from library_kit import change, file_in, later, opened


def filled(library: SqlLibrary) -> None:
    """Three designs: one of one state, one of five, one thrown away."""
    library.create(change(b"\xef\xbb\xbf{}\r\n", title="One"))
    entry = library.create(change("0", title="Five 漢字", notes="n\0\u202e"))
    newest = entry.newest
    for step, content in enumerate([b"", b"x" * 70_000, b"0", b"\xff"]):
        newest = library.save(entry.design, newest.name, change(content, title="Five 漢字", at=later(step)))
    library.remove(library.create(change("gone", title="Gone")).design, later(9))


def written(library: SqlLibrary) -> bytes:
    stream = io.BytesIO()
    write_archive((*library.entries(), *library.entries(removed=True)), library, stream)
    return stream.getvalue()


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    with opened(tmp_path_factory.mktemp("archive")) as library:
        filled(library)
        return written(library)


def held(library: SqlLibrary) -> list[object]:
    return [
        (entry.removed, [(state, library.content(entry.design, state.name)) for state in library.history(entry.design)])
        for entry in sorted((*library.entries(), *library.entries(removed=True)), key=lambda entry: entry.newest.title)
    ]


def added(library: SqlLibrary, content: bytes) -> tuple[int, ...]:
    archive = Archive(io.BytesIO(content))
    return library.add((history, archive.contents(at)) for at, history in enumerate(archive.histories, 1))


def test_out_and_in_again_is_the_same_library(tmp_path: Path) -> None:
    with opened(tmp_path / "one") as one, opened(tmp_path / "two") as two:
        filled(one)
        added(two, written(one))
        assert held(one) == held(two)
        assert written(one) == written(two)
        design = two.entries()[0].design
        two.save(design, two.entry(design).newest.name, change("and on"))


def test_its_files_are_of_use_by_themselves(whole: bytes) -> None:
    with zipfile.ZipFile(io.BytesIO(whole)) as file:
        assert file.testzip() is None
        assert file.namelist() == [
            "manifest.json",
            "designs/00001.json",
            "designs/00001.states.json",
            "designs/00002.json",
            "designs/00002.states.json",
            "designs/00002.earlier",
            "designs/00003.json",
            "designs/00003.states.json",
        ]
        assert file.read("designs/00001.json") == b"\xef\xbb\xbf{}\r\n"


def test_a_damaged_state_does_not_hold_back_the_others(tmp_path: Path) -> None:
    content = np.random.default_rng(1).bytes(500)
    with opened(tmp_path / "one") as library:
        entry = library.create(change(content, title="Spoilt"))
        library.save(entry.design, entry.newest.name, change("2", title="Spoilt"))
        library.create(change(content[::-1], title="Lost"))
    file = bytearray(file_in(tmp_path / "one").read_bytes())
    for part in (content[100:120], content[::-1][100:120]):
        file[file.find(part)] ^= 1
    file_in(tmp_path / "one").write_bytes(file)
    stream = io.BytesIO()
    with opened(tmp_path / "one") as one, opened(tmp_path / "two") as two:
        notes = write_archive(one.entries(), one, stream)
        assert notes == (
            "Of “Spoilt” 1 of 2 states are in the file; the others were damaged on the disk.",
            "Of “Lost” 0 of 1 states are in the file; the others were damaged on the disk.",
        )
        (design,) = added(two, stream.getvalue())
        assert [state.number for state in two.history(design)] == [2]


def test_an_empty_library_is_one_too(tmp_path: Path) -> None:
    with opened(tmp_path) as library:
        assert added(library, written(library)) == ()


def test_a_library_that_could_not_be_read_again_is_not_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with opened(tmp_path) as library:
        filled(library)
        for limit in ("MOST_DESIGNS", "MOST_LIST_BYTES", "MOST_BYTES_UNPACKED"):
            with monkeypatch.context() as small:
                small.setattr(archive_writer, limit, 2)
                with pytest.raises(RequestError, match="too large for one file"):
                    written(library)


Files = dict[str, bytes]


def unzipped(content: bytes) -> Files:
    with zipfile.ZipFile(io.BytesIO(content)) as file:
        return {name: file.read(name) for name in file.namelist()}


def zipped(files: Files) -> bytes:
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as file:
        for name, content in files.items():
            file.writestr(name, content)
    return stream.getvalue()


def with_states(files: Files, edit: Callable[[list[dict[str, object]]], object]) -> Files:
    """The states of the second design edited, and every sum made to fit: what a forger would do."""
    states = json.loads(files["designs/00002.states.json"])
    edit(states)
    for plain in states:
        try:
            row = tuple(json.dumps(value) if field == "facts" else value for field, value in plain.items())
            plain["name"] = named(state_of(row)).name
        except (ValueError, TypeError, AttributeError, OverflowError):
            continue
    text = json.dumps(states).encode()
    manifest = json.loads(files["manifest.json"])
    manifest["designs"][1]["states"] = sum_of(text)
    return files | {"designs/00002.states.json": text, "manifest.json": json.dumps(manifest).encode()}


def with_manifest(files: Files, edit: Callable[[dict[str, object]], object]) -> Files:
    manifest = json.loads(files["manifest.json"])
    edit(manifest)
    return files | {"manifest.json": json.dumps(manifest).encode()}


def set_removed(manifest: dict[str, object]) -> None:
    designs = manifest["designs"]
    assert isinstance(designs, list)
    designs[0]["removed"] = "soon"


FORGED: dict[str, Callable[[Files], Files]] = {
    "no manifest": lambda files: {name: files[name] for name in files if name != "manifest.json"},
    "manifest is no JSON": lambda files: files | {"manifest.json": b"{"},
    "manifest is a list": lambda files: files | {"manifest.json": b"[]"},
    "manifest nested without end": lambda files: files | {"manifest.json": b"[" * 500_000},
    "manifest with an endless number": lambda files: files | {"manifest.json": b"1" * 10_000},
    "another format": lambda files: files | {"manifest.json": b'{"something else": 1}'},
    "a newer version": lambda files: with_manifest(files, lambda plain: plain.update({"braidwright library": 2})),
    "designs are no list": lambda files: with_manifest(files, lambda plain: plain.update(designs={})),
    "a design is no table": lambda files: with_manifest(files, lambda plain: plain.update(designs=[1])),
    "too many designs": lambda files: with_manifest(files, lambda plain: plain.update(designs=[{}] * 20_001)),
    "a moment that is none": lambda files: with_manifest(files, set_removed),
    "a file outside": lambda files: files | {"../../outside.json": b"{}"},
    "a file at the root": lambda files: files | {"/outside.json": b"{}"},
    "a file of another system": lambda files: files | {"C:\\outside.json": b"{}"},
    "a file more": lambda files: files | {"designs/00004.json": b"{}"},
    "a file less": lambda files: {name: files[name] for name in files if name != "designs/00002.earlier"},
    "a content changed": lambda files: files | {"designs/00001.json": b"{ }"},
    "a content cut short": lambda files: files | {"designs/00002.earlier": files["designs/00002.earlier"][:-1]},
    "a content too long": lambda files: files | {"designs/00002.earlier": files["designs/00002.earlier"] + b"x"},
    "states changed": lambda files: files | {"designs/00001.states.json": b"[]"},
    "no states": lambda files: with_states(files, lambda states: states.clear()),
    "a state without a name": lambda files: with_states(files, lambda states: states[0].pop("name")),
    "a state is no table": lambda files: with_states(files, lambda states: states.append(3)),  # type: ignore[arg-type]
    "sizes below nothing": lambda files: with_states(files, lambda states: states[0].update(size=-1)),
    "sizes beyond measure": lambda files: with_states(files, lambda states: states[0].update(size=10**12)),
    "a size that is yes": lambda files: with_states(files, lambda states: states[0].update(size=True)),
    "a number beyond measure": lambda files: with_states(files, lambda states: states[-1].update(number=2**63)),
    "a number twice": lambda files: with_states(files, lambda states: states[1].update(number=1)),
    "a number that is yes": lambda files: with_states(files, lambda states: states[0].update(number=True)),
    "states out of order": lambda files: with_states(files, lambda states: states[1].update(number=0)),
    "half of a pair": lambda files: with_states(files, lambda states: states[0].update(title="\ud800")),
    "half of a pair as a parent": lambda files: with_states(files, lambda states: states[1].update(parent="\udfff")),
    "a title without end": lambda files: with_states(files, lambda states: states[0].update(title="x" * 10_000)),
    "facts that are none": lambda files: with_states(files, lambda states: states[0].update(facts=[["a"]])),
    "facts of numbers": lambda files: with_states(files, lambda states: states[0].update(facts=[["a", 1]])),
    "a moment without its zone": lambda files: with_states(files, lambda states: states[0].update(at="2026-01-01")),
    "a moment before all": lambda files: with_states(
        files, lambda states: states[0].update(at="0001-01-01T00:00:00+23:59")
    ),
}  # fmt: skip


@pytest.mark.parametrize("forgery", FORGED)
def test_a_forged_library_is_refused_in_a_sentence(whole: bytes, tmp_path: Path, forgery: str) -> None:
    forged = zipped(FORGED[forgery](unzipped(whole)))
    with opened(tmp_path / "library") as library:
        filled(library)
        before = held(library)
        with pytest.raises(
            DocumentError, match=r"^The library file (cannot be taken in: .*; nothing was|was written by)"
        ):
            added(library, forged)
        assert held(library) == before
    assert sorted(path.name for path in tmp_path.rglob("*")) == ["library", "library.lock", "library.sqlite"]


def test_a_forgery_can_be_made_that_is_taken(whole: bytes, tmp_path: Path) -> None:
    """So the refusals above are not for the forger's clumsiness."""
    files = with_states(unzipped(whole), lambda states: states[-1].update(title="Forged", parent=None))
    with opened(tmp_path) as library:
        assert len(added(library, zipped(files))) == 3
        assert library.entries("forged") != ()


def rezipped(content: bytes, edit: Callable[[zipfile.ZipInfo], object]) -> bytes:
    stream = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(stream, "w") as new:
        for about in old.infolist():
            content_of = old.read(about)
            edit(about)
            new.writestr(about, content_of, about.compress_type)
    return stream.getvalue()


def as_link(about: zipfile.ZipInfo) -> None:
    about.external_attr = (stat.S_IFLNK | 0o777) << 16


def as_folder(about: zipfile.ZipInfo) -> None:
    about.external_attr = (stat.S_IFDIR | 0o777) << 16


def in_bz2(about: zipfile.ZipInfo) -> None:
    about.compress_type = zipfile.ZIP_BZIP2


@pytest.mark.parametrize(
    ("edit", "said"), [(as_link, "a link"), (as_folder, "a link"), (in_bz2, "packed in an unusual way")]
)
def test_unusual_files_in_it_are_refused(whole: bytes, edit: Callable[[zipfile.ZipInfo], None], said: str) -> None:
    with pytest.raises(DocumentError, match=said):
        Archive(io.BytesIO(rezipped(whole, edit)))


@pytest.mark.filterwarnings("ignore:Duplicate name")
def test_two_files_of_one_name_are_refused(whole: bytes) -> None:
    stream = io.BytesIO(whole)
    with zipfile.ZipFile(stream, "a") as file:
        file.writestr("manifest.json", b"{}")
    with pytest.raises(DocumentError, match="two files of one name"):
        Archive(stream)


def test_a_bomb_is_refused_before_it_is_unpacked(whole: bytes, monkeypatch: pytest.MonkeyPatch) -> None:
    """What unpacks to more than a library may hold; here the bound is lowered instead of writing two gigabytes."""
    bomb = zipped(unzipped(whole) | {"designs/00001.json": bytes(50_000_000)})
    assert len(bomb) < 100_000
    with pytest.raises(DocumentError, match="larger than it says"):
        Archive(io.BytesIO(bomb))
    monkeypatch.setattr(archive_reader, "MOST_BYTES_UNPACKED", 1_000_000)
    with pytest.raises(DocumentError, match="too large when unpacked"):
        Archive(io.BytesIO(bomb))


def test_a_file_that_lies_about_its_size_is_read_no_further(whole: bytes) -> None:
    """The list of files says 6 bytes for what unpacks to millions."""
    bomb = bytearray(zipped(unzipped(whole) | {"designs/00001.json": bytes(5_000_000)}))
    at = bomb.rfind(b"PK\x01\x02", 0, bomb.rfind(b"designs/00001.json"))
    bomb[at + 24 : at + 28] = struct.pack("<L", 7)
    with pytest.raises(DocumentError, match="cannot be taken in"):
        Archive(io.BytesIO(bytes(bomb)))


@pytest.mark.parametrize(
    ("at", "value"),
    [(-12, b"\xff\xff\xff\xff"), (-10, b"\xff\xff"), (-2, b"\x05\x00")],
)
def test_an_end_that_promises_too_much_is_refused_at_once(whole: bytes, at: int, value: bytes) -> None:
    forged = whole[:at] + value + whole[len(whole) + at + len(value) :]
    with pytest.raises(DocumentError, match="cannot be taken in"):
        Archive(io.BytesIO(forged))


def test_a_larger_kind_of_end_is_refused(whole: bytes) -> None:
    """Python would believe it over the ordinary one."""
    forged = whole[:-22] + b"PK\x06\x07" + bytes(16) + whole[-22:]
    with pytest.raises(DocumentError, match="too many files"):
        Archive(io.BytesIO(forged))


def test_a_file_locked_with_a_password_is_refused(whole: bytes) -> None:
    forged = bytearray(whole)
    at = forged.find(b"PK\x01\x02")
    forged[at + 8] |= 1
    with pytest.raises(DocumentError, match="password"):
        Archive(io.BytesIO(bytes(forged)))


@pytest.mark.parametrize("content", [b"", b"PK", b"{}", b"PK\x05\x06" + bytes(18), bytes(100_000)])
def test_what_is_no_library_is_refused(content: bytes) -> None:
    with pytest.raises(DocumentError, match="cannot be taken in"):
        Archive(io.BytesIO(content))


@given(seed=st.integers(0, 2**32 - 1), count=st.integers(1, 12), cut=st.booleans())
def test_any_damage_is_refused_or_does_no_harm(whole: bytes, seed: int, count: int, cut: bool) -> None:
    chance = np.random.default_rng(seed)
    content = bytearray(whole)
    for at in chance.integers(0, len(content), count):
        content[at] ^= int(chance.integers(1, 256))
    if cut:
        del content[int(chance.integers(len(content))) :]
    try:
        found = Archive(io.BytesIO(bytes(content)))
    except DocumentError:
        return
    assert found.histories == Archive(io.BytesIO(whole)).histories
