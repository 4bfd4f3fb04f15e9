"""cells: cells as the forces need them, from curves and beads."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from braidwright.physics.images import unknowns_of
from braidwright.physics.lattice import Lattice
from braidwright.physics.state import HEAVE, Cell, Floats, Images

STIFFNESS_BARE = 40.0  # over the diameter of the cord (physics.md, section 2)
STIFFNESS_BEADED = 120.0  # over the diameter of the bead: 40 per mm for beads of 3 mm (physics.md, section 2)
FLATTENING = 0.3  # kap: share of its width that a nylon cord keeps under glass; the one material constant


@dataclass(frozen=True, slots=True, kw_only=True)
class BeadSolid:
    """A bead as the solver sees it: a flat disc with a rounding round it, on a rod.

    Attributes:
        diameter_mm: Outside diameter.
        length_mm: Length along the hole.
        rod_mm: Length of cord inside, or None for the length of the bead.
    """

    diameter_mm: float
    length_mm: float
    rod_mm: float | None = None

    @property
    def rounding_mm(self) -> float:
        """Radius of the rounding. A bead longer than wide is taken for a sphere."""
        return min(self.diameter_mm, self.length_mm) / 2.0

    @property
    def disc_mm(self) -> float:
        """Radius of the flat disc."""
        return self.diameter_mm / 2.0 - self.rounding_mm

    @property
    def rod(self) -> float:
        """Length of the rod, mm."""
        return self.length_mm if self.rod_mm is None else self.rod_mm


ALONE = Images(cosine=np.ones(1), sine=np.zeros(1), lift=np.zeros(1), own=np.zeros(1), laps=np.zeros(1, dtype=np.int64))


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
        strands=strands,
        pieces=np.concatenate([np.arange(first, end) for first, end in strands]),
        strand=np.repeat(np.arange(len(curves)), [len(curve) for curve in curves]),
        spans=strands.copy(),
        rods=np.zeros(0, dtype=np.int64),
        rod_strand=np.zeros(0, dtype=np.int64),
        beads=np.zeros((0, 3)),
        images=ALONE,
        cord_mm=cord_mm,
        squeezed_mm=0.5 * cord_mm,
        stiffness=STIFFNESS_BARE / cord_mm,
        weight=0.0,
    )
    points = np.concatenate([np.concatenate([curve, curve[:1]]) for curve in curves])
    return cell, unknowns_of(points, 0.0, HEAVE)


def unit(lattice: Lattice, points: int, bead: BeadSolid | None, *, cord_mm: float, weight: float) -> Cell:
    """One strand, with a bead at its beginning or without, from which a lattice makes a round braid.

    Args:
        lattice: The symmetry.
        points: Of the strand, its last one, in the next copy, included.
        bead: The bead on the first two points, or None for bare cord.
        cord_mm: Diameter of the cord.
        weight: Pull on the rise, in pulls of one cord; negative presses.
    """
    first = 0 if bead is None else 1
    strand = np.array([[0, points - 1]])
    rods = np.zeros(first, dtype=np.int64)
    return Cell(
        joins=np.array([[points - 1, 0, lattice.next_image()]]),
        strands=strand,
        pieces=np.arange(first, points - 1),
        strand=np.zeros(points - 1 - first, dtype=np.int64),
        spans=np.array([[first, points - 1]]),
        rods=rods,
        rod_strand=rods.copy(),
        beads=np.zeros((0, 3)) if bead is None else np.array([[bead.disc_mm, bead.rounding_mm, bead.rod]]),
        images=lattice.images(),
        cord_mm=cord_mm,
        squeezed_mm=0.5 * cord_mm * (1.0 if bead is None else FLATTENING),
        stiffness=STIFFNESS_BARE / cord_mm if bead is None else STIFFNESS_BEADED / bead.diameter_mm,
        weight=weight,
    )
