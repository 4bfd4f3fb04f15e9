"""svg: drawings as SVG text, the same bytes for the same drawing.

Written for browsers and for typesetters alike: plain shapes and gradients, no scripts, no style sheets. The first
children are the title and the description, which screen readers speak (W3C, SVG Accessibility API Mappings).
"""

from xml.sax.saxutils import escape, quoteattr

from braidwright.drawings.pen import (
    Curve,
    Drawing,
    Gradient,
    Lettering,
    Outline,
    Paint,
    PenKind,
    Point,
)

FALLBACKS = {"Libertinus Serif": "Georgia, serif", "DejaVu Sans Mono": "monospace"}


def number(value: float) -> str:
    """A length with a hundredth of a millimetre at most: "3", "0.25", never "-0"."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def clean(text: str) -> str:
    """Text without the characters that XML 1.0 cannot hold."""
    return "".join(sign for sign in text if _may_stand(ord(sign)))


def _may_stand(code: int) -> bool:
    if code < 0x20:
        return code in (0x9, 0xA, 0xD)
    return not (0xD800 <= code <= 0xDFFF or code in (0xFFFE, 0xFFFF))


class SvgPen:
    """Gathers SVG elements. Ids begin with the drawing's name, so that several drawings can share one page."""

    def __init__(self, name: str) -> None:
        self._name = name
        self._gradients: dict[Gradient, str] = {}
        self._elements: list[str] = []

    def path(self, outline: Outline, paint: Paint, of: str = "") -> None:
        """Draw an outline."""
        data = "".join(letter + _points(points) for letter, points in outline.pieces)
        self._add(f'<path d="{data}"', paint, of)

    def polygon(self, points: Curve, paint: Paint, of: str = "") -> None:
        """Draw a closed shape with straight sides."""
        self._add(f'<polygon points="{_points(points)}"', paint, of)

    def line(self, start: Point, end: Point, paint: Paint, of: str = "") -> None:
        """Draw a straight line."""
        ends = zip(("x1", "y1", "x2", "y2"), (*start, *end), strict=True)
        self._add("<line " + " ".join(f'{key}="{number(value)}"' for key, value in ends), paint, of)

    def circle(self, centre: Point, radius: float, paint: Paint, of: str = "") -> None:
        """Draw a circle."""
        x, y = centre
        self._add(f'<circle cx="{number(x)}" cy="{number(y)}" r="{number(radius)}"', paint, of)

    def ellipse(self, centre: Point, radii: Point, paint: Paint, angle: float = 0.0, of: str = "") -> None:
        """Draw an ellipse, turned by `angle` degrees."""
        x, y = (number(value) for value in centre)
        start = f'<ellipse cx="{x}" cy="{y}" rx="{number(radii[0])}" ry="{number(radii[1])}"'
        if number(angle) != "0":
            start += f' transform="rotate({number(angle)} {x} {y})"'
        self._add(start, paint, of)

    def text(self, at: Point, words: str, lettering: Lettering, of: str = "") -> None:
        """Set words on a base line that goes through `at`."""
        family = f"{lettering.family}, {FALLBACKS.get(lettering.family, 'serif')}"
        parts = [
            f'<text x="{number(at[0])}" y="{number(at[1])}" font-family={quoteattr(family)}',
            f'font-size="{number(lettering.size)}" fill="{lettering.colour}"',
        ]
        if lettering.anchor != "start":
            parts.append(f'text-anchor="{lettering.anchor}"')
        if lettering.is_bold:
            parts.append('font-weight="bold"')
        if lettering.is_italic:
            parts.append('font-style="italic"')
        self._elements.append(f"{' '.join(parts)}{_of(of)}>{escape(clean(words))}</text>")

    def begin(self, title: str = "", of: str = "") -> None:
        """Open a group."""
        self._elements.append(f"<g{_of(of)}>" + (f"<title>{escape(clean(title))}</title>" if title else ""))

    def end(self) -> None:
        """Close the group opened last."""
        self._elements.append("</g>")

    def finished(self, drawing: Drawing) -> str:
        """The whole SVG document."""
        width, height = number(drawing.width_mm), number(drawing.height_mm)
        name = drawing.name
        head = (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
            f'viewBox="0 0 {width} {height}" role="img" aria-labelledby="{name}-title {name}-desc" '
            'stroke-linecap="round" stroke-linejoin="round">'
        )
        says = [
            f'<title id="{name}-title">{escape(clean(drawing.title))}</title>',
            f'<desc id="{name}-desc">{escape(clean(drawing.description))}</desc>',
        ]
        fills = [_gradient(gradient, ident) for gradient, ident in self._gradients.items()]
        defs = ["<defs>", *fills, "</defs>"] if fills else []
        return "\n".join([head, *says, *defs, *self._elements, "</svg>", ""])

    def _add(self, start: str, paint: Paint, of: str) -> None:
        self._elements.append(f"{start}{self._paint(paint)}{_of(of)}/>")

    def _paint(self, paint: Paint) -> str:
        said = [f' fill="{self._fill(paint.fill)}"']
        if paint.edge is not None:
            said.append(f' stroke="{paint.edge}" stroke-width="{number(paint.width)}"')
            if not paint.is_round:
                said.append(' stroke-linecap="butt"')
            if paint.dash:
                said.append(f' stroke-dasharray="{" ".join(number(part) for part in paint.dash)}"')
        if paint.opacity < 1.0:
            said.append(f' opacity="{number(paint.opacity)}"')
        return "".join(said)

    def _fill(self, fill: str | Gradient | None) -> str:
        if fill is None or isinstance(fill, str):
            return fill or "none"
        ident = self._gradients.setdefault(fill, f"{self._name}-fill-{len(self._gradients) + 1}")
        return f"url(#{ident})"


def _of(of: str) -> str:
    return f" data-of={quoteattr(clean(of))}" if of else ""


def _points(points: Curve) -> str:
    return " ".join(f"{number(x)} {number(y)}" for x, y in points)


def _gradient(gradient: Gradient, ident: str) -> str:
    (x1, y1), (x2, y2) = gradient.start, gradient.end
    if gradient.kind == "linear":
        values = {"x1": x1, "y1": y1, "x2": x2, "y2": y2}
    else:
        radius = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
        values = {"cx": x1, "cy": y1, "r": radius, "fx": gradient.focus[0], "fy": gradient.focus[1]}
    where = " ".join(f'{key}="{number(value)}"' for key, value in values.items())
    stops = "".join(f'<stop offset="{number(share)}" stop-color="{colour}"/>' for share, colour in gradient.stops)
    return f'<{gradient.kind}Gradient id="{ident}" {where}>{stops}</{gradient.kind}Gradient>'


def render(drawing: Drawing) -> str:
    """A drawing as SVG text."""
    pen = SvgPen(drawing.name)
    drawing.paint(pen)
    return pen.finished(drawing)


PEN = PenKind(name="svg", draw=render)
