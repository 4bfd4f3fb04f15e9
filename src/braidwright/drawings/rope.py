"""rope: the finished rope lying along the page, first braided end at the left, from what is predicted.

Every stitch lies where physics.md, section 6, puts it: its column's even angle plus the drift so far, on a circle of
(diameter - bead) / 2, at the height of its row. Seen from outside with row 1 at the left, clockwise is upward.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate
from math import cos, floor, pi, radians, sin

from braidwright.domain.bead import Bead
from braidwright.domain.chart import columns, stations, surface_angle
from braidwright.domain.design import Design
from braidwright.domain.prediction import Prediction
from braidwright.domain.tray import BARE
from braidwright.domain.walk import stitch_cords
from braidwright.drawings.bead_solid import Place, draw_bead, reach_of
from braidwright.drawings.pen import Gradient, Paint, Pen
from braidwright.drawings.sheet import Subject
from braidwright.drawings.style import darker, drawn, edge_of, filled, lighter, mixed

TILT_DEG = 12.0  # lean of the holes, read off the solved shapes; from the pictures, not measured
SHADE = "#211a1c"  # what lies behind is seen in the shadow of what lies before


@dataclass(frozen=True, slots=True, kw_only=True)
class Rope:
    """A rope with known measures.

    Attributes:
        subject: What is drawn.
        rise: Length gained per row, mm.
        bare_rise: Length gained per wholly bare row, mm.
        diameter: Over the round beads, mm.
        drift: Turn of a column per row, degrees clockwise.
        turned_deg: The direction that faces the reader at the middle row, degrees clockwise from north.
        heights: The height of every row, from 0, and of the end, mm; wholly bare rows are lower than beaded ones.
    """

    subject: Subject
    rise: float
    bare_rise: float
    diameter: float
    drift: float
    turned_deg: float
    heights: tuple[float, ...]

    @property
    def design(self) -> Design:
        """The design."""
        return self.subject.design

    @property
    def tilt(self) -> float:
        """Lean of the holes, radians, upward along the page."""
        return radians(TILT_DEG if self.design.hand == "S" else -TILT_DEG)

    @property
    def bead_radius(self) -> float:
        """From the axis to the holes, mm: that of the commonest single bead."""
        commonest = [self.subject.bead(key) for key in self.design.drop_counts() if key != BARE]
        beads = [bead for bead in commonest if bead is not None]
        return max(0.3, (self.diameter - beads[0].diameter_mm) / 2.0) if beads else self.diameter / 2.0

    @property
    def reach(self) -> float:
        """From the axis to the farthest point of any bead in use, mm."""
        used = [self.subject.bead(one) for key in self.design.drop_counts() for one in self.design.tray.beads_of(key)]
        return max([self.diameter / 2.0, *(self.bead_radius + reach_of(bead) for bead in used if bead is not None)])


def rope_of(subject: Subject, *, from_back: bool = False) -> Rope | None:
    """The rope of a subject, or None while too little is predicted to draw it truly."""
    prediction = subject.prediction
    if prediction is None or prediction.rise_mm is None or prediction.diameter_mm is None:
        return None
    used = {one for key in subject.design.drop_counts() for one in subject.design.tray.beads_of(key)}
    if any(subject.bead(key) is None for key in used):
        return None
    bare_rise = _bare_rise(prediction, prediction.rise_mm) if subject.is_beaded else prediction.rise_mm
    per_row = [bare_rise if set(text) == {BARE} else prediction.rise_mm for text in subject.design.rows]
    return Rope(
        subject=subject,
        rise=prediction.rise_mm,
        bare_rise=bare_rise,
        heights=(0.0, *accumulate(per_row)),
        diameter=prediction.diameter_mm,
        drift=prediction.drift_deg,
        turned_deg=subject.design.front_line.deg + (180.0 if from_back else 0.0),
    )


def _bare_rise(prediction: Prediction, otherwise: float) -> float:
    return otherwise if prediction.bare_rise_mm is None else prediction.bare_rise_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A part of a rope on the page.

    Attributes:
        rope: The rope.
        first: First row, from 0.
        last: Row after the last.
        left: Where its first row begins on the page, mm.
        axis: Height of its axis on the page, mm.
        zoom: Millimetres on the page for one of the rope.
    """

    rope: Rope
    first: int
    last: int
    left: float
    axis: float
    zoom: float

    def along(self, height: float) -> float:
        """Where a height of the rope lies on the page."""
        return self.left + self.zoom * (height - self.rope.heights[self.first])

    @property
    def right(self) -> float:
        """Where its last row ends."""
        heights = self.rope.heights
        return self.left + self.zoom * (heights[self.last] - heights[self.first])


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """One stitch as it is seen: its key, its cord, its place and its name."""

    key: str
    cord: int
    place: Place
    of: str


