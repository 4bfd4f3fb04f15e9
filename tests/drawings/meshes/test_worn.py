"""The model as worn: round the wrist it fits, the beads turned with it, the two ends apart.

Compared with the picture of the worn bracelet, which is judged on its own, and with plain geometry.
"""

import io
from math import pi
from pathlib import Path

import numpy as np
import pytest
import trimesh
from numpy.typing import NDArray

from braidwright.app.pipeline import subject_of, work_out
from braidwright.catalogue.shelf import standard
from braidwright.domain.document import read_design
from braidwright.drawings.formats.glb import FORMAT
from braidwright.drawings.meshes.model import rope_model
from braidwright.drawings.meshes.worn import GAP_MM, HEIGHT_OF_WIDTH, within_findings, worn_pose
from braidwright.drawings.sheet import Subject
from braidwright.drawings.sheets import rope_worn
from glb_file import Glb, read_glb
from packs import PLAIN, pattern

DEMOS = Path(__file__).resolve().parents[3] / "designs"


def bracelet() -> Subject:
    """Hill Gorse, a demo that goes round a wrist."""
    shelf = standard()
    return subject_of(work_out(read_design((DEMOS / "hill-gorse.json").read_text("utf-8"), shelf.braid).design, shelf))


def worn() -> bytes:
    subject, pose = bracelet(), worn_pose(bracelet())
    assert pose is not None
    assert subject.geometry is not None
    return rope_model(subject, subject.geometry, pose)


def middles(found: Glb) -> NDArray[np.float64]:
    return 1000.0 * np.array([node["translation"] for node in found.beads()])


def test_the_worn_model_keeps_the_rules_of_the_format() -> None:
    subject = bracelet()
    assert subject.geometry is not None
    assert len(read_glb(worn()).beads()) == len(subject.geometry.keys)


def test_the_wrist_has_the_shape_it_has_in_the_picture() -> None:
    assert HEIGHT_OF_WIDTH == rope_worn.HEIGHT_OF_WIDTH


def test_the_beads_go_round_the_wrist_and_leave_it_free() -> None:
    """Every bead lies beyond the ellipse, within the thickness of the rope and of what stands out."""
    pose = worn_pose(bracelet())
    assert pose is not None
    wide, high = pose.ring.half
    at = middles(read_glb(worn()))
    assert (np.hypot(at[:, 0] / wide, at[:, 1] / high) > 1.0).all()
    assert np.abs(at[:, 2]).max() < pose.distance
    nearest = np.array([pose.ring.beside(np.linspace(0, 2 * pi, 721), np.zeros(721))]).reshape(2, -1).T
    away = np.linalg.norm(at[:, None, :2] - nearest[None], axis=-1).min(axis=1)
    assert away.max() < 2.0 * pose.distance
    assert np.ptp(at[:, 0]) > 1.8 * wide


def test_the_clasp_is_underneath_and_the_middle_row_on_top() -> None:
    beads = read_glb(worn()).beads()
    rows = np.array([node["extras"]["row"] for node in beads])
    height = np.array([node["translation"][1] for node in beads])
    assert height[np.abs(rows - rows.max() / 2.0) < 2.0].min() > 0.0
    assert height[(rows < 3) | (rows > rows.max() - 2)].max() < 0.0


def test_a_bead_keeps_its_hole_along_the_rope() -> None:
    """The third column of each bead's rotation (glTF 2.0, 3.5.3) runs with the way round the wrist, clockwise."""
    found = read_glb(worn())
    x, y, z, w = np.array([node["rotation"] for node in found.beads()]).T
    hole = np.stack((2 * (x * z + y * w), 2 * (y * z - x * w)), axis=1)
    way = middles(found)[:, [1, 0]] * (1.0, -1.0)
    assert ((hole * way).sum(axis=1) > 0.8 * np.linalg.norm(way, axis=1)).all()


def test_the_ends_of_the_cords_do_not_meet() -> None:
    scene = trimesh.load_scene(io.BytesIO(worn()), file_type="glb")
    low = [mesh.vertices for name, mesh in scene.geometry.items() if name.startswith("cord ")]
    ends = 1000.0 * np.concatenate([points[[0, 7]] for points in low])  # the middles of the two closed ends
    left, right = ends[ends[:, 0] < 0.0], ends[ends[:, 0] > 0.0]
    assert len(left) == len(right) == len(low)
    findings, design = bracelet().findings_mm, bracelet().design
    assert findings is not None
    gap = max(GAP_MM, findings - design.lead_in - design.lead_out)
    assert np.linalg.norm(left[:, None] - right[None], axis=-1).min() == pytest.approx(gap, rel=0.15)


def test_a_cord_is_cut_at_the_clasp() -> None:
    line = np.stack((np.zeros(9), np.zeros(9), np.linspace(-20.0, 60.0, 9)), axis=1)
    cut = within_findings(line, 40.0, 11.0)
    assert (cut[0, 2], cut[-1, 2]) == (-5.0, 45.0)
    assert np.array_equal(within_findings(line, 90.0, 90.0), line)


def test_what_goes_round_no_wrist_is_not_bent() -> None:
    """A necklace hangs in no ellipse; nor does a rope whose findings nobody asked for."""
    shelf = standard()
    text = (DEMOS / "two-becks.json").read_text("utf-8")
    assert worn_pose(subject_of(work_out(read_design(text, shelf.braid).design, shelf))) is None
    plain = subject_of(work_out(PLAIN, shelf))
    assert worn_pose(Subject(design=PLAIN, geometry=plain.geometry, prediction=plain.prediction)) is None


@pytest.mark.parametrize("name", ["lanterns", "plain"])
def test_the_pack_has_it_wherever_it_has_the_picture(name: str) -> None:
    paths = {path for path, _ in FORMAT.write(pattern(name)).files}
    for part in pattern(name).hands:
        has_picture = bool(rope_worn.draw(part.subject, pattern(name).page.look()))
        assert (f"model/hand-{part.hand.lower()}/rope-worn.glb" in paths) is has_picture
