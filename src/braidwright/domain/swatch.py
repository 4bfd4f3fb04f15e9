"""Swatch: a short braid the maker made and measured."""

from dataclasses import dataclass

Extra = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Swatch:
    """What a maker measured on a sample of this braid, beads and cord.

    Attributes:
        rows: Rows counted.
        length_mm: Length of those rows, or None when not measured.
        diameter_mm: Outside diameter over the beads, or None.
        turn_rows: Rows in which a column goes once round the rope, or None.
        cord_used_mm: Length of one cord used up by those rows, or None.
        extra: Fields of the file this program does not know, kept.
    """

    rows: int
    length_mm: float | None = None
    diameter_mm: float | None = None
    turn_rows: float | None = None
    cord_used_mm: float | None = None
    extra: Extra = ()
