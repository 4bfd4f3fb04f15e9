"""rope: the finished rope lying along the page, first braided end at the left, drawn from its geometry."""

from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate
from math import floor

import numpy as np

from braidwright.domain.design import Design
from braidwright.domain.geometry import Geometry
from braidwright.domain.prediction import Prediction
from braidwright.domain.tray import BARE
from braidwright.drawings.bare_stitches import BareStitches, bare_stitches
from braidwright.drawings.bead_solid import reach_of
from braidwright.drawings.pen import Pen
from braidwright.drawings.posing import Seen, Straight, pose_bare, pose_beads
from braidwright.drawings.rope_paint import core_colour, draw_cords, draw_grain, draw_seen, hole_radius
from braidwright.drawings.sheet import Subject
from braidwright.drawings.style import darker, filled, mixed

BARE_HALF = 0.62  # half the length of a bare stitch among beads, in rows; from the pictures, not measured


@dataclass(frozen=True, kw_only=True, eq=False)
class Rope:
    """A rope with known measures.

    Attributes:
        subject: What is drawn.
        geometry: Where its beads and cords lie.
        rise: Length gained per row, mm.
        bare_rise: Length gained per wholly bare row, mm.
        diameter: Over the round beads, mm.
        turned_deg: The direction that faces the reader at the middle row, degrees clockwise from north.
        heights: The height of every row, from 0, and of the end, mm; wholly bare rows are lower than beaded ones.
    """

    subject: Subject
    geometry: Geometry
    rise: float
    bare_rise: float
    diameter: float
    turned_deg: float
    heights: tuple[float, ...]

    @property
    def design(self) -> Design:
        """The design."""
        return self.subject.design

    @cached_property
    def bare(self) -> BareStitches:
        """The stitches without a bead."""
        return bare_stitches(self.design, self.geometry, self.heights)

    @cached_property
    def core_radius(self) -> float:
        """From the axis to the holes of most beads, mm."""
        return hole_radius(self.geometry)

    @cached_property
    def reach(self) -> float:
        """From the axis to the farthest point of any bead in use, mm."""
        reaches = {key: reach_of(bead) for key, bead in self.subject.beads}
        away = np.hypot(self.geometry.centres[:, 0], self.geometry.centres[:, 1]).tolist()
        outer: list[float] = [distance + reaches[key] for key, distance in zip(self.geometry.keys, away, strict=True)]
        return max([self.diameter / 2.0, *outer])


def rope_of(subject: Subject, *, from_back: bool = False) -> Rope | None:
    """The rope of a subject, or None while too little is predicted to draw it truly."""
    prediction, geometry = subject.prediction, subject.geometry
    if geometry is None or prediction is None or prediction.rise_mm is None or prediction.diameter_mm is None:
        return None
    if any(subject.bead(key) is None for key in set(geometry.keys)):
        return None
    bare_rise = _bare_rise(prediction, prediction.rise_mm) if subject.is_beaded else prediction.rise_mm
    per_row = [bare_rise if set(text) == {BARE} else prediction.rise_mm for text in subject.design.rows]
    share = geometry.length_mm / sum(per_row)
    return Rope(
        subject=subject,
        geometry=geometry,
        rise=share * prediction.rise_mm,
        bare_rise=share * bare_rise,
        heights=(0.0, *accumulate(share * rise for rise in per_row)),
        diameter=prediction.diameter_mm,
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
        return self.along(self.rope.heights[self.last])

    @property
    def pose(self) -> Straight:
        """How it lies."""
        return Straight(turned_deg=self.rope.turned_deg, left=self.along(0.0), axis=self.axis, zoom=self.zoom)


def seen(stretch: Stretch) -> tuple[Seen, ...]:
    """Every bead and every bare stitch of a stretch, farthest first."""
    rope, rows = stretch.rope, (stretch.first, stretch.last)
    found = [*pose_beads(rope.geometry, stretch.pose, rows), *pose_bare(rope.bare, stretch.pose, rows)]
    return tuple(sorted(found, key=lambda one: one.place.depth))


def draw_stretch(pen: Pen, stretch: Stretch) -> None:
    """Draw a stretch of rope: what lies behind, the core, what lies before."""
    rope = stretch.rope
    if not rope.subject.is_beaded:
        _draw_plaited(pen, stretch)
        return
    stitches = seen(stretch)
    for one in stitches:
        if one.place.depth < 0:
            draw_seen(pen, rope.subject, one, BARE_HALF * rope.rise)
    _draw_core(pen, stretch)
    span = (rope.heights[stretch.first] + 0.4 * rope.rise, rope.heights[stretch.last])
    draw_cords(pen, rope.subject, rope.geometry, stretch.pose, span)
    for one in stitches:
        if one.place.depth >= 0:
            draw_seen(pen, rope.subject, one, BARE_HALF * rope.rise)


def _draw_core(pen: Pen, stretch: Stretch) -> None:
    """The shade between the beads: the cords inside the rope."""
    rope = stretch.rope
    half = stretch.zoom * rope.core_radius * 0.86
    inset = 0.5 * rope.rise * stretch.zoom
    left, right = stretch.left + inset, stretch.right - 0.2 * inset
    top, foot = stretch.axis - half, stretch.axis + half
    pen.polygon(((left, top), (right, top), (right, foot), (left, foot)), filled(core_colour(rope.subject)))


def _draw_plaited(pen: Pen, stretch: Stretch) -> None:
    """A rope of cord only: every stitch a plump leaning grain of its cord, tucked under the next."""
    rope = stretch.rope
    half = stretch.zoom * rope.diameter * 0.42
    colour = darker(mixed(rope.design.cords.colour(0), "#3a2f2a", 0.35), 0.4)
    top, foot = stretch.axis - half, stretch.axis + half
    left, right = stretch.left + 0.5 * rope.rise * stretch.zoom, stretch.right
    pen.polygon(((left, top), (right, top), (right, foot), (left, foot)), filled(colour))
    layer = 0.2 * rope.diameter
    for one in sorted(seen(stretch), key=lambda each: (floor(each.place.depth / layer), each.place.at[0])):
        if one.place.depth > -layer:
            draw_grain(pen, rope.subject, one, (rope.rise, rope.diameter))


def description(rope: Rope, side: str) -> str:
    """What the picture shows, in words."""
    design, tray = rope.design, rope.design.tray
    counts = {key: n for key, n in design.drop_counts().items() if key != BARE}
    what = ", ".join(f"{n} {tray.name_of(key)}" for key, n in counts.items()) or "cord only, without beads"
    return (
        f"The rope of {design.title} lying along the page, {side}, first braided end at the left: "
        f"{len(design.rows)} rows, about {rope.heights[-1]:.0f} mm long and {rope.diameter:.1f} mm thick, {what}."
    )
