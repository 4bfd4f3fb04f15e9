"""rope worn: the bracelet round a wrist, seen from the hand along the arm, clasp underneath, front outward.

Only a piece that fits a wrist is drawn: a necklace hangs in no ellipse. That a wrist is three quarters as high as it is
wide is our own choice, as is that the bracelet rests on it at the top.
"""

from dataclasses import dataclass
from functools import partial
from math import cos, pi, radians, sin

import numpy as np

from braidwright.domain.bead import REACHES
from braidwright.domain.comfort import pressing
from braidwright.domain.fit import bracelet_wrist_mm
from braidwright.domain.geometry import FloatArray
from braidwright.domain.units import print_both
from braidwright.drawings.bead_solid import draw_bead, reach_of
from braidwright.drawings.pen import Drawing, Gradient, Paint, Pen, Point
from braidwright.drawings.posing import Bent, EndOn, Ring, Seen, frame, pose_beads, ring_of
from braidwright.drawings.rope import Rope, draw_near, rope_of
from braidwright.drawings.rope_ends import CAP_MM, METAL, NECK_MM, neck_diameter
from braidwright.drawings.rope_paint import core_colour, draw_cords, draw_seen
from braidwright.drawings.sheet import Look, Sheet, Subject
from braidwright.drawings.style import (
    ACCENT,
    INK,
    LARGE_TYPE,
    PLAIN_TYPE,
    SMALL_TYPE,
    SOFT_INK,
    darker,
    drawn,
    edge_of,
    filled,
    lighter,
    type_,
)  # fmt: skip

HEIGHT_OF_WIDTH = 0.75
LEAST_ZOOM, MOST_ZOOM = 0.3, 1.5
MOST_SECTION = 10.0  # half the width of the section, mm
RING_SHARE = 0.66  # of the width of the page; the rest is for the section
SKIN, SKIN_EDGE, ARC = "#f8ecdb", "#e0c8a8", "#e6c79d"
LETTER = 0.46  # about how wide a letter of the house type is, in shares of its size
STEPS = 160


@dataclass(frozen=True, slots=True, kw_only=True)
class Worn:
    """A bracelet on a wrist, on the page.

    Attributes:
        rope: The rope.
        wrist: Girth of the wrist, mm.
        findings: What caps and clasp add, mm.
        pose: How the rope lies.
        width: Of the picture, mm.
        height: Of the picture, mm.
        scale: Of the text.
        felt: The beads that stand out and lie in the comfort arc.
    """

    rope: Rope
    wrist: float
    findings: float
    pose: Bent
    width: float
    height: float
    scale: float
    felt: tuple[Seen, ...]

    @property
    def radius(self) -> float:
        """Half the thickness of the rope, mm."""
        return self.rope.diameter / 2.0

    @property
    def arc(self) -> float:
        """The comfort arc, degrees."""
        return self.rope.design.front_line.arc_deg


