"""style: colours, line weights and type for paper, in one place."""

from colorsys import hls_to_rgb, rgb_to_hls

from braidwright.drawings.pen import Anchor, Lettering, Paint

PAPER = "#ffffff"
INK = "#2a2521"
SOFT_INK = "#6b6158"
HAIR = "#cfc5b8"
SAND = "#efe0cb"
ACCENT = "#9c2f42"
WHITE = "#ffffff"
BLACK = "#000000"

SERIF = "Libertinus Serif"
MONO = "DejaVu Sans Mono"

THIN = 0.18
FINE = 0.3
BOLD = 0.55

SMALL_TYPE = 2.9
PLAIN_TYPE = 3.4
LARGE_TYPE = 4.4

READABLE = 4.5  # contrast of text: WCAG 2.2, success criterion 1.4.3


def type_(
    size: float, *, colour: str = INK, anchor: Anchor = "start", bold: bool = False, italic: bool = False
) -> Lettering:
    """Words in the house type."""
    return Lettering(size=size, colour=colour, anchor=anchor, is_bold=bold, is_italic=italic, family=SERIF)


def filled(colour: str, *, opacity: float = 1.0) -> Paint:
    """A shape of one colour, without an edge."""
    return Paint(fill=colour, opacity=opacity)


def drawn(colour: str, width: float = FINE, *, dash: tuple[float, ...] = ()) -> Paint:
    """A line of one colour."""
    return Paint(edge=colour, width=width, dash=dash)


def channels(colour: str) -> tuple[float, float, float]:
    """Red, green and blue of "#rrggbb", 0 to 1 each."""
    red, green, blue = (int(colour[at : at + 2], 16) / 255.0 for at in (1, 3, 5))
    return red, green, blue


def hexed(red: float, green: float, blue: float) -> str:
    """The colour "#rrggbb" of three channels, 0 to 1 each; what lies outside is cut off."""
    return "#" + "".join(f"{round(255 * min(1.0, max(0.0, value))):02x}" for value in (red, green, blue))


def mixed(colour: str, other: str, share: float) -> str:
    """A colour with a share (0 to 1) of another."""
    pairs = zip(channels(colour), channels(other), strict=True)
    red, green, blue = ((1.0 - share) * one + share * two for one, two in pairs)
    return hexed(red, green, blue)


def lighter(colour: str, share: float) -> str:
    """A colour with a share of white."""
    return mixed(colour, WHITE, share)


def darker(colour: str, share: float) -> str:
    """A colour with a share of black."""
    return mixed(colour, BLACK, share)


def hue_turned(colour: str, degrees: float) -> str:
    """The same lightness, another hue; a grey gets a breath of colour so that a rainbow shows on it."""
    hue, light, strength = rgb_to_hls(*channels(colour))
    return hexed(*hls_to_rgb((hue + degrees / 360.0) % 1.0, light, max(strength, 0.25)))


def luminance(colour: str) -> float:
    """Relative luminance, 0 to 1. Source: W3C, WCAG 2.2, definition of relative luminance."""
    red, green, blue = (
        value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4 for value in channels(colour)
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast of two colours, 1 to 21. Source: W3C, WCAG 2.2, definition of contrast ratio."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def ink_on(colour: str) -> str:
    """The ink that reads well on a colour: ours where it does, else white or black.

    One of white and black always reaches 4.58, since their contrasts multiply to 21.
    """
    if contrast(INK, colour) >= READABLE:
        return INK
    return max((WHITE, BLACK), key=lambda ink: contrast(ink, colour))


def edge_of(colour: str) -> str:
    """The thin edge round a bead or cord of a colour: darker, so that a white one shows on white paper."""
    return mixed(colour, INK, 0.45)
