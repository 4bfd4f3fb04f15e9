"""Loose ropes of bare cord: cages of whole braids, and curves drawn from a word of generators."""

from dataclasses import replace
from math import pi

import numpy as np

from braidwright.domain.braid import Braid
from braidwright.physics.cage import cage
from braidwright.physics.laid import Strand, uniform_rows
from braidwright.physics.rope import Loose, Rope, laid_out
from braidwright.physics.state import Floats
from braidwright.physics.strung import Make, Strung, string
from braidwright.physics.ways import Ways

TILT = 0.01  # of the height of a move
BARE = Make(
    kinds=(),
    cord_mm=0.1,
    core_mm=0.0,
    weight=0.0,
    tall_mm=1.0,
    row_mm=0.0,
    turn_deg=0.0,
    room_mm=1.0,
    room_wide_mm=1.0,
    piece_mm=0.3,
    slack=1.0,
)


def disk_drift(braid: Braid) -> float:
    """Turn of a row on a disk held still, degrees clockwise."""
    return braid.shift * 360.0 / braid.slots


def caged(braid: Braid, rows: int, drift_deg: float, *, is_tilted: bool = True) -> tuple[Strung, Make]:
    """A cage of bare cord, its chords tilted a little so that every cord rises all the way."""
    ways = cage(braid, 3.0, 1.0 * len(braid.moves), drift_deg)
    if is_tilted:
        ways = _tilted(ways, braid)
    bare = ((),) * braid.stitches_per_row
    rope = Rope(braid=braid, rows=(bare,) * rows, kinds=(), cord_mm=0.5, drift_deg=drift_deg)
    return laid_out(rope, ways, uniform_rows(ways, rows), Loose(room_mm=1.0, room_wide_mm=1.0), 0.05)


def _tilted(ways: Ways, braid: Braid) -> Ways:
    step = TILT * ways.rise_mm / len(braid.moves)
    return replace(
        ways,
        stitches=tuple(_rising(way, step) for way in ways.stitches),
        idle=tuple(_rising(way, step) for way in ways.idle),
    )


def _rising(points: Floats, step: float) -> Floats:
    """The same way with every level run of it tilted."""
    level = np.abs(np.diff(points[:, 2])) < 1e-9
    out, at = points.copy(), 0
    while at < len(level):
        end = at
        while end < len(level) and level[end]:
            end += 1
        if end > at:
            out[at : end + 1, 2] += np.linspace(-step, step, end + 1 - at)
        at = max(end, at + 1)
    return out


def drawn(word: tuple[int, ...], cords: int, twist_deg: float = 0.0) -> tuple[Strung, tuple[int, ...]]:
    """Cords side by side that cross as a word says, upward, as a cell a millimetre tall a crossing and one more.

    Seen along the second axis, from below it; plus i: of the i-th and the next cord from the left, the one that goes to
    the right passes in front, which is a right-handed crossing.

    Returns:
        The cell, and the strand in which the cord of each goes on.
    """
    lines: list[list[tuple[float, float, float]]] = [[(float(cord), 0.0, 0.0)] for cord in range(cords)]
    order = list(range(cords))
    for height, letter in enumerate(word):
        at = abs(letter) - 1
        for place, cord in enumerate(order):
            side = {at: -1.0, at + 1: 1.0}.get(place, 0.0) * (1.0 if letter > 0 else -1.0)
            goal = {at: at + 1, at + 1: at}.get(place, place)
            lines[cord] += [(0.5 * (place + goal), 0.4 * side, height + 0.5), (float(goal), 0.0, height + 1.0)]
        order[at], order[at + 1] = order[at + 1], order[at]
    tall = len(word) + 1.0
    for place, cord in enumerate(order):
        lines[cord].append((float(place), 0.0, tall))
    then = tuple(order.index(cord) for cord in range(cords))
    middle = np.array([0.5 * (cords - 1), 0.0, 0.0])
    strands = [
        Strand(points=_twisted(np.array(line) - middle, twist_deg / tall), stitches=(), middles=()) for line in lines
    ]
    return string(strands, {}, then, replace(BARE, tall_mm=tall, turn_deg=twist_deg)), then


def _twisted(points: Floats, deg_per_mm: float) -> Floats:
    """The same line in fine pieces, turned clockwise as it rises."""
    where = np.linspace(0.0, len(points) - 1.0, 40 * (len(points) - 1) + 1)
    x, y, z = (np.interp(where, np.arange(len(points)), points[:, axis]) for axis in range(3))
    angle = deg_per_mm * z * pi / 180.0
    return np.stack([np.cos(angle) * x + np.sin(angle) * y, np.cos(angle) * y - np.sin(angle) * x, z], axis=1)
