"""Prediction: what a braid of these cords and beads is expected to measure, and what that rests on."""

from dataclasses import dataclass
from typing import Literal

Basis = Literal["estimated", "solved", "corrected by a swatch", "not predicted yet"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """How far each measure may be off, plus or minus, in the unit of the measure; None where that is not known.

    Of a swatch it is a standard error: the piece stays within it about two times in three. Of a formula it is how far
    the formula was seen to stray.

    Attributes:
        rise_mm: Of the rise in the beaded part.
        diameter_mm: Of the outside diameter.
        drift_deg: Of the drift; known only when the turn was measured, since twist is soft.
        take_up: Of the take-up in the beaded part.
        bare_rise_mm: Of the rise of bare rows.
    """

    rise_mm: float | None = None
    diameter_mm: float | None = None
    drift_deg: float | None = None
    take_up: float | None = None
    bare_rise_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Prediction:
    """The measures of a braid for each row; None where nothing is known.

    Attributes:
        rise_mm: Length gained per row in the beaded part, mm (of bare rows in a plain-cord braid).
        diameter_mm: Outside diameter over the round beads, mm.
        drift_deg: Turn of a column per row, degrees clockwise seen from above.
        take_up: Cord used per length of braid in the same part.
        bare_rise_mm: Length gained per bare row (lead-in, lead-out), mm.
        bare_take_up: Cord used per length of bare braid.
        basis: What rise and diameter rest on.
        accents_add_mm: How much wider the rope is where beads stand out on both sides; None to reckon it by them.
        hollow_mm: Width of the hole along the axis that no core fills, mm: a core so thick would. 0 for a rope that is
            not hollow, None where that is not known.
        spread: How far each measure may be off.
        notes: Sentences for the maker: what is uncertain, what was left out, what to measure.
    """

    rise_mm: float | None
    diameter_mm: float | None
    drift_deg: float
    take_up: float | None
    bare_rise_mm: float | None
    bare_take_up: float | None
    basis: Basis
    accents_add_mm: float | None = None
    hollow_mm: float | None = None
    spread: Spread = Spread()
    notes: tuple[str, ...] = ()
