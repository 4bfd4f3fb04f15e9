"""Swatch: a short braid the maker made and measured, and the check on what she measured."""

from dataclasses import dataclass
from math import isfinite

from braidwright.domain.errors import DesignError
from braidwright.domain.prediction import Prediction

Extra = tuple[tuple[str, str], ...]
Slips = tuple[tuple[float, str], ...]

MOST_ROWS = 100_000
MOST_MM = 100_000.0
MOST_ACROSS_MM = 200.0
LEAST_MM = 0.001  # no ruler tells as little
QUICKEST_TURN_ROWS = 2.0  # half a turn in one row: a column cannot turn faster and still be told from its neighbour

# Ratios of what was measured to what is expected, each with the slip that gives it. The bands are our own.
LENGTH_SLIPS: Slips = (
    (1 / 25.4, "it looks like inches given as millimetres"),
    (1 / 10, "it looks like centimetres given as millimetres"),
    (1 / 2, "it is about half; a row is one repeat, half a round of all cords in kongoh gumi"),
    (2.0, "it is about twice; if you counted rounds of all cords, each is two rows in kongoh gumi"),
    (10.0, "one nought too many, or a wrong unit"),
    (25.4, "it looks like millimetres given as inches"),
)
ACROSS_SLIPS: Slips = (
    (1 / 25.4, "it looks like inches given as millimetres"),
    (1 / 10, "it looks like centimetres given as millimetres"),
    (1 / 2, "it is about half; measure right across, not to the middle"),
    (3.14, "it looks like the way round; measure straight across"),
    (10.0, "one nought too many, or a wrong unit"),
    (25.4, "it looks like millimetres given as inches"),
)
SAME_MM = 1.0  # two ways of telling the cord used may differ by the reading of a ruler
BAND = 1.2  # a slip is named when the ratio is within this factor of it
USUAL = (0.75, 1.35)  # real braids vary with the hand that makes them; beyond this a measurement is looked at again
UNPREDICTED = (0.3, 4.0)  # without a prediction: a row against the length of its beads, which it cannot leave far
LEAST_TAKE_UP, MOST_TAKE_UP = 1.1, 3.5  # the trade cuts 2 to 3 times the finished length, ends included
LEAST_TURN_ROWS, MOST_TURN_ROWS = (
    7.0,
    200.0,
)  # 50 degrees a row is the most that mechanics favours (physics.md, section 5)


@dataclass(frozen=True, slots=True, kw_only=True)
class Swatch:
    """What a maker measured on a sample of this braid, beads and cord.

    Attributes:
        rows: Rows counted.
        length_mm: Length of those rows, or None when not measured.
        diameter_mm: Outside diameter over the beads, or None.
        turn_rows: Rows in which a column goes once round the rope, or None.
        cord_used_mm: Length of one cord used up by those rows, or None.
        cord_cut_mm: Length of one cord as it was cut, or None.
        cord_left_mm: What was left of that cord, tails and ends together, or None; with the length cut it is another
            way of telling the cord used.
        braid: Catalogue name of the braid it was made in, or None for that of the design.
        cord: Catalogue name of its cord, or None for that of the design.
        bead: Catalogue name of its bead, or None for that of the design.
        extra: Fields of the file this program does not know, kept.

    Raises:
        DesignError: A number that no sample can have.
    """

    rows: int
    length_mm: float | None = None
    diameter_mm: float | None = None
    turn_rows: float | None = None
    cord_used_mm: float | None = None
    cord_cut_mm: float | None = None
    cord_left_mm: float | None = None
    braid: str | None = None
    cord: str | None = None
    bead: str | None = None
    extra: Extra = ()

    def __post_init__(self) -> None:
        """Refuse impossible numbers."""
        if not 1 <= self.rows <= MOST_ROWS:
            raise DesignError(f"Swatch: {self.rows} rows were not braided; give the rows counted, 1 to {MOST_ROWS}.")
        self._check("length_mm", LEAST_MM, MOST_MM)
        self._check("diameter_mm", LEAST_MM, MOST_ACROSS_MM)
        self._check("cord_used_mm", LEAST_MM, MOST_MM)
        self._check("turn_rows", QUICKEST_TURN_ROWS, MOST_ROWS)
        self._check_cut()
        used = self.used_mm
        if self.length_mm is not None and used is not None and used < self.length_mm:
            raise DesignError(
                f"Swatch: {used:g} mm of cord cannot make {self.length_mm:g} mm of braid; "
                f"the cord used is the length of one cord that went into it, so correct one of the two."
            )

    def _check_cut(self) -> None:
        """The length cut and the length left go together, and go with the cord used where that is told as well."""
        cut, left = self.cord_cut_mm, self.cord_left_mm
        if (cut is None) != (left is None):
            given, missing = ("cord_cut_mm", "cord_left_mm") if left is None else ("cord_left_mm", "cord_cut_mm")
            raise DesignError(
                f"Swatch: {given} tells the cord used only together with {missing}; give both, or cord_used_mm."
            )
        if cut is None or left is None:
            return
        self._check("cord_cut_mm", LEAST_MM, MOST_MM)
        if not (isfinite(left) and 0.0 <= left < cut - LEAST_MM):
            raise DesignError(
                f"Swatch: {left:g} mm cannot be left of a cord cut at {cut:g} mm; give less than was cut."
            )
        if self.cord_used_mm is not None and abs(cut - left - self.cord_used_mm) > SAME_MM:
            raise DesignError(
                f"Swatch: cut less left is {cut - left:g} mm of cord, but cord_used_mm is {self.cord_used_mm:g}; "
                f"correct one, or keep only one way of telling it."
            )

    def _check(self, field: str, above: float, most: float) -> None:
        value = getattr(self, field)
        if value is not None and not (isfinite(value) and above < value <= most):
            raise DesignError(
                f"Swatch: {field} is {value}, which cannot be measured; give more than {above:g} and at most {most:g}."
            )

    @property
    def rise_mm(self) -> float | None:
        """Length per row as measured, or None."""
        return None if self.length_mm is None else self.length_mm / self.rows

    @property
    def used_mm(self) -> float | None:
        """Length of one cord used up, as told or from what was cut and left, or None."""
        if self.cord_used_mm is not None or self.cord_cut_mm is None or self.cord_left_mm is None:
            return self.cord_used_mm
        return self.cord_cut_mm - self.cord_left_mm


