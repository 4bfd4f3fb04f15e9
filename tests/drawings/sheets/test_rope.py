"""The rope holds the beads of the design, each where physics.md, section 6, puts it."""

from collections import Counter
from dataclasses import replace
from math import atan2, copysign, cos, hypot, pi, radians, sin

import pytest

from braidwright.domain.design import Front
from braidwright.domain.motif import from_front
from braidwright.domain.strings import bead_counts
from braidwright.domain.tray import BARE
from braidwright.drawings.bead_solid import Place
from braidwright.drawings.pens.recording import Mark, RecordingPen
from braidwright.drawings.rope import Stretch, draw_stretch, rope_of, seen
from braidwright.drawings.sheet import Look, Subject
from drawings.subjects import BRAIDS, KNOWN, drawings, marks, pen, shaped, subject

KONGOH = [name for name in sorted(BRAIDS) if name.startswith("kongoh")]


def named(found: list[Mark]) -> Counter[str]:
    """How many shapes stand for each stitch."""
    return Counter(mark.of for mark in found if mark.of.startswith("stitch-"))


@pytest.mark.parametrize("sheet", ["rope-whole", "rope-front", "rope-back"])
@pytest.mark.parametrize("name", KONGOH)
def test_beads_are_one_to_one(name: str, sheet: str) -> None:
    """One shape a bead, whichever side is seen; those at the back are drawn too, and hidden by the core."""
    of = subject(BRAIDS[name], 61, keys="abg")
    found = named(marks(sheet, of))
    assert found == {f"stitch-{r}-{s}": 1 for r in range(1, 62) for s in range(1, of.design.width + 1)}
    assert sum(found.values()) == sum(bead_counts(of.design).values())


def test_a_stack_shows_every_bead() -> None:
    of = subject(BRAIDS["kongoh-8-S"], 9, keys="ak")
    found = named(marks("rope-front", of))
    assert sum(found.values()) == sum(bead_counts(of.design).values())


def test_a_bare_stitch_shows_its_cord_on_the_side_that_is_seen() -> None:
    of = subject(BRAIDS["kongoh-8-S"], 24, keys="aaaa.")
    every = {f"stitch-{r}-{s}": key for r, text in enumerate(of.design.rows, 1) for s, key in enumerate(text, 1)}
    bare = {stitch for stitch, key in every.items() if key == BARE}
    front, back = (set(named(marks(sheet, of))) & bare for sheet in ("rope-front", "rope-back"))
    assert front | back == bare
    assert not front & back


