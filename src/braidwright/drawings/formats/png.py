"""png: the few pictures that are posted and shown: the rope, the disk, the chart."""

from braidwright.drawings.format import File, Format, Written
from braidwright.drawings.pattern import HandPart, Pattern
from braidwright.drawings.pen import Drawing
from braidwright.drawings.pens.svg import render
from braidwright.drawings.sheet import Look
from braidwright.drawings.sheets import SHEETS
from braidwright.drawings.typesetter import drawing_png

PIXELS = 1600
MOST_CHARTS = 3  # a necklace has many; the SVG files hold them all
PLAIN = Look()


def write(pattern: Pattern) -> Written:
    """The rope, the disk and the first bands of the chart, for each hand."""
    files: list[File] = []
    for part in pattern.hands:
        for drawing in pictures(part):
            made = drawing_png(render(drawing), drawing.width_mm, drawing.height_mm, PIXELS)
            files.append((f"pictures/hand-{part.hand.lower()}/{drawing.name}.png", made))
    return Written(files=tuple(files))


def pictures(part: HandPart) -> tuple[Drawing, ...]:
    """Which drawings are worth a PNG."""
    found: list[Drawing] = []
    for name, most in (("rope-whole", 1), ("rope-front", 1), ("setup-disk", 1), ("flat-chart", MOST_CHARTS)):
        found += SHEETS[name].draw(part.subject, PLAIN)[:most]
    return tuple(found)


FORMAT = Format(
    name="png",
    title="Painting the pictures",
    note=f"The rope, the disk and the chart, {PIXELS} pixels wide, to post and to show.",
    weight=0.45,
    write=write,
)
