"""uniform: the shape of a braid whose every row is like the one before: what every rope is laid out from.

Kongoh gumi is solved from one bead and one span of cord (SYM); any other braid from a loose cage of one row (CELL). A
tube that would fall flat is solved again on a core, which keeps it round.
"""

from dataclasses import dataclass, replace

import numpy as np

from braidwright.domain.braid import Braid
from braidwright.domain.kongoh import kongoh_of
from braidwright.physics.cage import cage
from braidwright.physics.laid import uniform_rows
from braidwright.physics.outcome import Outcome, Watch
from braidwright.physics.rope import Care, Loose, Rope, laid_out, let_settle
from braidwright.physics.round_braid import RoundBraid, settle
from braidwright.physics.round_ways import round_ways
from braidwright.physics.solids import BeadSolid, Solid, round_solid
from braidwright.physics.unrolled import uniform_ways
from braidwright.physics.ways import Ways

WIDE = 0.3  # of all beads side by side: radius of a loose cage (physics.md, section 3)
ROOM = 0.5  # of its full size: a bead in a loose cage
LOW = 0.6  # of a bead and a cord: height of a move in a loose cage
SLACK = 2.5
FEWEST_STITCHES = 4  # in a row: with fewer it has no shape of its own
STILL, CREEP, MOST_STEPS = 0.01, 2e-5, 4000
OVAL = 1.35  # how many times wider one way than the other from which a tube counts as fallen flat
PIECE = 0.6  # of the cord, in a beaded braid; half of it in a bare one


@dataclass(frozen=True, slots=True, kw_only=True)
class UniformBraid:
    """What a uniform braid is made of.

    Attributes:
        braid: The braid.
        bead: Diameter and length of the round bead at every stitch, mm, or None for bare cord.
        cord_mm: Diameter of the cord.
        drift_deg: Turn of a row, degrees clockwise.
        core_mm: Diameter of the core cord, or 0.
    """

    braid: Braid
    bead: tuple[float, float] | None
    cord_mm: float
    drift_deg: float
    core_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Uniform:
    """The shape a uniform braid settles to.

    Attributes:
        ways: Where its cords run.
        outcome: How the solve ended.
        core_mm: Diameter of the core it was solved on, or 0. It is more than was asked for when the tube fell flat.
    """

    ways: Ways
    outcome: Outcome
    core_mm: float

    @property
    def radius_mm(self) -> float:
        """From the axis to the middles of the stitches, on average."""
        return float(np.mean([np.hypot(way[0, 0], way[0, 1]) for way in self.ways.stitches]))

    @property
    def hollow_mm(self) -> float:
        """How wide a hole the cords leave open along the axis, at most: measured to their axes."""
        return 2.0 * min(float(np.hypot(way[:, 0], way[:, 1]).min()) for way in self.ways.stitches)

    @property
    def outer_mm(self) -> float:
        """From the axis to the outermost point of a cord."""
        return max(float(np.hypot(way[:, 0], way[:, 1]).max()) for way in self.ways.stitches)


def solve_uniform(made: UniformBraid, watch: Watch | None = None) -> Uniform:
    """The shape of a uniform braid.

    Raises:
        RequestError: No such braid has a shape.
    """
    kongoh = kongoh_of(made.braid)
    if kongoh is not None:
        sign = 1.0 if kongoh.hand == "S" else -1.0
        bead = None if made.bead is None else BeadSolid(diameter_mm=made.bead[0], length_mm=made.bead[1])
        drift = sign * made.drift_deg / kongoh.repeats_per_row
        asked = RoundBraid(
            columns=kongoh.columns, cord_mm=made.cord_mm, bead=bead, drift_deg=drift, core_mm=made.core_mm
        )
        shape = settle(asked, watch)
        ways = round_ways(shape, made.braid, beaded=bead is not None)
        return Uniform(ways=ways, outcome=shape.outcome, core_mm=made.core_mm)
    found = _from_cage(made, made.core_mm, watch)
    if made.core_mm > 0.0 or not found.outcome.is_settled or not is_flat(found.ways):
        return found
    thick = 0.5 * (made.cord_mm if made.bead is None else made.bead[0])
    core = 2.0 * (found.radius_mm - thick - made.cord_mm)
    again = _from_cage(made, core, watch) if core > made.cord_mm else found
    if again.outcome.is_settled and not is_flat(again.ways):
        return again
    return replace(found, outcome=replace(found.outcome, ending="fell flat"))


def is_flat(ways: Ways) -> bool:
    """Whether a tube has fallen flat: how its cords spread one way and the other across one row of it."""
    if len(ways.stitches) < FEWEST_STITCHES:
        return False
    points = np.concatenate([way[:-1] for way in ways.stitches])
    back = -np.radians(ways.drift_deg) * np.floor(points[:, 2] / ways.rise_mm)
    c, s = np.cos(back), np.sin(back)
    across = np.stack([c * points[:, 0] + s * points[:, 1], c * points[:, 1] - s * points[:, 0]])
    least, most = np.linalg.eigvalsh(np.cov(across))
    return bool(np.sqrt(most / max(least, 1e-12)) > OVAL)


def piece_mm(cord_mm: float, bead: tuple[float, float] | None) -> float:
    """About how long a piece of cord should be."""
    if bead is None:
        return 0.5 * PIECE * cord_mm
    return min(max(PIECE * cord_mm, bead[0] / 10.0), bead[0] / 6.0)


def _from_cage(made: UniformBraid, core_mm: float, watch: Watch | None) -> Uniform:
    braid, is_bare = made.braid, made.bead is None
    solid: Solid | None = None if made.bead is None else round_solid(*made.bead)
    wide, long = (2.0 * made.cord_mm, 0.0) if made.bead is None else made.bead
    rope = Rope(
        braid=braid,
        rows=((() if is_bare else (0,),) * braid.stitches_per_row,),
        kinds=() if solid is None else (solid,),
        cord_mm=made.cord_mm,
        drift_deg=made.drift_deg,
        core_mm=core_mm,
    )
    radius = WIDE * wide * max(braid.cord_count, 4) + core_mm
    ways = cage(braid, radius, len(braid.moves) * LOW * (long + made.cord_mm), made.drift_deg)
    loose = Loose(room_mm=ROOM * max(long, 1e-3), room_wide_mm=ROOM * wide, slack=SLACK)
    care = Care(piece_mm=piece_mm(made.cord_mm, made.bead), still=STILL, creep=CREEP, most_steps=MOST_STEPS)
    stretch = let_settle(rope, laid_out(rope, ways, uniform_rows(ways, 1), loose, care.piece_mm), care, watch)
    if stretch.outcome.is_settled:  # again, its cords divided evenly now that their length is known
        ways = uniform_ways(braid, stretch.strung, stretch.points, stretch.tall_mm, made.drift_deg, 1)
        even = Loose(room_mm=max(long, 1e-3), room_wide_mm=2.0 * wide)
        stretch = let_settle(rope, laid_out(rope, ways, uniform_rows(ways, 1), even, care.piece_mm), care, watch)
    return Uniform(
        ways=uniform_ways(braid, stretch.strung, stretch.points, stretch.tall_mm, made.drift_deg, 1),
        outcome=stretch.outcome,
        core_mm=core_mm,
    )
