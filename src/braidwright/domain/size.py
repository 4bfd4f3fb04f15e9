"""Size: what a design measures, what that rests on, and what is unusual about it."""

from dataclasses import dataclass
from typing import Literal

from braidwright.domain.design import Design
from braidwright.domain.hole_fit import hole_fit
from braidwright.domain.kongoh import kongoh_of
from braidwright.domain.materials import Materials, MeanBead, RowKinds, mean_bead, row_kinds
from braidwright.domain.prediction import Basis, Prediction
from braidwright.domain.strings import bead_counts
from braidwright.domain.twist import FAVOURED_DEG, drift_range, repeats_of, way_round
from braidwright.domain.units import MM_PER_INCH

TwistFrom = Literal["held", "hanging", "asked", "measured"]

MM_PER_KM = 1_000_000.0

# What the trade sees, for 8-cord kongoh gumi with a bead at every stitch and no core.
ACROSS_WINDOW = (2.1, 2.6)  # outside diameter over bead diameter; trade-facts 4.1, from memory
STRUNG_WINDOW = (1.75, 2.5)  # braid length over strung length; 2.0 [DAA], 2.14 to 2.25 by the solver
TAKE_UP_WINDOW = (1.2, 3.0)  # the trade cuts 2 to 3 times the finished length, ends included [KB][IT][NAT]
TRADE_COLUMNS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """What a design measures; None where nothing is known.

    Attributes:
        length_mm: Length of the rows; lead-in and lead-out come on top.
        diameter_mm: Outside diameter over the round beads.
        across_accents_mm: Widest across, with accents standing straight out on both sides.
        rise_mm: Length gained per row in the beaded part.
        drift_deg: Turn of a column per row, degrees clockwise.
        length_error_mm: How far the length may be off, plus or minus; None when that is not known. See `Spread`.
        diameter_error_mm: How far the diameter may be off.
        rise_error_mm: How far the rise may be off.
        drift_error_deg: How far the drift may be off; None unless the turn was measured.
        take_up_error: How far the take-up may be off.
        turn_rows: Rows in which a column goes once round, or None when it does not turn.
        turn_rows_range: Fewest and most rows that may turn out; None when the turn was measured.
        turn_mm: Length of one such turn.
        twist: What the drift rests on: the disk "held" still, work left "hanging", the degrees "asked" for in the
            design, or the turn "measured" on a swatch.
        core_mm: Thickness of the core cord; 0 without one.
        hollow_mm: Thickness of the core cord that would fill the hole along the axis, 0 for a rope that is not
            hollow; None where that is not known.
        weight_g: Beads and cord of the piece, findings left out.
        take_up: Cord used per length of braid in the beaded part.
        bare_take_up: Cord used per length of bare braid.
        lead_in_mm: Bare braid before the first row.
        lead_out_mm: Bare braid after the last row.
        beaded_mm: Of the length, what takes up cord as the beaded part does.
        cord_used_mm: What goes into the rows and the leads of one cord.
        basis: What rise and diameter rest on.
        notes: What is uncertain, left out or to be measured.
        warnings: What is unusual, in plain words.
    """

    length_mm: float | None
    diameter_mm: float | None
    across_accents_mm: float | None
    rise_mm: float | None
    drift_deg: float
    turn_rows: float | None
    turn_rows_range: tuple[float, float] | None
    turn_mm: float | None
    weight_g: float | None
    take_up: float | None
    bare_take_up: float | None
    lead_in_mm: float
    lead_out_mm: float
    beaded_mm: float | None
    cord_used_mm: float | None
    basis: Basis
    twist: TwistFrom = "held"
    core_mm: float = 0.0
    hollow_mm: float | None = None
    length_error_mm: float | None = None
    diameter_error_mm: float | None = None
    rise_error_mm: float | None = None
    drift_error_deg: float | None = None
    take_up_error: float | None = None
    notes: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()


