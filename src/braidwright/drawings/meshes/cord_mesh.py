"""cord_mesh: cords as round tubes swept along their curves, with closed ends."""

import numpy as np

from braidwright.domain.geometry import FloatArray, IntArray
from braidwright.drawings.meshes.mesh import Mesh, grid_faces, joined, unit

LEAST_BEND_DEG = 24.0  # a curve that bends less than this between two rings of its tube looks smooth


def cord_meshes(
    curves: tuple[FloatArray, ...], diameter: float, sides: int, bend_deg: float = LEAST_BEND_DEG
) -> tuple[Mesh, ...]:
    """The tubes of cords, all built alike: first the two ends, then ring after ring.

    Args:
        curves: The axis of each cord, (nodes, 3) mm.
        diameter: Diameter of the cords, mm.
        sides: Corners of a ring.
        bend_deg: How much a tube may bend from ring to ring, degrees.
    """
    thinned = tuple(thin(curve, bend_deg) for curve in curves)
    return tuple(
        _tube(curve, frame, diameter / 2.0, sides) for curve, frame in zip(thinned, _frames(thinned), strict=True)
    )


def thin(curve: FloatArray, bend_deg: float = LEAST_BEND_DEG) -> FloatArray:
    """The same curve without nodes that lie on each other or on the way straight on."""
    steps = np.linalg.norm(np.diff(curve, axis=0), axis=1)
    nodes = curve[np.concatenate(([True], steps > 1e-6))]
    if len(nodes) < 2:
        return np.stack((curve[0], curve[0] + np.array((0.0, 0.0, 1e-3))))
    ways = unit(np.diff(nodes, axis=0))
    bends = np.arccos(np.clip((ways[:-1] * ways[1:]).sum(axis=1), -1.0, 1.0))
    # A node stays where the bend so far passes a whole number of least bends: on it, or half-way to the next one.
    passed = np.floor((np.cumsum(bends) - bends / 2.0) / np.radians(bend_deg) + 0.5)
    kept = np.concatenate(([True], np.diff(passed, prepend=0.0) > 0, [True]))
    return nodes[kept]


def _frames(curves: tuple[FloatArray, ...]) -> tuple[tuple[FloatArray, FloatArray, FloatArray], ...]:
    """Tangent and two normals at every node of every curve, turning about the curve as little as can be.

    All curves are walked at once; a short one waits at its end. Source: W. Wang, B. Juettler, D. Zheng, Y. Liu,
    Computation of Rotation Minimizing Frames (2008), the double reflection method.
    """
    longest = max(map(len, curves))
    nodes = np.stack([np.concatenate((curve, np.repeat(curve[-1:], longest - len(curve), axis=0))) for curve in curves])
    ways = unit(np.diff(nodes, axis=1))
    tangents = np.concatenate((ways[:, :1], unit(ways[:, :-1] + ways[:, 1:]), ways[:, -1:]), axis=1)
    for index, curve in enumerate(curves):
        tangents[index, len(curve) - 1 :] = ways[index, len(curve) - 2]
    normals = np.zeros_like(nodes)
    normals[:, 0] = _square_to(tangents[:, 0])
    for at in range(longest - 1):
        step = ways[:, at]
        normal = normals[:, at] - 2.0 * _dot(step, normals[:, at]) * step
        tangent = tangents[:, at] - 2.0 * _dot(step, tangents[:, at]) * step
        again = unit(tangents[:, at + 1] - tangent)
        normals[:, at + 1] = normal - 2.0 * _dot(again, normal) * again
    normals = unit(normals - _dot(normals, tangents) * tangents)
    others = np.cross(tangents, normals)
    return tuple(
        (tangents[index, : len(curve)], normals[index, : len(curve)], others[index, : len(curve)])
        for index, curve in enumerate(curves)
    )


def _dot(one: FloatArray, other: FloatArray) -> FloatArray:
    product: FloatArray = (one * other).sum(axis=-1, keepdims=True)
    return product


def _square_to(vectors: FloatArray) -> FloatArray:
    """A unit vector square to each vector, whichever way it points."""
    least = np.eye(3)[np.argmin(np.abs(vectors), axis=-1)]
    return unit(np.cross(vectors, least))


def _tube(curve: FloatArray, frame: tuple[FloatArray, FloatArray, FloatArray], radius: float, sides: int) -> Mesh:
    tangents, normals, others = frame
    turn = 2.0 * np.pi * np.arange(sides)[:, None] / sides
    out = np.cos(turn) * normals[:, None] + np.sin(turn) * others[:, None]
    rings = curve[:, None] + radius * out
    ends = []
    for at, way, corners in ((0, -tangents[0], rings[0, ::-1]), (-1, tangents[-1], rings[-1])):
        points = np.concatenate((curve[at][None], corners))
        ends.append((points, np.repeat(way[None], sides + 1, axis=0), _fan(sides)))
    return joined([*ends, (rings.reshape(-1, 3), out.reshape(-1, 3), _ladder(len(curve), sides))])


def _fan(sides: int) -> IntArray:
    corner = np.arange(sides)
    return np.stack((np.zeros_like(corner), 1 + corner, 1 + (corner + 1) % sides), axis=1)


def _ladder(rings: int, sides: int) -> IntArray:
    """Triangles ring after ring, so that those of a short tube begin those of a longer one."""
    faces = grid_faces(sides, rings)
    side, ring = faces // rings, faces % rings
    return ring * sides + side
