"""png: the few pictures that are posted and shown: the rope, the disk, the chart."""

from braidwright.drawings.format import File, Format, Written
from braidwright.drawings.pattern import HandPart, Pattern
from braidwright.drawings.prints import Print, prints
from braidwright.drawings.typesetter import drawing_png

PIXELS = 1600
MOST_CHARTS = 3  # a necklace has many; the SVG files hold them all
WORTH_SHOWING = (("rope-whole", 1), ("rope-worn", 1), ("rope-front", 1), ("setup-disk", 1), ("flat-chart", MOST_CHARTS))


def write(pattern: Pattern) -> Written:
    """The rope, the disk and the first bands of the chart, for each hand."""
    files: list[File] = []
    for part in pattern.hands:
        for picture in pictures(pattern, part):
            drawing = picture.drawing
            painted = drawing_png(picture.svg, drawing.width_mm, drawing.height_mm, PIXELS)
            files.append((f"pictures/hand-{part.hand.lower()}/{drawing.name}.png", painted))
    return Written(files=tuple(files))


def pictures(pattern: Pattern, part: HandPart) -> tuple[Print, ...]:
    """Which drawings are worth a PNG."""
    found: list[Print] = []
    for name, most in WORTH_SHOWING:
        found += prints(name, part.subject, pattern.page.look())[:most]
    return tuple(found)


FORMAT = Format(
    name="png",
    title="Painting the pictures",
    note=f"The rope, the disk and the chart, {PIXELS} pixels wide, to post and to show.",
    weight=0.45,
    write=write,
)
