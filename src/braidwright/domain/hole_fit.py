"""hole_fit: whether a cord suits the hole of a bead."""

from dataclasses import dataclass
from typing import Literal

from braidwright.domain.bead import Bead
from braidwright.domain.cord import Cord

Verdict = Literal["suits", "thin", "thick", "will not pass"]

# The rule: the cord fills half to two thirds of the hole, best for cover and roundness. Source: [CORD]
# topcenter.typepad.com/blog/2014/09/matching-cord-and-beads.html. Read as diameter, not as area.
LEAST_SHARE = 1 / 2
MOST_SHARE = 2 / 3
# The working diameter of a soft cord is not known better than this: Tex 210 nylon is 0.48 mm if solid and 0.56 mm
# at 75 % packing, against the 0.50 reckoned with, so a share is not told off for an eighth less or a twentieth more.
SLACK_BELOW = 7 / 8
SLACK_ABOVE = 1.05
# From memory: a doubled, waxed end can be coaxed through a hole as wide as the cord, but beads will not slide on it.
TOO_THICK = 0.95

CURES: dict[Verdict, str] = {
    "suits": "half to two thirds suits it",
    "thin": "thin for half to two thirds, so beads may stand out and the braid go limp: take a heavier cord, "
    "double it, or braid round a core",
    "thick": "thick for half to two thirds, so beads will be hard to thread and slide: take a finer cord, "
    "or beads with a wider hole",
    "will not pass": "too thick to thread: take a finer cord, or beads with a wider hole",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleFit:
    """How a cord fits the hole of a bead.

    Attributes:
        share: Diameter of the cord over diameter of the hole.
        verdict: "suits", "thin", "thick" or "will not pass".
        sentence: The same for the maker.
    """

    share: float
    verdict: Verdict
    sentence: str

    @property
    def suits(self) -> bool:
        """Whether there is nothing to mend."""
        return self.verdict == "suits"


def hole_fit(bead: Bead, cord: Cord) -> HoleFit:
    """How a cord fits the hole of a bead, by the rule of half to two thirds of the hole's diameter."""
    share = cord.diameter_mm / bead.hole_mm
    verdict = _verdict(share)
    sentence = (
        f"{cord.name} ({cord.diameter_mm:g} mm) fills {share:.0%} of the diameter of the hole of {bead.name} "
        f"({bead.hole_mm:g} mm); {CURES[verdict]}."
    )
    return HoleFit(share=share, verdict=verdict, sentence=sentence)


def _verdict(share: float) -> Verdict:
    if share >= TOO_THICK:
        return "will not pass"
    if share > MOST_SHARE * SLACK_ABOVE:
        return "thick"
    return "thin" if share < LEAST_SHARE * SLACK_BELOW else "suits"
