"""move_disk: one move on a small disk, with the cords as they lie before it."""

from dataclasses import dataclass
from functools import partial

from braidwright.domain.braid import Braid, Move
from braidwright.drawings.disk import Disk, draw_arrow, draw_number, draw_plate, draw_winds, path_along_rim, path_over
from braidwright.drawings.pen import Drawing, Paint, Pen, Point
from braidwright.drawings.sheet import Subject
from braidwright.drawings.style import ACCENT, FINE, INK, PAPER, type_
from braidwright.drawings.words import move_sentences

SIDE = 41.0
HEAD = 6.0
NUMBERS = 1.19  # where the numbers stand, as a share of the radius


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveScene:
    """A move with the slots that hold a cord before it, and its number from 1."""

    braid: Braid
    number: int
    move: Move
    held: tuple[int, ...]


def scenes(braid: Braid) -> tuple[MoveScene, ...]:
    """Every move of the first repeat."""
    held = set(braid.start)
    found = []
    for number, move in enumerate(braid.moves, 1):
        found.append(MoveScene(braid=braid, number=number, move=move, held=tuple(sorted(held))))
        held = (held - {move.take}) | {move.put}
    return tuple(found)


def move_drawings(subject: Subject, scale: float) -> tuple[Drawing, ...]:
    """One small drawing for each move, its sentence as the text alternative."""
    sentences = move_sentences(subject.design)
    return tuple(
        Drawing(
            name=f"move-{scene.number}",
            width_mm=SIDE * scale,
            height_mm=(SIDE + HEAD) * scale,
            title=f"Move {scene.number}: slot {scene.move.take} to slot {scene.move.put}",
            description=sentences[scene.number - 1],
            paint=partial(draw_scene, scene, (0.0, 0.0), scale),
        )
        for scene in scenes(subject.design.braid)
    )


def draw_scene(scene: MoveScene, corner: Point, scale: float, pen: Pen) -> None:
    """Draw a move with its heading; `corner` is the upper left one."""
    side = SIDE * scale
    centre = (corner[0] + side / 2.0, corner[1] + HEAD * scale + side / 2.0)
    disk = Disk(braid=scene.braid, centre=centre, radius=0.335 * side)
    move = scene.move
    pen.begin(f"Move {scene.number}: slot {move.take} to slot {move.put}", f"move-{scene.number}")
    _draw_heading(pen, scene, corner, scale)
    draw_plate(pen, disk, hole=0.14)
    draw_winds(pen, disk, 2.7 * scale, share=1.41)
    size = min(2.6 * scale, 0.98 * disk.spacing)
    for slot in scene.held:
        _draw_cord(pen, disk, slot, is_moved=slot == move.take)
        draw_number(pen, disk, slot, size, bold=slot == move.take, share=NUMBERS)
    draw_number(pen, disk, move.put, size, bold=True, share=NUMBERS)
    pen.circle(disk.at(move.put, 1.0), 0.065 * disk.radius, Paint(fill=PAPER, edge=ACCENT, width=0.045 * disk.radius))
    if move.is_stitch:
        draw_arrow(pen, path_over(disk, move.take, move.put), 0.7 * scale)
    else:
        draw_arrow(pen, path_along_rim(disk, move.take, move.put), 0.6 * scale, (1.4 * scale, 1.0 * scale))
    pen.end()


def _draw_heading(pen: Pen, scene: MoveScene, corner: Point, scale: float) -> None:
    x, y = corner[0] + 1.5 * scale, corner[1] + 4.6 * scale
    pen.text((x, y), f"{scene.number}.", type_(4.2 * scale, bold=True, colour=ACCENT))
    words = f"{scene.move.take} to {scene.move.put}" + ("" if scene.move.is_stitch else ", tidy")
    pen.text((x + (5.2 if scene.number < 10 else 7.4) * scale, y), words, type_(3.6 * scale))


def _draw_cord(pen: Pen, disk: Disk, slot: int, *, is_moved: bool) -> None:
    """A cord in its slot: a knob on the rim, larger and in the accent colour when it is the one to lift."""
    radius = (0.09 if is_moved else 0.06) * disk.radius
    pen.circle(disk.at(slot, 1.0), radius, Paint(fill=ACCENT if is_moved else INK, edge=PAPER, width=0.5 * FINE))
