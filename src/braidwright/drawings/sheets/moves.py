"""moves: all moves of one repeat as small disks on a grid."""

from functools import partial
from math import floor

from braidwright.drawings.move_disk import HEAD, SIDE, MoveScene, draw_scene, scenes
from braidwright.drawings.pen import Drawing, Pen
from braidwright.drawings.sheet import Look, Sheet, Subject
from braidwright.drawings.words import move_sentences

GAP = 2.5


def draw(subject: Subject, look: Look) -> tuple[Drawing, ...]:
    """The grid, as many drawings as the height of a page asks for."""
    scale, all_scenes = look.text_scale, scenes(subject.design.braid)
    across = max(1, min(len(all_scenes), floor((look.width_mm + GAP) / (SIDE * scale + GAP))))
    down = max(1, floor((look.height_mm + GAP) / ((SIDE + HEAD) * scale + GAP)))
    pages = [all_scenes[at : at + across * down] for at in range(0, len(all_scenes), across * down)]
    sentences = move_sentences(subject.design)
    return tuple(_drawing(page, number, across, scale, sentences) for number, page in enumerate(pages, 1))


def _drawing(
    page: tuple[MoveScene, ...], number: int, across: int, scale: float, sentences: tuple[str, ...]
) -> Drawing:
    lines = -(-len(page) // across)
    said = " ".join(f"{scene.number}. {sentences[scene.number - 1]}" for scene in page)
    return Drawing(
        name=f"moves-{number}",
        width_mm=across * (SIDE * scale + GAP) - GAP,
        height_mm=lines * ((SIDE + HEAD) * scale + GAP) - GAP,
        title=f"Moves {page[0].number} to {page[-1].number}" if len(page) > 1 else f"Move {page[0].number}",
        description=said,
        paint=partial(_paint, page, across, scale),
    )


def _paint(page: tuple[MoveScene, ...], across: int, scale: float, pen: Pen) -> None:
    for index, scene in enumerate(page):
        corner = ((index % across) * (SIDE * scale + GAP), (index // across) * ((SIDE + HEAD) * scale + GAP))
        draw_scene(scene, corner, scale, pen)


SHEET = Sheet(name="moves", title="The moves of one repeat", draw=draw)
