"""Every symbol is drawn, fits its box, and looks like no other."""

from itertools import combinations

import numpy as np
import pytest
from numpy.typing import NDArray

from braidwright.domain.tray import SYMBOLS
from braidwright.drawings.pen import Outline, Point
from braidwright.drawings.symbols import GLYPHS, STROKE

GRID = 25  # dots to a side: at 2.5 mm a dot is a tenth of a millimetre, about the finest that is seen in print
FEWEST_DOTS = 60


def flattened(outline: Outline) -> list[Point]:
    """An outline as many short straight lines."""
    points: list[Point] = []
    for letter, curve in outline.pieces:
        if letter == "C":
            start = np.array(points[-1])
            one, two, end = (np.array(point) for point in curve)
            for t in np.linspace(0.05, 1.0, 20):
                at = (1 - t) ** 3 * start + 3 * (1 - t) ** 2 * t * one + 3 * (1 - t) * t**2 * two + t**3 * end
                points.append((float(at[0]), float(at[1])))
        elif letter == "Z":
            points.append(points[0])
        else:
            points += list(curve)
    return points


def inside(points: list[Point], x: float, y: float) -> bool:
    crossings = 0
    for (ax, ay), (bx, by) in zip(points, points[1:] + points[:1], strict=True):
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            crossings += 1
    return crossings % 2 == 1


def near(points: list[Point], x: float, y: float) -> bool:
    at = np.array((x, y))
    for start, end in zip(np.array(points)[:-1], np.array(points)[1:], strict=True):
        way = end - start
        share = np.clip(np.dot(at - start, way) / max(1e-12, float(np.dot(way, way))), 0.0, 1.0)
        if np.linalg.norm(at - start - share * way) <= STROKE / 2:
            return True
    return False


def printed(name: str) -> NDArray[np.bool_]:
    """A symbol as black dots on a grid."""
    glyph, axis = GLYPHS[name], (np.arange(GRID) + 0.5) / GRID - 0.5
    solids, strokes = ([flattened(outline) for outline in part] for part in (glyph.solids, glyph.strokes))
    return np.array(
        [[any(inside(p, x, y) for p in solids) or any(near(p, x, y) for p in strokes) for x in axis] for y in axis]
    )


PRINTS = {name: printed(name) for name in SYMBOLS}


def test_every_symbol_of_the_tray_is_drawn_and_no_other() -> None:
    assert set(GLYPHS) == set(SYMBOLS)


@pytest.mark.parametrize("name", SYMBOLS)
def test_symbols_stay_in_their_box(name: str) -> None:
    glyph = GLYPHS[name]
    for outline, half in [(o, 0.0) for o in glyph.solids] + [(o, STROKE / 2) for o in glyph.strokes]:
        reach = max(max(abs(x), abs(y)) for x, y in flattened(outline)) + half
        assert reach <= 0.56


@pytest.mark.parametrize(("one", "other"), list(combinations(SYMBOLS, 2)))
def test_symbols_differ_in_print(one: str, other: str) -> None:
    """At 2.5 mm any two differ in at least 60 of 625 dots (0.6 square millimetres); from memory, no source."""
    assert int(np.sum(PRINTS[one] ^ PRINTS[other])) >= FEWEST_DOTS


def test_the_dots_can_agree() -> None:
    assert int(np.sum(PRINTS["dot"] ^ printed("dot"))) == 0
    assert int(np.sum(PRINTS["dot"])) > 0
