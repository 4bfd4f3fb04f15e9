"""whole: a whole rope, leads included: what is shown, measured and exported.

A rope whose beads come again after a few rows is solved over that stretch only and repeated; one without a repeat is
solved whole. Rows of one bead each are those of the uniform braid itself. The bare braid of the leads is that of the
uniform bare braid, and only what lies next to the beads is solved with them.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import isfinite

import numpy as np

from braidwright.domain.braid import Braid
from braidwright.domain.errors import RequestError
from braidwright.physics.laid import Rows, uniform_rows
from braidwright.physics.measures import Finish, Whole, whole_of
from braidwright.physics.outcome import Outcome, Watch
from braidwright.physics.rope import Care, Loose, Rope, Stretch, laid_out, let_settle
from braidwright.physics.solids import Solid
from braidwright.physics.strung import Drop
from braidwright.physics.uniform import Uniform, UniformBraid, piece_mm

MOST_LEAD_MM = 10_000.0
NEXT_TO_BEADS = 2  # bare rows of a lead that are solved with the beads
FILLED = 0.8  # of the hole: a core that fills so much of it keeps the tube round
HOLLOW = 1.2  # cord diameters: a wider hole along the axis makes a tube hollow
COARSER = 1.2  # a rope solved whole has longer pieces of cord than a repeat
STILL, CREEP, MOST_STEPS = 0.2, 1.5e-3, 4000  # friction holds the rest; see docs/decisions.md
PERIOD_STILL, PERIOD_CREEP = 0.2, 4e-4

Find = Callable[[UniformBraid], Uniform]  # the shape of a uniform braid, solved or remembered


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A whole rope to be solved.

    Attributes:
        braid: The braid.
        rows: The drop of every stitch of every row of the design.
        kinds: The solids its drops name.
        cord_mm: Diameter of the cord.
        drift_deg: Turn of a row, degrees clockwise.
        lead_in_mm: Bare braid before the first row.
        lead_out_mm: Bare braid after the last row.
        core_mm: Diameter of the core cord, or 0.
    """

    braid: Braid
    rows: tuple[tuple[Drop, ...], ...]
    kinds: tuple[Solid, ...]
    cord_mm: float
    drift_deg: float
    lead_in_mm: float = 0.0
    lead_out_mm: float = 0.0
    core_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Base:
    """The uniform braids a rope is laid out from.

    Attributes:
        beaded: With the mean bead, or bare if there is none.
        bare: Of bare cord.
        bead: Diameter and length of the mean bead, mm, or None.
    """

    beaded: Uniform
    bare: Uniform
    bead: tuple[float, float] | None


def solve_whole(piece: Piece, find: Find, watch: Watch | None = None) -> Whole | Outcome:
    """The shape of a whole rope, or how the solve ended that gave none.

    Args:
        piece: The rope.
        find: Gives the shape of a uniform braid.
        watch: Told now and then what share of the work is done; answers whether to go on.

    Raises:
        RequestError: No such rope has a shape.
    """
    _refuse_impossible(piece)
    base = base_of(piece, find)
    for uniform in (base.beaded, base.bare):
        if not uniform.outcome.is_settled:
            return uniform.outcome
    hollow = hollow_mm(piece, base.beaded)
    piece = replace(piece, core_mm=max(piece.core_mm, hollow))
    period = period_of(piece.rows)
    if period == len(piece.rows) and len(set(piece.rows)) > 1:
        found = _solved_whole(piece, base, watch)
        return found if isinstance(found, Outcome) else replace(found, hollow_mm=hollow)
    stretch = _repeat(piece, base, period, watch)
    if not stretch.outcome.is_settled:
        return stretch.outcome
    return replace(whole_of(_finish(piece, base, period), stretch), hollow_mm=hollow)


def hollow_mm(piece: Piece, uniform: Uniform) -> float:
    """How wide the hole along a tube is that no core fills; 0 for a rope that is not hollow.

    On a core so thick a hollow tube is solved, so that it stays as round as the uniform one.
    """
    hole = max(uniform.core_mm, uniform.hollow_mm - piece.cord_mm)
    is_filled = piece.core_mm > FILLED * hole
    return hole if hole > HOLLOW * piece.cord_mm and not is_filled else 0.0


def _refuse_impossible(piece: Piece) -> None:
    """Refuse what has no shape."""
    figures = [piece.cord_mm, *(figure for solid in piece.kinds for figure in (solid.rod_mm, solid.radius_mm))]
    if not all(isfinite(figure) and figure > 0.0 for figure in figures):
        raise RequestError("A bead or the cord has no size; give every one a diameter and a length above 0.")
    if not (isfinite(piece.drift_deg) and isfinite(piece.core_mm) and piece.core_mm >= 0.0):
        raise RequestError("The turn of a row and the core must be plain numbers, the core 0 or more.")
    if not (0.0 <= piece.lead_in_mm < MOST_LEAD_MM and 0.0 <= piece.lead_out_mm < MOST_LEAD_MM):
        raise RequestError(f"A lead is 0 to {MOST_LEAD_MM:g} mm long; give one that is.")
    if any(piece.cord_mm >= 2.0 * solid.radius_mm for solid in piece.kinds):
        raise RequestError(
            f"The cord ({piece.cord_mm:g} mm) is as thick as a bead round its hole, so it cannot go through; take a "
            f"thinner cord or a bigger bead."
        )


