"""comfort: which beads that stand out would lie against the skin."""

from collections.abc import Callable
from dataclasses import dataclass

from braidwright.domain.bead import Bead
from braidwright.domain.design import Anchor, Design
from braidwright.domain.motif import from_front
from braidwright.domain.tray import BARE

STANDS_OUT_SHARE = (
    1.25  # a bead this much farther from its cord than the commonest one is felt; common practice, no source
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pressing:
    """One stitch whose bead would lie against the skin.

    Attributes:
        at: Row and stitch, from 1.
        key: Its key.
        from_back_deg: How far from the middle of the back, degrees, 0 to half the comfort arc.
    """

    at: Anchor
    key: str
    from_back_deg: float


def pressing(design: Design, bead_of: Callable[[str], Bead], drift_deg: float) -> tuple[Pressing, ...]:
    """The stitches in the comfort arc whose beads stand out, in working order.

    Args:
        design: The design; without a front it has no back, and nothing is found.
        bead_of: Gives the bead of a single tray key.
        drift_deg: Turn of a column per row, degrees clockwise.
    """
    if design.front is None:
        return ()
    felt = standing_out(design, bead_of)
    half = design.front.arc_deg / 2.0
    found = []
    for row, text in enumerate(design.rows):
        if felt.isdisjoint(text):
            continue
        for stitch, key in enumerate(text):
            if key in felt:
                from_back = 180.0 - abs(from_front(design, drift_deg, row, stitch))
                if from_back <= half:
                    found.append(Pressing(at=Anchor(row=row + 1, stitch=stitch + 1), key=key, from_back_deg=from_back))
    return tuple(found)


def standing_out(design: Design, bead_of: Callable[[str], Bead]) -> frozenset[str]:
    """The keys that are felt: off-centre beads, stacks, and beads clearly bigger than the commonest one."""
    counts = {key: count for key, count in design.drop_counts().items() if key != BARE}
    singles = [key for key in counts if len(design.tray.beads_of(key)) == 1]
    common = bead_of(singles[0]).reach_mm if singles else 0.0
    felt = {key for key in counts if len(design.tray.beads_of(key)) > 1}
    for key in singles:
        bead = bead_of(key)
        if bead.stands_out or bead.reach_mm > STANDS_OUT_SHARE * common:
            felt.add(key)
    return frozenset(felt)
