"""prints: the drawings of a sheet with their SVG text, drawn once however many formats ask for them."""

from dataclasses import dataclass
from functools import lru_cache

from braidwright.drawings.pen import Drawing
from braidwright.drawings.pens.svg import render
from braidwright.drawings.sheet import Look, Subject
from braidwright.drawings.sheets import SHEETS

KEPT = 96  # more than the sheets of two hands; a long necklace's are some ten million signs


@dataclass(frozen=True, slots=True, kw_only=True)
class Print:
    """A drawing, drawn.

    Attributes:
        drawing: The drawing.
        svg: Its SVG text.
    """

    drawing: Drawing
    svg: str


@lru_cache(maxsize=KEPT)
def prints(name: str, subject: Subject, look: Look) -> tuple[Print, ...]:
    """Every drawing of the sheet of this name; () when there is nothing true to draw."""
    return tuple(printed(drawing) for drawing in SHEETS[name].draw(subject, look))


def printed(drawing: Drawing) -> Print:
    """One drawing, drawn."""
    return Print(drawing=drawing, svg=render(drawing))
