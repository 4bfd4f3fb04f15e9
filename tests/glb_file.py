"""A reader of GLB files that forgives nothing, and what a closed surface is.

Rules: Khronos Group, glTF 2.0 Specification (ISO/IEC 12113:2022); the section stands beside each.
"""

import json
import struct
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

SIZES = {5126: 4, 5123: 2, 5125: 4}
TYPES = {5126: "<f4", 5123: "<u2", 5125: "<u4"}
PARTS = {"SCALAR": 1, "VEC3": 3}


@dataclass(frozen=True)
class Glb:
    """A file that was read: its JSON, and the numbers behind each accessor."""

    model: dict[str, Any]
    numbers: list[NDArray[Any]]

    @property
    def nodes(self) -> list[dict[str, Any]]:
        """The nodes that show a mesh."""
        return [node for node in self.model["nodes"] if "mesh" in node]

    def beads(self) -> list[dict[str, Any]]:
        """The nodes of beads."""
        return [node for node in self.nodes if "row" in node["extras"]]

    def material(self, name: str) -> dict[str, Any]:
        """The material of this name."""
        (found,) = [material for material in self.model["materials"] if material["name"] == name]
        return dict(found)


def read_glb(data: bytes) -> Glb:
    """Read a file, judging its frame (4.4) and everything behind its meshes."""
    magic, version, length = struct.unpack_from("<4sII", data)
    assert (magic, version, length) == (b"glTF", 2, len(data))  # 4.4.2
    told, kind = struct.unpack_from("<I4s", data, 12)
    assert (kind, told % 4) == (b"JSON", 0)  # 4.4.3.2; 4.4.3.1: chunks begin and end on four bytes
    model = json.loads(data[20 : 20 + told])
    size, kind = struct.unpack_from("<I4s", data, 20 + told)
    assert (kind, size % 4, 28 + told + size) == (b"BIN\0", 0, length)
    (buffer,) = model["buffers"]
    assert "uri" not in buffer  # 4.4.3.3
    assert 0 <= size - buffer["byteLength"] <= 3
    found = Glb(model=model, numbers=[_numbers(model, each, data[28 + told :]) for each in model["accessors"]])
    _check_views(model)
    _check_meshes(found)
    _check_nodes(model)
    return found


def _numbers(model: dict[str, Any], accessor: dict[str, Any], content: bytes) -> NDArray[Any]:
    view = model["bufferViews"][accessor["bufferView"]]
    size, parts, count = SIZES[accessor["componentType"]], PARTS[accessor["type"]], accessor["count"]
    stride = view.get("byteStride", size * parts)
    first = accessor.get("byteOffset", 0)
    assert first % size == 0  # 3.6.2.4: accessors begin on a multiple of their component
    assert (view["byteOffset"] + first) % size == 0
    assert first + stride * (count - 1) + size * parts <= view["byteLength"]  # 3.6.2.4: and end inside their view
    data = np.ndarray(
        (count, parts), TYPES[accessor["componentType"]], content, view["byteOffset"] + first, (stride, size)
    )
    if "min" in accessor:  # 3.6.2.5: to the last bit of a float
        assert data.min(axis=0).tolist() == accessor["min"]
        assert data.max(axis=0).tolist() == accessor["max"]
    return data


def _check_views(model: dict[str, Any]) -> None:
    end = 0
    for view in model["bufferViews"]:
        assert view["byteOffset"] == end
        end += view["byteLength"]
        assert view["target"] in (34962, 34963)  # 5.11.5
        assert ("byteStride" in view) is (view["target"] == 34962)  # 3.6.2.4, 3.6.2.2
        assert view.get("byteStride", 4) % 4 == 0
    assert end == model["buffers"][0]["byteLength"]


def _check_meshes(found: Glb) -> None:
    model, used = found.model, set()
    for primitive in (each for mesh in model["meshes"] for each in mesh["primitives"]):
        place, normal = (primitive["attributes"][name] for name in ("POSITION", "NORMAL"))
        used |= {place, normal, primitive["indices"]}
        assert {"min", "max"} <= set(model["accessors"][place])  # 3.7.2.1
        assert len(found.numbers[place]) == len(found.numbers[normal])
        assert np.abs(np.linalg.norm(found.numbers[normal], axis=1) - 1.0).max() < 1e-3  # 3.7.2.1: unit length
        indices = found.numbers[primitive["indices"]]
        assert len(indices) % 3 == 0  # 3.7.2.1: whole triangles
        assert indices.max() < len(found.numbers[place])  # 3.7.2.1
        assert indices.max() < {"<u2": 65535, "<u4": 2**32 - 1}[indices.dtype.str]  # 3.7.2.1: no primitive restart
        assert 0 <= primitive["material"] < len(model["materials"])
    assert used == set(range(len(model["accessors"])))  # nothing is carried that is not used
    extensions = {name for material in model["materials"] for name in material.get("extensions", {})}
    assert sorted(extensions) == model.get("extensionsUsed", [])  # 3.12: used ones are told, each once
    assert "extensionsRequired" not in model  # any viewer may open it


def _check_nodes(model: dict[str, Any]) -> None:
    parents = [child for node in model["nodes"] for child in node.get("children", [])]
    (root,) = model["scenes"][model["scene"]]["nodes"]
    assert sorted([*parents, root]) == list(range(len(model["nodes"])))  # 3.5.2: a strict tree, every node in the scene
    for node in model["nodes"]:
        if "rotation" in node:
            assert abs(np.linalg.norm(node["rotation"]) - 1.0) < 1e-5  # 5.25: a unit quaternion


def edge_counts(points: NDArray[Any], faces: NDArray[Any]) -> tuple[int, int, bool]:
    """Corners and edges of a surface whose points at one place count as one, and whether it is closed.

    Closed: every edge is walked once in each direction, so no triangle is missing and none is turned over.
    """
    places, which = np.unique(np.round(points, 9), axis=0, return_inverse=True)
    corners = which.reshape(-1)[faces]
    edges = np.concatenate([corners[:, [0, 1]], corners[:, [1, 2]], corners[:, [2, 0]]])
    there, back = {tuple(edge) for edge in edges.tolist()}, {tuple(edge) for edge in edges[:, ::-1].tolist()}
    return len(places), len(edges) // 2, there == back and len(there) == len(edges)


def volume(points: NDArray[Any], faces: NDArray[Any]) -> float:
    """What a closed surface holds: the divergence theorem, a sum of tetrahedra."""
    a, b, c = (points[faces[:, n]] for n in range(3))
    return float((a * np.cross(b, c)).sum() / 6.0)
