"""figures: numbers the way a maker reads them: both rulers, grams, and never more digits than are known."""

from math import ceil

from braidwright.domain.prediction import Basis
from braidwright.domain.units import EIGHTHS, MM_PER_INCH, print_both, print_length

NO_BREAK = "\u00a0"
NOT_YET = "not predicted yet"

RESTS_ON: dict[Basis, str] = {
    "estimated": "estimated",
    "solved": "solved",
    "corrected by a swatch": "from the designer's swatch",
    "not predicted yet": "",
}


def length(mm: float | None) -> str:
    """A length on both rulers, or that it is not known."""
    return NOT_YET if mm is None else unbroken(print_both(mm))


def cut_length(mm: float | None) -> str:
    """A length to cut, on both rulers: inches are rounded up to the next eighth, so that no cord comes out short."""
    if mm is None:
        return NOT_YET
    inches = ceil(round(mm / MM_PER_INCH * EIGHTHS, 6)) / EIGHTHS
    return unbroken(f"{print_length(mm)} ({print_length(inches * MM_PER_INCH, 'in')})")


def unbroken(text: str) -> str:
    """Lengths that stay whole at the end of a line: "4 3/8 in" never parts, "112 mm (4 3/8 in)" parts once."""
    return text.replace(" ", NO_BREAK).replace(NO_BREAK + "(", " (")


def grams(weight: float) -> str:
    """A weight: tenths of a gram, whole grams from 100 on."""
    return f"{weight:.0f} g" if weight >= 100.0 else f"{weight:.1f} g"


def lengths_between(least: float, most: float) -> str:
    """Two lengths on both rulers, such as "150 to 160 mm (5 7/8 to 6 1/4 in)"."""
    low_mm, low_in = print_both(least).rstrip(")").split(" (")
    high_mm, high_in = print_both(most).rstrip(")").split(" (")
    return unbroken(f"{low_mm.removesuffix(' mm')} to {high_mm} ({low_in.removesuffix(' in')} to {high_in})")


def sentence(text: str) -> str:
    """The text with a full stop at its end."""
    stripped = text.strip()
    return stripped if not stripped or stripped[-1] in ".!?" else stripped + "."


def capital(text: str) -> str:
    """The text with a capital at its head, and nothing else changed."""
    return text[:1].upper() + text[1:]
