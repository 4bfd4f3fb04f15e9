"""oklab: colours as they are seen, whole arrays at a time, for choosing the bead nearest to a colour."""

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]

# Linear sRGB to the cones and on to lightness, green-red and blue-yellow.
# Source: B. Ottosson, A perceptual color space for image processing (2020).
_CONES: FloatArray = np.array(
    [
        [0.4122214708, 0.5363325363, 0.0514459929],
        [0.2119034982, 0.6806995451, 0.1073969566],
        [0.0883024619, 0.2817188376, 0.6299787005],
    ]
)
_SEEN: FloatArray = np.array(
    [
        [0.2104542553, 0.7936177850, -0.0040720468],
        [1.9779984951, -2.4285922050, 0.4505937099],
        [0.0259040371, 0.7827717662, -0.8086757660],
    ]
)


def oklab_of(linear: FloatArray) -> FloatArray:
    """OKLab of linear red, green and blue, (..., 3); values beyond 0 and 1 are allowed."""
    found: FloatArray = np.cbrt(linear @ _CONES.T) @ _SEEN.T
    return found


def nearest(linear: FloatArray, choice: FloatArray) -> NDArray[np.int64]:
    """Which colour of a choice looks nearest to each colour; of equals, the first.

    Args:
        linear: Colours, linear, (n, 3).
        choice: The choice, in OKLab, (k, 3).
    """
    away = oklab_of(linear)[:, None, :] - choice[None, :, :]
    found: NDArray[np.int64] = np.argmin(np.einsum("nki,nki->nk", away, away), axis=1)
    return found
