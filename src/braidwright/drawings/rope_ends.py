"""rope_ends: what stands round a rope: necks of bare braid, end caps, a ruler and row numbers."""

from math import floor

from braidwright.domain.materials import bare_diameter
from braidwright.drawings.pen import Gradient, Paint, Pen
from braidwright.drawings.rope import Rope, Stretch
from braidwright.drawings.style import SMALL_TYPE, SOFT_INK, darker, drawn, edge_of, lighter, type_

CAP_MM = 7.0
NECK_MM = 1.4  # bare braid seen between cap and first bead
METAL = "#b9b2a6"


def draw_neck(pen: Pen, stretch: Stretch, *, at_left: bool) -> None:
    """A neck of bare braid, to be drawn before the rope."""
    if not stretch.rope.subject.is_beaded:  # there the cords themselves run on into the cap
        return
    edge, sign = _end(stretch, at_left=at_left)
    half = stretch.zoom * neck_diameter(stretch.rope) / 2.0
    inner, outer = edge - sign * 1.2 * stretch.zoom, edge + sign * (NECK_MM + 1.0) * stretch.zoom
    _draw_neck(pen, stretch.rope, (inner, outer), stretch.axis, half)


def draw_cap(pen: Pen, stretch: Stretch, *, at_left: bool) -> None:
    """An end cap drawn plainly, to be drawn after the rope."""
    edge, sign = _end(stretch, at_left=at_left)
    neck = NECK_MM if stretch.rope.subject.is_beaded else 0.0
    mouth, back = edge + sign * neck * stretch.zoom, edge + sign * (neck + CAP_MM) * stretch.zoom
    tall = stretch.zoom * max(1.06 * neck_diameter(stretch.rope), 0.92 * stretch.rope.diameter) / 2.0
    _draw_cap(pen, (mouth, back), stretch.axis, tall)


def _end(stretch: Stretch, *, at_left: bool) -> tuple[float, float]:
    """Where an end of the rope lies, and which way is outward."""
    return (stretch.left, -1.0) if at_left else (stretch.right, 1.0)


def neck_diameter(rope: Rope) -> float:
    """How thick the bare braid is that runs into a cap, mm."""
    if not rope.subject.is_beaded:
        return rope.diameter
    return bare_diameter(rope.design.braid.cord_count, rope.subject.cord_mm)


def _draw_neck(pen: Pen, rope: Rope, ends: tuple[float, float], axis: float, half: float) -> None:
    colour = rope.design.cords.colour(0)
    left, right = min(ends), max(ends)
    stops = ((0.0, darker(colour, 0.4)), (0.35, lighter(colour, 0.15)), (1.0, darker(colour, 0.5)))
    fill = Gradient(kind="linear", stops=stops, start=(0.0, 0.0), end=(0.0, 1.0))
    top, foot = axis - half, axis + half
    pen.polygon(((left, top), (right, top), (right, foot), (left, foot)), Paint(fill=fill))
    slope = half if rope.design.hand == "S" else -half
    step = 0.55 * half
    for n in range(floor((right - left) / step) + 1):
        x = left + n * step
        pen.line((x - slope * 0.3, axis + half), (x + slope * 0.3, axis - half), drawn(edge_of(colour), 0.12))


def _draw_cap(pen: Pen, ends: tuple[float, float], axis: float, tall: float) -> None:
    mouth, back = ends
    stops = ((0.0, lighter(METAL, 0.1)), (0.28, lighter(METAL, 0.75)), (0.6, METAL), (1.0, darker(METAL, 0.4)))
    metal = Paint(
        fill=Gradient(kind="linear", stops=stops, start=(0.0, 0.0), end=(0.0, 1.0)),
        edge=darker(METAL, 0.45),
        width=0.15,
    )
    out = 1.0 if back > mouth else -1.0
    pen.circle((back + out * 0.18 * tall, axis), 0.24 * tall, drawn(darker(METAL, 0.35), 0.13 * tall))
    shoulder = back - out * 0.3 * tall
    body = ((mouth, axis - tall), (shoulder, axis - tall), (back, axis - 0.62 * tall), (back, axis + 0.62 * tall),
            (shoulder, axis + tall), (mouth, axis + tall))  # fmt: skip
    pen.polygon(body, metal)
    lip = mouth + out * 0.16 * tall
    pen.line((lip, axis - tall), (lip, axis + tall), drawn(darker(METAL, 0.3), 0.12))


def draw_ruler(pen: Pen, stretch: Stretch, y: float, scale: float) -> None:
    """Millimetres from the first row, a number every ten."""
    heights = stretch.rope.heights
    low, high = heights[stretch.first], heights[stretch.last]
    step = 10 if stretch.zoom * 10 >= 7.0 * scale else 20
    mark = 5 * floor(low / 5)
    while mark <= high + 1e-6:
        if mark >= low - 1e-6:
            x, is_main = stretch.along(mark), mark % step == 0
            pen.line((x, y + (0.0 if is_main else 0.9 * scale)), (x, y + 2.2 * scale), drawn(SOFT_INK, 0.18))
            if is_main:
                words = f"{mark} mm" if mark == 0 else str(mark)
                pen.text((x, y - 0.9 * scale), words, type_(SMALL_TYPE * scale, colour=SOFT_INK, anchor="middle"))
        mark += 5


def draw_row_numbers(pen: Pen, stretch: Stretch, y: float, scale: float) -> None:
    """Row numbers under the rope, one in ten, and the first."""
    heights = stretch.rope.heights
    free_from = 0.0
    for row in range(stretch.first, stretch.last):
        x = stretch.along((heights[row] + heights[row + 1]) / 2.0)
        is_first = row == stretch.first
        if is_first or ((row + 1) % 10 == 0 and x > free_from):
            pen.line((x, y - 3.2 * scale), (x, y - 2.4 * scale), drawn(SOFT_INK, 0.18))
            lettering = type_(SMALL_TYPE * scale, colour=SOFT_INK, anchor="start" if is_first else "middle")
            words = f"row {row + 1}" if is_first else str(row + 1)
            pen.text((max(0.0, x - 4.0 * scale) if is_first else x, y), words, lettering)
            free_from = x + 14.0 * scale
