"""dither: from wanted colours to a choice of few, stitch by stitch, plainly or so that the mean comes out right."""

from typing import Literal, get_args

import numpy as np
from numpy.typing import NDArray

from braidwright.domain.braid import Braid
from braidwright.domain.motif import Course
from braidwright.domain.oklab import FloatArray, nearest, oklab_of
from braidwright.domain.surface import neighbours_ahead, order_of

IntArray = NDArray[np.int64]
BoolArray = NDArray[np.bool_]
Mixing = Literal["none", "diffused", "ordered"]
MIXINGS: tuple[str, ...] = get_args(Mixing)

PARTS = 16  # of how many parts a mixture is made in the ordered way
FINE_PARTS = 64  # and of how many when it is asked what can be mixed at all
NUDGE = 1.0  # by how much of what is missing a choice is nudged, at most half to either side; our own choice
# Steps of a sequence that fills a square evenly however many points are taken.
# Source: M. Roberts, The Unreasonable Effectiveness of Quasirandom Sequences (2018), R2.
_BY_ROW, _BY_STITCH = 0.7548776662466927, 0.5698402909980532


def plain(wanted: FloatArray, choice: FloatArray) -> IntArray:
    """For each stitch the colour of the choice that looks nearest.

    Args:
        wanted: Linear light, (rows, stitches, 3).
        choice: Linear light, (k, 3).

    Returns:
        Which of the choice, (rows, stitches).
    """
    return nearest(wanted.reshape(-1, 3), oklab_of(choice)).reshape(wanted.shape[:2])


def ordered(wanted: FloatArray, choice: FloatArray) -> IntArray:
    """Mixtures in a fixed pattern: each stitch takes one part of the mixture that its wanted colour needs.

    Parts are chosen one after the other, each making up for those before; sorted from dark to light, a stitch takes
    the one its place asks for. Places are an even sequence over rows and working order, since half-steps have no
    square pattern.
    Source: T. Knoll, Pattern dithering (US patent 6,606,166, lapsed), for the mixture.
    """
    parts = _mixtures(wanted.reshape(-1, 3), choice, PARTS)
    rank = np.argsort(np.argsort(oklab_of(choice)[:, 0], kind="stable"), kind="stable")
    by_light = np.take_along_axis(parts, np.argsort(rank[parts], axis=0, kind="stable"), axis=0)
    place = (_places(wanted) * PARTS).astype(np.int64).reshape(1, -1)
    taken: IntArray = np.take_along_axis(by_light, place, axis=0)
    return taken.reshape(wanted.shape[:2])


def _places(wanted: FloatArray) -> FloatArray:
    """A number from 0 to under 1 for each stitch, such that neighbours have very different ones, (rows, stitches)."""
    rows, stitches = np.indices(wanted.shape[:2])
    return np.asarray((0.5 + _BY_ROW * rows + _BY_STITCH * stitches) % 1.0, dtype=np.float64)


def _mixtures(wanted: FloatArray, choice: FloatArray, count: int) -> IntArray:
    """The parts of a mixture for each colour, each part making up for those before, (count, n)."""
    seen = oklab_of(choice)
    parts: IntArray = np.zeros((count, len(wanted)), dtype=np.int64)
    owed: FloatArray = np.zeros_like(wanted)
    for part in range(count):
        parts[part] = nearest(np.clip(wanted + owed, 0.0, 1.0), seen)
        owed += wanted - choice[parts[part]]
    return parts


def diffused(wanted: FloatArray, choice: FloatArray, inside: BoolArray, braid: Braid, course: Course) -> IntArray:
    """Each stitch takes the nearest colour and hands what is missing on to its neighbours on the rope not yet done.

    Args:
        wanted: Linear light, (rows, stitches, 3).
        choice: Linear light, (k, 3).
        inside: Which stitches take part, (rows, stitches); nothing is handed beyond them.
        braid: Whose neighbours count.
        course: How its columns run.

    Returns:
        Which of the choice, (rows, stitches); 0 where a stitch takes no part.
    """
    ways = tuple(
        (order_of(braid, backward=backward), neighbours_ahead(braid, course, backward=backward))
        for backward in (False, True)
    )
    seen = oklab_of(choice)
    places = _places(wanted)
    target: FloatArray = np.zeros_like(wanted)
    target[inside] = _reachable(wanted[inside], choice)
    taken: IntArray = np.zeros(wanted.shape[:2], dtype=np.int64)
    for row in np.flatnonzero(inside.any(axis=1)).tolist():
        order, ahead = ways[row % 2]
        for stitch in order:
            if not inside[row, stitch]:
                continue
            asked = target[row, stitch]
            which = _nudged(asked, choice, seen, float(places[row, stitch]))
            taken[row, stitch] = which
            owed = asked - choice[which]
            for other in ahead[stitch]:
                if row + other.rows < len(inside) and inside[row + other.rows, other.stitch]:
                    target[row + other.rows, other.stitch] += other.share * owed
    return taken


def _reachable(wanted: FloatArray, choice: FloatArray) -> FloatArray:
    """The colours nearest to the wanted ones that can be mixed at all: what cannot be is not handed on for ever."""
    mixed: FloatArray = choice[_mixtures(wanted, choice, FINE_PARTS)].mean(axis=0)
    near = np.abs(mixed - wanted).max(axis=1) <= 1.0 / FINE_PARTS
    mixed[near] = wanted[near]
    return mixed


def _nudged(asked: FloatArray, choice: FloatArray, seen: FloatArray, place: float) -> int:
    """The nearest colour, or now and then the next: without such nudges an even grey falls into stripes.

    A colour that the choice has is never nudged.
    """
    which = int(nearest(np.clip(asked, 0.0, 1.0)[None, :], seen)[0])
    moved = asked + NUDGE * (place - 0.5) * (asked - choice[which])
    return int(nearest(np.clip(moved, 0.0, 1.0)[None, :], seen)[0])
