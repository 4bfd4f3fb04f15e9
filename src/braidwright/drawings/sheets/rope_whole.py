"""rope whole: the whole rope in one line across the page, for the cover."""

from functools import partial

from braidwright.drawings.pen import Drawing, Pen
from braidwright.drawings.rope import Stretch, description, draw_stretch, rope_of
from braidwright.drawings.rope_ends import CAP_MM, NECK_MM, draw_cap, draw_neck, draw_ruler
from braidwright.drawings.sheet import Look, Sheet, Subject

END = CAP_MM + NECK_MM + 2.0
MOST_ZOOM = 2.5
RULER = 7.0


def draw(subject: Subject, look: Look) -> tuple[Drawing, ...]:
    """One drawing as wide as the page; none while the rope is not predicted."""
    rope = rope_of(subject)
    if rope is None:
        return ()
    zoom = min(MOST_ZOOM, look.width_mm / (rope.heights[-1] + 2.0 * END))
    scale = look.text_scale
    height = RULER * scale + 2.0 * rope.reach * zoom + 2.0
    stretch = Stretch(
        rope=rope,
        first=0,
        last=len(subject.design.rows),
        left=(look.width_mm - zoom * rope.heights[-1]) / 2.0,
        axis=height - rope.reach * zoom - 1.0,
        zoom=zoom,
    )
    return (
        Drawing(
            name="rope-whole",
            width_mm=look.width_mm,
            height_mm=height,
            title=f"{subject.design.title}, the whole rope",
            description=description(rope, "seen from the front"),
            paint=partial(_paint, stretch, scale),
        ),
    )


def _paint(stretch: Stretch, scale: float, pen: Pen) -> None:
    draw_ruler(pen, stretch, 3.6 * scale, scale)
    draw_neck(pen, stretch, at_left=True)
    draw_neck(pen, stretch, at_left=False)
    draw_stretch(pen, stretch)
    draw_cap(pen, stretch, at_left=True)
    draw_cap(pen, stretch, at_left=False)


SHEET = Sheet(name="rope-whole", title="The rope", draw=draw)
