"""recording: a pen that only remembers, so that tests can ask what was drawn."""

from dataclasses import dataclass

from braidwright.drawings.pen import Curve, Drawing, Lettering, Outline, Paint, PenKind, Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One thing that was drawn.

    Attributes:
        kind: "path", "polygon", "line", "circle", "ellipse", "text" or "group".
        points: Every point it was given, curve handles included.
        of: The thing it stands for.
        words: The words of a text, the title of a group.
        paint: How it was filled and edged; None for texts and groups.
        radii: Half its width and height, for circles and ellipses.
        lettering: How a text was set.
    """

    kind: str
    points: Curve = ()
    of: str = ""
    words: str = ""
    paint: Paint | None = None
    radii: Point = (0.0, 0.0)
    lettering: Lettering | None = None


class RecordingPen:
    """Remembers every mark, and how many groups are open."""

    def __init__(self) -> None:
        self.marks: list[Mark] = []
        self.depth = 0

    def path(self, outline: Outline, paint: Paint, of: str = "") -> None:
        """Remember an outline."""
        points = tuple(point for _, curve in outline.pieces for point in curve)
        self.marks.append(Mark(kind="path", points=points, paint=paint, of=of))

    def polygon(self, points: Curve, paint: Paint, of: str = "") -> None:
        """Remember a closed shape."""
        self.marks.append(Mark(kind="polygon", points=points, paint=paint, of=of))

    def line(self, start: Point, end: Point, paint: Paint, of: str = "") -> None:
        """Remember a line."""
        self.marks.append(Mark(kind="line", points=(start, end), paint=paint, of=of))

    def circle(self, centre: Point, radius: float, paint: Paint, of: str = "") -> None:
        """Remember a circle."""
        self.marks.append(Mark(kind="circle", points=(centre,), radii=(radius, radius), paint=paint, of=of))

    def ellipse(self, centre: Point, radii: Point, paint: Paint, angle: float = 0.0, of: str = "") -> None:
        """Remember an ellipse."""
        self.marks.append(Mark(kind="ellipse", points=(centre,), radii=radii, paint=paint, of=of))

    def text(self, at: Point, words: str, lettering: Lettering, of: str = "") -> None:
        """Remember words."""
        self.marks.append(Mark(kind="text", points=(at,), words=words, lettering=lettering, of=of))

    def begin(self, title: str = "", of: str = "") -> None:
        """Remember that a group was opened."""
        self.depth += 1
        self.marks.append(Mark(kind="group", words=title, of=of))

    def end(self) -> None:
        """Close a group."""
        self.depth -= 1


def record(drawing: Drawing) -> RecordingPen:
    """A drawing as a list of marks."""
    pen = RecordingPen()
    drawing.paint(pen)
    return pen


PEN = PenKind(name="recording", draw=record)
