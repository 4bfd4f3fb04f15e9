"""cage: a loose first shape of any braid, drawn from the moves alone.

While a cord rests it runs straight up at its slot, on a wide circle; a move is a chord of that circle at the height of
its turn, and a re-space an arc of it. Nothing touches yet and nothing is on the wrong side of anything. Source:
physics.md, section 3 (the start of CELL).
"""

from dataclasses import dataclass
from math import radians

import numpy as np

from braidwright.domain.braid import Braid, Move, turn
from braidwright.domain.walk import cycles, walk
from braidwright.physics.lines import twisted
from braidwright.physics.state import Floats
from braidwright.physics.ways import Ways

BELOW = 0.4  # of the height of a move: how far below its chord the middle of a stitch lies
INWARD = 0.12  # of the radius: how far inside the rim a chord passes, however short it is
CHORD = 8  # pieces of a chord


@dataclass(frozen=True, slots=True, kw_only=True)
class _At:
    """A move in its row.

    Attributes:
        row: From 0.
        index: Of the move in the repeat, re-spaces counted.
    """

    row: int
    index: int


def cage(braid: Braid, radius_mm: float, rise_mm: float, drift_deg: float) -> Ways:
    """The ways of the cords in a cage.

    Args:
        braid: The braid.
        radius_mm: Of the circle.
        rise_mm: Height of a row.
        drift_deg: Turn of a row, degrees clockwise. What it differs by from the turn of the disk twists the cage.
    """
    frame = _Frame(braid, radius_mm, rise_mm, drift_deg)
    starts = [index for index, move in enumerate(braid.moves) if move.is_stitch]
    busy = [cycle for cycle in cycles(walk(braid).permutation) if not set(walk(braid).movers).isdisjoint(cycle)]
    stitching = {place for cycle in busy for place in cycle}
    return Ways(
        stitches=tuple(frame.way(index) for index in starts),
        idle=tuple(frame.resting(slot) for place, slot in enumerate(braid.start) if place not in stitching),
        rise_mm=rise_mm,
        drift_deg=drift_deg,
    )


def _sweeps(braid: Braid) -> tuple[float, ...]:
    """For every move of a repeat: how far it goes round the rim as a re-space, the way that is free, radians."""
    held, found = set(braid.start), []
    for move in braid.moves:
        ahead = (move.put - move.take) % braid.slots
        is_free = all(turn(move.take, by, braid.slots) not in held for by in range(1, ahead))
        found.append(radians((ahead if is_free else ahead - braid.slots) * 360.0 / braid.slots))
        held = (held - {move.take}) | {move.put}
    return tuple(found)


class _Frame:
    """The disk as it stands in space."""

    def __init__(self, braid: Braid, radius_mm: float, rise_mm: float, drift_deg: float) -> None:
        self.braid, self.radius, self.rise = braid, radius_mm, rise_mm
        self.twist_deg = drift_deg - braid.shift * 360.0 / braid.slots
        self.sweeps = _sweeps(braid)

    def height(self, at: _At) -> float:
        """Of a chord, mm."""
        return (at.row + (at.index + 0.5) / len(self.braid.moves)) * self.rise

    def way(self, index: int) -> Floats:
        """From the middle of the stitch that a move of row 0 makes to the next stitch of the same cord."""
        low = BELOW * self.rise / len(self.braid.moves)
        move, at = self.braid.moves[index], _At(row=0, index=index)
        corners = [self._rim(move.take, self.height(at) - low)]
        while True:
            corners += self._crossed(move, at)
            move, at = self._next(move.put, at)
            if move.is_stitch:
                corners.append(self._rim(move.take, self.height(at) - low))
                return self._twisted(np.array(corners))

    def resting(self, slot: int) -> Floats:
        """Over row 0 from a slot: straight up, and along the rim where the cord is re-spaced."""
        corners = [self._rim(slot, 0.0)]
        for index, move in enumerate(self.braid.moves):
            if move.take == slot:
                corners += self._crossed(move, _At(row=0, index=index))
                slot = move.put
        return self._twisted(np.array([*corners, self._rim(slot, self.rise)]))

    def _next(self, slot: int, at: _At) -> tuple[Move, _At]:
        """The next move that takes a cord out of a slot, in slots as they are."""
        moves, slots = self.braid.moves, self.braid.slots
        row, index = at.row, at.index
        while True:
            index += 1
            if index == len(moves):
                row, index = row + 1, 0
            by = self.braid.shift * row
            if turn(moves[index].take, by, slots) == slot:
                put = turn(moves[index].put, by, slots)
                return Move(take=slot, put=put, kind=moves[index].kind), _At(row=row, index=index)

    def _rim(self, slot: int, height: float) -> tuple[float, float, float]:
        return self._polar(radians(self.braid.angle(slot)), self.radius, height)

    @staticmethod
    def _polar(angle: float, radius: float, height: float) -> tuple[float, float, float]:
        return radius * float(np.sin(angle)), radius * float(np.cos(angle)), height

    def _crossed(self, move: Move, at: _At) -> list[tuple[float, float, float]]:
        """A chord, held some way inside the rim, or an arc along it."""
        start, end, height = radians(self.braid.angle(move.take)), radians(self.braid.angle(move.put)), self.height(at)
        if not move.is_stitch:
            swept = self.sweeps[at.index]
            return [self._polar(start + share * swept, self.radius, height) for share in np.linspace(0.0, 1.0, CHORD)]
        one, other = np.array(self._polar(start, self.radius, height)), np.array(self._polar(end, self.radius, height))
        points = []
        for share in np.linspace(0.0, 1.0, CHORD + 1):
            point = (1.0 - share) * one + share * other
            out = float(np.hypot(point[0], point[1]))
            most = self.radius * (1.0 - INWARD * min(1.0, 4.0 * share, 4.0 * (1.0 - share)))
            point[:2] *= min(1.0, most / out) if out > 0.0 else 1.0
            points.append((float(point[0]), float(point[1]), height))
        return points

    def _twisted(self, points: Floats) -> Floats:
        return twisted(points, self.twist_deg / self.rise)
