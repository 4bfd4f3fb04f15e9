"""twist: how far the columns turn, as the maker asks for it. Mechanics leaves it soft, so it is an input.

Source of every figure: physics.md, section 5 (a disk held still gives one slot a repeat; work that hangs free 16 to 20
degrees; photographs, from memory, 16 to 24; the energy falls slowly up to about 50 degrees).
"""

from dataclasses import dataclass, replace
from typing import Literal

from braidwright.domain.braid import Braid
from braidwright.domain.errors import DesignError
from braidwright.domain.kongoh import kongoh_of
from braidwright.domain.tray import Extra

Way = Literal["held", "hanging"]

WAYS: tuple[Way, ...] = ("held", "hanging")
HANGING_DEG = 18.0  # a smallest repeat: the middle of 16 to 20
LEAST_HANGING_DEG, SOFTEST_DEG = 16.0, 24.0  # a smallest repeat: photographs, from memory
FAVOURED_DEG = 50.0  # a smallest repeat: mechanics favours no more
MOST_DEG = 90.0  # a smallest repeat: a rope cannot be wrung farther; our own


@dataclass(frozen=True, slots=True, kw_only=True)
class Twist:
    """The twist a design asks for: a way of working, or a figure of its own.

    Attributes:
        way: "held" for a disk held still, "hanging" for work that hangs free and may turn; None with a figure.
        deg: Turn of a column a row, degrees clockwise seen from above; None with a way.
        extra: Fields of the file this program does not know, kept.

    Raises:
        DesignError: Both, or neither.
    """

    way: Way | None = None
    deg: float | None = None
    extra: Extra = ()

    def __post_init__(self) -> None:
        """Refuse a twist that says nothing, or two things."""
        if (self.way is None) == (self.deg is None):
            raise DesignError("Twist: give a way of working (held or hanging) or degrees a row, one of the two.")


HELD, HANGING = Twist(way="held"), Twist(way="hanging")


def check_twist(twist: Twist, braid: Braid) -> None:
    """Refuse a figure that no rope of this braid can have.

    Raises:
        DesignError: It is beyond 90 degrees a smallest repeat, either way.
    """
    most = MOST_DEG * repeats_of(braid)
    if twist.deg is not None and not -most <= twist.deg <= most:
        raise DesignError(
            f"Twist: {twist.deg:g} degrees a row is more than any rope turns; give {-most:g} to {most:g} degrees, "
            f"clockwise seen from above, or one of {', '.join(WAYS)}."
        )


def repeats_of(braid: Braid) -> int:
    """How many smallest repeats a row holds, for kongoh gumi written with several; 1 for any other braid."""
    kongoh = kongoh_of(braid)
    return 1 if kongoh is None else kongoh.repeats_per_row


def disk_drift(braid: Braid) -> float:
    """Turn of a column per row when the disk is held still: the shift of the braid, in degrees clockwise."""
    return braid.shift * 360.0 / braid.slots


def way_round(braid: Braid) -> float:
    """Which way a rope of this braid turns: 1 clockwise, -1 anticlockwise, 0 where nothing tells.

    That is the way of the shift. Of kongoh gumi it is the way the hand lays its cords: the same, unless they are slid
    back along the rim, which makes no rope turn.
    """
    kongoh = kongoh_of(braid)
    if kongoh is not None:
        return 1.0 if kongoh.hand == "S" else -1.0
    return float((braid.shift > 0) - (braid.shift < 0))


def drift_of(twist: Twist | None, braid: Braid) -> float:
    """Turn of a column per row, degrees clockwise, when a braid is worked as the twist says.

    Args:
        twist: The twist asked for, or None for a disk held still.
        braid: The braid.
    """
    if twist is None or twist.way == "held":
        return disk_drift(braid)
    if twist.deg is not None:
        return float(twist.deg)
    return way_round(braid) * HANGING_DEG * repeats_of(braid)


def drift_range(twist: Twist | None, braid: Braid) -> tuple[float, float]:
    """Least and most that a column of kongoh gumi may turn per row, in degrees either way, when worked so."""
    repeats = repeats_of(braid)
    softest, held = SOFTEST_DEG * repeats, abs(disk_drift(braid))
    if twist is None or twist.way == "held":
        return min(held, softest), max(held, softest)
    if twist.deg is not None:
        asked = abs(twist.deg)
        return min(held or asked, asked), max(softest, asked)
    return LEAST_HANGING_DEG * repeats, softest


def mirrored_twist(twist: Twist | None) -> Twist | None:
    """The twist as the other hand works it: a way stays, a figure turns the other way."""
    return twist if twist is None or twist.deg is None else replace(twist, deg=0 - twist.deg)
