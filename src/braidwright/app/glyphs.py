"""The symbols of beads as outlines, so that a screen draws the ones that are printed."""

from dataclasses import dataclass

from braidwright.drawings.pen import Outline
from braidwright.drawings.symbols import GLYPHS, STROKE


@dataclass(frozen=True, slots=True, kw_only=True)
class Glyph:
    """One symbol in a box from -0.5 to 0.5.

    Attributes:
        name: What it shows, in words.
        solids: SVG path data to fill.
        strokes: SVG path data to draw as lines.
        stroke: How wide the lines are.
    """

    name: str
    solids: tuple[str, ...]
    strokes: tuple[str, ...]
    stroke: float


def glyphs() -> tuple[Glyph, ...]:
    """All symbols."""
    return tuple(
        Glyph(
            name=name,
            solids=tuple(map(_path, symbol.solids)),
            strokes=tuple(map(_path, symbol.strokes)),
            stroke=STROKE,
        )
        for name, symbol in GLYPHS.items()
    )


def _path(outline: Outline) -> str:
    return "".join(letter + " ".join(f"{x:.4g} {y:.4g}" for x, y in points) for letter, points in outline.pieces)
