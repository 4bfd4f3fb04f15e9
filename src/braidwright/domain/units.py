"""units: parse and print lengths. The only place that knows millimetres from inches; inside, all is millimetres."""

import re
from dataclasses import dataclass
from math import isfinite

from braidwright.domain.errors import RequestError

MM_PER_INCH = 25.4  # exact since the international yard of 1959
MOST_MM = 100_000.0  # 100 m: no piece, and no cord for one, is longer
EIGHTHS = 8  # makers' rulers in inches are read to an eighth
NEARLY_ZERO = 1e-9
MOST_LETTERS = 60  # a longer text is no length, and a number of hundreds of digits would overflow


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """One unit of length.

    Attributes:
        name: How it is printed.
        mm: Its length in millimetres.
        spellings: Every way of writing it that is understood, in lower case.
    """

    name: str
    mm: float
    spellings: tuple[str, ...]


UNITS: tuple[Unit, ...] = (
    Unit(name="mm", mm=1.0, spellings=("mm", "millimetre", "millimetres", "millimeter", "millimeters")),
    Unit(name="cm", mm=10.0, spellings=("cm", "centimetre", "centimetres", "centimeter", "centimeters")),
    Unit(name="m", mm=1000.0, spellings=("m", "metre", "metres", "meter", "meters")),
    Unit(name="in", mm=MM_PER_INCH, spellings=("in", "in.", "inch", "inches", '"', "\u2033", "\u201d")),
    Unit(name="ft", mm=12 * MM_PER_INCH, spellings=("ft", "ft.", "foot", "feet", "'", "\u2032", "\u2019")),
    Unit(name="yd", mm=36 * MM_PER_INCH, spellings=("yd", "yd.", "yard", "yards")),
)
_MM_OF = {spelling: unit.mm for unit in UNITS for spelling in unit.spellings}
_OF_NAME = {unit.name: unit for unit in UNITS}

_VULGAR = {
    "\u00bc": "1/4", "\u00bd": "1/2", "\u00be": "3/4", "\u215b": "1/8",
    "\u215c": "3/8", "\u215d": "5/8", "\u215e": "7/8", "\u2153": "1/3", "\u2154": "2/3",
}  # fmt: skip
_PIECE = re.compile(
    r"(?:(?P<whole>\d+)[\s-]+)?(?P<top>\d+)\s*/\s*(?P<bottom>\d+)\s*(?P<of>[^\d\s,./-]+\.?)?"
    r"|(?P<number>\d+(?:[.,]\d+)?|\.\d+)\s*(?P<unit>[^\d\s,./-]+\.?)?"
)


def parse_length(text: str, what: str = "length") -> float:
    """The length a maker wrote, in millimetres; a bare number is millimetres.

    Args:
        text: Such as "165", "165 mm", "16,5 cm", "6.5in", "6 1/2 in", "1 ft 4 in" or "2 yd".
        what: What the length is for; named when it cannot be read.

    Raises:
        RequestError: Not a length, an unknown unit, not a finite number, below zero or beyond 100 m.
    """
    plain = _written_out(text)
    if re.match(r"[-\u2212]\s*[\d.,]", plain):
        raise RequestError(f"The {what} {text.strip()!r} is below zero; give a length of zero or more.")
    total, at = 0.0, 0
    pieces = list(_PIECE.finditer(plain[:MOST_LETTERS]))
    for piece in pieces:
        if plain[at : piece.start()].strip():
            break
        total += _millimetres(piece, text, what, bare_allowed=len(pieces) == 1)
        at = piece.end()
    if not pieces or plain[at:].strip() or len(plain) > MOST_LETTERS:
        raise RequestError(
            f"The {what} {_shown(text)} cannot be read; write a number and a unit, such as 165 mm, 16.5 cm or 6 1/2 in."
        )
    return check_length(total, what)


