"""state: the arrays a solve works on, with their shapes.

A cell is the smallest part of a braid from which symmetry makes the rest. It holds strands: runs of points that follow
each other along a cord. Between two points lies a straight piece of cord, or the rod inside a bead. The last point of a
strand is no point of its own: it is an image of a point of the cell, where the cord goes on. A loop is a strand whose
last point is its first.

The unknowns are one flat array: x, y, z of every point, then the rise divided by `HEAVE`, so that one unit of mass
serves for everything.

Lengths are in mm, forces in units of the pull of one cord, energies in mm times that pull.
"""

from math import sqrt
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

HEAVE = 1.0 / sqrt(40.0)  # the rise is as slow as 40 points (physics.md, section 3)

# kinds of neighbours, first column of Neighbours.pairs
PIECES, BEAD_AND_PIECE, BEADS = 0, 1, 2


class Images(NamedTuple):
    """The copies of the cell; number 0 is the cell itself.

    Attributes:
        cosine: Of the turn about the z axis, (images,).
        sine: Likewise.
        lift: Height of the copy above the cell, in rises, (images,).
        own: Weight of a body against its own copy, (images,): of an image and its inverse only one counts, and an
            image that is its own inverse counts half.
        laps: How many strands further along its cord the copy of a strand lies, (images,); NO_LAP on another cord.
    """

    cosine: Floats
    sine: Floats
    lift: Floats
    own: Floats
    laps: Ints


NO_LAP = 1 << 30


class Cell(NamedTuple):
    """Everything about a cell that a solve does not change.

    Attributes:
        joins: Rows (point, point it is an image of, image), (joins, 3).
        strands: Rows (first point, last point), (strands, 2).
        pieces: First point of every piece of cord outside beads; it ends at the next point, (pieces,).
        strand: Strand of every piece, (pieces,).
        spans: Rows (first point, last point) of cord that slides freely, (spans, 2).
        rods: First point of the rod of every bead, (beads,).
        rod_strand: Strand of every bead, (beads,).
        beads: Rows (radius of the flat disc, rounding, length of the rod), (beads, 3) mm.
        images: The copies.
        cord_mm: Diameter of the cord.
        squeezed_mm: What half a cord measures between a bead and another body.
        stiffness: Force per mm of overlap.
        weight: Pull that stretches the cell, in forces; it draws on the rise.
    """

    joins: Ints
    strands: Ints
    pieces: Ints
    strand: Ints
    spans: Ints
    rods: Ints
    rod_strand: Ints
    beads: Floats
    images: Images
    cord_mm: float
    squeezed_mm: float
    stiffness: float
    weight: float


class Neighbours(NamedTuple):
    """Which bodies may come to touch, and room to work in.

    Attributes:
        pairs: Rows (kind, body of the cell, body of a copy, place of the copy in `active`), (pairs, 4).
        active: The images that take part; the first is 0, (active,).
        copies: The points of every active image, (active, points, 3); filled at every evaluation.
        pulls: Gradients on those points, likewise.
        then: The unknowns when the list was made, (unknowns,).
        most_lift: Largest lift, in rises, of a copy that can come near.
    """

    pairs: Ints
    active: Ints
    copies: Floats
    pulls: Floats
    then: Floats
    most_lift: float
