"""round_braid: the true shape of a round braid whose opposite moves commute, from one bead and one span of cord.

Everything else follows by symmetry. Several loose first shapes are tightened and the one of least energy is kept; a
shape in which a cord slipped through another is thrown away. Source: physics.md, sections 1 to 4.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache
from math import isfinite, pi, radians, sin

import numpy as np

from braidwright.domain.errors import RequestError
from braidwright.physics.cells import STEP_BEADED, WEIGHT_SHARE, unit
from braidwright.physics.crossings import Topology, topology_of
from braidwright.physics.images import unknowns_of
from braidwright.physics.lattice import Lattice
from braidwright.physics.lines import length_of
from braidwright.physics.outcome import Outcome, Watch
from braidwright.physics.reach import disc_reaches
from braidwright.physics.solids import BeadSolid
from braidwright.physics.start import Loose, crossing, round_lattice
from braidwright.physics.state import HEAVE, Cell, Floats
from braidwright.physics.tighten import Limits, Tightened, tighten

MOST_DRIFT_DEG = 90.0  # beyond, the first shape would lie on the wrong side
MOST_STEPS = 30_000  # a start takes 300 to 600 steps with beads, up to some 10,000 with bare cord of many columns
STILL_BEADED, STILL_BARE = 0.002, 0.003  # found by looking: 0.01 leaves 1 % open in the rise
STEP_BARE = 0.05  # of the cord: against slipping through (physics.md, section 3)
WAYS_ROUND = 720  # directions in which a bead is measured

# Loose first shapes: radius in units of what the columns need side by side, how far beside the cords rest, and the rise
# over the usual one. Found by looking at 75 of them for each kind of braid: these reach the least energy most often.
Start = tuple[float, float, float]
STARTS_BEADED: tuple[Start, ...] = (
    (1.6, 0.1, 0.8), (2.4, 0.15, 0.8), (1.6, 0.2, 1.0), (1.0, 0.1, 1.0), (2.4, 0.15, 1.0)
)  # fmt: skip
STARTS_BARE: tuple[Start, ...] = (
    (1.0, 0.1, 1.0), (1.3, 0.2, 1.0), (1.6, 0.1, 1.0), (1.6, 0.2, 1.0), (2.2, 0.15, 1.0), (1.0, 0.2, 1.0)
)  # fmt: skip

# The loose shape whose crossings are those of the moves, for every number of columns (tests/physics/test_crossings.py).
KNOWN_LOOSE = Loose(radius_mm=3.0, rise_mm=1.0, beside=0.15)
KNOWN_DRIFT_DEG = 5.0
KNOWN_POINTS = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundBraid:
    """What a round braid is made of.

    Attributes:
        columns: Columns, even, 4 or more; twice as many cords.
        cord_mm: Diameter of the cord.
        bead: The bead at every stitch, or None for bare cord.
        drift_deg: Turn of a column a repeat, positive in the direction in which a cord is laid beyond its neighbour.
        weight_share: Counterweight as a share of what all cords pull.
        core_mm: Diameter of a core cord along the axis, or 0.
        fineness: How many times finer than usual the cord is divided.
    """

    columns: int
    cord_mm: float
    bead: BeadSolid | None
    drift_deg: float
    weight_share: float = WEIGHT_SHARE
    core_mm: float = 0.0
    fineness: float = 1.0

    def __post_init__(self) -> None:
        """Refuse what has no shape."""
        if self.columns < 4 or self.columns % 2:
            raise RequestError(
                f"A round braid of this kind has 4, 6, 8 or more columns, an even number, not {self.columns}."
            )
        if not (isfinite(self.cord_mm) and self.cord_mm > 0.0):
            raise RequestError(f"The cord has a diameter of {self.cord_mm} mm; give one above 0.")
        if not (isfinite(self.drift_deg) and abs(self.drift_deg) < MOST_DRIFT_DEG):
            raise RequestError(
                f"A column cannot turn by {self.drift_deg} degrees a row; give a drift between "
                f"-{MOST_DRIFT_DEG:g} and {MOST_DRIFT_DEG:g}."
            )
        if self.bead is not None:
            _refuse_impossible(self.bead, self.cord_mm)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shape:
    """The shape a round braid settles to.

    Attributes:
        rise_mm: Length gained per repeat.
        diameter_mm: Outside diameter.
        take_up: Length of cord per length of braid.
        points: Of one cell, (points, 3) mm, read-only: the rod of its bead, if there is one, and the cord to the next.
        lattice: The symmetry that makes the braid of it.
        outcome: How the best start ended; the figures mean something only when it settled.
        energies: Of all starts that settled, least first, in mm times the pull of a cord.
    """

    rise_mm: float
    diameter_mm: float
    take_up: float
    points: Floats
    lattice: Lattice
    outcome: Outcome
    energies: tuple[float, ...]


def settle(braid: RoundBraid, watch: Watch | None = None, most_steps: int = MOST_STEPS) -> Shape:
    """The shape of least energy that was found.

    Args:
        braid: What it is made of.
        watch: Told now and then what share of the work is done; answers whether to go on.
        most_steps: Bound on the steps of each start.
    """
    lattice = round_lattice(braid.columns, braid.drift_deg)
    count = _points(braid)
    cell = unit(
        lattice, count, braid.bead, cord_mm=braid.cord_mm, weight=2.0 * braid.weight_share, core_mm=braid.core_mm
    )
    starts = looses(braid)
    found: list[Tightened] = []
    for index, loose in enumerate(starts):
        points = crossing(lattice, loose, 0.0 if braid.bead is None else braid.bead.rod, count)
        ask = None if watch is None else _asking(watch, index, len(starts), most_steps)
        tight = tighten(cell, unknowns_of(points, loose.rise_mm, HEAVE), limits(braid, most_steps), ask)
        found.append(_checked(tight, braid, lattice, points, loose.rise_mm))
        if tight.outcome.ending == "stopped":
            break
    return _shape(braid, lattice, cell, found)


@lru_cache(maxsize=32)
def topology(columns: int) -> Topology:
    """What the cords of such a braid do, whatever its beads: read from a loose shape that is known to be right."""
    lattice = round_lattice(columns, KNOWN_DRIFT_DEG)
    loose = crossing(lattice, KNOWN_LOOSE, 0.5, KNOWN_POINTS)
    return topology_of(lattice, loose, KNOWN_LOOSE.rise_mm, radians(KNOWN_DRIFT_DEG))


def looses(braid: RoundBraid) -> tuple[Loose, ...]:
    """The loose first shapes to start from."""
    if braid.bead is None:
        side, rise, starts = 2.2 * braid.cord_mm, 0.75 * braid.columns * braid.cord_mm, STARTS_BARE
    else:
        side, rise, starts = 1.5 * braid.bead.diameter_mm, 1.5 * (braid.bead.length_mm + braid.cord_mm), STARTS_BEADED
    radius = side * braid.columns / (2.0 * pi) + 0.5 * braid.core_mm
    return tuple(Loose(radius_mm=radius * wide, rise_mm=rise * high, beside=beside) for wide, beside, high in starts)


def limits(braid: RoundBraid, most_steps: int = MOST_STEPS) -> Limits:
    """When the tightening of a start ends."""
    if braid.bead is None:
        return Limits(most_steps=most_steps, still=STILL_BARE, longest_step=STEP_BARE * braid.cord_mm)
    return Limits(most_steps=most_steps, still=STILL_BEADED, longest_step=STEP_BEADED * braid.bead.diameter_mm)


def outside_mm(points: Floats, bead: BeadSolid | None, cord_mm: float) -> float:
    """The diameter of the narrowest tube round the z axis that the braid passes through.

    Args:
        points: Of a cell, (points, 3) mm.
        bead: The bead on its first two points, or None.
        cord_mm: Diameter of the cord.
    """
    widest = float(np.hypot(points[:, 0], points[:, 1]).max()) + 0.5 * cord_mm
    if bead is not None:
        centre, axis = 0.5 * (points[0] + points[1]), points[1] - points[0]
        unit = axis / np.linalg.norm(axis)
        reach = disc_reaches(centre[None], unit[None], bead.disc_mm, bead.rounding_mm, WAYS_ROUND)
        widest = max(widest, float(reach[0]))
    return 2.0 * widest


def _refuse_impossible(bead: BeadSolid, cord_mm: float) -> None:
    for what, size in (("diameter", bead.diameter_mm), ("length", bead.length_mm)):
        if not (isfinite(size) and size > 0.0):
            raise RequestError(f"The bead has a {what} of {size} mm; give one above 0.")
    if cord_mm >= bead.diameter_mm:
        raise RequestError(
            f"The cord ({cord_mm:g} mm) is as thick as the bead ({bead.diameter_mm:g} mm), so it cannot go through; "
            f"take a thinner cord or a bigger bead."
        )


def _points(braid: RoundBraid) -> int:
    """Points of the strand: pieces of about 0.6 cord diameters between beads and 0.3 in bare cord."""
    if braid.bead is None:
        long, piece, ends = (2.2 + 1.03 * braid.columns) * braid.cord_mm, 0.3 * braid.cord_mm, 1
    else:
        size = braid.bead.diameter_mm
        long, ends = 1.1 * size / sin(pi / braid.columns), 2
        piece = min(max(0.6 * braid.cord_mm, size / 12.0), size / 8.0)
    return max(6, round(long / piece * braid.fineness)) + ends


def _asking(watch: Watch, index: int, starts: int, most_steps: int) -> Callable[[int, float], bool]:
    """What the tightening asks of one start, as the watcher of all starts understands it."""
    return lambda taken, _: watch((index + min(1.0, taken / most_steps)) / starts)


def _checked(tight: Tightened, braid: RoundBraid, lattice: Lattice, loose: Floats, rise: float) -> Tightened:
    """The same, its ending changed when it is not the braid it should be."""
    if not tight.outcome.is_settled:
        return tight
    drift, wanted = radians(braid.drift_deg), topology(braid.columns)
    if wanted.is_of(lattice, loose, rise, drift) and wanted.is_of(lattice, tight.points, tight.rise_mm, drift):
        return tight
    return replace(tight, outcome=replace(tight.outcome, ending="topology changed"))


def _shape(braid: RoundBraid, lattice: Lattice, cell: Cell, found: list[Tightened]) -> Shape:
    settled = sorted((tight for tight in found if tight.outcome.is_settled), key=lambda tight: tight.outcome.energy)
    best = found[-1] if found[-1].outcome.ending == "stopped" or not settled else settled[0]
    first, last = cell.strands[0]
    cord = length_of(best.points[first : last + 1])
    return Shape(
        rise_mm=best.rise_mm,
        diameter_mm=outside_mm(best.points, braid.bead, braid.cord_mm),
        take_up=cord / (lattice.next_step * lattice.lift * best.rise_mm),
        points=best.points,
        lattice=lattice,
        outcome=best.outcome,
        energies=tuple(tight.outcome.energy for tight in settled),
    )
