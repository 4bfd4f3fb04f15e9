"""Bytes of pictures: every kind a maker may bring, made by the library itself or byte by byte, and hostile ones."""

import struct
import zlib
from io import BytesIO
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from braidwright.domain.errors import RequestError
from braidwright.intake.pictures import MOST_BYTES, MOST_PIXELS, pixels_of

RED, BLUE = (255, 0, 0), (0, 0, 255)


def saved(picture: Image.Image, kind: str = "PNG", **options: Any) -> bytes:
    stream = BytesIO()
    picture.save(stream, kind, **options)
    return stream.getvalue()


def two(mode: str = "RGB") -> Image.Image:
    """Three pixels across and two down: red above, blue below."""
    picture = Image.new("RGB", (3, 2), RED)
    picture.paste(BLUE, (0, 1, 3, 2))
    return picture.convert(mode)


def chunk(kind: bytes, content: bytes) -> bytes:
    """Source: ISO/IEC 15948 (PNG): length, kind, content, sum."""
    return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))


def png(width: int, height: int, *, bits: int = 8, colour: int = 2, lines: bytes = b"", more: bytes = b"") -> bytes:
    header = struct.pack(">IIBBBBB", width, height, bits, colour, 0, 0, 0)
    body = chunk(b"IHDR", header) + more + chunk(b"IDAT", zlib.compress(lines)) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + body


@pytest.mark.parametrize("mode", ["RGB", "RGBA", "P"])
def test_a_png_of_any_kind_has_its_colours(mode: str) -> None:
    found = pixels_of(saved(two(mode)))
    assert found.shape == (2, 3, 4 if mode == "RGBA" else 3)
    assert found[0, 0].tolist()[:3] == list(RED)
    assert found[1, 2].tolist()[:3] == list(BLUE)


@pytest.mark.parametrize("mode", ["L", "1", "LA"])
def test_grey_is_grey_in_all_three(mode: str) -> None:
    found = pixels_of(saved(Image.new("L", (2, 2), 255).convert(mode)))
    assert found[0, 0, :3].tolist() == [255, 255, 255]


def test_a_png_written_byte_by_byte_is_read() -> None:
    """Not by the library that reads it: two lines of one pixel, no filter."""
    found = pixels_of(png(1, 2, lines=b"\0\x10\x20\x30\0\x40\x50\x60"))
    assert found[:, 0, :3].tolist() == [[0x10, 0x20, 0x30], [0x40, 0x50, 0x60]]


@pytest.mark.parametrize(("value", "byte"), [(0, 0), (0x8000, 0x80), (0xFFFF, 0xFF)])
def test_of_sixteen_bits_the_upper_eight_are_taken(value: int, byte: int) -> None:
    found = pixels_of(png(1, 1, bits=16, colour=0, lines=b"\0" + struct.pack(">H", value)))
    assert found[0, 0].tolist() == [byte, byte, byte]


def test_clear_pixels_are_clear_in_palettes_too() -> None:
    assert pixels_of(saved(Image.new("RGBA", (1, 1), (9, 8, 7, 0))))[0, 0, 3] == 0
    palette = Image.new("P", (2, 1), 0)
    palette.putpalette([255, 0, 0, 0, 0, 255])
    palette.putpixel((1, 0), 1)
    found = pixels_of(saved(palette, transparency=0))
    assert found[0, :, 3].tolist() == [0, 255]


@pytest.mark.parametrize("mode", ["RGB", "CMYK"])
def test_a_jpeg_has_its_colours(mode: str) -> None:
    found = pixels_of(saved(Image.new("RGB", (16, 16), RED).convert(mode), "JPEG", quality=95))
    assert found[8, 8].tolist() == pytest.approx(RED, abs=6)


@pytest.mark.parametrize(("turned", "first"), [(1, RED), (3, BLUE), (4, BLUE), (6, BLUE), (8, RED)])
def test_a_photograph_stands_as_its_camera_says(turned: int, first: tuple[int, int, int]) -> None:
    """Source: Exif, tag 274: 3 is upside down, 4 mirrored so, 6 to be turned clockwise, 8 anticlockwise."""
    tags = Image.Exif()
    tags[274] = turned
    picture = Image.new("RGB", (32, 64), RED)
    picture.paste(BLUE, (0, 32, 32, 64))
    found = pixels_of(saved(picture, "JPEG", exif=tags, quality=95))
    assert found.shape[:2] == ((64, 32) if turned < 5 else (32, 64))
    assert found[4, 4, :3].tolist() == pytest.approx(first, abs=6)


