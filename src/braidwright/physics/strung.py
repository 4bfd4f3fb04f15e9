"""strung: beads strung on the cords of a laid-out rope, as a cell for the forces.

The cell is a screw: after its height everything comes again, turned. Beads begin small, so that nothing overlaps, and
are grown to their size while the cell settles (`grown`).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, cos, pi, radians, sin, sqrt

import numpy as np

from braidwright.physics.cells import STIFFNESS_BARE, STIFFNESS_BEADED
from braidwright.physics.closed_form import FLATTENING
from braidwright.physics.laid import Strand
from braidwright.physics.lines import arc_of, points_at
from braidwright.physics.solids import Solid
from braidwright.physics.state import HEAVE, NO_LAP, NO_TIP, Cell, Floats, Images, Ints

HOLD = 10.0  # pulls of one cord per mm

Drop = tuple[int, ...]  # kinds of the beads on a stitch, first strung first; () for a bare stitch


@dataclass(frozen=True, slots=True, kw_only=True)
class Make:
    """What a rope is made of, and how it stands.

    Attributes:
        kinds: The solids of its beads.
        cord_mm: Diameter of the cord.
        core_mm: Diameter of the core cord, or 0.
        weight: Counterweight, in pulls of one cord.
        tall_mm: Height of the cell.
        row_mm: About the height of a row, or 0 for one that is not to be held straight.
        turn_deg: Turn of the cell, clockwise.
        room_mm: Length of cord that a drop may take in the first shape.
        room_wide_mm: Width of a bead in the first shape.
        piece_mm: About how long a piece of cord is to be.
        slack: How many times longer the cord is than it will be once settled.
    """

    kinds: tuple[Solid, ...]
    cord_mm: float
    core_mm: float
    weight: float
    tall_mm: float
    row_mm: float
    turn_deg: float
    room_mm: float
    room_wide_mm: float
    piece_mm: float
    slack: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Strung:
    """A cell and where everything on it is.

    Attributes:
        cell: With beads of full size.
        points: The first shape, (points, 3) mm.
        kinds: Kind of every bead, (beads,).
        small: Size of every bead in the first shape, as a share of its full size, (beads,).
        stitches: Rows (row, stitch, place in the drop) of every bead, (beads, 3).
        marks: Rows (row, stitch, point in its middle) of every bare stitch, (bare stitches, 3).
    """

    cell: Cell
    points: Floats
    kinds: Ints
    small: Floats
    stitches: Ints
    marks: Ints


class _Lists:
    """What is gathered while the strands are strung."""

    def __init__(self) -> None:
        self.points: list[Floats] = []
        self.count = 0
        self.pieces: list[tuple[int, int]] = []
        self.spans: list[tuple[int, int]] = []
        self.strands: list[tuple[int, int]] = []
        self.beads: list[tuple[int, int, int]] = []  # first point of the rod, strand, kind
        self.small: list[float] = []
        self.stitches: list[tuple[int, int, int]] = []
        self.marks: list[tuple[int, int, int]] = []


def string(strands: Sequence[Strand], drops: dict[tuple[int, int], Drop], then: Sequence[int], make: Make) -> Strung:
    """The cell of a rope.

    Args:
        strands: Its cords, laid out.
        drops: The drop of every stitch (row, stitch).
        then: The strand in which the cord of each goes on in the copy above.
        make: What it is made of.
    """
    lists = _Lists()
    for number, strand in enumerate(strands):
        _string_one(lists, strand, number, drops, make)
    rods = np.array([bead[0] for bead in lists.beads], dtype=np.int64)
    kinds = np.array([bead[2] for bead in lists.beads], dtype=np.int64)
    points = np.concatenate(lists.points)
    small = np.array(lists.small)
    tips, arms, hung = _tips(points, rods, np.array([make.kinds[kind].arm_mm for kind in kinds]), small)
    ends = np.array(lists.strands)
    groups = _groups(points, make)
    is_beaded = len(rods) > 0
    wide = min((make.kinds[kind].radius_mm for kind in set(kinds.tolist())), default=0.0)
    body_bead, solids = _bodies(kinds, make.kinds)
    cell = Cell(
        joins=np.stack([ends[:, 1], ends[list(then), 0], np.ones(len(ends), dtype=np.int64)], axis=1),
        follows=np.array(then),
        strands=ends,
        pieces=np.array([piece[0] for piece in lists.pieces]),
        strand=np.array([piece[1] for piece in lists.pieces]),
        spans=np.array(lists.spans),
        rods=rods,
        rod_strand=np.array([bead[1] for bead in lists.beads], dtype=np.int64),
        rod_mm=np.array([make.kinds[kind].rod_mm for kind in kinds]),
        tips=tips,
        arm_mm=arms,
        bodies=body_bead,
        solids=solids,
        images=_images(make, points),
        cord_mm=make.cord_mm,
        squeezed_mm=0.5 * make.cord_mm * (FLATTENING if is_beaded else 1.0),
        stiffness=STIFFNESS_BEADED / (2.0 * wide) if is_beaded else STIFFNESS_BARE / make.cord_mm,
        weight=make.weight,
        core_mm=make.core_mm,
        tall_mm=make.tall_mm,
        heave=min(HEAVE, sqrt(3.0 / len(points))),
        groups=groups,
        group_counts=np.bincount(groups),
        sideways=_sideways(points),
        hold=HOLD if make.row_mm > 0.0 else 0.0,
    )
    return Strung(
        cell=cell,
        points=np.concatenate([points, hung]),
        kinds=kinds,
        small=small,
        stitches=np.array(lists.stitches, dtype=np.int64).reshape(-1, 3),
        marks=np.array(lists.marks, dtype=np.int64).reshape(-1, 3),
    )


def grown(strung: Strung, make: Make, share: float) -> Cell:
    """The cell with beads of a size between those of the first shape (share 0) and their full size (1)."""
    if len(strung.small) == 0:
        return strung.cell
    size = strung.small + share * (1.0 - strung.small)
    cell = strung.cell
    _, solids = _bodies(strung.kinds, make.kinds)
    per_body = size[cell.bodies]
    return cell._replace(
        rod_mm=cell.rod_mm * size,
        arm_mm=cell.arm_mm * size,
        solids=np.column_stack([solids[:, 0] * per_body, solids[:, 1] * per_body, solids[:, 2:]]),
    )


def _string_one(lists: _Lists, strand: Strand, number: int, drops: dict[tuple[int, int], Drop], make: Make) -> None:
    """Cut the way of a cord into rods and spans of even pieces."""
    arc = arc_of(strand.points)
    own = [(arc[at], stitch) for at, stitch in zip(strand.middles, strand.stitches, strict=True) if drops[stitch]]
    first, reached = lists.count, 0.0
    places, at = [0.0], first
    for middle, stitch in own:
        full = [make.kinds[kind].rod_mm for kind in drops[stitch]]
        widest = max(make.kinds[kind].radius_mm for kind in drops[stitch])
        small = min(1.0, make.room_mm / sum(full), 0.5 * make.room_wide_mm / widest)
        begin = middle - 0.5 * small * sum(full)
        at = _span(lists, places, (reached, begin), number, make)
        for place, (kind, long) in enumerate(zip(drops[stitch], full, strict=True)):
            lists.beads.append((at, number, kind))
            if len(make.kinds[kind].bodies) > 1:  # between its discs a cord could slip through the bead
                lists.pieces.append((at, number))
            lists.small.append(small)
            lists.stitches.append((*stitch, place))
            begin += small * long
            places.append(begin)
            at += 1
        reached = begin
    _span(lists, places, (reached, float(arc[-1])), number, make)
    where = np.array(places)
    _mark(lists, strand, (arc, where), drops)
    lists.points.append(points_at(strand.points, where, arc))
    lists.count += len(places)
    lists.strands.append((first, lists.count - 1))


def _span(lists: _Lists, places: list[float], ends: tuple[float, float], number: int, make: Make) -> int:
    """Add the points of a span of cord; returns the number of its last one."""
    start, end = ends
    first = lists.count + len(places) - 1
    count = max(1, round((end - start) / make.slack / make.piece_mm))
    places += [start + (end - start) * step / count for step in range(1, count + 1)]
    lists.spans.append((first, first + count))
    lists.pieces += [(first + step, number) for step in range(count)]
    return first + count


def _mark(lists: _Lists, strand: Strand, lines: tuple[Floats, Floats], drops: dict[tuple[int, int], Drop]) -> None:
    """Remember the point nearest to the middle of every bare stitch."""
    arc, where = lines
    for at, stitch in zip(strand.middles, strand.stitches, strict=True):
        if not drops[stitch]:
            lists.marks.append((*stitch, lists.count + int(np.abs(where - arc[at]).argmin())))


def _tips(points: Floats, rods: Ints, arms: Floats, small: Floats) -> tuple[Ints, Floats, Floats]:
    """The tip of every bead that reaches out, how far from the hole it is, and where it hangs first: outward."""
    tips = np.full(len(rods), NO_TIP)
    has_tip = np.flatnonzero(arms > 0.0)
    tips[has_tip] = len(points) + np.arange(len(has_tip))
    start, end = points[rods[has_tip]], points[rods[has_tip] + 1]
    middle, along = 0.5 * (start + end), end - start
    out = middle * np.array([1.0, 1.0, 0.0])
    out -= along * ((out * along).sum(axis=1) / np.maximum((along * along).sum(axis=1), 1e-12))[:, None]
    out /= np.maximum(np.linalg.norm(out, axis=1), 1e-9)[:, None]
    return tips, arms, middle + (arms * small)[has_tip, None] * out


def _bodies(kinds: Ints, solids: tuple[Solid, ...]) -> tuple[Ints, Floats]:
    """Bead of every body, and its row among the solids of a cell."""
    tables = [
        [
            (body.disc_mm, body.rounding_mm, body.along_mm / solid.rod_mm, body.off_mm / (solid.arm_mm or 1.0))
            for body in solid.bodies
        ]
        for solid in solids
    ]
    beads = [bead for bead, kind in enumerate(kinds) for _ in tables[kind]]
    rows = [row for kind in kinds for row in tables[kind]]
    return np.array(beads, dtype=np.int64), np.array(rows, dtype=np.float64).reshape(-1, 4)


def _groups(points: Floats, make: Make) -> Ints:
    """The row of every point, about: points that lie at the same height."""
    if make.row_mm == 0.0:
        return np.zeros(0, dtype=np.int64)
    count = max(1, round(make.tall_mm / make.row_mm))
    found = np.floor(points[:, 2] / make.tall_mm * count).astype(np.int64) % count
    return np.unique(found, return_inverse=True)[1].astype(np.int64)


def _sideways(points: Floats) -> Floats:
    across = np.stack([-points[:, 1], points[:, 0]], axis=1)
    return np.ascontiguousarray(across / np.maximum(np.linalg.norm(across, axis=1), 1e-9)[:, None])


def _images(make: Make, points: Floats) -> Images:
    """The cell, and as many copies above and below in turn as can come near it."""
    near = 2.0 * max([kind.reach_mm for kind in make.kinds], default=make.cord_mm) + make.cord_mm
    reach = ceil((float(np.ptp(points[:, 2])) + 2.0 * near) / make.tall_mm) + 1
    steps = [0, *(sign * step for step in range(1, reach + 1) for sign in (1, -1))]
    turns = [-radians(make.turn_deg) * step for step in steps]
    return Images(
        cosine=np.array([cos(turn % (2.0 * pi)) for turn in turns]),
        sine=np.array([sin(turn % (2.0 * pi)) for turn in turns]),
        lift=np.array(steps, dtype=np.float64),
        own=np.array([1.0 if step > 0 else 0.0 for step in steps]),
        laps=np.array([0 if step == 0 else NO_LAP for step in steps]),
        inverse=np.array([steps.index(-step) for step in steps]),
    )
