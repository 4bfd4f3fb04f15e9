"""rope_bands: the rope in bands, larger than life, one under the other, from one side."""

from dataclasses import dataclass
from functools import partial
from math import ceil, floor

from braidwright.drawings.pen import Drawing, Pen
from braidwright.drawings.rope import Rope, Stretch, description, draw_stretch, rope_of
from braidwright.drawings.rope_ends import CAP_MM, NECK_MM, draw_cap, draw_neck, draw_row_numbers, draw_ruler
from braidwright.drawings.sheet import Look, Subject

END = CAP_MM + NECK_MM + 2.5
THICK = 13.0  # a beaded rope about this thick on the page shows every bead
RULER = 7.5
NUMBERS = 6.0
BETWEEN = 5.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Bands:
    """Bands that share one drawing: the rope, its bands (first row, row after the last) and their measures."""

    rope: Rope
    rows: tuple[tuple[int, int], ...]
    zoom: float
    scale: float

    @property
    def band_height(self) -> float:
        """Height of one band with its ruler and row numbers."""
        return (RULER + NUMBERS + BETWEEN) * self.scale + 2.0 * self.rope.reach * self.zoom


def draw_bands(subject: Subject, look: Look, *, from_back: bool) -> tuple[Drawing, ...]:
    """As many drawings as the height of a page asks for; none while the rope is not predicted."""
    rope = rope_of(subject, from_back=from_back)
    if rope is None:
        return ()
    zoom, stretches = _cut(rope, look)
    whole = Bands(rope=rope, rows=stretches, zoom=zoom, scale=look.text_scale)
    fit = max(1, floor(look.height_mm / whole.band_height))
    pages = [stretches[at : at + fit] for at in range(0, len(stretches), fit)]
    side = "back" if from_back else "front"
    return tuple(
        _drawing(Bands(rope=rope, rows=rows, zoom=zoom, scale=look.text_scale), look, side, number, len(pages))
        for number, rows in enumerate(pages, 1)
    )


def _cut(rope: Rope, look: Look) -> tuple[float, tuple[tuple[int, int], ...]]:
    """How large to draw, and which rows go into each band: even bands that fill the width."""
    length = rope.heights[-1] + 2.0 * END
    bands = max(1, ceil(length * THICK / rope.diameter / look.width_mm))
    rows = len(rope.design.rows)
    share = ceil(rows / bands)
    bands = ceil(rows / share)
    highest = max(rope.heights[min(at + share, rows)] - rope.heights[at] for at in range(0, rows, share))
    longest = highest + 2.2 * rope.rise + (2.0 if bands == 1 else 1.0) * END
    zoom = min(look.width_mm / longest, 1.6 * THICK / rope.diameter)
    return zoom, tuple((at, min(at + share, rows)) for at in range(0, rows, share))


def _drawing(bands: Bands, look: Look, side: str, number: int, count: int) -> Drawing:
    part = "" if count == 1 else f", part {number} of {count}"
    return Drawing(
        name=f"rope-{side}-{number}",
        width_mm=look.width_mm,
        height_mm=bands.band_height * len(bands.rows) - BETWEEN * bands.scale + 1.0,
        title=f"The rope, {side}{part}",
        description=description(bands.rope, f"seen from the {side}")
        + f" Rows {bands.rows[0][0] + 1} to {bands.rows[-1][1]}, in {len(bands.rows)} bands.",
        paint=partial(_paint, bands),
    )


def _paint(bands: Bands, pen: Pen) -> None:
    rows, rope, scale = len(bands.rope.design.rows), bands.rope, bands.scale
    for number, (first, last) in enumerate(bands.rows):
        top = number * bands.band_height
        stretch = Stretch(
            rope=rope,
            first=first,
            last=last,
            left=(END if first == 0 else 0.8 * rope.rise) * bands.zoom,
            axis=top + RULER * scale + rope.reach * bands.zoom,
            zoom=bands.zoom,
        )
        draw_ruler(pen, stretch, top + 3.8 * scale, scale)
        ends = [at_left for at_left, is_there in ((True, first == 0), (False, last == rows)) if is_there]
        for at_left in ends:
            draw_neck(pen, stretch, at_left=at_left)
        draw_stretch(pen, stretch)
        for at_left in ends:
            draw_cap(pen, stretch, at_left=at_left)
        draw_row_numbers(pen, stretch, top + bands.band_height - BETWEEN * scale, scale)
