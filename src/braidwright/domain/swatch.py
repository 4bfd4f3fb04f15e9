"""Swatch: a short braid the maker made and measured, the check on it, and the correction it gives."""

from dataclasses import dataclass, replace
from math import isfinite

from braidwright.domain.errors import DesignError
from braidwright.domain.prediction import Prediction

Extra = tuple[tuple[str, str], ...]

MOST_ROWS = 100_000
MOST_MM = 100_000.0
MOST_ACROSS_MM = 200.0
QUICKEST_TURN_ROWS = 2.0  # half a turn in one row: a column cannot turn faster and still be told from its neighbour

# Ratios of what was measured to what is expected, each with the slip that gives it. The bands are our own.
LENGTH_SLIPS = (
    (1 / 25.4, "it looks like inches given as millimetres"),
    (1 / 10, "it looks like centimetres given as millimetres"),
    (1 / 2, "it is about half; a row is one repeat, half a round of all cords in kongoh gumi"),
    (2.0, "it is about twice; if you counted rounds of all cords, each is two rows in kongoh gumi"),
    (10.0, "one nought too many, or a wrong unit"),
    (25.4, "it looks like millimetres given as inches"),
)
ACROSS_SLIPS = (
    (1 / 25.4, "it looks like inches given as millimetres"),
    (1 / 10, "it looks like centimetres given as millimetres"),
    (1 / 2, "it is about half; measure right across, not to the middle"),
    (3.14, "it looks like the way round; measure straight across"),
    (10.0, "one nought too many, or a wrong unit"),
    (25.4, "it looks like millimetres given as inches"),
)
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
        extra: Fields of the file this program does not know, kept.

    Raises:
        DesignError: A number that no sample can have.
    """

    rows: int
    length_mm: float | None = None
    diameter_mm: float | None = None
    turn_rows: float | None = None
    cord_used_mm: float | None = None
    extra: Extra = ()

    def __post_init__(self) -> None:
        """Refuse impossible numbers."""
        if not 1 <= self.rows <= MOST_ROWS:
            raise DesignError(f"Swatch: {self.rows} rows were not braided; give the rows counted, 1 to {MOST_ROWS}.")
        self._check("length_mm", 0.0, MOST_MM)
        self._check("diameter_mm", 0.0, MOST_ACROSS_MM)
        self._check("cord_used_mm", 0.0, MOST_MM)
        self._check("turn_rows", QUICKEST_TURN_ROWS, MOST_ROWS)
        if self.length_mm is not None and self.cord_used_mm is not None and self.cord_used_mm < self.length_mm:
            raise DesignError(
                f"Swatch: {self.cord_used_mm:g} mm of cord cannot make {self.length_mm:g} mm of braid; "
                f"cord_used_mm is the length of one cord that went into it, so correct one of the two."
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


def measured_drift(swatch: Swatch | None, drift_deg: float) -> float:
    """The drift a swatch tells, in the direction of the drift expected; that one when the turn was not measured."""
    if swatch is None or swatch.turn_rows is None:
        return drift_deg
    return (-360.0 if drift_deg < 0.0 else 360.0) / swatch.turn_rows


def corrected(prediction: Prediction, swatch: Swatch, *, plain: bool = False) -> Prediction:
    """The prediction with what was measured in its place; what was not measured stays predicted.

    Args:
        prediction: What was expected.
        swatch: What was measured.
        plain: Whether this is a braid without beads, whose rows and leads are the same braid.
    """
    rise = prediction.rise_mm if swatch.rise_mm is None else swatch.rise_mm
    take_up = _take_up(prediction, swatch, rise)
    told = replace(
        prediction,
        rise_mm=rise,
        diameter_mm=prediction.diameter_mm if swatch.diameter_mm is None else swatch.diameter_mm,
        drift_deg=measured_drift(swatch, prediction.drift_deg),
        take_up=take_up,
        notes=(*prediction.notes, *_what_it_rests_on(prediction, swatch)),
    )
    if plain:
        told = replace(told, bare_rise_mm=rise, bare_take_up=take_up)
    if rise is None:
        return replace(told, basis="not predicted yet")
    sized = swatch.length_mm is not None or swatch.diameter_mm is not None
    return replace(told, basis="corrected by a swatch") if sized else told


def _take_up(prediction: Prediction, swatch: Swatch, rise: float | None) -> float | None:
    """From the cord used; on the rise predicted when the length was not measured."""
    if swatch.cord_used_mm is None or rise is None:
        return prediction.take_up
    return max(1.0, swatch.cord_used_mm / (rise * swatch.rows))


def _what_it_rests_on(prediction: Prediction, swatch: Swatch) -> tuple[str, ...]:
    fields = {
        "length": (swatch.length_mm, prediction.rise_mm),
        "diameter": (swatch.diameter_mm, prediction.diameter_mm),
        "twist": (swatch.turn_rows, prediction.drift_deg),
        "cord used": (swatch.cord_used_mm, prediction.take_up),
    }
    measured = [name for name, (found, _) in fields.items() if found is not None]
    still = [name for name, (found, expected) in fields.items() if found is None and expected is not None]
    unknown = [name for name, (found, expected) in fields.items() if found is None and expected is None]
    notes = []
    if measured:
        tail = f"; still predicted: {', '.join(still)}" if still else ""
        notes.append(f"Measured on the swatch of {swatch.rows} rows: {', '.join(measured)}{tail}.")
    if unknown:
        notes.append(f"Neither measured nor predicted: {', '.join(unknown)}; measure it on the swatch.")
    return tuple(notes)


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


def _slip(
    what: str, measured: float | None, expected: float | None, slips: tuple[tuple[float, str], ...]
) -> str | None:
    if measured is None or expected is None:
        return None
    ratio = measured / expected
    if USUAL[0] <= ratio <= USUAL[1]:
        return None
    known = (words for slip, words in slips if slip / BAND <= ratio <= slip * BAND)
    why = next(known, "measure again, or check beads and cord of the design")
    return f"Swatch: the {what} is {measured:.3g} mm where about {expected:.3g} mm is expected: {why}."


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
    if swatch.cord_used_mm is None or rise is None:
        return None
    take_up = swatch.cord_used_mm / (rise * swatch.rows)
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