def draw(subject: Subject, look: Look) -> tuple[Drawing, ...]:
    """One drawing; none for a piece that goes round no wrist, or while its size is not predicted."""
    rope = rope_of(subject)
    if rope is None or subject.findings_mm is None:
        return ()
    finished = rope.heights[-1] + subject.findings_mm
    wrist = bracelet_wrist_mm(finished, rope.diameter)
    if wrist is None:
        return ()
    ring = ring_of(finished - pi * rope.diameter, HEIGHT_OF_WIDTH)
    room = _room(look, ring, rope)
    pose = Bent(
        ring=ring,
        distance=rope.diameter / 2.0,
        start=subject.findings_mm / 2.0,
        turned_deg=rope.turned_deg,
        centre=(RING_SHARE * look.width_mm / 2.0, room.above + room.half),
        zoom=room.zoom,
    )
    worn = Worn(
        rope=rope,
        wrist=wrist,
        findings=subject.findings_mm,
        pose=pose,
        width=look.width_mm,
        height=room.above + 2.0 * room.half + room.below,
        scale=look.text_scale,
        felt=felt(rope, pose),
    )
    return (
        Drawing(
            name="rope-worn",
            width_mm=look.width_mm,
            height_mm=worn.height,
            title=f"{subject.design.title}, as worn",
            description=_description(worn),
            paint=partial(_paint, worn),
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """How the height is shared out: mm above, half the height of ring and section, mm below, and the zoom."""

    above: float
    half: float
    below: float
    zoom: float


def _room(look: Look, ring: Ring, rope: Rope) -> Room:
    """As large as the page allows."""
    small = SMALL_TYPE * look.text_scale
    above, below = 2.0 * LARGE_TYPE * look.text_scale, 5.2 * small
    beyond = rope.diameter / 2.0 + rope.reach
    wide, high = (2.0 * (half + beyond) for half in ring.half)
    tallest = (look.height_mm - above - below) / high
    zoom = max(LEAST_ZOOM, min(MOST_ZOOM, RING_SHARE * look.width_mm / wide, tallest))
    section = 1.2 * MOST_SECTION + 3.4 * small
    return Room(above=above, half=max(zoom * high / 2.0, section), below=below, zoom=zoom)


def felt(rope: Rope, pose: Bent) -> tuple[Seen, ...]:
    """The beads of the stitches that would be felt in the comfort arc."""
    beads = dict(rope.subject.beads)
    found = pressing(rope.design, beads.__getitem__, 0.0, rope.geometry)
    stitches = {f"stitch-{one.at.row}-{one.at.stitch}" for one in found}
    return tuple(one for one in pose_beads(rope.geometry, pose, (0, len(rope.design.rows))) if one.of in stitches)


def _told(worn: Worn) -> str:
    """What lies in the comfort arc, in words."""
    if worn.rope.design.front is None:
        return "No side is named as the front, so every side may lie on the skin."
    stitches = len({one.of for one in worn.felt})
    if stitches == 0:
        return "Nothing that stands out lies against the skin."
    what = "stitch that stands" if stitches == 1 else "stitches that stand"
    return f"{stitches} {what} out would lie against the skin."


def _description(worn: Worn) -> str:
    design = worn.rope.design
    return (
        f"The bracelet {design.title} closed round a wrist of {print_both(worn.wrist)}, seen from the hand along the "
        f"arm: an oval with the clasp underneath and row 1 to the left of it, the front of the rope looking outward, "
        f"the back on the skin, where a comfort arc of {worn.arc:.0f} degrees is shaded. {_told(worn)}"
    )


# --- the picture ----------------------------------------------------------------------------------------


def _paint(worn: Worn, pen: Pen) -> None:
    _draw_wrist(pen, worn)
    _draw_arc(pen, worn)
    _draw_ends(pen, worn, is_neck=True)
    _draw_rope(pen, worn)
    _draw_ends(pen, worn, is_neck=False)
    _draw_clasp(pen, worn)
    stitches = [[one for one in worn.felt if one.of == of] for of in dict.fromkeys(one.of for one in worn.felt)]
    for beads in stitches:
        _mark(pen, worn, beads[len(beads) // 2])
    _draw_words(pen, worn)
    _draw_section(pen, worn)


def _draw_wrist(pen: Pen, worn: Worn) -> None:
    """A soft shape that fills the bracelet but for the ease, hanging room below."""
    wrist, ring, (x, y), zoom = ring_of(worn.wrist, HEIGHT_OF_WIDTH), worn.pose.ring, worn.pose.centre, worn.pose.zoom
    middle = (x, y - zoom * (ring.half[1] - wrist.half[1] - 0.4))
    fill = Gradient(
        kind="radial", stops=((0.0, "#fffaf3"), (0.72, SKIN), (1.0, "#f0dcc0")), start=(0.5, 0.5), end=(1.0, 0.5),
        focus=(0.45, 0.4),
    )  # fmt: skip
    pen.ellipse(middle, (zoom * wrist.half[0], zoom * wrist.half[1]), Paint(fill=fill, edge=SKIN_EDGE, width=0.25))


def _draw_arc(pen: Pen, worn: Worn) -> None:
    """The comfort arc from the side: a band on the skin side of the rope, a little wider so that it is seen."""
    radius = worn.radius
    inner, outer = -radius - 0.8, -radius * cos(radians(min(worn.arc, 180.0) / 2.0))
    ends = (0.0, worn.rope.heights[-1])
    pen.polygon((*_beside(worn, ends, inner), *_beside(worn, ends, outer)[::-1]), filled(ARC))


def _beside(worn: Worn, ends: Point, out: float) -> list[Point]:
    """Points of the page beside the axis between two heights, so far out toward the front, mm of the rope."""
    along = np.linspace(*ends, max(2, int(STEPS * abs(ends[1] - ends[0]) / (worn.rope.heights[-1] + worn.findings))))
    return _line(worn, along, np.full(along.size, out))


def _line(worn: Worn, along: FloatArray, out: FloatArray) -> list[Point]:
    """Points of the page at heights along the axis, so far out toward the front, mm of the rope."""
    space = along[:, None] * np.array((0.0, 0.0, 1.0)) + out[:, None] * frame(worn.pose.turned_deg)[2]
    return [(x, y) for x, y, _ in worn.pose.points(space).tolist()]


def _draw_rope(pen: Pen, worn: Worn) -> None:
    rope, subject, rows = worn.rope, worn.rope.subject, (0, len(worn.rope.design.rows))
    beads = sorted(pose_beads(rope.geometry, worn.pose, rows), key=lambda one: one.place.depth)
    for one in beads:
        if one.place.depth < 0:
            draw_seen(pen, subject, one)
    pen.polygon(_core(worn), filled(core_colour(subject)))
    if subject.is_beaded:
        draw_cords(pen, subject, rope.geometry, worn.pose, (0.0, rope.heights[-1]))
    draw_near(pen, rope, worn.pose, beads, rows)


def _core(worn: Worn) -> tuple[Point, ...]:
    """The outline of what shows between the beads."""
    heights, half = worn.rope.geometry.heights, worn.rope.core(2)
    along = np.linspace(0.3 * worn.rope.rise, heights[-1], max(STEPS, len(heights)))
    wide = np.interp(along, (heights[:-1] + heights[1:]) / 2.0, half)
    return (*_line(worn, along, wide), *_line(worn, along, -wide)[::-1])


def _mark(pen: Pen, worn: Worn, one: Seen) -> None:
    """A ring round a bead that would be felt; of a stack, round the one in the middle."""
    bead = worn.rope.subject.bead(one.key)
    if bead is not None:
        out = reach_of(bead) - bead.diameter_mm / 2.0 if bead.shape in REACHES else 0.0
        pen.circle(one.place.point(out), worn.pose.zoom * bead.diameter_mm * 0.62, drawn(ACCENT, 0.5))


# --- caps and clasp -------------------------------------------------------------------------------------


def _lengths(worn: Worn) -> tuple[float, float]:
    """How much of the findings is neck and how much cap, at each end, mm."""
    return min(NECK_MM, 0.06 * worn.findings), min(CAP_MM, 0.28 * worn.findings)


def _draw_ends(pen: Pen, worn: Worn, *, is_neck: bool) -> None:
    rope = worn.rope
    neck, cap = _lengths(worn)
    half = neck_diameter(rope) / 2.0
    tall = max(1.06 * half, 0.92 * worn.radius)
    for edge, sign in ((0.0, -1.0), (rope.heights[-1], 1.0)):
        mouth, back = edge + sign * neck, edge + sign * (neck + cap)
        if is_neck:
            colour = darker(rope.design.cords.colour(0), 0.25) if rope.subject.is_beaded else core_colour(rope.subject)
            pen.polygon(_bar(worn, (edge - sign * 1.2, mouth + sign), half), filled(colour))
        else:
            shoulder = edge + sign * (neck + 0.75 * cap)
            upper, lower = (
                [*_beside(worn, (mouth, shoulder), side * tall), _beside(worn, (back, back), side * 0.6 * tall)[0]]
                for side in (1.0, -1.0)
            )
            pen.polygon((*upper, *lower[::-1]), _metal())
            lip = edge + sign * (neck + 0.16 * cap)
            ends = [_beside(worn, (lip, lip), out)[0] for out in (tall, -tall)]
            pen.line(ends[0], ends[1], drawn(darker(METAL, 0.3), 0.14))


def _draw_clasp(pen: Pen, worn: Worn) -> None:
    """Drawn plainly: a bar that closes the ring, with a seam where it opens."""
    neck, cap = _lengths(worn)
    first, last = -neck - cap, neck + cap - worn.findings
    tall = 0.5 * worn.radius
    pen.polygon(_bar(worn, (first, last), 0.35 * tall), _metal())
    inset = 0.14 * (first - last)
    pen.polygon(_bar(worn, (first - inset, last + inset), tall), _metal())
    seam = (first + last) / 2.0
    ends = [_beside(worn, (seam, seam), out)[0] for out in (tall, -tall)]
    pen.line(ends[0], ends[1], drawn(darker(METAL, 0.45), 0.2))


def _bar(worn: Worn, ends: Point, half: float) -> tuple[Point, ...]:
    return (*_beside(worn, ends, half), *_beside(worn, ends, -half)[::-1])


def _metal() -> Paint:
    stops = ((0.0, lighter(METAL, 0.1)), (0.28, lighter(METAL, 0.75)), (0.6, METAL), (1.0, darker(METAL, 0.4)))
    fill = Gradient(kind="linear", stops=stops, start=(0.0, 0.0), end=(0.0, 1.0))
    return Paint(fill=fill, edge=darker(METAL, 0.45), width=0.15)


# --- words ----------------------------------------------------------------------------------------------


def _draw_words(pen: Pen, worn: Worn) -> None:
    (x, y), zoom, ring = worn.pose.centre, worn.pose.zoom, worn.pose.ring
    plain, small = PLAIN_TYPE * worn.scale, SMALL_TYPE * worn.scale
    top = y - zoom * (ring.half[1] + worn.radius + worn.rope.reach)
    pen.text((x, top - 0.8 * plain), "front", type_(plain, anchor="middle", bold=True))
    pen.text((x, y - zoom * ring.half[1] + 1.6 * plain), "back", type_(plain, anchor="middle", bold=True))
    words, told = f"wrist {print_both(worn.wrist)}", _told(worn)
    seen_from = "seen from the hand"
    if LETTER * plain * len(words) < 1.6 * zoom * ring.half[0] and 5.0 * plain < zoom * ring.half[1]:
        pen.text((x, y + 0.2 * plain), words, type_(plain, anchor="middle", colour=INK))
        pen.text((x, y + 1.7 * plain), seen_from, type_(small, anchor="middle", colour=SOFT_INK))
        lines = [told]
    else:
        lines = [f"{words}, {seen_from}", told]
    colour = ACCENT if worn.felt else SOFT_INK
    for number, line in enumerate(lines[::-1]):
        foot = worn.height - (0.6 + 1.3 * number) * small
        pen.text((worn.width / 2.0, foot), line, type_(small, anchor="middle", colour=SOFT_INK if number else colour))
    rows = len(worn.rope.design.rows)
    away = worn.rope.reach + 1.6 * small / zoom
    first, last = (_beside(worn, (at, at), away)[0] for at in (0.0, worn.rope.heights[-1]))
    pen.text(first, "row 1", type_(small, colour=SOFT_INK, anchor="end"))
    pen.text(last, f"row {rows}", type_(small, colour=SOFT_INK))


def _draw_section(pen: Pen, worn: Worn) -> None:
    """The rope cut across at its middle row: which part of it looks outward and which lies on the skin."""
    (_, y), plain, small = worn.pose.centre, PLAIN_TYPE * worn.scale, SMALL_TYPE * worn.scale
    left = RING_SHARE * worn.width
    x, size = (left + worn.width) / 2.0, min(0.24 * (worn.width - left), MOST_SECTION)
    half = radians(worn.arc / 2.0)
    wide = 1.2 * size
    edge = [(x + wide * sin(turn), y + wide * cos(turn)) for turn in np.linspace(-half, half, 33).tolist()]
    pen.polygon(((x, y), *edge), filled(ARC))
    _draw_cut(pen, worn, (x, y), size)
    tip = y - 1.75 * size
    pen.line((x, y - 1.12 * size), (x, tip + 0.2 * size), drawn(INK, 0.35))
    pen.polygon(((x, tip), (x - 0.1 * size, tip + 0.24 * size), (x + 0.1 * size, tip + 0.24 * size)), filled(INK))
    skin = y + wide + 0.4
    pen.line((x - 1.6 * size, skin), (x + 1.6 * size, skin), drawn(SKIN_EDGE, 0.8))
    pen.text((x, tip - 0.5 * plain), "front", type_(plain, anchor="middle", bold=True))
    for lines, words in ((1.3, "skin"), (2.8, "comfort arc"), (4.0, f"{worn.arc:.0f} degrees")):
        pen.text((x, skin + lines * small), words, type_(small, anchor="middle", colour=SOFT_INK))


def _draw_cut(pen: Pen, worn: Worn, middle: Point, size: float) -> None:
    """The beads of the middle row seen along the rope, or the cords of a rope of cord only."""
    rope, zoom = worn.rope, size / worn.radius
    row = len(rope.design.rows) // 2
    pose = EndOn(turned_deg=rope.turned_deg, centre=middle, zoom=zoom)
    half = [zoom * float(np.median(rope.core(sense))) if rope.subject.is_beaded else 0.55 * size for sense in (1, 2)]
    pen.ellipse(middle, (half[0], half[1]), filled(core_colour(rope.subject)))
    if not rope.subject.is_beaded:
        _draw_cut_cords(pen, rope, pose, (rope.heights[row] + rope.heights[row + 1]) / 2.0)
    found = sorted(pose_beads(rope.geometry, pose, (row, row + 1)), key=lambda one: one.place.depth)
    for one in found:
        bead, key = rope.subject.bead(one.key), one.key
        if bead is not None:
            draw_bead(pen, bead, (rope.subject.colour(key), rope.subject.finish(key)), one.place)


def _draw_cut_cords(pen: Pen, rope: Rope, pose: EndOn, height: float) -> None:
    """Every cord where it passes a height."""
    for cord, curve in enumerate(rope.geometry.cords):
        at = int(np.flatnonzero(curve[:, 2] <= height)[-1])
        share = (height - curve[at, 2]) / (curve[at + 1, 2] - curve[at, 2])
        x, y, _ = pose.points((curve[at] + share * (curve[at + 1] - curve[at]))[None])[0].tolist()
        colour = rope.design.cords.colour(cord)
        paint = Paint(fill=colour, edge=edge_of(colour), width=0.15)
        pen.circle((x, y), pose.zoom * rope.subject.cord_mm / 2.0, paint)


SHEET = Sheet(name="rope-worn", title="The bracelet as worn", draw=draw)