def base_of(piece: Piece, find: Find) -> Base:
    """The uniform braids of a rope."""
    bead = mean_bead(piece)
    made = UniformBraid(braid=piece.braid, bead=None, cord_mm=piece.cord_mm, drift_deg=piece.drift_deg)
    bare = find(replace(made, core_mm=0.0 if bead else piece.core_mm))
    beaded = bare if bead is None else find(replace(made, bead=bead, core_mm=piece.core_mm))
    return Base(beaded=beaded, bare=bare, bead=bead)


def mean_bead(piece: Piece) -> tuple[float, float] | None:
    """Diameter and length of the mean bead of the stitches that drop any, stacks counting by their first bead."""
    firsts = [piece.kinds[drop[0]] for row in piece.rows for drop in row if drop]
    if not firsts:
        return None
    wide = 2.0 * sum(solid.radius_mm for solid in firsts) / len(firsts)
    long = sum(solid.rod_mm for solid in firsts) / len(firsts)
    return round(wide, 6), round(min(long, wide), 6)


def period_of(rows: tuple[tuple[Drop, ...], ...]) -> int:
    """The fewest rows after which all comes again, at least once; all of them when nothing does."""
    for period in range(1, len(rows) // 2 + 1):
        if all(rows[index] == rows[index - period] for index in range(period, len(rows))):
            return period
    return len(rows)


def rows_like(piece: Piece, base: Base, rows: tuple[tuple[Drop, ...], ...]) -> Rows:
    """About how high and wide each row will be: between bare and beaded as its beads are shorter or longer."""
    rise, bare_rise = base.beaded.ways.rise_mm, base.bare.ways.rise_mm
    if base.bead is None:
        return uniform_rows(base.bare.ways, len(rows))
    lengths = np.array([sum(piece.kinds[kind].rod_mm for drop in row for kind in drop[:1]) / len(row) for row in rows])
    share = lengths / base.bead[1]
    high = np.where(share < 1.0, bare_rise + (rise - bare_rise) * share, rise + (lengths - base.bead[1]))
    outside_core = 0.5 * piece.core_mm + piece.cord_mm
    narrow = min(1.0, max(base.bare.outer_mm, outside_core) / base.beaded.radius_mm)
    return Rows(
        heights_mm=np.concatenate([[0.0], np.cumsum(high)]),
        widths=np.where(share < 1.0, narrow + (1.0 - narrow) * np.sqrt(share), 1.0),
    )


def _repeat(piece: Piece, base: Base, period: int, watch: Watch | None) -> Stretch:
    """One period, solved; a row of one plain bead, or of none, is the uniform braid itself."""
    rows = piece.rows[:period]
    rope = _rope(piece, rows)
    laid = laid_out(rope, base.beaded.ways, rows_like(piece, base, rows), _loose(base), _piece(piece, base))
    if period == 1 and _is_uniform(piece, rows[0]):
        strung, make = laid
        return Stretch(strung=strung, points=strung.points, tall_mm=make.tall_mm, outcome=base.beaded.outcome)
    care = Care(piece_mm=_piece(piece, base), still=PERIOD_STILL, creep=PERIOD_CREEP, most_steps=MOST_STEPS)
    return let_settle(rope, laid, care, watch)


def _is_uniform(piece: Piece, row: tuple[Drop, ...]) -> bool:
    """Whether a row is that of the uniform braid with the mean bead."""
    drop = row[0]
    return len(set(row)) == 1 and len(drop) <= 1 and all(piece.kinds[kind].is_plain for kind in drop)


def _finish(piece: Piece, base: Base, cell_rows: int, before: int = 0) -> Finish:
    """What is needed to put a whole rope together."""
    return Finish(
        braid=piece.braid,
        kinds=piece.kinds,
        count=len(piece.rows),
        cell_rows=cell_rows,
        before=before,
        drift_deg=piece.drift_deg,
        bare=base.bare.ways,
        leads=(piece.lead_in_mm, piece.lead_out_mm),
        core_mm=piece.core_mm,
        cord_mm=piece.cord_mm,
    )


def _solved_whole(piece: Piece, base: Base, watch: Watch | None) -> Whole | Outcome:
    """Every row of a rope, with some bare rows before and after."""
    bare = ((),) * piece.braid.stitches_per_row
    rows = (*[bare] * NEXT_TO_BEADS, *piece.rows, *[bare] * NEXT_TO_BEADS)
    rope, long = _rope(piece, rows), COARSER * _piece(piece, base)
    laid = laid_out(rope, base.beaded.ways, rows_like(piece, base, rows), _loose(base), long)
    care = Care(piece_mm=long, still=STILL, creep=CREEP, most_steps=MOST_STEPS)
    stretch = let_settle(rope, laid, care, watch)
    if not stretch.outcome.is_settled:
        return stretch.outcome
    return whole_of(_finish(piece, base, len(rows), NEXT_TO_BEADS), stretch)


def _rope(piece: Piece, rows: tuple[tuple[Drop, ...], ...]) -> Rope:
    return Rope(
        braid=piece.braid,
        rows=rows,
        kinds=piece.kinds,
        cord_mm=piece.cord_mm,
        drift_deg=piece.drift_deg,
        core_mm=piece.core_mm,
    )


def _loose(base: Base) -> Loose:
    if base.bead is None:
        return Loose(room_mm=1.0, room_wide_mm=1.0)
    return Loose(room_mm=base.bead[1], room_wide_mm=base.bead[0])


def _piece(piece: Piece, base: Base) -> float:
    return piece_mm(piece.cord_mm, base.bead)