def check(swatch: Swatch, prediction: Prediction, bead_length_mm: float | None = None) -> tuple[str, ...]:
    """What looks wrong in the measurements: a unit, a count, a way of measuring.

    Args:
        swatch: What was measured.
        prediction: What was expected, before any correction.
        bead_length_mm: Length of the usual bead along its hole, to judge by where no rise is predicted.

    Returns:
        A sentence for each measurement to look at again; none when all is in the usual range.
    """
    found = [
        _slip("length per row", swatch.rise_mm, prediction.rise_mm, LENGTH_SLIPS),
        _slip("diameter", swatch.diameter_mm, prediction.diameter_mm, ACROSS_SLIPS),
        _by_the_bead(swatch, prediction, bead_length_mm),
        _cord_slip(swatch, prediction),
        _turn_slip(swatch),
    ]
    return tuple(sentence for sentence in found if sentence)


def _slip(what: str, measured: float | None, expected: float | None, slips: Slips) -> str | None:
    if measured is None or expected is None:
        return None
    ratio = measured / expected
    if USUAL[0] <= ratio <= USUAL[1]:
        return None
    why = slip_of(ratio, slips) or "measure again, or check beads and cord of the design"
    return f"Swatch: the {what} is {measured:.3g} mm where about {expected:.3g} mm is expected: {why}."


def slip_of(ratio: float, slips: Slips) -> str | None:
    """The slip that would give this ratio of what was measured to what is right, in words, or None."""
    return next((words for slip, words in slips if slip / BAND <= ratio <= slip * BAND), None)


def _by_the_bead(swatch: Swatch, prediction: Prediction, bead_length_mm: float | None) -> str | None:
    if prediction.rise_mm is not None or swatch.rise_mm is None or bead_length_mm is None:
        return None
    if UNPREDICTED[0] <= swatch.rise_mm / bead_length_mm <= UNPREDICTED[1]:
        return None
    return (
        f"Swatch: {swatch.rise_mm:.3g} mm a row does not go with beads {bead_length_mm:.3g} mm long; "
        f"check the unit of length_mm and the rows counted."
    )


def _cord_slip(swatch: Swatch, prediction: Prediction) -> str | None:
    rise = swatch.rise_mm or prediction.rise_mm
    if swatch.used_mm is None or rise is None:
        return None
    take_up = swatch.used_mm / (rise * swatch.rows)
    if LEAST_TAKE_UP <= take_up <= MOST_TAKE_UP:
        return None
    return (
        f"Swatch: one cord used up {take_up:.3g} times the length of the braid, where 1.4 to 2.5 times is usual: "
        f"give the length of one cord that went in, without tails, and check its unit."
    )


def _turn_slip(swatch: Swatch) -> str | None:
    if swatch.turn_rows is None or LEAST_TURN_ROWS <= swatch.turn_rows <= MOST_TURN_ROWS:
        return None
    return (
        f"Swatch: a full turn in {swatch.turn_rows:g} rows is unusual (11 to 32 rows are common): "
        f"follow one column once round the rope and count its rows."
    )
