"""mesh: a closed surface of triangles, and the ways to close a grid of points into one."""

from dataclasses import dataclass

import numpy as np

from braidwright.domain.geometry import FloatArray, IntArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Mesh:
    """A closed surface; seen from outside, the corners of a triangle run counter-clockwise.

    Attributes:
        points: Corners, (n, 3) mm. A sharp edge has its points twice, once for each side.
        normals: Unit vectors that point out of the solid, (n, 3).
        faces: Three corners for each triangle, (m, 3).
        hole_from: The first triangle of the wall of the hole: these come last. The number of triangles, for no hole.
    """

    points: FloatArray
    normals: FloatArray
    faces: IntArray
    hole_from: int

    def __post_init__(self) -> None:
        """Make the arrays read-only, since meshes are shared."""
        for array in (self.points, self.normals, self.faces):
            array.setflags(write=False)


def unit(vectors: FloatArray) -> FloatArray:
    """Vectors of length 1; what has no length stays as it is."""
    units: FloatArray = vectors / np.maximum(np.linalg.norm(vectors, axis=-1, keepdims=True), 1e-12)
    return units


def ring_mesh(runs: tuple[FloatArray, ...], *, is_faceted: bool = False) -> Mesh:
    """A ring-shaped solid round a hole, from the strips that its outline draws going round.

    Args:
        runs: Strips, each (ways round, points along the outline, 3) mm. The outline goes from the lower rim of the
            hole over the outside to the upper rim and, as the last strip, back through the hole; strips share their
            end points, and between two strips the edge is sharp.
        is_faceted: Whether every patch outside the hole is flat, as on a cut bead.
    """
    outside = [patch for run in runs[:-1] for patch in ([_facets(run)] if is_faceted else [_strip(run)])]
    hole = _strip(runs[-1])
    return joined([*outside, hole], hole_from=sum(len(faces) for _, _, faces in outside))


Patch = tuple[FloatArray, FloatArray, IntArray]


def joined(patches: list[Patch], hole_from: int | None = None) -> Mesh:
    """Patches of points, normals and faces as one mesh."""
    starts = np.cumsum([0, *(len(points) for points, _, _ in patches)])
    faces = np.concatenate([part + start for (_, _, part), start in zip(patches, starts[:-1], strict=True)])
    return Mesh(
        points=np.concatenate([points for points, _, _ in patches]),
        normals=np.concatenate([normals for _, normals, _ in patches]),
        faces=faces,
        hole_from=len(faces) if hole_from is None else hole_from,
    )


def grid_faces(ways: int, count: int) -> IntArray:
    """Two triangles for each patch of a grid that is closed in its first direction, ordered along the second."""
    along, way = np.meshgrid(np.arange(count - 1), np.arange(ways), indexing="ij")
    here, there = way * count + along, (way + 1) % ways * count + along
    return np.stack((here, there, there + 1, here, there + 1, here + 1), axis=-1).reshape(-1, 3)


def _patch_normals(run: FloatArray) -> FloatArray:
    """Normal of each patch, as long as twice its area: half the cross product of the diagonals, without the half."""
    following = np.roll(run, -1, axis=0)
    normals: FloatArray = np.cross(following[:, 1:] - run[:, :-1], run[:, 1:] - following[:, :-1])
    return normals


def _strip(run: FloatArray) -> Patch:
    """A smooth strip: at each point the mean normal of the patches round it, large patches counting more."""
    flat = _patch_normals(run)
    both = flat + np.roll(flat, 1, axis=0)
    normals = np.zeros_like(run)
    normals[:, :-1] += both
    normals[:, 1:] += both
    return run.reshape(-1, 3), unit(normals).reshape(-1, 3), grid_faces(*run.shape[:2])


def _facets(run: FloatArray) -> Patch:
    """The same strip with every patch flat and its own four points."""
    following = np.roll(run, -1, axis=0)
    corners = np.stack((run[:, :-1], following[:, :-1], following[:, 1:], run[:, 1:]), axis=2).reshape(-1, 3)
    normals = np.repeat(unit(_patch_normals(run)).reshape(-1, 3), 4, axis=0)
    first = 4 * np.arange(len(corners) // 4)[:, None]
    faces = np.concatenate((first + np.array((0, 1, 2)), first + np.array((0, 2, 3))), axis=1).reshape(-1, 3)
    return corners, normals, faces
