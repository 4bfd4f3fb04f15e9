"""bead_mesh: the solid of a bead, with its hole, from the bead's own measures.

The hole runs along z through the origin; what reaches out to one side reaches along x.
"""

from functools import lru_cache

import numpy as np

from braidwright.domain.bead import OFF_CENTRE, REACHES, Bead
from braidwright.domain.geometry import FloatArray
from braidwright.drawings.bead_solid import CORNERS
from braidwright.drawings.meshes.mesh import Mesh, ring_mesh

ROUND_WAYS = 18  # a bead on a screen is some 40 pixels across: more corners are not seen
ARC_PIECES = 8
SIDE_PIECES = 5

CUT_WAYS = {"cylinder": ROUND_WAYS, "bicone": 8, "fire-polished": 10}
HOLE_WALL = 1.25  # round an off-centre hole there is glass of at least a quarter of the hole's radius
DISCS = 33


@lru_cache(maxsize=256)
def bead_mesh(bead: Bead) -> Mesh:
    """The solid of a bead. Its corners lie on the true surface, so that no bead looks bigger than it is."""
    if bead.shape in OFF_CENTRE:
        return _reaching(bead)
    if bead.shape in CORNERS:
        return _cut(bead)
    return _turned((_lens(bead) if bead.shape == "lentil" else _spherodisc(bead),), ROUND_WAYS)


# --- beads with the hole in the middle: an outline turned about the hole -----------------------------------


def outline(bead: Bead) -> FloatArray:
    """The outline of a bead with its hole in the middle, from the lower rim to the upper one, (n, 2) mm: r and z."""
    if bead.shape in CORNERS:
        return np.concatenate(_cut_runs(bead))
    return _lens(bead) if bead.shape == "lentil" else _spherodisc(bead)


def _turned(runs: tuple[FloatArray, ...], ways: int, *, is_faceted: bool = False) -> Mesh:
    wall = np.stack((runs[-1][-1], runs[0][0]))
    turn = 2.0 * np.pi * np.arange(ways)[:, None] / ways
    strips = tuple(
        np.stack((np.cos(turn) * run[:, 0], np.sin(turn) * run[:, 0], np.broadcast_to(run[:, 1], (ways, len(run)))), -1)
        for run in (*runs, wall)
    )
    return ring_mesh(strips, is_faceted=is_faceted)


