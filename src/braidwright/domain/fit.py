"""fit: wrist or neckline to rope length and rows, and back; end caps and findings."""

from dataclasses import dataclass
from math import pi

from braidwright.domain.cord import EndCap
from braidwright.domain.design import Findings
from braidwright.domain.errors import RequestError
from braidwright.domain.units import MM_PER_INCH, check_length, parse_length, print_both

THINNEST_WRIST_MM, THICKEST_WRIST_MM = 80.0, 350.0  # a small child's to a very large ankle's; our own limits
MOST_EASE_MM = 100.0
BRACELET_WRISTS_MM = (110.0, 230.0)  # nobody wears what fits more or less as a bracelet; our own limits
TYPICAL_FINDINGS_MM = MM_PER_INCH  # two caps and a clasp, 0.75 to 1.25 in, from memory (trade-facts, 4.3)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ease:
    """How loosely a bracelet is worn, in the trade's words.

    Attributes:
        name: The word.
        least_mm: Least length added to the wrist.
        most_mm: Most length added.
    """

    name: str
    least_mm: float
    most_mm: float

    @property
    def usual_mm(self) -> float:
        """The middle of the range."""
        return (self.least_mm + self.most_mm) / 2.0


# [JIF] jewelsinfiber.blogspot.com/2016/05, in inches there.
EASES: tuple[Ease, ...] = (
    Ease(name="tight", least_mm=0.0, most_mm=0.0),
    Ease(name="snug", least_mm=0.25 * MM_PER_INCH, most_mm=0.5 * MM_PER_INCH),
    Ease(name="comfort", least_mm=0.5 * MM_PER_INCH, most_mm=1.0 * MM_PER_INCH),
    Ease(name="loose", least_mm=1.0 * MM_PER_INCH, most_mm=1.25 * MM_PER_INCH),
)
DEFAULT_EASE = "comfort"

# [MRB] mrbeadshop.com/pages/bead-sizes: finished lengths in inches.
NECKLINES: dict[str, float] = {
    "bracelet": 7 * MM_PER_INCH,
    "anklet": 9 * MM_PER_INCH,
    "choker": 16 * MM_PER_INCH,
    "princess": 18 * MM_PER_INCH,
    "matinee": 24 * MM_PER_INCH,
    "opera": 32 * MM_PER_INCH,
}

# [DEB] debsdesigns.com: wrist circumference in inches.
WRISTS: dict[str, float] = {
    "petite": 6.5 * MM_PER_INCH,
    "S": 6.75 * MM_PER_INCH,
    "average": 7.0 * MM_PER_INCH,
    "L": 7.25 * MM_PER_INCH,
    "XL": 7.5 * MM_PER_INCH,
    "XXL": 8.0 * MM_PER_INCH,
}


def ease_mm(wish: str) -> float:
    """The ease a maker asked for, by word or as a length.

    Raises:
        RequestError: Neither a word of EASES nor a length up to 100 mm.
    """
    for ease in EASES:
        if wish.strip().lower() == ease.name:
            return ease.usual_mm
    try:
        found = parse_length(wish, "ease")
    except RequestError as error:
        words = ", ".join(ease.name for ease in EASES)
        raise RequestError(
            f"The ease {wish.strip()[:40]!r} is not known; use {words}, or a length such as 15 mm."
        ) from error
    if found > MOST_EASE_MM:
        raise RequestError(f"An ease of {print_both(found)} is more than a bracelet takes; give 0 to 100 mm.")
    return found


def neckline_mm(name: str) -> float:
    """The finished length of a neckline or other named length, findings included.

    Raises:
        RequestError: Not one of NECKLINES.
    """
    key = name.strip().lower().replace("\u00e9", "e")
    if key not in NECKLINES:
        raise RequestError(f"The neckline {name.strip()[:40]!r} is not known; use one of {', '.join(NECKLINES)}.")
    return NECKLINES[key]


def check_wrist(wrist_mm: float) -> float:
    """The same wrist, when it is one.

    Raises:
        RequestError: No wrist or ankle has this girth.
    """
    check_length(wrist_mm, "wrist")
    if THINNEST_WRIST_MM <= wrist_mm <= THICKEST_WRIST_MM:
        return wrist_mm
    hint = ""
    for unit, factor in (("in", MM_PER_INCH), ("cm", 10.0)):
        if THINNEST_WRIST_MM <= wrist_mm * factor <= THICKEST_WRIST_MM:
            hint = f" (did you mean {wrist_mm:g} {unit}?)"
            break
    raise RequestError(
        f"A wrist of {wrist_mm:g} mm is outside {THINNEST_WRIST_MM:g} to {THICKEST_WRIST_MM:g} mm{hint}; "
        f"give the girth with its unit, such as 165 mm or 6 1/2 in."
    )


def bracelet_mm(wrist_mm: float, ease: float, thickness_mm: float) -> float:
    """Finished length of a bracelet, findings included: wrist + ease + pi x thickness.

    Source: trade-facts 4.4 [JIF]. The inside of a thick ring is shorter than its middle by pi times the thickness.
    """
    return check_wrist(wrist_mm) + ease + pi * thickness_mm


def wrist_mm(finished_mm: float, ease: float, thickness_mm: float) -> float:
    """The wrist a finished bracelet fits with that ease: the way back from `bracelet_mm`, whatever comes out."""
    return finished_mm - ease - pi * thickness_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class WornBy:
    """Whom a finished bracelet fits.

    Attributes:
        smallest_mm: The wrist on which it is loose.
        comfort_mm: The wrist on which it has the usual comfort ease.
        largest_mm: The wrist on which it is tight.
        names: The named wrists of the trade it fits snugly or with comfort.
    """

    smallest_mm: float
    comfort_mm: float
    largest_mm: float
    names: tuple[str, ...]