def test_of_an_animated_png_the_first_picture_is_taken() -> None:
    frames = [Image.new("RGB", (4, 4), colour) for colour in (RED, BLUE)]
    found = pixels_of(saved(frames[0], save_all=True, append_images=frames[1:]))
    assert found[0, 0].tolist()[:3] == list(RED)


@pytest.mark.parametrize("kind", ["GIF", "BMP", "TIFF", "WEBP", "PPM", "ICO"])
def test_other_kinds_are_refused_whatever_they_are_called(kind: str) -> None:
    with pytest.raises(RequestError, match="no PNG and no JPEG"):
        pixels_of(saved(Image.new("RGB", (16, 16), RED), kind))


@pytest.mark.parametrize(
    "content", [b"%!PS-Adobe-3.0 EPSF-3.0\n", b"<svg xmlns='x'/>", b"{}", b"\0" * 50, b"\x89PNG\r\n\x1a\n"]
)
def test_what_is_no_picture_is_refused(content: bytes) -> None:
    with pytest.raises(RequestError, match=r"no PNG and no JPEG|broken"):
        pixels_of(content)


def test_nothing_is_refused() -> None:
    with pytest.raises(RequestError, match="empty"):
        pixels_of(b"")


@pytest.mark.parametrize("kind", ["PNG", "JPEG"])
@pytest.mark.parametrize("share", [0.2, 0.5, 0.9])
def test_half_a_picture_is_refused(kind: str, share: float) -> None:
    whole = saved(Image.effect_noise((64, 64), 80.0), kind)
    with pytest.raises(RequestError, match=r"broken|no PNG"):
        pixels_of(whole[: int(len(whole) * share)])


def test_a_file_that_is_too_large_is_not_looked_at() -> None:
    with pytest.raises(RequestError, match="30 MB are the most"):
        pixels_of(b"\x89PNG" + bytes(MOST_BYTES))


@pytest.mark.parametrize(
    "size", [(MOST_PIXELS, 2), (20_000, 20_000), (2**31 - 1, 1), (2**31 - 1, 2**31 - 1), (40_000, 1)]
)
def test_a_small_file_that_unpacks_to_a_huge_picture_is_refused(size: tuple[int, int]) -> None:
    with pytest.raises(RequestError, match=r"million pixels|broken|no PNG"):
        pixels_of(png(*size, lines=bytes(1000)))


def test_a_small_file_with_a_huge_note_is_refused_or_read() -> None:
    """A text that unpacks to 100 MB, as a compressed note before the picture."""
    note = b"Note\0\0" + zlib.compress(bytes(100_000_000), 9)
    with pytest.raises(RequestError, match="broken"):
        pixels_of(png(1, 1, lines=b"\0\x10\x20\x30", more=chunk(b"zTXt", note)))


@given(content=st.binary(max_size=200), head=st.sampled_from([b"", b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff\xe0"]))
def test_any_bytes_give_a_picture_or_a_sentence(content: bytes, head: bytes) -> None:
    try:
        found = pixels_of(head + content)
    except RequestError as error:
        found = None
        told = str(error)
    if found is None:
        assert told.startswith("Picture: ")
    else:
        assert found.dtype == np.uint8


@pytest.mark.parametrize("kind", ["PNG", "JPEG"])
@given(where=st.floats(0.0, 1.0), value=st.integers(0, 255), count=st.integers(1, 8))
def test_a_picture_with_wrong_bytes_gives_a_picture_or_a_sentence(
    kind: str, where: float, value: int, count: int
) -> None:
    content = bytearray(WHOLE[kind])
    at = int(where * (len(content) - count))
    content[at : at + count] = bytes([value]) * count
    try:
        assert pixels_of(bytes(content)).ndim == 3
    except RequestError as error:
        told = str(error)
        assert told.startswith("Picture: ")


WHOLE = {kind: saved(two().resize((24, 16)), kind) for kind in ("PNG", "JPEG")}
