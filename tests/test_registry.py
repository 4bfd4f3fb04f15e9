"""The finder of families: it takes in every file, and refuses a file that is not a member."""

import sys
from collections.abc import Iterator
from importlib import import_module, invalidate_caches
from pathlib import Path
from textwrap import dedent

import pytest

from braidwright.registry import FamilyError, family


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """An empty family folder that can be imported as `kin`."""
    package = tmp_path / "kin"
    package.mkdir()
    (package / "__init__.py").write_text('"""Numbers, one to a file."""\n')
    monkeypatch.syspath_prepend(str(tmp_path))
    yield package
    for name in [name for name in sys.modules if name == "kin" or name.startswith("kin.")]:
        del sys.modules[name]


def write(folder: Path, name: str, text: str) -> None:
    (folder / f"{name}.py").write_text(dedent(text))
    invalidate_caches()  # a folder's new file is else not seen within the clock tick of its last one


def test_a_family_is_every_file_in_order_of_name(folder: Path) -> None:
    write(folder, "two", "NUMBER = 2")
    write(folder, "one", "NUMBER = 1")
    found = family("kin", "NUMBER", int)
    assert list(found.items()) == [("one", 1), ("two", 2)]


def test_an_empty_folder_is_an_empty_family(folder: Path) -> None:
    assert family("kin", "NUMBER", int) == {}


def test_adding_one_file_is_the_whole_change(folder: Path) -> None:
    write(folder, "one", "NUMBER = 1")
    before = family("kin", "NUMBER", int)
    write(folder, "five", "NUMBER = 5")
    assert family("kin", "NUMBER", int) == before | {"five": 5}


def test_a_file_without_the_constant_is_named(folder: Path) -> None:
    write(folder, "oops", "NUMER = 1")
    with pytest.raises(FamilyError, match=r"^kin\.oops must define NUMBER: int$"):
        family("kin", "NUMBER", int)


def test_a_constant_of_another_type_is_refused(folder: Path) -> None:
    write(folder, "word", "NUMBER = 'one'")
    with pytest.raises(FamilyError, match=r"^kin\.word must define NUMBER: int$"):
        family("kin", "NUMBER", int)


def test_files_with_an_underscore_are_helpers_not_members(folder: Path) -> None:
    write(folder, "_helper", "")
    write(folder, "one", "NUMBER = 1")
    assert list(family("kin", "NUMBER", int)) == ["one"]


NAMED = """
    from types import SimpleNamespace
    MEMBER = SimpleNamespace(name={name!r})
"""


def test_two_files_with_one_name_are_refused(folder: Path) -> None:
    write(folder, "first", NAMED.format(name="disk"))
    write(folder, "second", NAMED.format(name="disk"))
    with pytest.raises(FamilyError, match=r"^kin\.second offers disk again: first already does"):
        family("kin", "MEMBER", object)


def test_one_member_offered_by_two_files_is_refused(folder: Path) -> None:
    write(folder, "first", NAMED.format(name="disk"))
    write(folder, "second", "from kin.first import MEMBER")
    with pytest.raises(FamilyError, match=r"^kin\.second offers disk again"):
        family("kin", "MEMBER", object)


def test_members_with_different_names_live_together(folder: Path) -> None:
    write(folder, "first", NAMED.format(name="disk"))
    write(folder, "second", NAMED.format(name="strings"))
    assert list(family("kin", "MEMBER", object)) == ["first", "second"]


def test_a_fault_inside_a_member_is_not_hidden(folder: Path) -> None:
    write(folder, "broken", "raise ZeroDivisionError")
    with pytest.raises(ZeroDivisionError):
        family("kin", "NUMBER", int)


def test_a_folder_can_gather_itself(folder: Path) -> None:
    """As every family of ours does, in its `__init__.py`, while that is still being imported."""
    write(folder, "one", "NUMBER = 1")
    gather = "from braidwright.registry import family; NUMBERS = family(__name__, 'NUMBER', int)"
    write(folder, "__init__", gather)
    assert import_module("kin").NUMBERS == {"one": 1}