def worn_by(finished_mm: float, thickness_mm: float) -> WornBy | None:
    """The range of wrists and ankles a finished length fits, or None when it goes round neither."""
    tight, snug, comfort, loose = EASES
    smallest = wrist_mm(finished_mm, loose.most_mm, thickness_mm)
    usual = wrist_mm(finished_mm, comfort.usual_mm, thickness_mm)
    if not THINNEST_WRIST_MM <= usual <= THICKEST_WRIST_MM:
        return None
    least = wrist_mm(finished_mm, comfort.most_mm, thickness_mm)
    most = wrist_mm(finished_mm, snug.least_mm, thickness_mm)
    return WornBy(
        smallest_mm=smallest,
        comfort_mm=usual,
        largest_mm=wrist_mm(finished_mm, tight.least_mm, thickness_mm),
        names=tuple(name for name, girth in WRISTS.items() if least <= girth <= most),
    )


def bracelet_wrist_mm(finished_mm: float, thickness_mm: float) -> float | None:
    """The wrist that a piece fits comfortably, or None when it is no bracelet but a necklace, or no size at all."""
    fit = worn_by(finished_mm, thickness_mm)
    least, most = BRACELET_WRISTS_MM
    return fit.comfort_mm if fit is not None and least <= fit.comfort_mm <= most else None


def rows_for(length_mm: float, rise_mm: float, *, step: int = 1) -> int:
    """The number of rows that comes nearest to a length; of two equally near, the longer.

    Args:
        length_mm: Length of the rows.
        rise_mm: Length of one row.
        step: Rows of the smallest piece that may be added, so that a pattern stays whole.

    Raises:
        RequestError: Nothing is left for the rows, or there would be too many.
    """
    if length_mm <= 0.0:
        raise RequestError("The findings are as long as the whole piece, so no rows are left; choose shorter findings.")
    rows = max(step, int(length_mm / (rise_mm * step) + 0.5) * step)
    if rows > 1_000_000:
        raise RequestError(f"A length of {length_mm:g} mm needs {rows} rows; check the length and its unit.")
    return rows


def findings_mm(findings: Findings | None, cap: EndCap | None) -> tuple[float, tuple[str, ...]]:
    """The length that end caps and clasp add, and a note when it is not known.

    Args:
        findings: What the design says.
        cap: The end cap used at both ends, or None.
    """
    if findings is None or findings.clasp_mm is None:
        caps = 0.0 if cap is None else 2.0 * cap.adds_mm
        length = max(TYPICAL_FINDINGS_MM, caps)
        return length, (
            f"The length of the clasp is not said: {print_both(length)} are allowed for caps and clasp together; "
            f"measure yours closed.",
        )
    if cap is None:
        return findings.clasp_mm, ("No end cap is chosen, so only the clasp is allowed for.",)
    return findings.clasp_mm + 2.0 * cap.adds_mm, ()


def bound_satin_mm(predicted_mm: float) -> float:
    """How wide a bare satin braid is once bound, from the width the formula gives for firm cord.

    Source: [FOC] facetjewelry.com, focal bead bracelet: eight cords of 1.5 mm satin go into caps of 6 mm, four cord
    diameters, where the formula says 4.75. One source; a measured braid needs none of this.
    """
    return round(predicted_mm * 4.0 / 4.75, 6)


def choose_end_cap(diameter_mm: float, *, beaded: bool, caps: tuple[EndCap, ...]) -> EndCap | None:
    """The end cap for a braid, or None when there are none to choose from.

    Args:
        diameter_mm: Outside diameter: of the bare braid when `beaded` is false, over the beads when it is true.
        beaded: Whether beads reach up to the cap. They stay outside: the cap should then look as wide as the rope.
        caps: The sizes to choose from.

    Source: bare braid [WEIR]: binding compresses it, so between sizes the smaller (just under 4 mm takes the 3 mm cap).
    Beaded [GLUE]: about the outside diameter of the braid.
    """
    by_width = sorted(caps, key=lambda cap: (cap.inside_mm, cap.adds_mm, cap.name))
    if not by_width:
        return None
    if beaded:
        return min(by_width, key=lambda cap: abs(cap.inside_mm - diameter_mm))
    narrower = [cap for cap in by_width if cap.inside_mm <= diameter_mm]
    if not narrower:
        return by_width[0]
    return next(cap for cap in by_width if cap.inside_mm == narrower[-1].inside_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """A rope fitted to a wrist or a neckline.

    Attributes:
        finished_mm: Length of the closed piece, findings included.
        findings_mm: Of that, caps and clasp.
        rows: Rows to braid.
        rows_mm: Their length.
        off_mm: How much longer (+) or shorter (-) than wished the piece comes out, since rows are whole.
        end_cap: Name of the end cap reckoned with, or None.
        notes: What was assumed.
    """

    finished_mm: float
    findings_mm: float
    rows: int
    rows_mm: float
    off_mm: float
    end_cap: str | None
    notes: tuple[str, ...] = ()


def fitted(wished_mm: float, rise_mm: float, findings: float, *, other: tuple[int, float] = (0, 0.0)) -> Fit:
    """The rows for a finished length, findings included.

    Args:
        wished_mm: Finished length.
        rise_mm: Length of a row of those that are added or taken.
        findings: Length of caps and clasp.
        other: Number and length of the rows that stay as they are, such as bare ones.

    Raises:
        RequestError: The findings leave no room for rows.
    """
    rows = rows_for(wished_mm - findings - other[1], rise_mm)
    length = rows * rise_mm + other[1]
    return Fit(
        finished_mm=length + findings,
        findings_mm=findings,
        rows=rows + other[0],
        rows_mm=length,
        off_mm=length + findings - wished_mm,
        end_cap=None,
    )
