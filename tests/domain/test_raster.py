"""A picture as light: averages of windows against plain sums, and mixtures against what a screen shows."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.domain.colour import linear_of
from braidwright.domain.errors import RequestError
from braidwright.domain.raster import LIGHT, MOST_KEPT, Pixels, raster_of


def noise(height: int, width: int, seed: int = 0, *, clear: bool = False) -> Pixels:
    pixels = np.random.default_rng(seed).integers(0, 256, (height, width, 4), dtype=np.uint8)
    if not clear:
        pixels[..., 3] = 255
    return pixels


@given(value=st.integers(0, 255))
def test_a_byte_is_the_light_that_colours_are(value: int) -> None:
    assert LIGHT[value] == pytest.approx(linear_of(f"#{value:02x}0000")[0], abs=1e-12)


def test_black_and_white_mix_to_the_grey_that_shines_half_as_bright() -> None:
    """A fine check of black and white looks like grey 188, not 128. Source: IEC 61966-2-1 (0.5 decoded)."""
    check = np.zeros((2, 2, 4), dtype=np.uint8)
    check[[0, 1], [0, 1], :3] = 255
    check[..., 3] = 255
    light, cover = raster_of(check).averaged(np.array([[0.0, 0.0, 2.0, 2.0]]))
    assert np.argmin(np.abs(light[0, 0] / cover[0] - LIGHT)) == 188


@given(
    seed=st.integers(0, 99),
    size=st.tuples(st.integers(1, 12), st.integers(1, 12)),
    sides=st.lists(st.integers(-20, 140), min_size=4, max_size=4),
)
def test_windows_are_plain_sums(seed: int, size: tuple[int, int], sides: list[int]) -> None:
    """Every pixel divided into ten by ten, and those in the window added up one by one."""
    pixels = noise(*size, seed, clear=True)
    left, right = sorted(sides[:2])
    top, bottom = sorted(sides[2:])
    cover = np.repeat(np.repeat(pixels[..., 3] / 255.0, 10, axis=0), 10, axis=1)
    red = np.repeat(np.repeat(LIGHT[pixels[..., 0]], 10, axis=0), 10, axis=1) * cover
    inside = (slice(max(0, top), max(0, bottom)), slice(max(0, left), max(0, right)))
    found, held = raster_of(pixels).averaged(np.array([[left, top, right, bottom]]) / 10.0)
    assert held[0] == pytest.approx(cover[inside].sum() / 100.0, abs=1e-6)
    assert found[0, 0] == pytest.approx(red[inside].sum() / 100.0, abs=1e-6)


def test_a_large_picture_is_thinned_and_keeps_its_light() -> None:
    pixels = noise(900, 1400)
    raster = raster_of(pixels)
    assert raster.width * raster.height <= MOST_KEPT
    assert raster.width / raster.height == pytest.approx(1400 / 900, rel=0.01)
    light, cover = raster.averaged(np.array([[0.0, 0.0, raster.width, raster.height]]))
    assert light[0] / cover[0] == pytest.approx(LIGHT[pixels[..., :3]].mean(axis=(0, 1)), abs=2e-3)


def test_a_very_long_picture_is_still_one() -> None:
    raster = raster_of(noise(2, 300_000))
    assert raster.height >= 1
    assert raster.width > 1


def test_no_pixels_are_refused() -> None:
    with pytest.raises(RequestError, match="no pixels"):
        raster_of(np.zeros((0, 4, 4), dtype=np.uint8))
