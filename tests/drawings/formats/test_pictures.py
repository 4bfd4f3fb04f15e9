"""svg and png: read by ElementTree, svgelements and Pillow; true to size, and with words for those who see none."""

import io
from xml.etree import ElementTree

import pytest
from PIL import Image
from svgelements import SVG

from braidwright.drawings.formats.png import PIXELS
from packs import EVERY, files

SPACE = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize("name", EVERY)
def test_every_svg_is_a_picture_with_a_title_and_a_description(name: str) -> None:
    for path, content in files(name).items():
        if path.endswith(".svg"):
            root = ElementTree.fromstring(content)
            assert root.tag == f"{SPACE}svg", path
            assert [child.tag for child in root[:2]] == [f"{SPACE}title", f"{SPACE}desc"], path
            assert (root[0].text or "").strip(), path
            assert (root[1].text or "").strip(), path


@pytest.mark.parametrize("name", ["lanterns", "seven"])
def test_another_library_finds_the_shapes_inside_the_frame(name: str) -> None:
    made = files(name)
    for path in ("pictures/hand-s/setup-disk.svg", "pictures/hand-s/flat-chart-1.svg"):
        read = SVG.parse(io.BytesIO(made[path]))
        left, top, right, bottom = read.bbox()
        assert left >= -1.0
        assert top >= -1.0
        assert right <= read.width + 1.0
        assert bottom <= read.height + 1.0


@pytest.mark.parametrize("name", EVERY)
def test_every_png_is_opaque_and_as_wide_as_promised(name: str) -> None:
    for path, content in files(name).items():
        if path.endswith(".png"):
            with Image.open(io.BytesIO(content)) as picture:
                picture.load()
                assert abs(picture.width - PIXELS) <= 1, path
                corner = picture.convert("RGBA").getpixel((1, 1))
                assert corner == (255, 255, 255, 255), path
                assert len(picture.convert("RGB").getcolors(1 << 24) or ()) > 8, path


def test_the_two_hands_are_mirror_images_on_the_disk() -> None:
    """The set-up disk of the other hand holds the same colours; slot numbers differ."""
    made = files()
    own, other = (made[f"pictures/hand-{hand}/setup-disk.svg"].decode() for hand in "sz")
    assert own != other
    assert own.count("#1b6e5a") == other.count("#1b6e5a")
