"""colour: how different two colours look, also to makers who see colours differently."""

import re
from dataclasses import dataclass
from math import atan2, cos, degrees, exp, hypot, radians, sin, sqrt

from braidwright.domain.errors import DesignError

Lab = tuple[float, float, float]
Triple = tuple[float, float, float]
Matrix = tuple[Triple, Triple, Triple]

# A difference of about 1 can just be seen in two large flat patches side by side. Beads are small, round and shiny,
# lie among others and are sorted by lamplight, so ten times that is asked for. Our own choice, no source.
TOO_ALIKE = 10.0

_WRITTEN = re.compile("#[0-9a-fA-F]{6}")

# Linear sRGB to XYZ with white D65. Source: IEC 61966-2-1 (sRGB).
_XYZ: Matrix = (
    (0.4124564, 0.3575761, 0.1804375),
    (0.2126729, 0.7151522, 0.0721750),
    (0.0193339, 0.1191920, 0.9503041),
)
_WHITE: Triple = tuple(sum(line) for line in _XYZ)  # type: ignore[assignment]  # what equal red, green and blue give


@dataclass(frozen=True, slots=True, kw_only=True)
class Sight:
    """One way of seeing colours.

    Attributes:
        name: What it is called in a sentence: "for makers with ...".
        matrix: What linear red, green and blue become.
    """

    name: str
    matrix: Matrix


# Complete loss of one kind of cone. Source: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, A Physiologically-based
# Model for Simulation of Color Vision Deficiency (2009), matrices for severity 1.0.
SIGHTS: tuple[Sight, ...] = (
    Sight(
        name="red-blindness (protanopia)",
        matrix=(
            (0.152286, 1.052583, -0.204868),
            (0.114503, 0.786281, 0.099216),
            (-0.003882, -0.048116, 1.051998),
        ),
    ),
    Sight(
        name="green-blindness (deuteranopia)",
        matrix=(
            (0.367322, 0.860646, -0.227968),
            (0.280085, 0.672501, 0.047413),
            (-0.011820, 0.042940, 0.968881),
        ),
    ),
    Sight(
        name="blue-blindness (tritanopia)",
        matrix=(
            (1.255528, -0.076749, -0.178779),
            (-0.078411, 0.930809, 0.147602),
            (0.004733, 0.691367, 0.303900),
        ),
    ),
)


def lab_of(colour: str, sight: Sight | None = None) -> Lab:
    """CIELAB (white D65) of a "#rrggbb" colour, as seen with a sight or with the usual one.

    Raises:
        DesignError: It is not written as #rrggbb.
    """
    linear = linear_of(colour)
    if sight is not None:
        linear = tuple(min(1.0, max(0.0, value)) for value in _times(sight.matrix, linear))  # type: ignore[assignment]
    x, y, z = (_cube(value / white) for value, white in zip(_times(_XYZ, linear), _WHITE, strict=True))
    return 116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)


def difference(one: str, other: str, sight: Sight | None = None) -> float:
    """How different two "#rrggbb" colours look: CIEDE2000, 0 for the same, about 1 for only just different."""
    return ciede2000(lab_of(one, sight), lab_of(other, sight))


def ciede2000(one: Lab, other: Lab) -> float:
    """The colour difference CIEDE2000 of two CIELAB colours, with kL = kC = kH = 1.

    Source: G. Sharma, W. Wu, E. N. Dalal, The CIEDE2000 Color-Difference Formula: Implementation Notes, Supplementary
    Test Data, and Mathematical Observations (2005); the numbers beside the lines are its equations.
    """
    mean_chroma = (hypot(*one[1:]) + hypot(*other[1:])) / 2.0  # (2), (3)
    stretch = 1.5 - 0.5 * sqrt(_seventh(mean_chroma))  # 1 + G, with G of (4)
    chroma_1, hue_1 = _chroma_and_hue(stretch * one[1], one[2])  # (5) to (7)
    chroma_2, hue_2 = _chroma_and_hue(stretch * other[1], other[2])
    lightness = (one[0] + other[0]) / 2.0  # (12)
    chroma = (chroma_1 + chroma_2) / 2.0  # (13)
    turn, hue = _hue_turn_and_mean(hue_1, hue_2, grey=chroma_1 * chroma_2 == 0.0)
    weight = (
        1.0
        - 0.17 * cos(radians(hue - 30.0))
        + 0.24 * cos(radians(2.0 * hue))
        + 0.32 * cos(radians(3.0 * hue + 6.0))
        - 0.20 * cos(radians(4.0 * hue - 63.0))
    )  # (15)
    off_middle = (lightness - 50.0) ** 2
    part_l = (other[0] - one[0]) / (1.0 + 0.015 * off_middle / sqrt(20.0 + off_middle))  # (8), (18)
    part_c = (chroma_2 - chroma_1) / (1.0 + 0.045 * chroma)  # (9), (19)
    part_h = 2.0 * sqrt(chroma_1 * chroma_2) * sin(radians(turn / 2.0)) / (1.0 + 0.015 * chroma * weight)  # (11), (20)
    dip = 60.0 * exp(-(((hue - 275.0) / 25.0) ** 2))  # twice (16)
    rotation = -2.0 * sqrt(_seventh(chroma)) * sin(radians(dip))  # (17), (21)
    return sqrt(part_l**2 + part_c**2 + part_h**2 + rotation * part_c * part_h)  # (22)


def _seventh(chroma: float) -> float:
    return float(chroma**7 / (chroma**7 + 25.0**7))


def _chroma_and_hue(a: float, b: float) -> tuple[float, float]:
    return hypot(a, b), degrees(atan2(b, a)) % 360.0


def _hue_turn_and_mean(one: float, other: float, *, grey: bool) -> tuple[float, float]:
    """The turn from one hue to the other, the short way (10), and the hue half-way (14), degrees."""
    if grey:
        return 0.0, one + other
    turn = other - one
    mean = (one + other) / 2.0
    if abs(turn) <= 180.0:
        return turn, mean
    return turn - 360.0 if turn > 0.0 else turn + 360.0, mean + 180.0 if one + other < 360.0 else mean - 180.0


def linear_of(colour: str) -> Triple:
    """Linear red, green and blue, 0 to 1. Source: IEC 61966-2-1 (sRGB), the decoding curve."""
    if _WRITTEN.fullmatch(colour) is None:
        raise DesignError(f"The colour {colour[:40]!r} cannot be read; write it as #rrggbb, such as #1b6e5a.")
    red, green, blue = (int(colour[at : at + 2], 16) / 255.0 for at in (1, 3, 5))
    return _decoded(red), _decoded(green), _decoded(blue)


def _decoded(value: float) -> float:
    return value / 12.92 if value <= 0.04045 else float(((value + 0.055) / 1.055) ** 2.4)


def _times(matrix: Matrix, value: Triple) -> Triple:
    x, y, z = (sum(factor * part for factor, part in zip(line, value, strict=True)) for line in matrix)
    return x, y, z


def _cube(value: float) -> float:
    """The cube root of CIELAB, with its straight foot. Source: CIE 15."""
    return float(value ** (1 / 3)) if value > (6 / 29) ** 3 else value / (3 * (6 / 29) ** 2) + 4 / 29