def seen(stretch: Stretch) -> tuple[Seen, ...]:
    """Every stitch of a stretch, farthest first."""
    return tuple(sorted(_stitches(stretch), key=lambda stitch: stitch.place.depth))


def _stitches(stretch: Stretch) -> Iterator[Seen]:
    rope, braid = stretch.rope, stretch.rope.design.braid
    cords, heights, at = stitch_cords(braid, stretch.last), rope.heights, stations(braid)
    middle = (len(rope.design.rows) - 1) / 2.0
    radius = {key: _radius(rope, key) for key in rope.design.drop_counts()}
    for row in range(stretch.first, stretch.last):
        for stitch, key in enumerate(rope.design.rows[row]):
            angle = surface_angle(braid, stitch, row - middle, rope.drift) - rope.turned_deg
            height = heights[row] + at[stitch].step * (heights[row + 1] - heights[row])
            place = Place(
                along=stretch.along(height) + 0.5 * stretch.zoom * (heights[row + 1] - heights[row]),
                axis=stretch.axis,
                radius=radius[key],
                angle=radians(angle),
                tilt=rope.tilt,
                zoom=stretch.zoom,
            )
            yield Seen(key=key, cord=int(cords[row, stitch]), place=place, of=f"stitch-{row + 1}-{stitch + 1}")


def _radius(rope: Rope, key: str) -> float:
    """From the axis to the hole: bigger round beads sit farther out, so that all rest on the same core."""
    if key == BARE:
        return rope.bead_radius * 0.85
    bead = rope.subject.bead(rope.design.tray.beads_of(key)[0])
    ground = rope.diameter / 2.0 - rope.bead_radius
    if bead is None or bead.stands_out:
        return rope.bead_radius
    return max(0.3, rope.bead_radius + bead.diameter_mm / 2.0 - ground)


# --- beaded --------------------------------------------------------------------------------------------


def draw_stretch(pen: Pen, stretch: Stretch) -> None:
    """Draw a stretch of rope: what lies behind, the core, what lies before."""
    if not stretch.rope.subject.is_beaded:
        _draw_plaited(pen, stretch)
        return
    stitches = seen(stretch)
    behind = [stitch for stitch in stitches if stitch.place.depth < 0]
    before = [stitch for stitch in stitches if stitch.place.depth >= 0]
    for stitch in behind:
        _draw_stitch(pen, stretch, stitch)
    _draw_core(pen, stretch)
    for stitch in before:
        _draw_cord(pen, stretch, stitch)
    for stitch in before:
        _draw_stitch(pen, stretch, stitch)


def _draw_core(pen: Pen, stretch: Stretch) -> None:
    """The shade between the beads: the cords inside the rope."""
    rope = stretch.rope
    half = stretch.zoom * rope.bead_radius * 0.86
    inset = 0.5 * rope.rise * stretch.zoom
    left, right = stretch.left + inset, stretch.right - 0.2 * inset
    colour = darker(mixed(rope.design.cords.colour(0), "#3a2f2a", 0.4), 0.45)
    top, foot = stretch.axis - half, stretch.axis + half
    pen.polygon(((left, top), (right, top), (right, foot), (left, foot)), filled(colour))


def _draw_cord(pen: Pen, stretch: Stretch, stitch: Seen) -> None:
    """The bit of cord that runs out of a bead at both sides and dives under its neighbours."""
    colour = stretch.rope.design.cords.colour(stitch.cord)
    width = max(0.16, stretch.rope.subject.cord_mm) * stretch.zoom
    place, reach = stitch.place, 0.72 * stretch.rope.rise
    for side in (-1.0, 1.0):
        if not stretch.left < place.along + side * reach * place.zoom < stretch.right:
            continue
        start, end = place.point(), place.point(out=-0.35 * place.radius, along=side * reach)
        pen.line(start, end, drawn(edge_of(colour), width * 1.25))
        pen.line(start, end, drawn(mixed(colour, "#2a2521", 0.25), width * 0.85))


