"""The bracelet as worn: every bead once, the front outward, the back on the skin."""

from collections import Counter
from dataclasses import replace
from math import cos, pi, radians

import numpy as np
import pytest

from braidwright.domain.comfort import pressing as told_by_domain
from braidwright.domain.design import Front
from braidwright.domain.fit import bracelet_wrist_mm
from braidwright.domain.motif import from_front
from braidwright.domain.strings import bead_counts
from braidwright.domain.tray import BARE
from braidwright.drawings.pens.svg import render
from braidwright.drawings.posing import Bent, pose_beads, ring_of
from braidwright.drawings.rope import rope_of
from braidwright.drawings.sheet import Look, Subject
from braidwright.drawings.sheets.rope_worn import HEIGHT_OF_WIDTH, draw, felt
from braidwright.drawings.style import ACCENT
from drawings.subjects import BEADS, BRAIDS, LOOKS, marks, pen, shaped, subject

KONGOH = [name for name in sorted(BRAIDS) if name.startswith("kongoh")]
HOSTILE = "<b>&\"'\u202e\x00 " + "W" * 300


def bracelet(name: str = "kongoh-8-S", keys: str = "ab", rows: int = 66) -> Subject:
    return subject(BRAIDS[name], rows, keys=keys)


def bent(of: Subject) -> Bent:
    """The rope of a subject round the ellipse that its length gives, written down again without the sheet."""
    rope = rope_of(of)
    assert rope is not None
    girth = rope.heights[-1] + 28.0 - pi * 6.88
    ring = ring_of(girth, HEIGHT_OF_WIDTH)
    turned = of.design.front_line.deg
    return Bent(ring=ring, distance=3.44, start=14.0, turned_deg=turned, centre=(0.0, 0.0), zoom=1.0)


@pytest.mark.parametrize("name", KONGOH)
def test_beads_are_one_to_one(name: str) -> None:
    of = bracelet(name, keys="abg")
    found = Counter(mark.of for mark in marks("rope-worn", of) if mark.of.startswith("stitch-"))
    assert found == {f"stitch-{r}-{s}": 1 for r in range(1, 67) for s in range(1, of.design.width + 1)}
    assert sum(found.values()) == sum(bead_counts(of.design).values())


@pytest.mark.parametrize("name", KONGOH)
def test_front_beads_lie_outside_and_back_beads_on_the_skin_side(name: str) -> None:
    """As far out from the axis as `domain.motif.from_front` says, which knows no ellipse."""
    of = bracelet(name, keys="a")
    of = shaped(replace(of, design=replace(of.design, front=Front(deg=77.0))))
    assert of.geometry is not None
    assert of.drift_deg is not None
    pose = bent(of)
    axis = axis_points(pose)
    for one in pose_beads(of.geometry, pose, (0, 66)):
        row, stitch = (int(part) - 1 for part in one.of.split("-")[1:])
        away = radians(from_front(of.design, of.drift_deg, row, stitch))
        x, y = one.place.at
        nearest = np.hypot(x - axis[0], y + axis[1]).min()
        assert nearest == pytest.approx(abs(1.94 * cos(away)), abs=0.06)
        if abs(cos(away)) > 0.1:
            a, b = (half + 3.44 for half in pose.ring.half)
            is_outside = (x / a) ** 2 + (y / b) ** 2 > 1.0
            assert is_outside == (cos(away) > 0.0)


def axis_points(pose: Bent) -> tuple[np.ndarray, np.ndarray]:
    """Points of the axis of the rope, right and up of the middle: the ellipse, 3.44 mm out along its normal."""
    (a, b), turn = pose.ring.half, np.linspace(0.0, 2.0 * pi, 1500)
    size = np.hypot(b * np.cos(turn), a * np.sin(turn)) / 3.44
    return a * np.cos(turn) + b * np.cos(turn) / size, b * np.sin(turn) + a * np.sin(turn) / size


