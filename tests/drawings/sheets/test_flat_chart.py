"""The chart shows every stitch once, in its own lane and row, and never the wrong way round."""

from dataclasses import replace
from itertools import pairwise

import pytest

from braidwright.domain.chart import columns, stations
from braidwright.domain.design import Front
from braidwright.domain.motif import from_front
from braidwright.domain.tray import BARE
from braidwright.drawings.pen import Paint, Point
from braidwright.drawings.pens.recording import Mark
from braidwright.drawings.sheet import Look, Subject
from braidwright.drawings.style import ACCENT, SAND
from drawings.subjects import BRAIDS, drawings, marks, pen, subject
from known_braids import braid

TWICE = braid(16, (1, 5, 9, 13), [(1, 11), (5, 1), (13, 5), (1, 13), (11, 1)], 0)  # station 1 works twice in a repeat


def cells(of: Subject, look: Look | None = None) -> dict[str, list[Mark]]:
    """The marks of every stitch, by its name, over all bands."""
    found: dict[str, list[Mark]] = {}
    for drawing in drawings("flat-chart", of, look or Look()):
        current = ""
        for mark in pen(drawing).marks:
            if mark.kind == "group":
                current = mark.of if mark.of.startswith("stitch-") else ""
                if current:
                    found.setdefault(current, []).append(mark)
            elif current and mark.paint:
                found[current].append(mark)
    return found


def fill(mark: Mark) -> str:
    assert isinstance(mark.paint, Paint)
    assert isinstance(mark.paint.fill, str)
    return mark.paint.fill


def middle(*shapes: Mark) -> Point:
    """The middle of the box round some shapes."""
    xs, ys = ([point[axis] for mark in shapes for point in mark.points] for axis in (0, 1))
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


@pytest.mark.parametrize("look", [Look(), Look(width_mm=80.0)])
@pytest.mark.parametrize("name", sorted(BRAIDS))
def test_cells_and_stitches_are_one_to_one(name: str, look: Look) -> None:
    """Each stitch of the design is one cell, named by its tray entry and filled with the colours of its beads."""
    of = subject(BRAIDS[name], 41)
    found = cells(of, look)
    wanted = {f"stitch-{r}-{s}": key for r, text in enumerate(of.design.rows, 1) for s, key in enumerate(text, 1)}
    assert set(found) == set(wanted)
    for stitch, key in wanted.items():
        group, *shapes = found[stitch]
        assert sum(mark.kind == "group" for mark in found[stitch]) == 1
        assert group.words == of.design.tray.name_of(key)
        if key == BARE:
            assert fill(shapes[0]) == of.design.cords.colours[0]
        else:
            keys = of.design.tray.beads_of(key)
            assert [fill(mark) for mark in shapes[: len(keys)]] == [of.colour(one) for one in keys]


@pytest.mark.parametrize("of", [*(subject(BRAIDS[name], 12) for name in sorted(BRAIDS)), subject(TWICE, 12)])
def test_cells_lie_in_rows_and_lanes_half_steps_kept(of: Subject) -> None:
    """Along the page by row and step, upward by column: affine in both, the same for all stitches."""
    found = cells(of)
    at = {stitch: middle(*(mark for mark in found[stitch][1:] if mark.kind == "path")) for stitch in found}
    every = stations(of.design.braid)
    x0 = at["stitch-1-1"][0]
    pitch = (at["stitch-11-1"][0] - x0) / 10.0
    lanes = {station.column: at[f"stitch-1-{station.stitch + 1}"][1] for station in every}
    for row in range(12):
        for station in every:
            x, y = at[f"stitch-{row + 1}-{station.stitch + 1}"]
            assert x == pytest.approx(x0 + pitch * (row + station.step - every[0].step), abs=0.15)
            assert y == pytest.approx(lanes[station.column], abs=0.05)
    ordered = [lanes[column] for column in sorted(lanes)]
    assert ordered == sorted(ordered, reverse=True), "clockwise is upward: row 1 at the left, seen from outside"


@pytest.mark.parametrize("of", [subject(BRAIDS["kongoh-24-S"], 12), subject(TWICE, 12)])
def test_cells_of_one_lane_do_not_overlap(of: Subject) -> None:
    found = cells(of)
    for column in columns(of.design.braid):
        spans = []
        for stitch in column.stitches:
            for row in range(1, 13):
                shapes = [mark for mark in found[f"stitch-{row}-{stitch + 1}"] if mark.kind == "path"]
                xs, ys = ([point[axis] for mark in shapes for point in mark.points] for axis in (0, 1))
                lean = 0.231 * (max(ys) - min(ys))  # tan 13 degrees
                spans.append((min(xs) + lean / 2, max(xs) - lean / 2))
        spans.sort()
        assert all(before[1] <= after[0] + 0.05 for before, after in pairwise(spans))


