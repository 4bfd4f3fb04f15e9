"""symbols: what each name of `domain.tray.SYMBOLS` looks like. Nothing is told by colour only.

Every symbol is drawn in a box from -0.5 to 0.5 and told apart by its outline at 2.5 mm, without counting details.
"""

from dataclasses import dataclass
from math import cos, pi, sin

from braidwright.drawings.pen import Curve, Outline, Paint, Pen, Point

ROUND = 0.5523  # handle of a cubic curve that makes a quarter circle of radius 1
STROKE = 0.15


@dataclass(frozen=True, slots=True, kw_only=True)
class Symbol:
    """One symbol.

    Attributes:
        solids: Outlines to fill.
        strokes: Outlines to draw as lines, STROKE wide.
    """

    solids: tuple[Outline, ...] = ()
    strokes: tuple[Outline, ...] = ()


def chain(points: Curve, *, closed: bool = False) -> Outline:
    """Straight lines from point to point."""
    pieces = [("M", points[:1]), *(("L", (point,)) for point in points[1:])]
    if closed:
        pieces.append(("Z", ()))
    return Outline(pieces=tuple(pieces))


def round_outline(radius: float, centre: Point = (0.0, 0.0)) -> Outline:
    """A circle as an outline."""
    reach = ROUND * radius
    raw = Outline(
        pieces=(
            ("M", ((radius, 0.0),)),
            ("C", ((radius, reach), (reach, radius), (0.0, radius))),
            ("C", ((-reach, radius), (-radius, reach), (-radius, 0.0))),
            ("C", ((-radius, -reach), (-reach, -radius), (0.0, -radius))),
            ("C", ((reach, -radius), (radius, -reach), (radius, 0.0))),
            ("Z", ()),
        )
    )
    return raw.placed(centre, 1.0)


def box(left: float, top: float, right: float, bottom: float) -> Outline:
    """An upright rectangle."""
    return chain(((left, top), (right, top), (right, bottom), (left, bottom)), closed=True)


def star(points: int, outer: float, inner: float) -> Outline:
    """A star standing on two points."""
    corners = tuple(
        (radius * sin(pi * n / points), 0.04 - radius * cos(pi * n / points))
        for n in range(2 * points)
        for radius in (inner if n % 2 else outer,)
    )
    return chain(corners, closed=True)


HALF_MOON = Outline(
    pieces=(
        ("M", ((-0.2, -0.42),)),
        ("C", ((0.12, -0.42), (0.38, -0.24), (0.38, 0.0))),
        ("C", ((0.38, 0.24), (0.12, 0.42), (-0.2, 0.42))),
        ("Z", ()),
    )
)
WAVE = Outline(
    pieces=(
        ("M", ((-0.44, 0.06),)),
        ("C", ((-0.3, -0.34), (-0.14, -0.34), (0.0, 0.0))),
        ("C", ((0.14, 0.34), (0.3, 0.34), (0.44, -0.06))),
    )
)
LEAF = Outline(
    pieces=(
        ("M", ((-0.4, 0.4),)),
        ("C", ((-0.46, -0.2), (-0.1, -0.42), (0.4, -0.4))),
        ("C", ((0.42, 0.1), (0.2, 0.46), (-0.4, 0.4))),
        ("Z", ()),
    )
)
STEPS = chain(((-0.42, 0.38), (-0.14, 0.38), (-0.14, 0.0), (0.16, 0.0), (0.16, -0.38), (0.42, -0.38)))

GLYPHS: dict[str, Symbol] = {
    "dot": Symbol(solids=(round_outline(0.27),)),
    "ring": Symbol(strokes=(round_outline(0.33),)),
    "triangle": Symbol(solids=(chain(((0.0, -0.43), (0.45, 0.36), (-0.45, 0.36)), closed=True),)),
    "star": Symbol(solids=(star(5, 0.5, 0.2),)),
    "diamond": Symbol(strokes=(chain(((0.0, -0.44), (0.34, 0.0), (0.0, 0.44), (-0.34, 0.0)), closed=True),)),
    "bar": Symbol(solids=(box(-0.13, -0.44, 0.13, 0.44),)),
    "cross": Symbol(strokes=(chain(((-0.34, -0.34), (0.34, 0.34))), chain(((0.34, -0.34), (-0.34, 0.34))))),
    "square": Symbol(solids=(box(-0.34, -0.34, 0.34, 0.34),)),
    "half moon": Symbol(solids=(HALF_MOON,)),
    "wave": Symbol(strokes=(WAVE,)),
    "plus": Symbol(strokes=(chain(((0.0, -0.42), (0.0, 0.42))), chain(((-0.42, 0.0), (0.42, 0.0))))),
    "wedge": Symbol(strokes=(chain(((-0.36, -0.32), (0.0, 0.36), (0.36, -0.32))),)),
    "target": Symbol(solids=(round_outline(0.15),), strokes=(round_outline(0.39),)),
    "twin bars": Symbol(solids=(box(-0.34, -0.42, -0.12, 0.42), box(0.12, -0.42, 0.34, 0.42))),
    "hourglass": Symbol(
        solids=(
            chain(((-0.36, -0.42), (0.36, -0.42), (0.0, 0.04)), closed=True),
            chain(((-0.36, 0.42), (0.36, 0.42), (0.0, -0.04)), closed=True),
        )
    ),
    "leaf": Symbol(solids=(LEAF,)),
    "arrow": Symbol(
        strokes=(chain(((0.0, 0.44), (0.0, -0.36))), chain(((-0.3, -0.1), (0.0, -0.42), (0.3, -0.1)))),
    ),
    "zigzag": Symbol(strokes=(chain(((-0.42, 0.3), (-0.2, -0.32), (0.06, 0.3), (0.3, -0.32), (0.44, 0.06))),)),
    "steps": Symbol(strokes=(STEPS,)),
    "corner": Symbol(strokes=(chain(((-0.3, -0.4), (-0.3, 0.34), (0.4, 0.34))),)),
}  # fmt: skip


def draw_symbol(pen: Pen, name: str, at: Point, size: float, ink: str) -> None:
    """Draw a symbol.

    Args:
        pen: Drawn onto.
        name: One of `domain.tray.SYMBOLS`.
        at: Its middle.
        size: Width and height of its box, mm.
        ink: Its colour.
    """
    glyph = GLYPHS[name]
    for outline in glyph.solids:
        pen.path(outline.placed(at, size), Paint(fill=ink))
    for outline in glyph.strokes:
        pen.path(outline.placed(at, size), Paint(edge=ink, width=STROKE * size))
