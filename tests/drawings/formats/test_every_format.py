"""Laws over the whole family of formats."""

import pytest

from braidwright.drawings.formats import FORMATS
from packs import EVERY, pattern

MAGIC = {  # first bytes: PDF 1.7, 7.5.2; PNG (W3C), 5.2; glTF 2.0, 4.4.2; an SVG is an XML document, root svg
    "pdf": b"%PDF-",
    "png": b"\x89PNG\r\n\x1a\n",
    "svg": b"<svg ",
    "json": b"{\n",
    "csv": b"",
    "glb": b"glTF",
    "txt": b"# ",
}


@pytest.mark.parametrize("name", FORMATS)
def test_a_format_is_known_by_its_suffix(name: str) -> None:
    made = FORMATS[name].write(pattern()).files
    assert made
    assert all(path.endswith(f".{name}") for path, _ in made)
    assert all(content.startswith(MAGIC.get(name, b"")) for _, content in made)


@pytest.mark.parametrize("name", FORMATS)
@pytest.mark.parametrize("design", ["seven", "stacked", "strange"])
def test_a_format_writes_the_same_bytes_twice(name: str, design: str) -> None:
    assert FORMATS[name].write(pattern(design)) == FORMATS[name].write(pattern(design))


@pytest.mark.parametrize("name", FORMATS)
def test_a_format_says_what_it_is_for(name: str) -> None:
    made = FORMATS[name]
    assert made.name == name
    assert made.title[0].isupper()
    assert made.note.endswith(".")
    assert 0.0 < made.weight < 1.0


@pytest.mark.parametrize("design", EVERY)
def test_paths_are_plain(design: str) -> None:
    for name in ("svg", "csv", "txt", "json", "glb"):
        for path, _ in FORMATS[name].write(pattern(design)).files:
            assert path == path.lower()
            assert all(part and set(part) <= set("abcdefghijklmnopqrstuvwxyz0123456789-.") for part in path.split("/"))