def size_of(design: Design, materials: Materials, prediction: Prediction, warnings: tuple[str, ...] = ()) -> Size:
    """The size of a design of these materials, by this prediction.

    Args:
        design: The design.
        materials: Its cord and beads.
        prediction: The measures for each row.
        warnings: What was found unusual before, put first.
    """
    kinds, mean = row_kinds(design), mean_bead(design, materials)
    at_rise, at_bare = _rows_at(kinds, prediction)
    beaded = _times(at_rise, prediction.rise_mm)
    bare = _times(at_bare, prediction.bare_rise_mm)
    leads = design.lead_in + design.lead_out
    used = _sum(_product(beaded, prediction.take_up), _product(_sum(bare, leads), prediction.bare_take_up))
    grams, weight_notes = _weight(design, materials, used, _product(beaded, prediction.take_up))
    turn_rows = 360.0 / abs(prediction.drift_deg) if prediction.drift_deg else None
    turn_range, twist_notes = _twist(design, prediction)
    return Size(
        length_mm=_sum(beaded, bare),
        diameter_mm=prediction.diameter_mm,
        across_accents_mm=_across(prediction, mean),
        rise_mm=prediction.rise_mm,
        drift_deg=prediction.drift_deg,
        turn_rows=turn_rows,
        turn_rows_range=turn_range,
        turn_mm=_product(turn_rows, prediction.rise_mm),
        weight_g=grams,
        take_up=prediction.take_up,
        bare_take_up=prediction.bare_take_up,
        lead_in_mm=design.lead_in,
        lead_out_mm=design.lead_out,
        beaded_mm=beaded,
        cord_used_mm=used,
        basis=prediction.basis,
        twist=_twist_from(design, prediction),
        core_mm=materials.core_mm,
        hollow_mm=prediction.hollow_mm,
        length_error_mm=_sum(
            _times(at_rise, prediction.spread.rise_mm), _times(at_bare, prediction.spread.bare_rise_mm)
        ),
        diameter_error_mm=prediction.spread.diameter_mm,
        rise_error_mm=prediction.spread.rise_mm,
        drift_error_deg=prediction.spread.drift_deg,
        take_up_error=prediction.spread.take_up,
        notes=(*prediction.notes, *twist_notes, *weight_notes),
        warnings=(
            *warnings,
            *_holes(design, materials),
            *_hollow(materials, prediction),
            *_twist_unusual(design, prediction),
            *_unusual(design, prediction, kinds, mean),
        ),
    )


def _rows_at(kinds: RowKinds, prediction: Prediction) -> tuple[int, int]:
    """Rows that gain the rise, and rows that gain the bare rise.

    A measured rise is that of the pattern as it is, short gaps included.
    """
    pattern = kinds.beaded + kinds.part + kinds.stacked
    if kinds.plain:
        return kinds.bare, 0
    if prediction.basis == "corrected by a swatch":
        return pattern + kinds.gaps, kinds.bare - kinds.gaps
    return pattern, kinds.bare


def _times(rows: int, rise: float | None) -> float | None:
    return 0.0 if rows == 0 else _product(rows, rise)


def _product(one: float | None, other: float | None) -> float | None:
    if one == 0.0 or other == 0.0:
        return 0.0
    return None if one is None or other is None else one * other


def _sum(one: float | None, other: float | None) -> float | None:
    return None if one is None or other is None else one + other


def _across(prediction: Prediction, mean: MeanBead | None) -> float | None:
    """As solved; or else: the axis of the mean bead lies half a bead inside, and accents reach out from there."""
    diameter = prediction.diameter_mm
    if diameter is None or mean is None:
        return diameter
    if prediction.accents_add_mm is not None:
        return diameter + prediction.accents_add_mm
    return max(diameter, diameter - mean.diameter_mm + 2.0 * mean.reach_mm)


def _weight(
    design: Design, materials: Materials, used: float | None, in_rows: float | None
) -> tuple[float | None, tuple[str, ...]]:
    """Beads, and as much of the cord as is known: all of one cord, or only what its beaded rows use."""
    counts = bead_counts(design)
    beads = sum(materials.bead(key).grams * count for key, count in counts.items() if count)
    tex = materials.cord.tex
    rest = "the core cord and the findings" if materials.core_mm else "the findings"
    known = in_rows if used is None else used
    if tex is None or known is None:
        why = "its Tex is not known" if tex is None else "its take-up is not known"
        return beads or None, (
            f"The weight leaves out the cord, because {why}, {'' if materials.core_mm else 'and '}{rest}.",
        )
    bare = f"the cord of the bare braid{',' if materials.core_mm else ' and'} "
    out = bare + rest if used is None else rest
    return beads + known * design.braid.cord_count * tex / MM_PER_KM, (f"The weight leaves out {out}.",)


# Whose twist it is, as the end of a sentence.
WORKED: dict[TwistFrom, str] = {
    "held": "the disk gives when held still",
    "hanging": "that work takes when it hangs free and may turn",
    "asked": "that the design asks for",
    "measured": "that was measured",
}


def _twist_from(design: Design, prediction: Prediction) -> TwistFrom:
    """A drift is sure only when it was measured, and then it decides."""
    if prediction.spread.drift_deg is not None:
        return "measured"
    if design.twist is None:
        return "held"
    return design.twist.way or "asked"


