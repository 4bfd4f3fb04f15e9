"""The GLB file: its frame, its numbers, and rotations without loss."""

import numpy as np
import pytest

from braidwright.drawings.meshes.binary import Numbers, glb, quaternions
from braidwright.drawings.meshes.cord_mesh import cord_meshes
from glb_file import Glb, read_glb


def written(nodes: int, name: str = "cord") -> Glb:
    """A file with one straight-sided zigzag of so many nodes."""
    steps = np.arange(nodes, dtype=float)
    zigzag = np.stack((steps, steps % 2.0, steps * 0.0), axis=1)
    (mesh,) = cord_meshes((zigzag,), 0.1, 3)
    numbers = Numbers()
    primitive = {
        "attributes": numbers.add_points(mesh),
        "indices": numbers.view_faces(numbers.add_faces(mesh), 0, len(mesh.faces)),
        "material": 0,
    }
    model: dict[str, object] = {
        "asset": {"version": "2.0"},
        "scene": 0,
        "scenes": [{"nodes": [0]}],
        "nodes": [{"mesh": 0, "name": name}],
        "meshes": [{"primitives": [primitive]}],
        "materials": [{}],
    }
    return read_glb(glb(model, numbers))


@pytest.mark.parametrize(("nodes", "kind"), [(3, "<u2"), (21_842, "<u2"), (21_843, "<u4")])
def test_triangles_take_sixteen_bits_as_long_as_these_are_enough(nodes: int, kind: str) -> None:
    """Three corners a node and eight at the ends: 65,534 points still do, 65,537 do not."""
    found = written(nodes)
    assert found.numbers[2].dtype.str == kind
    assert found.numbers[2].max() == 3 * nodes + 8 - 1


@pytest.mark.parametrize("name", ["", "x", "xy", "xyz", "漢字 😀 שלום", "\ud800"])
def test_chunks_end_on_four_bytes_whatever_the_names(name: str) -> None:
    """A lone surrogate has no UTF-8, so it becomes a question mark."""
    assert written(3, name).model["nodes"][0]["name"] == name.replace("\ud800", "?")


def test_the_judge_of_files_can_say_no() -> None:
    numbers = Numbers()
    (mesh,) = cord_meshes((np.eye(3),), 0.1, 3)
    numbers.add_points(mesh)
    with pytest.raises((AssertionError, KeyError)):
        read_glb(glb({"asset": {"version": "2.0"}, "meshes": [], "materials": [], "nodes": []}, numbers))


def test_rotations_come_back_from_their_quaternions() -> None:
    """The matrix of a unit quaternion, glTF 2.0, 5.25 and 3.5.3 (q = x, y, z, w); half turns are the hard ones."""
    chance = np.random.default_rng(7)
    turned = np.linalg.qr(chance.normal(size=(200, 3, 3)))[0]
    turned *= np.linalg.det(turned)[:, None, None]
    halves = np.array([np.diag(signs) for signs in ((1.0, -1, -1), (-1, 1.0, -1), (-1, -1, 1.0), (1.0, 1, 1))])
    matrices = np.concatenate((turned, halves))
    x, y, z, w = quaternions(matrices).T
    again = np.stack(
        (
            np.stack((1 - 2 * (y * y + z * z), 2 * (x * y - z * w), 2 * (x * z + y * w)), axis=-1),
            np.stack((2 * (x * y + z * w), 1 - 2 * (x * x + z * z), 2 * (y * z - x * w)), axis=-1),
            np.stack((2 * (x * z - y * w), 2 * (y * z + x * w), 1 - 2 * (x * x + y * y)), axis=-1),
        ),
        axis=1,
    )
    assert again == pytest.approx(matrices)
