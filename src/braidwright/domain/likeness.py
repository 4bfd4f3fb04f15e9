"""likeness: which colours of a design are too alike to tell apart, for the usual sight and for others."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import combinations

from braidwright.domain.colour import SIGHTS, TOO_ALIKE, Sight, difference
from braidwright.domain.tray import TrayBead

MOST_COMPARED = 100  # every two are compared; more kinds than this are no design
# What another finish adds to the difference of two colours: matte beside shiny is seen, but not by every light and not
# by itself. Common practice, no source.
FINISH_ADDS = 4.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Alike:
    """Two colours that are hard to tell apart.

    Attributes:
        one: The first: a tray key, or whatever the caller calls it.
        other: The second.
        apart: How far apart they are for the usual sight (CIEDE2000, with what their finishes add).
        sights: For which sights they are too alike while the usual one parts them; () when it does not either.
    """

    one: str
    other: str
    apart: float
    sights: tuple[Sight, ...] = ()

    def sentence(self, names: str) -> str:
        """What to tell the maker, who knows the two by `names`, such as "Cords: sand and straw"."""
        if not self.sights:
            return (
                f"{names} are {self.apart:.1f} apart in colour (CIEDE2000, to which another finish adds "
                f"{FINISH_ADDS:g}), and under {TOO_ALIKE:g} beads are hard to tell apart while stringing; choose "
                f"colours farther apart."
            )
        return (
            f"{names} look alike to makers with {' or '.join(sight.name for sight in self.sights)}; "
            f"choose one clearly lighter than the other, or keep their symbols in the pattern."
        )


def alike_beads(beads: Iterable[TrayBead]) -> tuple[Alike, ...]:
    """The pairs of tray beads that are too alike, by key; beads of another size or shape tell themselves apart."""
    found = (
        alike((one.key, one.colour), (other.key, other.colour), added=_finish_adds(one, other))
        for one, other in combinations(tuple(beads)[:MOST_COMPARED], 2)
        if one.bead == other.bead
    )
    return tuple(pair for pair in found if pair is not None)


def alike(one: tuple[str, str], other: tuple[str, str], *, added: float = 0.0) -> Alike | None:
    """Whether two colours are too alike, for anyone or for some.

    Args:
        one: What it is called, and its colour as "#rrggbb".
        other: The same of the second.
        added: What else sets them apart, in the units of CIEDE2000.

    Raises:
        DesignError: A colour that cannot be read.
    """
    apart = difference(one[1], other[1]) + added
    if apart < TOO_ALIKE:
        return Alike(one=one[0], other=other[0], apart=apart)
    sights = tuple(sight for sight in SIGHTS if difference(one[1], other[1], sight) + added < TOO_ALIKE)
    return Alike(one=one[0], other=other[0], apart=apart, sights=sights) if sights else None


def _finish_adds(one: TrayBead, other: TrayBead) -> float:
    return 0.0 if (one.finish or "opaque") == (other.finish or "opaque") else FINISH_ADDS