def check_length(mm: float, what: str = "length") -> float:
    """The same length, when it is one.

    Raises:
        RequestError: Not a finite number, below zero or beyond 100 m.
    """
    if not isfinite(mm):
        raise RequestError(f"The {what} is {mm}, which is not a length; give a number of millimetres.")
    if mm < 0.0:
        raise RequestError(f"The {what} {mm:g} mm is below zero; give a length of zero or more.")
    if mm > MOST_MM:
        raise RequestError(f"The {what} {mm:g} mm is more than {MOST_MM / 1000.0:g} m; check the number and its unit.")
    return mm


def _shown(text: str) -> str:
    short = text.strip()
    return repr(short if len(short) <= 40 else short[:37] + "...")


def _written_out(text: str) -> str:
    plain = text
    for sign, fraction in _VULGAR.items():
        plain = plain.replace(sign, f" {fraction}")
    return plain.replace("\u2044", "/").strip().lower()


def _millimetres(piece: re.Match[str], text: str, what: str, *, bare_allowed: bool) -> float:
    unit = piece["of"] or piece["unit"]
    if unit is None and not bare_allowed:
        raise RequestError(
            f"The {what} {_shown(text)} has a number without a unit; write each with its own, as in 1 ft 4 in."
        )
    if unit is not None and unit not in _MM_OF:
        names = ", ".join(known.name for known in UNITS)
        raise RequestError(f"The {what} {_shown(text)} has the unit {unit!r}, which is not known; use one of {names}.")
    return _number(piece, text, what) * (_MM_OF[unit] if unit else 1.0)


def _number(piece: re.Match[str], text: str, what: str) -> float:
    if piece["top"] is None:
        if re.fullmatch(r"\d+,\d{3}", piece["number"]):
            # "1,250" is a thousand to one reader and one and a quarter to another.
            raise RequestError(
                f"The {what} {_shown(text)} can be read in two ways; "
                f"write thousands without a comma, and decimals with a point."
            )
        return float(piece["number"].replace(",", "."))
    if int(piece["bottom"]) == 0:
        raise RequestError(f"The {what} {_shown(text)} divides by nought; correct the fraction.")
    return float(piece["whole"] or 0) + int(piece["top"]) / int(piece["bottom"])


def print_length(mm: float, unit: str = "mm") -> str:
    """A length for a reader: whole millimetres (tenths below 20), tenths of a centimetre, eighths of an inch.

    Raises:
        RequestError: An unknown unit.
    """
    if unit not in _OF_NAME:
        raise RequestError(f"The unit {unit!r} is not known; use one of {', '.join(_OF_NAME)}.")
    if unit == "in":
        return f"{_in_eighths(mm / MM_PER_INCH)} in"
    digits = {"mm": 0 if mm >= 20.0 else 1, "cm": 1}.get(unit, 2)
    return f"{_trimmed(mm / _OF_NAME[unit].mm, digits)} {unit}"


def print_both(mm: float) -> str:
    """A length for readers of either ruler, such as "165 mm (6 1/2 in)"."""
    return f"{print_length(mm)} ({print_length(mm, 'in')})"


def give_or_take(error: float | None, digits: int = 0, unit: str = " mm") -> str:
    """What follows a figure that may be off by so much, such as ", give or take 4 mm"; nothing when it is not known.

    Args:
        error: How far the figure may be off, plus or minus.
        digits: Decimals of the figure before it; one more is told when this would round to nothing.
        unit: The unit, with the space before it.
    """
    if error is None or error <= 0.0:
        return ""
    shown = f"{error:.{digits}f}"
    if float(shown) == 0.0:
        shown = f"{error:.{digits + 1}f}"
    return f", give or take {shown}{unit}" if float(shown) else ""


def _trimmed(value: float, digits: int) -> str:
    text = f"{value:.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _in_eighths(inches: float) -> str:
    whole, eighths = divmod(round(inches * EIGHTHS), EIGHTHS)
    if eighths == 0:
        return str(whole) if whole or inches < NEARLY_ZERO else "under 1/8"
    top, bottom = eighths, EIGHTHS
    while top % 2 == 0:
        top, bottom = top // 2, bottom // 2
    return f"{whole} {top}/{bottom}" if whole else f"{top}/{bottom}"
