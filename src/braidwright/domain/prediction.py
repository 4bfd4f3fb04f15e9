"""Prediction: what a braid of these cords and beads is expected to measure, and what that rests on."""

from dataclasses import dataclass
from typing import Literal

Basis = Literal["estimated", "solved", "corrected by a swatch", "not predicted yet"]


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
        notes: Sentences for the maker: what is uncertain, what was left out, what to measure.
    """

    rise_mm: float | None
    diameter_mm: float | None
    drift_deg: float
    take_up: float | None
    bare_rise_mm: float | None
    bare_take_up: float | None
    basis: Basis
    notes: tuple[str, ...] = ()