def _draw_stitch(pen: Pen, stretch: Stretch, stitch: Seen) -> None:
    subject = stretch.rope.subject
    if stitch.key == BARE:
        if stitch.place.depth >= 0:
            _draw_bare(pen, stretch, stitch)
        return
    keys = subject.design.tray.beads_of(stitch.key)
    beads = [bead for key in keys if (bead := subject.bead(key)) is not None]
    for (key, bead), place in zip(zip(keys, beads, strict=True), _side_by_side(stitch.place, beads), strict=True):
        colour = subject.colour(key) if place.depth >= 0 else mixed(subject.colour(key), SHADE, 0.38)
        draw_bead(pen, bead, (colour, subject.finish(key)), place, stitch.of)


def _side_by_side(place: Place, beads: list[Bead]) -> Iterator[Place]:
    """The places of the beads of one drop along their cord, middle on the stitch."""
    total = sum(bead.length_mm for bead in beads)
    at = -total / 2.0
    for bead in beads:
        middle = at + bead.length_mm / 2.0
        at += bead.length_mm
        yield Place(
            along=place.along + place.zoom * middle * cos(place.tilt),
            axis=place.axis - place.zoom * middle * sin(place.tilt) * cos(place.angle),
            radius=place.radius,
            angle=place.angle,
            tilt=place.tilt,
            zoom=place.zoom,
        )


def _draw_bare(pen: Pen, stretch: Stretch, stitch: Seen) -> None:
    """A stitch without a bead: the cord lies open."""
    colour = stretch.rope.design.cords.colour(stitch.cord)
    place, zoom = stitch.place, stretch.zoom
    half, thick = 0.62 * stretch.rope.rise * zoom, max(0.16, stretch.rope.subject.cord_mm) * zoom
    lean = -TILT_DEG * 2.0 if stretch.rope.design.hand == "S" else TILT_DEG * 2.0
    paint = Paint(fill=_cord_fill(colour), edge=edge_of(colour), width=0.05 * zoom)
    pen.ellipse(place.point(), (half, thick), paint, lean * cos(place.angle), stitch.of)


def _cord_fill(colour: str) -> Gradient:
    stops = ((0.0, lighter(colour, 0.3)), (0.55, colour), (1.0, darker(colour, 0.35)))
    return Gradient(kind="radial", stops=stops, start=(0.5, 0.5), end=(1.0, 0.5), focus=(0.4, 0.3))


# --- plain cord ----------------------------------------------------------------------------------------


def _draw_plaited(pen: Pen, stretch: Stretch) -> None:
    """A rope of cord only: every stitch a plump leaning grain of its cord, tucked under the next."""
    rope = stretch.rope
    half = stretch.zoom * rope.diameter * 0.42
    colour = darker(mixed(rope.design.cords.colour(0), "#3a2f2a", 0.35), 0.4)
    top, foot = stretch.axis - half, stretch.axis + half
    inset = 0.5 * rope.rise * stretch.zoom
    left, right = stretch.left + inset, stretch.right
    pen.polygon(((left, top), (right, top), (right, foot), (left, foot)), filled(colour))
    layer = 0.2 * rope.diameter
    for stitch in sorted(_stitches(stretch), key=lambda one: floor(one.place.depth / layer)):
        if stitch.place.depth > -layer:
            _draw_grain(pen, rope, stitch)


def _draw_grain(pen: Pen, rope: Rope, stitch: Seen) -> None:
    """One stitch of cord, as wide as its column and long enough to reach under its neighbours."""
    zoom, angle = stitch.place.zoom, stitch.place.angle
    lanes = len(columns(rope.design.braid))
    radius = 0.4 * rope.diameter
    along, across = 1.12 * rope.rise, 0.45 * pi * 2.0 * radius / max(2, lanes)
    colour = rope.design.cords.colour(stitch.cord)
    lean = (-24.0 if rope.design.hand == "S" else 24.0) * cos(angle)
    squeeze = 0.5 + 0.5 * abs(cos(angle))
    centre = (stitch.place.along, stitch.place.axis - zoom * radius * sin(angle))
    paint = Paint(fill=_cord_fill(colour), edge=edge_of(colour), width=0.06 * zoom)
    pen.ellipse(centre, (zoom * along, zoom * across * squeeze), paint, lean, stitch.of)


def description(rope: Rope, side: str) -> str:
    """What the picture shows, in words."""
    design, tray = rope.design, rope.design.tray
    counts = {key: n for key, n in design.drop_counts().items() if key != BARE}
    what = ", ".join(f"{n} {tray.name_of(key)}" for key, n in counts.items()) or "cord only, without beads"
    return (
        f"The rope of {design.title} lying along the page, {side}, first braided end at the left: "
        f"{len(design.rows)} rows, about {rope.heights[-1]:.0f} mm long and {rope.diameter:.1f} mm thick, {what}."
    )
