"""rope: the finished rope lying along the page, first braided end at the left, drawn from its geometry."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from braidwright.domain.design import Design
from braidwright.domain.geometry import FloatArray, Geometry
from braidwright.domain.tray import BARE
from braidwright.drawings.bare_stitches import BareStitch, bare_stitches, resting_rows
from braidwright.drawings.pen import Pen
from braidwright.drawings.posing import Pose, Seen, Straight, frame, pose_beads
from braidwright.drawings.rope_paint import core_colour, draw_cords, draw_seen
from braidwright.drawings.sheet import Subject
from braidwright.drawings.style import filled
from braidwright.drawings.tubes import Piece, draw_piece, pieces

CORE_SHARE = 0.6  # of the way from the axis to the holes is dark between the beads; from the pictures
USUAL = 0.95  # of all beads lie no farther out than the usual ones


@dataclass(frozen=True, kw_only=True, eq=False)
class Rope:
    """A rope whose shape is known.

    Attributes:
        subject: What is drawn.
        geometry: Where its beads and cords lie.
        rise: Length gained in most rows, mm; those that hold a bead, if any does.
        diameter: Over the round beads, mm.
        turned_deg: The direction that faces the reader at the middle row, degrees clockwise from north.
        heights: The height of every row, from 0, and of the end, mm; wholly bare rows are lower than beaded ones.
    """

    subject: Subject
    geometry: Geometry
    rise: float
    diameter: float
    turned_deg: float
    heights: tuple[float, ...]

    @property
    def design(self) -> Design:
        """The design."""
        return self.subject.design

    @cached_property
    def bare(self) -> tuple[BareStitch, ...]:
        """The stitches without a bead; of a rope of cord only, those of the leads next to them too."""
        return bare_stitches(
            self.design, self.geometry, 0 if self.subject.is_beaded else resting_rows(self.design.braid)
        )

    @cached_property
    def reach(self) -> float:
        """From the axis to the farthest point of any bead in use, mm."""
        return float(max([self.diameter / 2.0, *self.geometry.reaches.tolist()]))

    def core(self, sense: int) -> FloatArray:
        """Half the width of what shows between the beads, in every row, mm.

        Args:
            sense: Across which direction: 1 for the one up the page, 2 for the one toward the reader (`posing.frame`).
        """
        direction = frame(self.turned_deg)[sense]
        points = np.concatenate(self.geometry.cords)
        inside = points[(points[:, 2] >= 0.0) & (points[:, 2] < self.heights[-1])]
        half = np.zeros(len(self.heights) - 1)
        rows = np.searchsorted(self.geometry.heights, inside[:, 2], side="right") - 1
        np.maximum.at(half, rows, np.abs(inside @ direction))
        if self.geometry.keys:  # a few bigger beads lie farther out
            half = np.minimum(half, np.quantile(np.abs(self.geometry.centres @ direction), USUAL))
        narrowed: FloatArray = CORE_SHARE * half
        return narrowed


def rope_of(subject: Subject, *, from_back: bool = False) -> Rope | None:
    """The rope of a subject, or None while its shape is not known."""
    geometry = subject.geometry
    if geometry is None or any(subject.bead(key) is None for key in set(geometry.keys)):
        return None
    rises = np.diff(geometry.heights)
    own = rises[[set(text) != {BARE} for text in subject.design.rows]]
    told = None if subject.prediction is None else subject.prediction.diameter_mm
    return Rope(
        subject=subject,
        geometry=geometry,
        rise=float(np.median(own if own.size else rises)),
        heights=tuple(geometry.heights.tolist()),
        diameter=_thickness(subject, geometry) if told is None else told,
        turned_deg=subject.design.front_line.deg + (180.0 if from_back else 0.0),
    )


def _thickness(subject: Subject, geometry: Geometry) -> float:
    """Over most beads, or over the cords of a rope that has none, mm."""
    across = np.median(geometry.reaches) if geometry.keys else geometry.hole_radius + subject.cord_mm / 2.0
    return 2.0 * float(across)


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
    """Every bead of a stretch, farthest first."""
    found = pose_beads(stretch.rope.geometry, stretch.pose, (stretch.first, stretch.last))
    return tuple(sorted(found, key=lambda one: one.place.depth))


def draw_stretch(pen: Pen, stretch: Stretch) -> None:
    """Draw a stretch of rope: what lies behind, the core, what lies before."""
    rope, beads = stretch.rope, seen(stretch)
    for one in beads:
        if one.place.depth < 0:
            draw_seen(pen, rope.subject, one)
    _draw_core(pen, stretch)
    if rope.subject.is_beaded:
        span = (rope.heights[stretch.first] + 0.4 * rope.rise, rope.heights[stretch.last])
        draw_cords(pen, rope.subject, rope.geometry, stretch.pose, span)
    draw_near(pen, rope, stretch.pose, beads, (stretch.first, stretch.last))


def draw_near(pen: Pen, rope: Rope, pose: Pose, beads: Iterable[Seen], rows: tuple[int, int]) -> None:
    """What lies before the core, farthest first: beads and open cord.

    Args:
        pen: Drawn onto.
        rope: The rope.
        pose: How it lies.
        beads: Its beads; those behind are left out.
        rows: The first row and the row after the last one.
    """
    near: list[Seen | Piece] = [one for one in beads if one.place.depth >= 0]
    near += _open_cord(rope, pose, rows)
    for one in sorted(near, key=lambda each: each.place.depth if isinstance(each, Seen) else each.depth):
        if isinstance(one, Seen):
            draw_seen(pen, rope.subject, one)
        else:
            draw_piece(pen, rope.subject, one, pose.zoom)


def _open_cord(rope: Rope, pose: Pose, rows: tuple[int, int]) -> Iterator[Piece]:
    """The cord that lies open in some rows; of a rope of cord only, cut straight where they begin and end."""
    cord_mm = rope.subject.cord_mm
    if not rope.subject.is_beaded:
        # the cord of a stitch reaches into the rows before and after
        more = resting_rows(rope.design.braid)
        bare = [one for one in rope.bare if rows[0] - more <= one.row < rows[1] + more]
        yield from pieces(bare, pose, cord_mm, deepest=-cord_mm, span=_plain_span(rope, rows))
        return
    bare = [one for one in rope.bare if rows[0] <= one.row < rows[1]]
    facing = pose.points(np.array([one.line[one.middle] for one in bare]).reshape(-1, 3))[:, 2] >= 0
    near = [one for one, is_facing in zip(bare, facing, strict=True) if is_facing]  # beads hide what lies behind
    span = (rope.heights[rows[0]], rope.heights[rows[1]] + 0.4 * rope.rise)  # the last stitches lie that far up
    yield from pieces(near, pose, cord_mm, deepest=0.0, span=span)


def _plain_span(rope: Rope, rows: tuple[int, int]) -> tuple[float, float]:
    """The heights between which some rows of cord only are drawn: at the ends of the rope, into the end caps."""
    low, high = rope.heights[rows[0]], rope.heights[rows[1]]
    first, last = rows[0] == 0, rows[1] == len(rope.design.rows)
    return low - (0.8 * rope.rise if first else 0.0), high + (0.8 * rope.rise if last else 0.0)


def _draw_core(pen: Pen, stretch: Stretch) -> None:
    """The shade between the beads: the cords inside the rope."""
    rope = stretch.rope
    heights = rope.geometry.heights[stretch.first : stretch.last + 1].copy()
    half = np.interp(heights, (rope.geometry.heights[:-1] + rope.geometry.heights[1:]) / 2.0, rope.core(1))
    if rope.subject.is_beaded:
        heights[0] += 0.5 * rope.rise
        heights[-1] -= 0.1 * rope.rise
    else:
        heights[0], heights[-1] = _plain_span(rope, (stretch.first, stretch.last))
    edge = [(stretch.along(z), stretch.zoom * wide) for z, wide in zip(heights.tolist(), half.tolist(), strict=True)]
    outline = [(x, stretch.axis - y) for x, y in edge] + [(x, stretch.axis + y) for x, y in edge[::-1]]
    pen.polygon(tuple(outline), filled(core_colour(rope.subject)))


def description(rope: Rope, side: str) -> str:
    """What the picture shows, in words."""
    design, tray = rope.design, rope.design.tray
    counts = {key: n for key, n in design.drop_counts().items() if key != BARE}
    what = ", ".join(f"{n} {tray.name_of(key)}" for key, n in counts.items()) or "cord only, without beads"
    return (
        f"The rope of {design.title} lying along the page, {side}, first braided end at the left: "
        f"{len(design.rows)} rows, about {rope.heights[-1]:.0f} mm long and {rope.diameter:.1f} mm thick, {what}."
    )
