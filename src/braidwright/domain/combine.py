"""Combine: several readings of one measure become one value with its error, and one wrong reading is left out.

A reading carries its own standard error: the value lies within it about two times in three. The mean weighs each
reading by the inverse of its error squared, and its error follows from the weights. Where the readings differ by more
than their errors explain, the error grows by the Birge ratio.

Source: R. T. Birge, The calculation of errors by the method of least squares, Physical Review 40 (1932) 207, from
memory.
The rule for the reading left out (far from the median, in units of the median distance from it) is common practice,
no source.
"""

from dataclasses import dataclass
from math import fsum, sqrt
from statistics import median

FAR = 4.0  # errors: two readings farther apart disagree, one so far from the median is left out
MAD_TO_DEVIATION = 1.4826  # of a normal distribution: standard deviation over median distance from the median
MOST_TO_JUDGE = 2  # of two readings nobody can say which is wrong
UNEASY = 2.0  # a Birge ratio from which the readings are said to disagree; our own


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One reading of one measure.

    Attributes:
        label: Whose it is, as a maker would call it.
        value: What was read.
        error: Standard error of the reading, more than 0, in the unit of the value.
    """

    label: str
    value: float
    error: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Combined:
    """What several readings tell together.

    Attributes:
        value: Weighted mean of the readings kept.
        error: Standard error of that mean, the spread of the readings included.
        kept: The readings it rests on.
        left_out: Readings too far from the others.
        ratio: Birge ratio: how many times their errors the readings kept differ; 1 or less when they agree.
        apart: The two that disagree, when there are only two and they do.
    """

    value: float
    error: float
    kept: tuple[Reading, ...]
    left_out: tuple[Reading, ...] = ()
    ratio: float = 0.0
    apart: tuple[Reading, ...] = ()

    @property
    def uneasy(self) -> bool:
        """Whether the readings differ by much more than their errors explain."""
        return self.ratio > UNEASY


def combine(readings: tuple[Reading, ...]) -> Combined | None:
    """The readings as one; None when there are none. The order of the readings does not matter.

    Args:
        readings: Readings of one measure in one unit.

    Source: Birge 1932, see above.
    """
    if not readings:
        return None
    kept, left_out = _sorted_out(readings)
    centre = median(reading.value for reading in kept)
    least = min(reading.error for reading in kept)
    weights = [(least / reading.error) ** 2 for reading in kept]  # against the surest, so that none runs out of range
    total = fsum(weights)
    value = centre + fsum(w * (reading.value - centre) for w, reading in zip(weights, kept, strict=True)) / total
    ratio = 0.0
    if len(kept) > 1:
        misfit = fsum(w * (reading.value - value) ** 2 for w, reading in zip(weights, kept, strict=True))
        ratio = sqrt(misfit / (len(kept) - 1)) / least
    return Combined(
        value=value,
        error=max(1.0, ratio) * least / sqrt(total),
        kept=kept,
        left_out=left_out,
        ratio=ratio,
        apart=kept if _apart(kept) else (),
    )


def _sorted_out(readings: tuple[Reading, ...]) -> tuple[tuple[Reading, ...], tuple[Reading, ...]]:
    """Those to keep, always at least half of them, and those too far from the median of all."""
    if len(readings) <= MOST_TO_JUDGE:
        return readings, ()
    middle = median(reading.value for reading in readings)
    spread = MAD_TO_DEVIATION * median(abs(reading.value - middle) for reading in readings)
    far = [abs(reading.value - middle) > FAR * sqrt(reading.error**2 + spread**2) for reading in readings]
    kept = tuple(reading for reading, out in zip(readings, far, strict=True) if not out)
    return kept, tuple(reading for reading, out in zip(readings, far, strict=True) if out)


def _apart(kept: tuple[Reading, ...]) -> bool:
    if len(kept) != MOST_TO_JUDGE:
        return False
    one, other = kept
    return abs(one.value - other.value) > FAR * sqrt(one.error**2 + other.error**2)