def _spherodisc(bead: Bead) -> FloatArray:
    """A flat disc blown up to a rounded one, with the hole cut through. Source: physics.md, 2.

    A bead longer than it is wide is a rod with round ends.
    """
    radius, half, hole = bead.diameter_mm / 2.0, bead.length_mm / 2.0, bead.hole_mm / 2.0
    swell = min(radius, half)
    disc, rod = radius - swell, half - swell
    last = np.arccos(min(1.0, max(0.0, (hole - disc) / swell)))
    turn = np.linspace(-last, last, ARC_PIECES + 1)
    if rod > 0.0:
        turn = np.concatenate(
            (np.linspace(-last, 0.0, ARC_PIECES // 2 + 1), np.linspace(0.0, last, ARC_PIECES // 2 + 1))
        )
    up = np.where(np.arange(len(turn)) < len(turn) / 2.0, -rod, rod)
    arc = np.stack((disc + swell * np.cos(turn), up + swell * np.sin(turn)), axis=1)
    if hole < disc - 1e-9:
        return np.concatenate(([(hole, arc[0, 1])], arc, [(hole, arc[-1, 1])]))
    return arc


def _lens(bead: Bead) -> FloatArray:
    """Two caps of a sphere, rim to rim, with the hole through their middles."""
    radius, half, hole = bead.diameter_mm / 2.0, bead.length_mm / 2.0, bead.hole_mm / 2.0
    half = min(half, radius)
    sphere = (radius**2 + half**2) / (2.0 * half)
    r = hole + (radius - hole) * np.sin(np.linspace(0.0, np.pi / 2.0, ARC_PIECES // 2 + 1))
    z = np.sqrt(np.maximum(0.0, sphere**2 - r**2)) - (sphere - half)
    z[-1] = 0.0
    return np.concatenate((np.stack((r, -z), axis=1), np.stack((r, z), axis=1)[-2::-1]))


def _cut_runs(bead: Bead) -> tuple[FloatArray, ...]:
    """Straight pieces of outline, with a sharp edge between each two: the quarter that pictures draw, all round."""
    radius, half, hole = bead.diameter_mm / 2.0, bead.length_mm / 2.0, bead.hole_mm / 2.0
    upper = [(max(hole, -radius * across), -half * along) for along, across in CORNERS[bead.shape][::-1]]
    upper.append((hole, half))
    lower = [(r, -z) for r, z in upper[::-1]]
    corners = np.array([*dict.fromkeys((*lower, *upper))])
    return tuple(corners[at : at + 2] for at in range(len(corners) - 1))


def _cut(bead: Bead) -> Mesh:
    return _turned(_cut_runs(bead), CUT_WAYS[bead.shape], is_faceted=bead.shape != "cylinder")


# --- beads that reach out to one side: two sheets over a plan, joined at the rim and in the hole ------------


def discs(bead: Bead) -> FloatArray:
    """A bead that reaches out, as overlapping flattened balls, (n, 3) mm: middle along x, radius, half thickness.

    The balls are those that pictures draw; beyond the widest one the bead grows thin as it grows narrow.
    """
    half, hole = bead.diameter_mm / 2.0, bead.hole_mm / 2.0
    shares, radii = np.array(REACHES[bead.shape]).T
    radii = half * radii
    radii[0] = max(radii[0], HOLE_WALL * hole)
    widest = int(np.argmax(radii))
    thick = np.ones(len(radii))
    thick[widest:] = radii[widest:] / radii[widest]
    every = np.linspace(0.0, 1.0, DISCS)
    far = max(0.0, bead.reach_mm - radii[-1])
    return np.stack(
        (far * every, np.interp(every, shares, radii), bead.length_mm / 2.0 * np.interp(every, shares, thick)), axis=1
    )


def half_thickness(bead: Bead, x: FloatArray, y: FloatArray) -> FloatArray:
    """How far a bead that reaches out rises over its plan at points of it, mm; 0 outside."""
    middle, radius, thick = discs(bead).T
    inside = 1.0 - ((x[..., None] - middle) ** 2 + y[..., None] ** 2) / radius**2
    height: FloatArray = (thick * np.sqrt(np.maximum(0.0, inside))).max(axis=-1)
    return height


def _plan(bead: Bead, turn: FloatArray) -> FloatArray:
    """How far the plan reaches from the hole in each direction, mm."""
    middle, radius, _ = discs(bead).T
    across = radius**2 - (middle * np.sin(turn)[:, None]) ** 2
    reach = np.where(across >= 0.0, middle * np.cos(turn)[:, None] + np.sqrt(np.maximum(0.0, across)), 0.0)
    furthest: FloatArray = reach.max(axis=1)
    return furthest


def _even_turns(bead: Bead) -> FloatArray:
    """Directions that part the rim of the plan into equal lengths, the farthest point being one of them."""
    turn = np.linspace(0.0, 2.0 * np.pi, 721)
    reach = _plan(bead, turn)
    x, y = reach * np.cos(turn), reach * np.sin(turn)
    way = np.concatenate(([0.0], np.cumsum(np.hypot(np.diff(x), np.diff(y)))))
    turns: FloatArray = np.interp(way[-1] * np.arange(ROUND_WAYS) / ROUND_WAYS, way, turn)
    return turns


def _reaching(bead: Bead) -> Mesh:
    hole = bead.hole_mm / 2.0
    turn = _even_turns(bead)
    share = np.sin(np.linspace(0.0, np.pi / 2.0, SIDE_PIECES + 1))
    r = hole + (_plan(bead, turn)[:, None] - hole) * share
    x, y = r * np.cos(turn)[:, None], r * np.sin(turn)[:, None]
    z = half_thickness(bead, x, y)
    z[:, -1] = 0.0
    lower, upper = np.stack((x, y, -z), axis=-1), np.stack((x, y, z), axis=-1)[:, ::-1]
    return ring_mesh((np.concatenate((lower, upper[:, 1:]), axis=1), np.stack((upper[:, -1], lower[:, 0]), axis=1)))
