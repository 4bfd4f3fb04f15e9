"""raster: a picture as light, ready to be averaged over any window of it."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from braidwright.domain.errors import RequestError

FloatArray = NDArray[np.float64]
Pixels = NDArray[np.uint8]

MOST_KEPT = 400_000  # pixels; finer ones are averaged first, since a stitch covers very many of them
STRIP = 500_000  # pixels averaged at a time, so that a large picture is never held whole as numbers

# What a byte of a picture is in light, 0 to 1. Source: IEC 61966-2-1 (sRGB), the decoding curve.
_BYTES = np.arange(256) / 255.0
LIGHT: FloatArray = np.where(_BYTES <= 0.04045, _BYTES / 12.92, ((_BYTES + 0.055) / 1.055) ** 2.4)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Raster:
    """A picture summed up: the light in any window is a difference of four sums.

    Attributes:
        sums: Light times cover (red, green, blue) and cover, of all pixels above and to the left, (h + 1, w + 1, 4).
    """

    sums: FloatArray

    @property
    def width(self) -> int:
        """Pixels across, as kept."""
        return int(self.sums.shape[1]) - 1

    @property
    def height(self) -> int:
        """Pixels from top to bottom, as kept."""
        return int(self.sums.shape[0]) - 1

    def averaged(self, windows: FloatArray) -> tuple[FloatArray, FloatArray]:
        """The mean light in windows, and how much of each the picture covers.

        Args:
            windows: Left, top, right and bottom in pixels, fractions allowed, (n, 4); what lies beyond the picture is
                empty.

        Returns:
            Light times cover, summed, (n, 3), and cover, summed, (n,), both in pixels.
        """
        x0, x1 = (np.clip(windows[:, side], 0.0, self.width) for side in (0, 2))
        y0, y1 = (np.clip(windows[:, side], 0.0, self.height) for side in (1, 3))
        inside = self._up_to(x1, y1) - self._up_to(x0, y1) - self._up_to(x1, y0) + self._up_to(x0, y0)
        return inside[:, :3], inside[:, 3]

    def _up_to(self, x: FloatArray, y: FloatArray) -> FloatArray:
        """The sums up to points between pixels: exact for pixels of even colour."""
        left = np.minimum(x.astype(np.int64), self.width - 1)
        top = np.minimum(y.astype(np.int64), self.height - 1)
        right, down = (x - left)[:, None], (y - top)[:, None]
        upper = self.sums[top, left] * (1.0 - right) + self.sums[top, left + 1] * right
        lower = self.sums[top + 1, left] * (1.0 - right) + self.sums[top + 1, left + 1] * right
        found: FloatArray = upper * (1.0 - down) + lower * down
        return found


def raster_of(pixels: Pixels) -> Raster:
    """A picture as light.

    Args:
        pixels: Red, green, blue in sRGB and, where not all is covered, cover, bytes, (height, width, 3 or 4).

    Raises:
        RequestError: There is no pixel in it.
    """
    height, width = pixels.shape[:2]
    if not (height and width):
        raise RequestError("Picture: it has no pixels; give another picture.")
    by = max(1, int(np.ceil(np.sqrt(height * width / MOST_KEPT))))
    light = _light(pixels) if by == 1 else _thinned(pixels, min(by, height, width))
    sums: FloatArray = np.zeros((light.shape[0] + 1, light.shape[1] + 1, 4))
    np.cumsum(light, axis=0, out=sums[1:, 1:])
    np.cumsum(sums[1:, 1:], axis=1, out=sums[1:, 1:])
    sums.setflags(write=False)
    return Raster(sums=sums)


def _light(pixels: Pixels) -> FloatArray:
    """Light times cover, and cover: colours mix as light does, and what is clear has no colour."""
    found: FloatArray = np.ones((*pixels.shape[:2], 4))
    found[..., :3] = np.take(LIGHT, pixels[..., :3])
    if pixels.shape[2] == 4:
        found[..., 3] = pixels[..., 3] / 255.0
        found[..., :3] *= found[..., 3:]
    return found


def _thinned(pixels: Pixels, by: int) -> FloatArray:
    """Means of squares of `by` pixels, strip by strip; what is over at the right and below, less than one, is left."""
    high, wide = pixels.shape[0] // by, pixels.shape[1] // by
    strip = max(1, STRIP // (wide * by * by))
    found: FloatArray = np.zeros((high, wide, 4))
    for top in range(0, high, strip):
        light = _light(pixels[top * by : min(top + strip, high) * by, : wide * by])
        lines = light.reshape(-1, by, wide * by, 4).sum(axis=1)
        for right in range(by):
            found[top : top + strip] += lines[:, right::by]
    found /= by * by
    return found
