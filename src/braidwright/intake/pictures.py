"""pictures: a PNG or JPEG as its maker sees it, decoded by a library and never trusted by its name."""

import struct
import warnings
import zlib
from io import BytesIO

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageOps, UnidentifiedImageError

from braidwright.domain.errors import RequestError

Pixels = NDArray[np.uint8]

MOST_BYTES = 30_000_000
MOST_PIXELS = 50_000_000
LONGEST_SIDE = 30_000
KINDS = ("PNG", "JPEG")
# What a decoder may say of a broken file, beside its own errors, which are of these kinds too.
BROKEN = (OSError, SyntaxError, ValueError, TypeError, LookupError, EOFError, ArithmeticError, struct.error, zlib.error)


def pixels_of(content: bytes) -> Pixels:
    """The pixels of a picture: red, green, blue in sRGB and, if it may be clear, cover, bytes, (height, width, 3 or 4).

    It is turned the way its camera says; of an animated one the first picture is taken; grey, palette and CMYK become
    red, green and blue.

    Raises:
        RequestError: It is too large, no PNG or JPEG, or broken; the sentence says which.
    """
    if not content:
        raise RequestError("Picture: the file is empty; give a PNG or a JPEG.")
    if len(content) > MOST_BYTES:
        raise RequestError(
            f"Picture: the file has {len(content) / 1e6:.0f} MB, and {MOST_BYTES / 1e6:.0f} MB are the most; "
            f"save it smaller, a few hundred pixels are plenty."
        )
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of odd but harmless fields in a file
        return _decoded(content)


def _decoded(content: bytes) -> Pixels:
    try:
        with Image.open(BytesIO(content), formats=KINDS) as picture:
            _check_size(*picture.size)
            picture.seek(0)
            picture.load()
            ImageOps.exif_transpose(picture, in_place=True)
            return np.asarray(_plain(picture), dtype=np.uint8)
    except RequestError:
        raise
    except UnidentifiedImageError as error:
        raise RequestError("Picture: this is no PNG and no JPEG; save it as one of these and try again.") from error
    except BROKEN as error:
        raise RequestError("Picture: the file is broken and cannot be read; save the picture anew.") from error
    except (Image.DecompressionBombError, MemoryError) as error:
        raise RequestError(_too_large()) from error


def _check_size(width: int, height: int) -> None:
    if width * height > MOST_PIXELS or max(width, height) > LONGEST_SIDE:
        raise RequestError(_too_large())


def _too_large() -> str:
    return (
        f"Picture: it has more than {MOST_PIXELS // 1_000_000} million pixels or a side over {LONGEST_SIDE}; "
        f"save it smaller, a few hundred pixels are plenty."
    )


def _plain(picture: Image.Image) -> Image.Image:
    """Red, green, blue, and cover where a picture may be clear, of any kind of picture; of 16 bits the upper 8."""
    if picture.mode.startswith("I"):
        picture = Image.fromarray((np.asarray(picture).astype(np.int64) >> 8).clip(0, 255).astype(np.uint8))
    return picture.convert("RGBA" if picture.has_transparency_data else "RGB")