def test_beads_that_stand_out_on_the_skin_are_marked_and_told() -> None:
    """The same stitches as `domain.comfort` finds from the chart, and stacks of which one end lies in the arc."""
    of = bracelet(keys="aaaaaagk")
    assert of.drift_deg is not None
    beads = dict(BEADS)
    wanted = {f"stitch-{at.at.row}-{at.at.stitch}" for at in told_by_domain(of.design, beads.__getitem__, of.drift_deg)}
    rope = rope_of(of)
    assert rope is not None
    told = {one.of for one in felt(rope, bent(of))}
    assert told >= wanted
    for stitch in told - wanted:
        row, at = (int(part) - 1 for part in stitch.split("-")[1:])
        assert of.design.rows[row][at] == "k"
        assert abs(from_front(of.design, of.drift_deg, row, at)) > 180.0 - 60.0 - 30.0
    assert wanted
    found = marks("rope-worn", of)
    marked = [mark for mark in found if mark.kind == "circle" and mark.paint is not None and mark.paint.edge == ACCENT]
    assert len(marked) == len(told)
    assert any(mark.words.startswith(f"{len(told)} stitches that stand out") for mark in found)


def test_without_a_front_nothing_is_marked() -> None:
    of = bracelet(keys="aag")
    of = shaped(replace(of, design=replace(of.design, front=None)))
    found = marks("rope-worn", of)
    assert not any(mark.paint is not None and mark.paint.edge == ACCENT for mark in found)
    assert any("No side is named as the front" in mark.words for mark in found)


def test_front_back_and_wrist_are_told() -> None:
    of = bracelet()
    wrist = bracelet_wrist_mm(66 * 2.3 + 28.0, 6.88)
    assert wrist is not None
    words = [mark.words for mark in marks("rope-worn", of)]
    assert words.count("front") == 2
    assert "back" in words
    assert any(f"wrist {wrist:.0f} mm" in said for said in words)
    (drawing,) = draw(of, Look())
    assert "clasp underneath" in drawing.description
    assert f"{wrist:.0f} mm" in drawing.description


@pytest.mark.parametrize("rows", [10, 190])
def test_neither_a_ring_for_a_finger_nor_a_necklace_is_put_round_a_wrist(rows: int) -> None:
    assert draw(bracelet(rows=rows), Look()) == ()


def test_nothing_is_drawn_while_caps_and_clasp_are_not_known() -> None:
    assert draw(replace(bracelet(), findings_mm=None), Look()) == ()


@pytest.mark.parametrize("look", [*LOOKS, Look(height_mm=80.0), Look(height_mm=100.0, text_scale=1.85)])
@pytest.mark.parametrize("keys", ["aag", "a.k", BARE])
def test_everything_stays_on_the_page(look: Look, keys: str) -> None:
    (drawing,) = draw(bracelet(keys=keys), look)
    assert drawing.width_mm == look.width_mm
    for mark in pen(drawing).marks:
        for x, y in mark.points:
            assert -0.5 <= x <= drawing.width_mm + 0.5
            assert -0.5 <= y <= drawing.height_mm + 0.5
    if look.height_mm >= 100.0 and look.text_scale < 1.8:
        assert drawing.height_mm <= look.height_mm


def test_a_plain_rope_shows_its_cords() -> None:
    found = [mark for mark in marks("rope-worn", bracelet(keys=BARE)) if mark.of]
    assert found
    assert {mark.kind for mark in found} == {"path"}


def test_the_same_bracelet_gives_the_same_bytes_and_hostile_texts_stay_texts() -> None:
    of = bracelet(keys="ag")
    of = shaped(replace(of, design=replace(of.design, title=HOSTILE)))
    first, second = (render(draw(each, Look())[0]) for each in (of, shaped(replace(of, geometry=None))))
    assert first == second
    assert "<b>" not in first
    assert "\x00" not in first