@pytest.mark.parametrize("name", KONGOH)
@pytest.mark.parametrize("half_turn", [0, 1])
def test_beads_lie_where_the_closed_form_puts_them(name: str, half_turn: int) -> None:
    """Angle (-2 pi + 2 delta) c / P + delta k, height 2 h c / P + h k; the others half a turn on.

    Source: physics.md, 6, written down again without the code under test, but with 2 pi against the drift: published
    lists of 12, 16, 24 cords (trade-facts, 1.2) work the pairs anticlockwise while the pattern shifts clockwise (S).
    For 8 cords both readings are the same.
    """
    drift = copysign(12.0, BRAIDS[name].shift)  # whole degrees everywhere, so that rounding decides nothing
    of = shaped(replace(facing_north(subject(BRAIDS[name], 7, keys="a")), prediction=replace(KNOWN, drift_deg=drift)))
    rope = rope_of(of, from_back=bool(half_turn))
    assert rope is not None
    stretch = Stretch(rope=rope, first=0, last=7, left=0.0, axis=0.0, zoom=1.0)
    placed = {one.of: one.place for one in seen(stretch)}
    first, lanes, turn = placed["stitch-1-1"], of.design.width, radians(drift)
    wanted = set()
    for row in range(7):
        for column in range(lanes // 2):
            angle = (copysign(2 * pi, -turn) + 2 * turn) * column / lanes + turn * row
            height = 2 * 2.3 * column / lanes + 2.3 * row
            wanted |= {(round(height, 6), _compass(angle)), (round(height, 6), _compass(angle + pi))}
    found = {
        (round(place.at[0] - first.at[0], 6), _compass(angle_of(place) - angle_of(first))) for place in placed.values()
    }
    assert found == wanted
    assert radius_of(first) == pytest.approx((6.88 - 3.0) / 2.0)


def angle_of(place: Place) -> float:
    """Round the rope, radians: 0 faces the reader, a quarter turn is the upper rim."""
    return atan2(-place.out[1], place.out[2])


def radius_of(place: Place) -> float:
    """From the axis, which lies at height 0, to the hole."""
    return hypot(place.at[1] / place.zoom, place.depth)


def _compass(angle: float) -> int:
    """An angle in tenths of a degree, 0 to 3599."""
    return round(angle * 1800.0 / pi) % 3600


def facing_north(of: Subject) -> Subject:
    """The same without a front: north faces the reader."""
    return replace(of, design=replace(of.design, front=None))


def test_clockwise_is_upward_as_in_the_chart() -> None:
    """Of two stitches that face the reader, the one clockwise of the other lies higher, in chart and rope alike."""
    of = subject(BRAIDS["kongoh-16-S"], 9, keys="a")
    rope = rope_of(of)
    assert rope is not None
    places = {one.of: one.place for one in seen(Stretch(rope=rope, first=0, last=9, left=0.0, axis=50.0, zoom=2.0))}
    for place in places.values():
        assert place.at[1] == pytest.approx(50.0 - 2.0 * 1.94 * sin(angle_of(place)))
    row = [place for key, place in places.items() if key.startswith("stitch-5-")]
    by_angle = sorted((angle_of(place), place.at[1]) for place in row)
    facing = [(angle, y) for angle, y in by_angle if abs(angle) < pi / 2]
    assert len(facing) >= 3
    assert [y for _, y in facing] == sorted((y for _, y in facing), reverse=True)


@pytest.mark.parametrize("name", KONGOH)
def test_the_front_line_faces_the_reader(name: str) -> None:
    """As far from the middle of the picture as `domain.motif.from_front` says, which finds it another way."""
    of = subject(BRAIDS[name], 21, keys="a")
    of = replace(of, design=replace(of.design, front=Front(deg=77.0)))
    rope = rope_of(of)
    assert rope is not None
    assert of.drift_deg is not None
    placed = {one.of: one.place for one in seen(Stretch(rope=rope, first=0, last=21, left=0.0, axis=0.0, zoom=1.0))}
    for row in range(21):
        for stitch in range(of.design.width):
            away = radians(from_front(of.design, of.drift_deg, row, stitch))
            place = placed[f"stitch-{row + 1}-{stitch + 1}"]
            assert place.depth == pytest.approx(radius_of(place) * cos(away))


def test_what_is_near_is_drawn_over_what_is_far() -> None:
    of = subject(BRAIDS["kongoh-8-S"], 9, keys="a")
    rope = rope_of(of)
    assert rope is not None
    stretch = Stretch(rope=rope, first=0, last=9, left=0.0, axis=50.0, zoom=2.0)
    depth = {one.of: one.place.depth for one in seen(stretch)}
    pen_ = RecordingPen()
    draw_stretch(pen_, stretch)
    order = [depth[mark.of] for mark in pen_.marks if mark.of]
    assert order == sorted(order)


def test_front_and_back_are_two_sides_of_one_rope() -> None:
    of = subject(BRAIDS["kongoh-8-S"], 12, keys="ab")
    front, back = (rope_of(of, from_back=is_back) for is_back in (False, True))
    assert front is not None
    assert back is not None
    sides = [
        {one.of: one.place for one in seen(Stretch(rope=rope, first=0, last=12, left=0.0, axis=0.0, zoom=1.0))}
        for rope in (front, back)
    ]
    for key, place in sides[0].items():
        assert place.depth == pytest.approx(-sides[1][key].depth)
        assert place.at[0] == pytest.approx(sides[1][key].at[0])


def test_the_rope_is_as_long_as_its_rows() -> None:
    of = subject(BRAIDS["kongoh-8-S"], 40, keys="a")
    rows = ("....", "....", *of.design.rows[:36], "....", "....")
    rope = rope_of(shaped(replace(of, design=of.design.with_rows(rows))))
    assert rope is not None
    assert rope.heights[-1] == pytest.approx(36 * 2.3 + 4 * 1.0)


@pytest.mark.parametrize("name", KONGOH)
def test_a_plain_rope_shows_every_stitch_that_faces_the_reader_in_its_cord(name: str) -> None:
    of = subject(BRAIDS[name], 9, keys=BARE)
    shown = named(marks("rope-front", of)) + named(marks("rope-back", of))
    assert set(shown) == {f"stitch-{r}-{s}" for r in range(1, 10) for s in range(1, of.design.width + 1)}


def test_the_rope_fits_the_page() -> None:
    """Beads may reach over the frame by no more than half a millimetre."""
    for rows in (4, 30, 66, 200):
        for sheet in ("rope-whole", "rope-front", "rope-back"):
            for drawing in drawings(sheet, subject(BRAIDS["kongoh-8-S"], rows, keys="aaag"), Look()):
                for mark in pen(drawing).marks:
                    for x, y in mark.points:
                        assert -0.5 <= x <= drawing.width_mm + 0.5
                        assert -0.5 <= y <= drawing.height_mm + 0.5
