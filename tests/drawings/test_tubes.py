"""Open cord: the part of each bare stitch that lies outside, drawn in pieces, near ones over far ones."""

from itertools import pairwise

import numpy as np
import pytest

from braidwright.domain.tray import BARE
from braidwright.domain.walk import stitch_cords
from braidwright.drawings.bare_stitches import bare_stitches
from braidwright.drawings.pens.recording import RecordingPen
from braidwright.drawings.posing import Straight
from braidwright.drawings.rope import Stretch, draw_stretch, rope_of
from braidwright.drawings.tubes import pieces
from drawings.subjects import BRAIDS, drawings, pen, subject

POSE = Straight(turned_deg=0.0, left=0.0, axis=0.0, zoom=2.0)


@pytest.mark.parametrize("keys", [BARE, "aa..", "aaaa."])
@pytest.mark.parametrize("name", ["kongoh-8-S", "kongoh-12-Z", "maru-yotsu-Z", "tubular-8-Z"])
def test_every_bare_stitch_is_found_on_the_cord_that_makes_it(name: str, keys: str) -> None:
    of = subject(BRAIDS[name], 12, keys=keys)
    assert of.geometry is not None
    found = bare_stitches(of.design, of.geometry)
    wanted = [(row, at) for row, text in enumerate(of.design.rows) for at, key in enumerate(text) if key == BARE]
    assert [(one.row, one.stitch) for one in found] == wanted
    made_by = stitch_cords(of.design.braid, len(of.design.rows))
    for one in found:
        assert one.cord == made_by[one.row, one.stitch]
        away = np.hypot(one.line[:, 0], one.line[:, 1])
        assert away[one.middle] >= 0.9 * away.max()
        assert any(np.array_equal(one.line[0], point) for point in of.geometry.cords[one.cord])


def test_two_stitches_of_a_cord_share_no_more_than_a_point() -> None:
    of = subject(BRAIDS["kongoh-8-S"], 12, keys=BARE)
    assert of.geometry is not None
    found = bare_stitches(of.design, of.geometry)
    for cord in range(8):
        own = sorted((one for one in found if one.cord == cord), key=lambda one: one.row)
        for one, other in pairwise(own):
            assert np.array_equal(one.line[-1], other.line[0])


def test_pieces_are_short_and_no_deeper_than_asked() -> None:
    of = subject(BRAIDS["kongoh-8-S"], 12, keys=BARE)
    assert of.geometry is not None
    found = list(pieces(bare_stitches(of.design, of.geometry), POSE, 0.5, deepest=0.5, span=(3.0, 20.0)))
    assert found
    for piece in found:
        line = np.array(piece.line)
        assert np.linalg.norm(np.diff(line, axis=0), axis=1).sum() < 2.0 * 2.0 * 0.5 * 1.5
        assert piece.depth >= 0.5
        assert 2.0 * 3.0 - 1e-6 <= line[:, 0].min() <= line[:, 0].max() <= 2.0 * 20.0 + 1e-6
        assert len(piece.lapping) == len(piece.line) + 2


def test_near_cord_is_drawn_over_far_beads() -> None:
    of = subject(BRAIDS["kongoh-8-S"], 14, keys="aa.")
    rope = rope_of(of)
    assert rope is not None
    stretch = Stretch(rope=rope, first=0, last=14, left=0.0, axis=50.0, zoom=2.0)
    lines = {f"stitch-{one.row + 1}-{one.stitch + 1}": one for one in rope.bare}
    recorded = RecordingPen()
    draw_stretch(recorded, stretch)
    centres = {
        f"stitch-{row + 1}-{at + 1}": stretch.pose.points(centre[None])[0, 2]
        for (row, at, _), centre in zip(rope.geometry.stitches, rope.geometry.centres, strict=True)
    }
    drawn = [mark.of for mark in recorded.marks if mark.of in centres]
    depths = [float(centres[of]) for of in drawn if centres[of] >= 0.0]
    assert depths == sorted(depths)
    shown = {mark.of for mark in recorded.marks if mark.of in lines}
    facing = {of for of, one in lines.items() if stretch.pose.points(one.line[one.middle][None])[0, 2] >= 0.0}
    assert shown == facing


def test_a_plain_band_is_cut_where_its_rows_begin_and_end() -> None:
    of = subject(BRAIDS["kongoh-8-S"], 120, keys=BARE)
    for drawing in drawings("rope-front", of):
        for mark in pen(drawing).marks:
            for x, _ in mark.points:
                assert -0.5 <= x <= drawing.width_mm + 0.5
