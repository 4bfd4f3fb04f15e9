"""binary: a glTF 2.0 model as one file (GLB): a chunk of JSON and a chunk of numbers.

Source: Khronos Group, glTF 2.0 Specification (ISO/IEC 12113:2022), sections 3.6 (buffers), 3.7 (meshes), 4.4 (GLB).
"""

import json
import struct
from dataclasses import dataclass, field

import numpy as np

from braidwright.domain.geometry import FloatArray
from braidwright.drawings.meshes.mesh import Mesh, unit
from braidwright.drawings.meshes.surface import JsonTable

MM = 1000.0  # lengths of a model are metres
BYTE, FLOAT, USHORT, UINT = 4, 5126, 5123, 5125
VERTICES, INDICES = 34962, 34963
MOST_SHORT = 65535  # points that 16 bits can number; the number 65535 itself means something else
STRIDE = 24  # a point and its normal, three floats each


@dataclass(slots=True)
class Numbers:
    """The numbers of a model as they are gathered: points and normals side by side, then the corners of triangles."""

    accessors: list[JsonTable] = field(default_factory=list)
    _points: list[bytes] = field(default_factory=list)
    _indices: list[bytes] = field(default_factory=list)
    _at: int = 0
    _index_at: int = 0

    def add_points(self, mesh: Mesh) -> JsonTable:
        """The attributes of a primitive with the points and normals of a mesh."""
        both = np.concatenate((mesh.points / MM, mesh.normals), axis=1).astype("<f4")
        places = both[:, :3]
        shared: JsonTable = {"bufferView": 0, "componentType": FLOAT, "count": len(both), "type": "VEC3"}
        low, high = places.min(axis=0).tolist(), places.max(axis=0).tolist()
        self.accessors.append({**shared, "byteOffset": self._at, "min": low, "max": high})
        self.accessors.append({**shared, "byteOffset": self._at + STRIDE // 2})
        self._points.append(both.tobytes())
        self._at += both.nbytes
        return {"POSITION": len(self.accessors) - 2, "NORMAL": len(self.accessors) - 1}

    def add_faces(self, mesh: Mesh) -> tuple[int, bool]:
        """Store the triangles of a mesh: where they begin, and whether they are stored in 16 bits."""
        is_short = len(mesh.points) <= MOST_SHORT
        data = mesh.faces.astype("<u2" if is_short else "<u4").tobytes()
        start = self._index_at
        self._indices.append(data + b"\0" * (-len(data) % BYTE))
        self._index_at += len(self._indices[-1])
        return start, is_short

    def view_faces(self, stored: tuple[int, bool], first: int, last: int) -> int:
        """The accessor of some of the triangles that were stored, counted from 0."""
        start, is_short = stored
        self.accessors.append(
            {
                "bufferView": 1,
                "byteOffset": start + 3 * first * (2 if is_short else 4),
                "componentType": USHORT if is_short else UINT,
                "count": 3 * (last - first),
                "type": "SCALAR",
            }
        )
        return len(self.accessors) - 1

    @property
    def views(self) -> list[JsonTable]:
        """The two parts of the binary chunk."""
        return [
            {"buffer": 0, "byteOffset": 0, "byteLength": self._at, "byteStride": STRIDE, "target": VERTICES},
            {"buffer": 0, "byteOffset": self._at, "byteLength": self._index_at, "target": INDICES},
        ]

    @property
    def content(self) -> bytes:
        """The binary chunk."""
        return b"".join((*self._points, *self._indices))


def glb(model: JsonTable, numbers: Numbers) -> bytes:
    """The file: the model, told where its numbers are."""
    content = numbers.content
    whole = {
        **model,
        "accessors": numbers.accessors,
        "bufferViews": numbers.views,
        "buffers": [{"byteLength": len(content)}],
    }
    told = json.dumps(whole, ensure_ascii=False, separators=(",", ":")).encode("utf-8", "replace")
    told += b" " * (-len(told) % BYTE)
    chunks = struct.pack("<I4s", len(told), b"JSON") + told + struct.pack("<I4s", len(content), b"BIN\0") + content
    return struct.pack("<4sII", b"glTF", 2, 12 + len(chunks)) + chunks


def quaternions(matrices: FloatArray) -> FloatArray:
    """The quaternions (x, y, z, w) of rotation matrices, (n, 3, 3) to (n, 4).

    Each comes from its largest part, so that no digit is lost. Source: S. W. Shepperd, Quaternion from Rotation Matrix
    (1978).
    """
    m = matrices
    xx, yy, zz = m[:, 0, 0], m[:, 1, 1], m[:, 2, 2]
    four = np.stack((1 + xx - yy - zz, 1 - xx + yy - zz, 1 - xx - yy + zz, 1 + xx + yy + zz), axis=1)
    xy, xz, yz = m[:, 0, 1] + m[:, 1, 0], m[:, 0, 2] + m[:, 2, 0], m[:, 1, 2] + m[:, 2, 1]
    wx, wy, wz = m[:, 2, 1] - m[:, 1, 2], m[:, 0, 2] - m[:, 2, 0], m[:, 1, 0] - m[:, 0, 1]
    lines = np.stack(
        (
            np.stack((four[:, 0], xy, xz, wx), axis=1),
            np.stack((xy, four[:, 1], yz, wy), axis=1),
            np.stack((xz, yz, four[:, 2], wz), axis=1),
            np.stack((wx, wy, wz, four[:, 3]), axis=1),
        ),
        axis=1,
    )
    return unit(lines[np.arange(len(m)), np.argmax(four, axis=1)])
