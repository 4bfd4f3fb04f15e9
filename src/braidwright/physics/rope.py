"""rope: a stretch of rope of any braid and any beads, let settle: a screw that comes again after its height.

Source: physics.md, sections 1 to 3 (CELL).
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from braidwright.domain.braid import Braid
from braidwright.domain.topology import crossings
from braidwright.physics.cells import STEP_BEADED, WEIGHT_SHARE
from braidwright.physics.images import unknowns_of
from braidwright.physics.laid import Rows, follows, lay
from braidwright.physics.outcome import Outcome, Watch
from braidwright.physics.proof import Braided, of_curves, of_word
from braidwright.physics.solids import Solid
from braidwright.physics.state import Cell, Floats
from braidwright.physics.strung import Drop, Make, Strung, grown, string
from braidwright.physics.tighten import Limits, tighten
from braidwright.physics.ways import Ways

STAGES = 3  # in which beads grow to their size (physics.md, section 3)
STAGE_STEPS = 25  # bound on the steps of each but the last: beads need only make room
STAGE_STILL = 0.3  # force left over at the end of such a stage, in pulls of one cord
STEP_CORD = 0.12  # of the cord: against slipping through


@dataclass(frozen=True, slots=True, kw_only=True)
class Rope:
    """What a stretch of rope is made of.

    Attributes:
        braid: The braid.
        rows: The drop of every stitch of every row.
        kinds: The solids its drops name.
        cord_mm: Diameter of the cord.
        drift_deg: Turn of a row, degrees clockwise.
        core_mm: Diameter of the core cord, or 0.
        weight_share: Counterweight as a share of what all cords pull.
    """

    braid: Braid
    rows: tuple[tuple[Drop, ...], ...]
    kinds: tuple[Solid, ...]
    cord_mm: float
    drift_deg: float
    core_mm: float = 0.0
    weight_share: float = WEIGHT_SHARE


@dataclass(frozen=True, slots=True, kw_only=True)
class Care:
    """How carefully a rope is let settle.

    Attributes:
        piece_mm: About how long a piece of cord is.
        still: Force left over, in pulls of one cord. Friction holds a fifth of a pull; see docs/decisions.md.
        creep: Share by which the energy must still fall in a hundred steps, or it counts as settled.
        most_steps: Bound on the steps of the last stage.
    """

    piece_mm: float
    still: float
    creep: float
    most_steps: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Loose:
    """How loose a first shape is.

    Attributes:
        room_mm: Length of cord that the beads of a stitch may take in it.
        room_wide_mm: Width that a bead may have in it.
        slack: How many times longer the cord is than it will be.
    """

    room_mm: float
    room_wide_mm: float
    slack: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stretch:
    """A settled stretch of rope.

    Attributes:
        strung: What was strung.
        points: Where its points lie, (points, 3) mm.
        tall_mm: Height after which it comes again.
        outcome: How the solve ended; the shape means something only when it settled.
    """

    strung: Strung
    points: Floats
    tall_mm: float
    outcome: Outcome


def laid_out(rope: Rope, ways: Ways, rows: Rows, loose: Loose, piece_mm: float) -> tuple[Strung, Make]:
    """The first shape of a stretch of rope: its beads, as small as they must be, on the ways of its uniform braid."""
    count = len(rope.rows)
    make = Make(
        kinds=rope.kinds,
        cord_mm=rope.cord_mm,
        core_mm=rope.core_mm,
        weight=rope.weight_share * rope.braid.cord_count,
        tall_mm=float(rows.heights_mm[-1]),
        row_mm=ways.rise_mm,
        turn_deg=rope.drift_deg * count,
        room_mm=loose.room_mm,
        room_wide_mm=loose.room_wide_mm,
        piece_mm=piece_mm,
        slack=loose.slack,
    )
    drops = {(row, stitch): drop for row, line in enumerate(rope.rows) for stitch, drop in enumerate(line)}
    return string(lay(rope.braid, ways, rows), drops, follows(rope.braid, count), make), make


def let_settle(rope: Rope, first: tuple[Strung, Make], care: Care, watch: Watch | None = None) -> Stretch:
    """Grow the beads of a first shape to their size, let everything settle, and prove that it is the same braid.

    Args:
        rope: What it is made of.
        first: Its first shape, by `laid_out`.
        care: How carefully.
        watch: Told now and then what share of the work is done; answers whether to go on.
    """
    strung, make = first
    points, tall = strung.points, make.tall_mm
    stages = STAGES if len(strung.small) and strung.small.min() < 1.0 else 0
    bound = stages * STAGE_STEPS + care.most_steps
    taken = 0
    for stage in range(stages + 1):
        cell = grown(strung, make, stage / stages if stages else 1.0)._replace(tall_mm=tall)
        ask = None if watch is None else _asking(watch, taken, bound)
        tight = tighten(cell, unknowns_of(points, tall, cell.heave), _limits(cell, care, is_last=stage == stages), ask)
        points, tall, taken = tight.points, tight.rise_mm, taken + tight.outcome.steps
        if tight.outcome.ending in ("stopped", "blew up"):
            break
    outcome = replace(tight.outcome, steps=taken)
    if outcome.is_settled and not of_curves(cell, points, tall, make.turn_deg).is_same(
        braided(rope.braid, len(rope.rows))
    ):
        outcome = replace(outcome, ending="topology changed")
    return Stretch(strung=strung, points=points, tall_mm=tall, outcome=outcome)


@lru_cache(maxsize=64)
def braided(braid: Braid, rows: int) -> Braided:
    """What the cords do as the moves go, over a number of rows."""
    found = list(crossings(braid, rows))
    return of_word(
        tuple(crossing.generator for crossing in found),
        tuple((crossing.inside, crossing.outside, crossing.sign) for crossing in found),
        follows(braid, rows),
    )


def _limits(cell: Cell, care: Care, *, is_last: bool) -> Limits:
    step = STEP_CORD * cell.cord_mm
    if len(cell.solids):
        radii = cell.solids[:, 0] + cell.solids[:, 1]
        nearest = np.minimum.reduceat(cell.solids[:, 3], np.flatnonzero(np.diff(cell.bodies, prepend=-1)))[cell.bodies]
        step = min(step, 2.0 * STEP_BEADED * float(radii[cell.solids[:, 3] == nearest].min()))
    if not is_last:
        return Limits(most_steps=STAGE_STEPS, still=STAGE_STILL, longest_step=step)
    return Limits(most_steps=care.most_steps, still=care.still, longest_step=step, creep=care.creep)


def _asking(watch: Watch, before: int, bound: int) -> Callable[[int, float], bool]:
    """What the tightening asks of one stage, as the watcher of all of them understands it.

    Few solves come near their bound, so the share is that of a curve that is quick at first.
    """
    return lambda taken, _: watch(1.0 - (1.0 - min(1.0, (before + taken) / bound)) ** 8)
