"""The small disks show every move of the repeat, in order, from slot to slot."""

from math import hypot

import pytest

from braidwright.domain.braid import Braid, Move
from braidwright.drawings.disk import Disk, path_along_rim, path_over
from braidwright.drawings.move_disk import scenes
from braidwright.drawings.sheet import Look
from braidwright.drawings.style import ACCENT
from braidwright.drawings.words import move_sentences
from drawings.subjects import BRAIDS, drawings, marks, pen, subject


def titles(braid: Braid) -> list[str]:
    return [f"Move {n}: slot {move.take} to slot {move.put}" for n, move in enumerate(braid.moves, 1)]


@pytest.mark.parametrize("sheet", ["moves", "each-move"])
@pytest.mark.parametrize("name", sorted(BRAIDS))
def test_every_move_once_and_in_order(name: str, sheet: str) -> None:
    of = subject(BRAIDS[name])
    found = [mark.words for mark in marks(sheet, of, Look(height_mm=120.0)) if mark.of.startswith("move-")]
    assert found == titles(of.design.braid)


@pytest.mark.parametrize("name", sorted(BRAIDS))
def test_the_sentence_goes_with_its_picture(name: str) -> None:
    of = subject(BRAIDS[name])
    assert [drawing.description for drawing in drawings("each-move", of)] == list(move_sentences(of.design))


@pytest.mark.parametrize("name", sorted(BRAIDS))
def test_the_slots_that_hold_a_cord_are_numbered(name: str) -> None:
    """Before each move every full slot and the empty one that will be filled, and no other."""
    of = subject(BRAIDS[name])
    held = set(of.design.braid.start)
    for drawing, move in zip(drawings("each-move", of), of.design.braid.moves, strict=True):
        numbers = {int(mark.words) for mark in pen(drawing).marks if mark.kind == "text" and mark.words.isdigit()}
        assert numbers == held | {move.put}
        held = (held - {move.take}) | {move.put}


@pytest.mark.parametrize("name", sorted(BRAIDS))
def test_a_move_goes_through_the_inside_and_a_re_space_along_the_rim(name: str) -> None:
    braid = BRAIDS[name]
    disk = Disk(braid=braid, centre=(0.0, 0.0), radius=10.0)
    for scene in scenes(braid):
        move: Move = scene.move
        way = path_over(disk, move.take, move.put) if move.is_stitch else path_along_rim(disk, move.take, move.put)
        outline, _, end = way
        points = [point for _, curve in outline.pieces for point in curve]
        assert points[0] == pytest.approx(disk.at(move.take, hypot(*points[0]) / 10.0))
        assert end == pytest.approx(disk.at(move.put, hypot(*end) / 10.0))
        depths = [hypot(*point) / 10.0 for point in points]
        assert max(depths) < 0.9
        assert (min(depths) < 0.7) == move.is_stitch


def test_a_re_space_is_dashed_and_said() -> None:
    of = subject(BRAIDS["maru-yotsu-S"] if "maru-yotsu-S" in BRAIDS else BRAIDS["maru-yotsu-Z"])
    for drawing, move in zip(drawings("each-move", of), of.design.braid.moves, strict=True):
        arrows = [m for m in pen(drawing).marks if m.kind == "path" and m.paint and m.paint.edge == ACCENT]
        assert [bool(m.paint and m.paint.dash) for m in arrows] == [not move.is_stitch]
        said = [m.words for m in pen(drawing).marks if m.kind == "text" and "tidy" in m.words]
        assert bool(said) == (not move.is_stitch)