def _twist(design: Design, prediction: Prediction) -> tuple[tuple[float, float] | None, tuple[str, ...]]:
    """Twist is soft: mechanics hardly prefers one value, so the range is told until it is measured."""
    how = _twist_from(design, prediction)
    if how == "measured":
        return None, ()
    kongoh = kongoh_of(design.braid)
    least, most = drift_range(design.twist, design.braid)
    if kongoh is None or least == 0.0:
        return None, (
            f"The twist is the one {WORKED[how]}; how a rope of this braid turns is not predicted yet, "
            f"so look at your swatch.",
        )
    low, high = 360.0 / most, 360.0 / least
    mm = ""
    if prediction.rise_mm is not None:
        mm = f" ({low * prediction.rise_mm:.0f} to {high * prediction.rise_mm:.0f} mm)"
    return (low, high), (
        f"Twist is soft: a column goes once round in {low:.0f} to {high:.0f} rows{mm}; "
        f"count the rows of one full turn on your swatch to know.",
    )


def _holes(design: Design, materials: Materials) -> tuple[str, ...]:
    """A sentence for each kind of bead used whose hole the cord does not suit."""
    used = dict.fromkeys(materials.bead(key) for key, count in bead_counts(design).items() if count)
    fits = [hole_fit(bead, materials.cord) for bead in used]
    return tuple(fit.sentence for fit in fits if not fit.suits)


def _hollow(materials: Materials, prediction: Prediction) -> tuple[str, ...]:
    """A hollow tube flattens; source: physics.md, 4 (tubes of 12 and 16 cords flatten) and [CORE1]."""
    wide, core = prediction.hollow_mm, materials.core_mm
    if not wide:
        return ()
    what = "The tube is hollow" if core == 0.0 else f"Round a core of {core:g} mm the tube is still hollow"
    return (f"{what}, so it flattens when it is worn: braid it round a core cord about {wide:.1f} mm thick.",)


def _twist_unusual(design: Design, prediction: Prediction) -> tuple[str, ...]:
    """A twist asked for that mechanics does not favour; source: physics.md, 5."""
    drift, way = prediction.drift_deg, way_round(design.braid)
    if _twist_from(design, prediction) != "asked" or kongoh_of(design.braid) is None:
        return ()
    if drift * way < 0.0:
        return (
            f"The design asks for {drift:g} degrees a row, against the way this braid turns of itself; "
            f"give {-drift:g} degrees, or braid a swatch and see.",
        )
    if abs(drift) > FAVOURED_DEG * repeats_of(design.braid):
        return (
            f"The design asks for {drift:g} degrees a row, more than a rope takes of itself "
            f"(about {FAVOURED_DEG * repeats_of(design.braid):g}); braid a swatch and see.",
        )
    return ()


def _unusual(design: Design, prediction: Prediction, kinds: RowKinds, mean: MeanBead | None) -> tuple[str, ...]:
    found = [_take_up_unusual(prediction)]
    full = kinds.beaded > 0 and kinds.part + kinds.stacked + kinds.gaps == 0 and design.cords.core is None
    kongoh = kongoh_of(design.braid)
    if mean is not None and full and kongoh is not None and kongoh.columns == TRADE_COLUMNS:
        found += [_across_unusual(prediction, mean), _beads_per_inch_unusual(design, prediction, mean)]
    return tuple(sentence for sentence in found if sentence)


def _take_up_unusual(prediction: Prediction) -> str | None:
    least, most = TAKE_UP_WINDOW
    if prediction.take_up is None or least <= prediction.take_up <= most:
        return None
    return (
        f"The cord used is {prediction.take_up:.2f} times the length of the braid, outside the {least:g} to {most:g} "
        f"times that makers see; braid a swatch before you cut."
    )


def _across_unusual(prediction: Prediction, mean: MeanBead) -> str | None:
    least, most = (factor * mean.diameter_mm for factor in ACROSS_WINDOW)
    if prediction.diameter_mm is None or least <= prediction.diameter_mm <= most:
        return None
    return (
        f"The rope is {prediction.diameter_mm:.1f} mm across, outside the {least:.1f} to {most:.1f} mm that makers see "
        f"with beads of {mean.diameter_mm:.1f} mm; check the beads and the cord, or braid a swatch."
    )


def _beads_per_inch_unusual(design: Design, prediction: Prediction, mean: MeanBead) -> str | None:
    if not prediction.rise_mm:
        return None
    found = design.width * MM_PER_INCH / prediction.rise_mm
    most, least = (2 * TRADE_COLUMNS * MM_PER_INCH / mean.length_mm / ratio for ratio in STRUNG_WINDOW)
    if least <= found <= most:
        return None
    return (
        f"The rope takes {found:.0f} beads an inch, outside the {least:.0f} to {most:.0f} that makers see with beads "
        f"{mean.length_mm:.1f} mm long; check the beads and the cord, or braid a swatch."
    )
