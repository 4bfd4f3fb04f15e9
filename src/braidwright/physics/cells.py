"""cells: cells as the forces need them, from curves and beads."""

from collections.abc import Sequence

import numpy as np

from braidwright.physics.closed_form import FLATTENING
from braidwright.physics.images import unknowns_of
from braidwright.physics.lattice import Lattice
from braidwright.physics.solids import BeadSolid
from braidwright.physics.state import HEAVE, NO_TIP, Cell, Floats, Images

STIFFNESS_BARE = 40.0  # over the diameter of the cord (physics.md, section 2)
STIFFNESS_BEADED = 120.0  # over the diameter of the bead: 40 per mm for beads of 3 mm (physics.md, section 2)
WEIGHT_SHARE = 0.06  # W: what still pulls on a finished braid, its friction having locked the making (physics.md, 3)
STEP_BEADED = 0.02  # of a bead: the longest step, against slipping through (physics.md, section 3)


NONE = np.zeros(0, dtype=np.int64)
ALONE = Images(
    cosine=np.ones(1),
    sine=np.zeros(1),
    lift=np.zeros(1),
    own=np.zeros(1),
    laps=np.zeros(1, dtype=np.int64),
    inverse=np.zeros(1, dtype=np.int64),
)


def loops(curves: Sequence[Floats], cord_mm: float) -> tuple[Cell, Floats]:
    """Closed loops of bare cord, and the unknowns of their first shape.

    Args:
        curves: Each (points, 3) mm, the first point not repeated.
        cord_mm: Diameter of the cord.
    """
    ends = np.cumsum([len(curve) + 1 for curve in curves]) - 1
    firsts = ends - [len(curve) for curve in curves]
    strands = np.stack([firsts, ends], axis=1)
    cell = Cell(
        joins=np.stack([ends, firsts, np.zeros_like(ends)], axis=1),
        follows=np.arange(len(curves)),
        strands=strands,
        pieces=np.concatenate([np.arange(first, end) for first, end in strands]),
        strand=np.repeat(np.arange(len(curves)), [len(curve) for curve in curves]),
        spans=strands.copy(),
        rods=NONE,
        rod_strand=NONE,
        rod_mm=np.zeros(0),
        tips=NONE,
        arm_mm=np.zeros(0),
        bodies=NONE,
        solids=np.zeros((0, 4)),
        images=ALONE,
        cord_mm=cord_mm,
        squeezed_mm=0.5 * cord_mm,
        stiffness=STIFFNESS_BARE / cord_mm,
        weight=0.0,
        core_mm=0.0,
        tall_mm=0.0,
        heave=HEAVE,
        groups=NONE,
        group_counts=NONE,
        sideways=np.zeros((0, 2)),
        hold=0.0,
    )
    points = np.concatenate([np.concatenate([curve, curve[:1]]) for curve in curves])
    return cell, unknowns_of(points, 0.0, HEAVE)


def unit(
    lattice: Lattice, points: int, bead: BeadSolid | None, *, cord_mm: float, weight: float, core_mm: float = 0.0
) -> Cell:
    """One strand, with a bead at its beginning or without, from which a lattice makes a round braid.

    Args:
        lattice: The symmetry.
        points: Of the strand, its last one, in the next copy, included.
        bead: The bead on the first two points, or None for bare cord.
        cord_mm: Diameter of the cord.
        weight: Pull on the rise, in pulls of one cord; negative presses.
        core_mm: Diameter of a core cord along the axis, or 0.
    """
    first = 0 if bead is None else 1
    strand = np.array([[0, points - 1]])
    rods = np.zeros(first, dtype=np.int64)
    return Cell(
        joins=np.array([[points - 1, 0, lattice.next_image()]]),
        follows=np.zeros(1, dtype=np.int64),
        strands=strand,
        pieces=np.arange(first, points - 1),
        strand=np.zeros(points - 1 - first, dtype=np.int64),
        spans=np.array([[first, points - 1]]),
        rods=rods,
        rod_strand=rods.copy(),
        rod_mm=np.zeros(0) if bead is None else np.array([bead.rod]),
        tips=np.full(first, NO_TIP),
        arm_mm=np.zeros(first),
        bodies=rods.copy(),
        solids=np.zeros((0, 4)) if bead is None else np.array([[bead.disc_mm, bead.rounding_mm, 0.0, 0.0]]),
        images=lattice.images(),
        cord_mm=cord_mm,
        squeezed_mm=0.5 * cord_mm * (1.0 if bead is None else FLATTENING),
        stiffness=STIFFNESS_BARE / cord_mm if bead is None else STIFFNESS_BEADED / bead.diameter_mm,
        weight=weight,
        core_mm=core_mm,
        tall_mm=0.0,
        heave=HEAVE,
        groups=NONE,
        group_counts=NONE,
        sideways=np.zeros((0, 2)),
        hold=0.0,
    )
