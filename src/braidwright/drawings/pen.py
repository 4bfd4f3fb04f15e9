"""pen: what can be drawn, whatever it is drawn with. A drawing knows no file format.

Lengths are millimetres on the page; x grows to the right, y grows downward; angles are degrees, clockwise on the page.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Literal, Protocol

Point = tuple[float, float]
Curve = tuple[Point, ...]
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """A line made of pieces: each is a start ("M"), a straight ("L"), a cubic curve ("C") or the way back ("Z").

    Attributes:
        pieces: Pairs (letter, points): one point for M and L, three for C, none for Z.
    """

    pieces: tuple[tuple[str, Curve], ...]

    def placed(self, at: Point, scale: float) -> "Outline":
        """The same outline, enlarged and moved."""
        return Outline(
            pieces=tuple(
                (letter, tuple((at[0] + scale * x, at[1] + scale * y) for x, y in points))
                for letter, points in self.pieces
            )
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Gradient:
    """Colours running into each other, in shares of the shape they fill (0 to 1 each way).

    Attributes:
        kind: "radial" spreads from `focus` to the circle round `start` that goes through `end`; "linear" goes from
            `start` to `end`.
        stops: Pairs (share of the way, "#rrggbb").
        start: Where it begins; the centre of a radial one.
        end: Where it ends; a point of the rim of a radial one.
        focus: Where a radial one is brightest.
    """

    kind: Literal["radial", "linear"]
    stops: tuple[tuple[float, str], ...]
    start: Point
    end: Point
    focus: Point = (0.5, 0.5)


@dataclass(frozen=True, slots=True, kw_only=True)
class Paint:
    """How a shape is filled and edged.

    Attributes:
        fill: "#rrggbb", a gradient, or None for nothing.
        edge: "#rrggbb" of the line, or None for no line.
        width: Width of the line, mm.
        dash: Lengths of dashes and gaps, mm, or () for a whole line.
        opacity: 0 to 1.
        is_round: Whether the ends of the line are round, or else cut straight; its corners are round either way.
    """

    fill: str | Gradient | None = None
    edge: str | None = None
    width: float = 0.25
    dash: tuple[float, ...] = ()
    opacity: float = 1.0
    is_round: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Lettering:
    """How words are set.

    Attributes:
        size: Size of the type, mm.
        colour: "#rrggbb".
        anchor: Which part of the words stands at the point.
        is_bold: Whether bold.
        is_italic: Whether italic.
        family: Name of the type.
    """

    size: float
    colour: str
    anchor: Anchor = "start"
    is_bold: bool = False
    is_italic: bool = False
    family: str = "Libertinus Serif"


class Pen(Protocol):
    """Something that can draw.

    `of` names the thing a mark stands for, such as "stitch-3-2" (row 3, stitch 2), so that one bead can be found
    again in chart, rope, string and words.
    """

    def path(self, outline: Outline, paint: Paint, of: str = "") -> None:
        """Draw an outline."""

    def polygon(self, points: Curve, paint: Paint, of: str = "") -> None:
        """Draw a closed shape with straight sides."""

    def line(self, start: Point, end: Point, paint: Paint, of: str = "") -> None:
        """Draw a straight line."""

    def circle(self, centre: Point, radius: float, paint: Paint, of: str = "") -> None:
        """Draw a circle."""

    def ellipse(self, centre: Point, radii: Point, paint: Paint, angle: float = 0.0, of: str = "") -> None:
        """Draw an ellipse, turned by `angle` degrees."""

    def text(self, at: Point, words: str, lettering: Lettering, of: str = "") -> None:
        """Set words on a base line that goes through `at`."""

    def begin(self, title: str = "", of: str = "") -> None:
        """Open a group; what follows belongs to it until `end`."""

    def end(self) -> None:
        """Close the group opened last."""


@contextmanager
def group(pen: Pen, title: str = "", of: str = "") -> Iterator[None]:
    """Everything drawn inside belongs together."""
    pen.begin(title, of)
    yield
    pen.end()


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """One picture, ready for any pen.

    Attributes:
        name: Safe for file names and ids: small letters, figures and hyphens.
        width_mm: Width.
        height_mm: Height.
        title: What it is, in a few words.
        description: What it shows, in words, for those who do not see it.
        paint: Draws it onto a pen.
    """

    name: str
    width_mm: float
    height_mm: float
    title: str
    description: str
    paint: Callable[[Pen], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class PenKind:
    """A member of the family of pens.

    Attributes:
        name: Short name.
        draw: Draws a drawing and hands back the result: text for SVG, marks for the recording pen.
    """

    name: str
    draw: Callable[[Drawing], object]
