"""comfort: which beads that stand out would lie against the skin.

Where the shape of the rope is known, that is told by how far each bead reaches and where it lies; else by the chart.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from braidwright.domain.bead import Bead
from braidwright.domain.design import Anchor, Design
from braidwright.domain.geometry import Geometry, tips_of
from braidwright.domain.motif import from_front
from braidwright.domain.tray import BARE

BoolArray = NDArray[np.bool_]

# A bead this many times farther from its cord than the commonest one is felt; common practice, no source.
STANDS_OUT_SHARE = 1.25
# A bead that reaches so much beyond the usual one is felt; common practice, no source.
FELT_MM = 0.5
SAME_MM = 0.05  # beads whose size differs by less are of one size


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


def pressing(
    design: Design, bead_of: Callable[[str], Bead], drift_deg: float, geometry: Geometry | None = None
) -> tuple[Pressing, ...]:
    """The stitches in the comfort arc whose beads stand out, in working order.

    Args:
        design: The design; without a front it has no back, and nothing is found.
        bead_of: Gives the bead of a single tray key.
        drift_deg: Turn of a column per row, degrees clockwise.
        geometry: Where its beads lie, when that is known.
    """
    if design.front is None:
        return ()
    if geometry is not None:
        return _pressing_in_space(design, bead_of, geometry)
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


def _pressing_in_space(design: Design, bead_of: Callable[[str], Bead], geometry: Geometry) -> tuple[Pressing, ...]:
    """Every bead that reaches out and whose farthest point lies in the arc; of a stitch, the one nearest the back."""
    beads = tuple(map(bead_of, geometry.keys))
    tips = tips_of(beads, geometry.centres, geometry.outward)
    angles = np.degrees(np.arctan2(tips[:, 0], tips[:, 1]))
    from_back = 180.0 - np.abs((angles - design.front_line.deg + 180.0) % 360.0 - 180.0)
    found: dict[tuple[int, int], float] = {}
    for index in np.flatnonzero(_felt(design, beads, geometry) & (from_back <= design.front_line.arc_deg / 2.0)):
        row, stitch, _ = geometry.stitches[index].tolist()
        found[row, stitch] = min(float(from_back[index]), found.get((row, stitch), 180.0))
    return tuple(
        Pressing(at=Anchor(row=row + 1, stitch=stitch + 1), key=design.rows[row][stitch], from_back_deg=nearest)
        for (row, stitch), nearest in found.items()
    )


def _felt(design: Design, beads: tuple[Bead, ...], geometry: Geometry) -> BoolArray:
    """Which beads reach beyond the usual: those of the commonest size never do, however uneven the rope they make.

    An estimated shape lays stacks down flat, so there they are always felt.
    """
    drops = [len(design.tray.beads_of(design.rows[row][stitch])) for row, stitch, _ in geometry.stitches.tolist()]
    is_stack = np.array(drops, dtype=np.int64) > 1
    is_plain = ~is_stack & np.array([not bead.stands_out for bead in beads], dtype=np.bool_)
    sizes = np.array([bead.reach_mm for bead in beads])
    if is_plain.any():
        usual = float(np.median(geometry.reaches[is_plain]))
        is_plain &= sizes <= np.median(sizes[is_plain]) + SAME_MM
    else:
        usual = geometry.hole_radius + min((bead.diameter_mm / 2.0 for bead in beads), default=0.0)
    reaching: BoolArray = ~is_plain & (geometry.reaches > usual + FELT_MM)
    return reaching if geometry.basis == "solved" else reaching | is_stack