@pytest.mark.parametrize(("name", "way"), [("kongoh-8-S", 1), ("kongoh-8-Z", -1)])
def test_cells_lean_like_the_letter(name: str, way: int) -> None:
    """The stitch line matches the middle bar of the letter: trade-facts 1.1, [SZ][RS].

    With the rope upright the bar of S falls to the right; laid down with row 1 at the left it rises to the right.
    """
    mark = cells(subject(BRAIDS[name], 3, keys="a"))["stitch-1-1"][1]
    top = [x for x, y in mark.points if y < middle(mark)[1] - 1.5]
    foot = [x for x, y in mark.points if y > middle(mark)[1] + 1.5]
    assert way * (sum(top) / len(top) - sum(foot) / len(foot)) > 0.5


def test_every_row_is_in_one_band_and_every_lane_is_named() -> None:
    of = subject(BRAIDS["kongoh-8-S"], 93)
    bands = drawings("flat-chart", of)
    assert len(bands) == 3
    for band in bands:
        texts = [mark.words for mark in pen(band).marks if mark.kind == "text"]
        assert [text for text in texts if text in "NESW"] == ["N", "E", "S", "W"]
    numbers = [mark.words for mark in marks("flat-chart", of) if mark.kind == "text" and mark.words.isdigit()]
    assert {"1", "5", "90"} <= set(numbers)


@pytest.mark.parametrize("drift", [11.25, -11.25, 3.0, -47.0, 0.0])
def test_the_shade_covers_what_lies_against_the_skin(drift: float) -> None:
    """Cell by cell the same answer as `domain.motif.from_front`, which finds it another way."""
    of = subject(BRAIDS["kongoh-12-S"], 30, keys="a")
    design = replace(of.design, front=Front(deg=77.0, comfort_arc_deg=110.0))
    assert of.prediction is not None
    of = Subject(design=design, prediction=replace(of.prediction, drift_deg=drift))
    shades = [mark for mark in marks("flat-chart", of, Look(width_mm=300.0)) if mark.paint and mark.paint.fill == SAND]
    faces = [mark for mark in marks("flat-chart", of, Look(width_mm=300.0)) if mark.paint and mark.paint.edge == ACCENT]
    assert shades
    assert faces
    found = cells(of, Look(width_mm=300.0))
    for row in range(30):
        for stitch in range(6):
            away = abs(from_front(design, drift, row, stitch))
            x, y = middle(found[f"stitch-{row + 1}-{stitch + 1}"][1])
            is_back = 180.0 - away <= 55.0
            if abs(180.0 - away - 55.0) > 1.0:  # on the very edge, rounding decides
                assert any(_holds(shade.points, x, y) for shade in shades) == is_back
            if abs(away - 30.0) > 1.0:
                lines = any(m.points[0][0] < x < m.points[1][0] and 0 < m.points[0][1] - y < 3.3 for m in faces)
                assert lines == (away < 30.0)


def _holds(shape: tuple[Point, ...], x: float, y: float) -> bool:
    """Whether a convex shape holds a point."""
    turns = [
        (bx - ax) * (y - ay) - (by - ay) * (x - ax)
        for (ax, ay), (bx, by) in zip(shape, shape[1:] + shape[:1], strict=True)
    ]
    return all(t >= -1e-9 for t in turns) or all(t <= 1e-9 for t in turns)


def test_no_front_no_shade() -> None:
    of = subject(BRAIDS["kongoh-8-S"])
    bare = Subject(design=replace(of.design, front=None), prediction=of.prediction)
    for plain in (bare, Subject(design=of.design)):
        assert not [mark for mark in marks("flat-chart", plain) if mark.paint and mark.paint.fill == SAND]


def test_the_description_reads_each_lane_aloud() -> None:
    of = subject(BRAIDS["kongoh-8-S"], 3, keys="a")
    changed = Subject(design=of.design.with_rows(("aaaa", "ab.a", "aaaa")))
    said = drawings("flat-chart", changed)[0].description
    assert "N: 3 Moss." in said
    assert "S: 1 Moss, 1 Barley, 1 Moss." in said
    assert "W: 1 Moss, 1 bare, 1 Moss." in said


def test_cords_that_differ_are_told_by_letter_too() -> None:
    of = subject(BRAIDS["kongoh-8-S"], 4, keys=BARE)
    colours = ("#aa0000", "#00aa00") * 4
    design = replace(of.design, cords=replace(of.design.cords, colours=colours))
    letters = [mark.words for mark in marks("flat-chart", Subject(design=design)) if mark.words in ("A", "B")]
    assert sorted(letters) == ["A"] * 8 + ["B"] * 8
