"""posing: from a rope in space to places on the page: lying straight, or bent round a ring.

Both are seen square to the axis of the rope. Seen from outside with row 1 at the left, clockwise is upward.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, pi, radians, sin
from typing import Protocol

import numpy as np

from braidwright.domain.geometry import FloatArray, Geometry
from braidwright.drawings.bead_solid import Place
from braidwright.drawings.pen import Point


class Pose(Protocol):
    """How a rope lies before the reader."""

    @property
    def zoom(self) -> float:
        """Millimetres on the page for one of the rope."""

    def points(self, space: FloatArray) -> FloatArray:
        """Points of the straight rope, (n, 3): right and down on the page, and toward the reader in mm of the rope."""

    def directions(self, space: FloatArray, vectors: FloatArray) -> FloatArray:
        """The directions of vectors at those points, in the same three senses."""


def frame(turned_deg: float) -> FloatArray:
    """Along the rope, clockwise round it, and outward, at a direction clockwise from north: rows of a matrix."""
    turn = radians(turned_deg)
    return np.array([(0.0, 0.0, 1.0), (cos(turn), -sin(turn), 0.0), (sin(turn), cos(turn), 0.0)])


@dataclass(frozen=True, slots=True, kw_only=True)
class Straight:
    """A rope along the page, its first braided end at the left.

    Attributes:
        turned_deg: The direction that faces the reader, degrees clockwise from north.
        left: Where z = 0 lies on the page, mm.
        axis: Height of the axis on the page, mm from the top.
        zoom: Millimetres on the page for one of the rope.
    """

    turned_deg: float
    left: float
    axis: float
    zoom: float

    def points(self, space: FloatArray) -> FloatArray:
        """See `Pose`."""
        along, up, toward = frame(self.turned_deg) @ space.T
        return np.stack((self.left + self.zoom * along, self.axis - self.zoom * up, toward), axis=1)

    def directions(self, space: FloatArray, vectors: FloatArray) -> FloatArray:
        """See `Pose`."""
        along, up, toward = frame(self.turned_deg) @ vectors.T
        return np.stack((along, -up, toward), axis=1)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ring:
    """An ellipse, and the lines that run beside it at a distance.

    Attributes:
        half: Half its width and half its height, mm.
    """

    half: Point

    def parameters(self, distance: float, arcs: FloatArray) -> FloatArray:
        """The angles of the ellipse at arc lengths along a line outside it, clockwise from the lowest point.

        The line beside an ellipse is longer by 2 pi times the distance, whatever the ellipse
        (J. Steiner, 1840, from memory).
        """
        steps = np.linspace(0.0, 2.0 * pi, 1441)
        x, y = self.beside(steps, np.full(steps.size, distance))
        lengths = np.concatenate(([0.0], np.cumsum(np.hypot(np.diff(x), np.diff(y)))))
        found: FloatArray = np.interp(arcs % lengths[-1], lengths, steps)
        return found

    def beside(self, at: FloatArray, distance: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Points at distances outside the ellipse, right and up from its middle."""
        x, y = self.normals(at)
        wide, high = self.half
        return -wide * np.sin(at) + distance * x, -high * np.cos(at) + distance * y

    def normals(self, at: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Outward, at these angles."""
        wide, high = self.half
        x, y = -high * np.sin(at), -wide * np.cos(at)
        size = np.hypot(x, y)
        return x / size, y / size


def ring_of(girth: float, ratio: float) -> Ring:
    """The ellipse of a girth whose height is so many of its width."""
    steps = np.linspace(0.0, 2.0 * pi, 2881)
    unit = float(np.hypot(np.diff(np.sin(steps)), ratio * np.diff(np.cos(steps))).sum())
    return Ring(half=(girth / unit, ratio * girth / unit))


@dataclass(frozen=True, slots=True, kw_only=True)
class Bent:
    """A rope round a ring, running clockwise from its lowest point; the front looks outward.

    Attributes:
        ring: The ellipse on whose outside it lies.
        distance: From the ellipse to the axis of the rope, mm of the rope.
        start: Arc length along the axis where z = 0 lies.
        turned_deg: The direction that looks outward, degrees clockwise from north.
        centre: The middle of the ring on the page, mm.
        zoom: Millimetres on the page for one of the rope.
    """

    ring: Ring
    distance: float
    start: float
    turned_deg: float
    centre: Point
    zoom: float

    def points(self, space: FloatArray) -> FloatArray:
        """See `Pose`."""
        along, clockwise, outward = frame(self.turned_deg) @ space.T
        at = self.ring.parameters(self.distance, along + self.start)
        x, y = self.ring.beside(at, self.distance + outward)
        return np.stack((self.centre[0] + self.zoom * x, self.centre[1] - self.zoom * y, -clockwise), axis=1)

    def directions(self, space: FloatArray, vectors: FloatArray) -> FloatArray:
        """See `Pose`."""
        at = self.ring.parameters(self.distance, space[:, 2] + self.start)
        out_x, out_y = self.ring.normals(at)
        along, clockwise, outward = frame(self.turned_deg) @ vectors.T
        right = out_y * along + out_x * outward  # clockwise on the page, the rope runs along (out_y, -out_x)
        up = -out_x * along + out_y * outward
        return np.stack((right, -up, -clockwise), axis=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class EndOn:
    """A rope seen along its axis from its last end, the front at the top.

    Attributes:
        turned_deg: The direction that is at the top, degrees clockwise from north.
        centre: Where the axis meets the page, mm.
        zoom: Millimetres on the page for one of the rope.
    """

    turned_deg: float
    centre: Point
    zoom: float

    def points(self, space: FloatArray) -> FloatArray:
        """See `Pose`."""
        along, clockwise, outward = frame(self.turned_deg) @ space.T
        return np.stack((self.centre[0] + self.zoom * clockwise, self.centre[1] - self.zoom * outward, along), axis=1)

    def directions(self, space: FloatArray, vectors: FloatArray) -> FloatArray:
        """See `Pose`."""
        along, clockwise, outward = frame(self.turned_deg) @ vectors.T
        return np.stack((clockwise, -outward, along), axis=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """One bead as it is seen.

    Attributes:
        key: Its tray key.
        cord: Its cord.
        place: Where it lies on the page.
        of: The name of its stitch.
        turn: Where it lies round the rope, degrees clockwise from north.
    """

    key: str
    cord: int
    place: Place
    of: str
    turn: float


def pose_beads(geometry: Geometry, pose: Pose, rows: tuple[int, int]) -> Iterator[Seen]:
    """Every bead of the rows from the first to before the last."""
    own = np.flatnonzero((geometry.stitches[:, 0] >= rows[0]) & (geometry.stitches[:, 0] < rows[1]))
    named = [(geometry.keys[n], int(geometry.bead_cords[n]), geometry.stitches[n]) for n in own]
    lying = (geometry.centres[own], geometry.holes[own], geometry.outward[own])
    yield from _placed(named, lying, pose)


def _placed(
    named: list[tuple[str, int, np.ndarray]], lying: tuple[FloatArray, FloatArray, FloatArray], pose: Pose
) -> Iterator[Seen]:
    centres, holes, outward = lying
    at = pose.points(centres).tolist()
    ways = pose.directions(centres, holes).tolist()
    outs = pose.directions(centres, outward).tolist()
    turns = np.degrees(np.arctan2(outward[:, 0], outward[:, 1])).tolist()
    for index, (key, cord, stitch) in enumerate(named):
        x, y, depth = at[index]
        place = Place(at=(x, y), depth=depth, hole=tuple(ways[index]), out=tuple(outs[index]), zoom=pose.zoom)
        of = f"stitch-{int(stitch[0]) + 1}-{int(stitch[1]) + 1}"
        yield Seen(key=key, cord=cord, place=place, of=of, turn=turns[index])
