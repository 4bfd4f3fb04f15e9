"""state: the arrays a solve works on, with their shapes.

A cell is the smallest part of a braid from which symmetry makes the rest. It holds strands: runs of points that follow
each other along a cord. Between two points lies a straight piece of cord, or the rod inside a bead. The last point of a
strand is no point of its own: it is an image of a point of the cell, where the cord goes on. A loop is a strand whose
last point is its first.

A bead is a rod between two neighbouring points and one to three bodies that ride on it. A bead that reaches out to one
side has a third point, its tip, held at a fixed distance from both ends of its rod: it is free to turn about its cord.

The unknowns are one flat array: x, y, z of every point, then the rise divided by the heave of the cell, so that one
unit of mass serves for everything. In a cell with a height of its own (`tall_mm`) the points are those of a cell so
tall, and stretch with it as the rise changes; in one without they stay where they are, and only the copies move.

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
PIECES, BODY_AND_PIECE, BODIES = 0, 1, 2


class Images(NamedTuple):
    """The copies of the cell; number 0 is the cell itself.

    Attributes:
        cosine: Of the turn about the z axis, (images,).
        sine: Likewise.
        lift: Height of the copy above the cell, in rises, (images,).
        own: Weight of a body against its own copy, (images,): of an image and its inverse only one counts, and an
            image that is its own inverse counts half.
        laps: How many strands further along its cord the copy of a strand lies, (images,); NO_LAP on another cord.
        inverse: The image that undoes each, (images,).
    """

    cosine: Floats
    sine: Floats
    lift: Floats
    own: Floats
    laps: Ints
    inverse: Ints


NO_LAP = 1 << 30


class Cell(NamedTuple):
    """Everything about a cell that a solve does not change.

    Attributes:
        joins: Rows (point, point it is an image of, image), one for every strand in order, (strands, 3).
        follows: The strand in which the cord of every strand goes on, in the image of its join, (strands,).
        strands: Rows (first point, last point), (strands, 2).
        pieces: First point of every piece of cord outside beads, and of the rods of beads of several bodies, between
            which a cord could slip; it ends at the next point, (pieces,).
        strand: Strand of every piece, (pieces,).
        spans: Rows (first point, last point) of cord that slides freely, (spans, 2).
        rods: First point of the rod of every bead, (beads,).
        rod_strand: Strand of every bead, (beads,).
        rod_mm: Length of every rod, (beads,).
        tips: Tip of every bead, or NO_TIP, (beads,).
        arm_mm: From the middle of the rod to the tip of every bead, (beads,).
        bodies: Bead of every body, (bodies,).
        solids: Rows (radius of the flat disc, rounding, how far along the rod from its middle as a share of the rod,
            how far toward the tip as a share of the arm), (bodies, 4).
        images: The copies.
        cord_mm: Diameter of the cord.
        squeezed_mm: What half a cord measures between a bead and another body.
        stiffness: Force per mm of overlap.
        weight: Pull that stretches the cell, in forces; it draws on the rise.
        core_mm: Diameter of the core cord that lies along the axis, or 0.
        tall_mm: The rise at which the points are as they stand among the unknowns, or 0: see above.
        heave: The rise in mm is the last unknown times this.
        groups: Row of every point of a strand that is held (see `forces.hold`), (held points,); the first so many.
        group_counts: How many points each row has.
        sideways: Which way each of them would go if its row turned, unit, (held points, 2).
        hold: Force per mm by which the mean of a row is held, or 0.
    """

    joins: Ints
    follows: Ints
    strands: Ints
    pieces: Ints
    strand: Ints
    spans: Ints
    rods: Ints
    rod_strand: Ints
    rod_mm: Floats
    tips: Ints
    arm_mm: Floats
    bodies: Ints
    solids: Floats
    images: Images
    cord_mm: float
    squeezed_mm: float
    stiffness: float
    weight: float
    core_mm: float
    tall_mm: float
    heave: float
    groups: Ints
    group_counts: Ints
    sideways: Floats
    hold: float


NO_TIP = -1


class Neighbours(NamedTuple):
    """Which bodies may come to touch, and room to work in.

    Attributes:
        pairs: Rows (kind, one of the cell, one of a copy, place of the copy in `active`), (pairs, 4); they are pieces
            or bodies.
        active: The images that take part; the first is 0, (active,).
        copies: The points of every active image as they lie in space, (active, points, 3); filled at every evaluation.
        pulls: Gradients on those points, likewise.
        then: The unknowns when the list was made, (unknowns,).
        most_lift: Largest lift, in rises, of a copy that can come near.
        margin: How much farther than touching counts as near, mm.
        uses: How often the list was asked whether it is still good, (1,).
    """

    pairs: Ints
    active: Ints
    copies: Floats
    pulls: Floats
    then: Floats
    most_lift: float
    margin: float
    uses: Ints
