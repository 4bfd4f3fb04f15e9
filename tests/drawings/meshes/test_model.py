"""The rope as a GLB file: valid, in its true size, every bead in its place and with its name.

Judged by the rules of glTF 2.0 (glb_file.py) and by another library that reads the format, trimesh.
"""

import io
from dataclasses import replace
from functools import cache
from math import pi
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import trimesh

from braidwright.app.pipeline import subject_of, work_out
from braidwright.app.shapes import estimated_geometry
from braidwright.catalogue.shelf import standard
from braidwright.domain.design import Design
from braidwright.domain.document import read_design
from braidwright.domain.errors import DesignError
from braidwright.domain.geometry import Geometry
from braidwright.domain.mirror import mirror_everything
from braidwright.domain.tray import FINISHES
from braidwright.drawings.meshes.model import rope_model
from braidwright.drawings.sheet import Subject
from glb_file import Glb, edge_counts, read_glb
from packs import EVERY, HOSTILE, LANTERN_ROPE, PLAIN, STACKED, STRANGE, changed, in_tray

SHELF = standard()
DEMOS = {
    file.stem: read_design(file.read_text("utf-8"), SHELF.braid).design
    for file in sorted((Path(__file__).resolve().parents[3] / "designs").glob("*.json"))
}
EVERY_ROPE = {**DEMOS, **EVERY}


def shape_of(design: Design) -> tuple[Subject, Geometry]:
    """The estimated shape; where a rope is not predicted yet, that of measures which somebody might have made."""
    worked = work_out(design, SHELF)
    known = worked.prediction
    if known.rise_mm is None or known.diameter_mm is None:
        known = replace(known, rise_mm=4.0, diameter_mm=9.0)
    geometry = estimated_geometry(design, worked.materials, known)
    assert geometry is not None
    return subject_of(worked), geometry


@cache
def made(design: Design) -> tuple[Subject, Geometry, bytes]:
    subject, geometry = shape_of(design)
    return subject, geometry, rope_model(subject, geometry)


def model(design: Design) -> Glb:
    return read_glb(made(design)[2])


def scene(design: Design) -> Any:
    return trimesh.load_scene(io.BytesIO(made(design)[2]), file_type="glb")


def places(design: Design) -> Any:
    """Where the nodes of beads stand, mm."""
    return 1000.0 * np.array([node["translation"] for node in model(design).beads()])


@pytest.mark.parametrize("name", EVERY_ROPE)
@pytest.mark.parametrize("hand", ["own", "other"])
def test_every_model_keeps_the_rules_of_the_format(name: str, hand: str) -> None:
    design = EVERY_ROPE[name] if hand == "own" else mirror_everything(EVERY_ROPE[name])
    found = model(design)
    assert found.model["asset"]["version"] == "2.0"
    assert found.model["asset"]["generator"] == "Braidwright"
    assert found.model["asset"]["extras"]["hand"] == design.hand


@pytest.mark.parametrize("name", EVERY_ROPE)
def test_another_reader_finds_every_bead_and_every_cord(name: str) -> None:
    """It counts the glass and the silver of a silver-lined bead apart."""
    design = EVERY_ROPE[name]
    subject, geometry, _ = made(design)
    lined = sum(subject.finish(key) == "silver-lined" for key in geometry.keys)
    assert len(scene(design).graph.nodes_geometry) == len(geometry.keys) + len(geometry.cords) + lined


@pytest.mark.parametrize("name", DEMOS)
def test_another_reader_finds_closed_solids(name: str) -> None:
    """As trimesh judges: watertight, the triangles wound alike, the volume positive; silver and glass are halves."""
    halves = 0
    for mesh in scene(DEMOS[name]).geometry.values():
        mesh.merge_vertices(merge_norm=True, merge_tex=True)
        assert mesh.is_winding_consistent
        halves += not mesh.is_watertight
        assert mesh.volume > 0.0 or not mesh.is_watertight
    lined = [bead for bead in DEMOS[name].tray.beads if bead.finish == "silver-lined"]
    assert halves == 2 * len(lined)


@pytest.mark.parametrize("name", DEMOS)
def test_glass_and_silver_together_are_closed(name: str) -> None:
    found = model(DEMOS[name])
    for mesh in found.model["meshes"]:
        points = found.numbers[mesh["primitives"][0]["attributes"]["POSITION"]]
        faces = np.concatenate([found.numbers[each["indices"]].reshape(-1, 3) for each in mesh["primitives"]])
        assert edge_counts(points, faces)[2]


@pytest.mark.parametrize("name", ["hill-gorse", "two-becks"])
def test_the_model_is_as_large_as_the_rope(name: str) -> None:
    """In metres (glTF 2.0, 3.4): as thick as predicted, as long as its rows and its bare ends."""
    design = DEMOS[name]
    subject, geometry, _ = made(design)
    low, high = 1000.0 * scene(design).bounds
    assert subject.prediction is not None
    across = subject.prediction.diameter_mm
    assert across is not None
    assert high[0] - low[0] == pytest.approx(geometry.length_mm + design.lead_in + design.lead_out, abs=2.0)
    beads = places(design)
    usual = np.array([bead.diameter_mm for key in geometry.keys for bead in [subject.bead(key)] if bead])
    over = 2.0 * np.hypot(beads[:, 1], beads[:, 2]) + usual
    assert np.median(over) == pytest.approx(across, rel=0.03)
    assert max(high[1] - low[1], high[2] - low[2]) < across + 2.0


def test_every_bead_says_what_it_is() -> None:
    subject, geometry, _ = made(LANTERN_ROPE)
    beads = model(LANTERN_ROPE).beads()
    told = [(each["extras"]["row"], each["extras"]["stitch"], each["extras"]["bead"]) for each in beads]
    assert told == [tuple(line) for line in (geometry.stitches + 1).tolist()]
    assert [each["extras"]["key"] for each in beads] == list(geometry.keys)
    assert [each["extras"]["cord"] for each in beads] == (geometry.bead_cords + 1).tolist()
    assert beads[0]["name"] == "row 1 N Moss"
    named = {each["name"].rsplit(" ", 1)[1] for each in beads}
    assert named == {subject.design.tray.name_of(key) for key in geometry.keys}


def test_beads_of_a_stack_are_told_apart() -> None:
    names = [each["name"] for each in model(STACKED).beads()]
    assert len(names) == len(set(names))
    assert {"row 1 S Barley bead 1", "row 1 S Moss bead 2", "row 1 N Moss"} <= set(names)


def test_a_bead_is_turned_as_it_sits() -> None:
    """Its own z is the hole and its own x reaches outward: the quaternion q v q* of each, glTF 2.0, 3.5.3."""
    _, geometry, _ = made(LANTERN_ROPE)
    x, y, z, w = np.array([each["rotation"] for each in model(LANTERN_ROPE).beads()]).T
    hole = np.stack((2 * (x * z + y * w), 2 * (y * z - x * w), 1 - 2 * (x * x + y * y)), axis=1)
    out = np.stack((1 - 2 * (y * y + z * z), 2 * (x * y + z * w), 2 * (x * z - y * w)), axis=1)
    north = np.array(((0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)))  # front north: along, east, toward the viewer
    assert hole == pytest.approx(geometry.holes @ north.T, abs=1e-5)
    assert out == pytest.approx(geometry.outward @ north.T, abs=1e-5)
    start = np.array((geometry.length_mm / 2.0, 0.0, 0.0))
    assert places(LANTERN_ROPE) + start == pytest.approx(geometry.centres @ north.T, abs=1e-3)


def test_the_front_faces_the_viewer() -> None:
    """The front of a model looks along +Z (glTF 2.0, 3.4); the accents of this demo lie along its front."""
    keys = [each["extras"]["key"] for each in model(DEMOS["hill-gorse"]).beads()]
    rarest = min(set(keys), key=keys.count)
    accents = places(DEMOS["hill-gorse"])[[key == rarest for key in keys]]
    assert (accents[:, 2] > 0.3 * np.hypot(accents[:, 1], accents[:, 2])).all()


def test_the_other_hand_is_the_mirror_image() -> None:
    """East and west change places: up and down, with the front toward the viewer."""
    assert places(mirror_everything(LANTERN_ROPE)) == pytest.approx(places(LANTERN_ROPE) * (1.0, -1.0, 1.0), abs=1e-3)


def test_points_are_stored_once_for_each_shape_and_size() -> None:
    """Moss and Barley are two colours of one bead."""
    found = model(LANTERN_ROPE).model
    meshes = {each["name"]: each["primitives"] for each in found["meshes"]}
    assert meshes["Moss"][0]["attributes"] == meshes["Barley"][0]["attributes"]
    assert meshes["Moss"][0]["attributes"] != meshes["Lantern"][0]["attributes"]
    assert len({each["primitives"][0]["indices"] for each in found["meshes"]}) == len(found["meshes"])


def test_a_silver_lined_bead_has_silver_in_its_hole() -> None:
    design = changed(tray=in_tray(m={"finish": "silver-lined"}))
    found = model(design)
    (moss,) = [each for each in found.model["meshes"] if each["name"] == "Moss"]
    glass, silver = moss["primitives"]
    assert found.model["materials"][silver["material"]]["name"] == "silver lining"
    points, faces = found.numbers[silver["attributes"]["POSITION"]], found.numbers[silver["indices"]].ravel()
    assert 1000.0 * np.hypot(points[faces, 0], points[faces, 1]) == pytest.approx(0.5)
    whole = found.numbers[glass["indices"]].size + faces.size
    (plain,) = [each for each in model(LANTERN_ROPE).model["meshes"] if each["name"] == "Moss"]
    assert whole == model(LANTERN_ROPE).numbers[plain["primitives"][0]["indices"]].size


@pytest.mark.parametrize("finish", FINISHES)
def test_every_finish_reaches_the_model(finish: str) -> None:
    found = model(changed(tray=in_tray(m={"finish": finish})))
    assert found.material("Moss") != found.material("Barley")


def test_cords_of_one_colour_share_a_material() -> None:
    found = model(LANTERN_ROPE)
    cords = [node for node in found.nodes if "slot" in node["extras"]]
    assert [node["name"] for node in cords][:3] == ["cord 1 Reed", "cord 2 Reed", "cord 3 Straw"]
    assert [node["extras"]["slot"] for node in cords] == list(LANTERN_ROPE.braid.start)
    used = [found.model["meshes"][node["mesh"]]["primitives"][0]["material"] for node in cords]
    assert len(set(used)) == 2


def test_a_cord_holds_as_much_as_its_length_says() -> None:
    """A tube holds its cross-section times its length (Pappus); six corners hold 0.827 of a circle."""
    _, geometry, _ = made(LANTERN_ROPE)
    found = scene(LANTERN_ROPE).geometry
    for cord, curve in enumerate(geometry.cords):
        (mesh,) = [each for name, each in found.items() if name.startswith(f"cord {cord + 1} ")]
        mesh.merge_vertices(merge_norm=True, merge_tex=True)
        length = float(np.linalg.norm(np.diff(curve, axis=0), axis=1).sum())
        assert mesh.volume * 1e9 == pytest.approx(0.827 * pi / 4.0 * geometry.cord_mm**2 * length, rel=0.08)


def test_title_maker_and_licence_are_told() -> None:
    asset = model(LANTERN_ROPE).model["asset"]
    assert asset["copyright"] == "A. Maker. You may sell what you make by hand."
    assert asset["extras"]["title"] == "Fen Lanterns"
    assert asset["extras"]["shape"] == "estimated"
    assert model(LANTERN_ROPE).model["scenes"][0]["name"] == "Fen Lanterns"
    assert "copyright" not in model(PLAIN).model["asset"]


def test_a_hostile_title_is_only_a_name() -> None:
    found = model(STRANGE).model
    assert found["asset"]["extras"]["title"] == " ".join(HOSTILE.split())


def test_a_rope_of_cord_alone_is_cords() -> None:
    found = model(PLAIN)
    assert found.beads() == []
    assert len(found.nodes) == PLAIN.braid.cord_count


def test_the_same_rope_makes_the_same_bytes() -> None:
    subject, geometry = shape_of(LANTERN_ROPE)
    assert rope_model(subject, geometry) == made(LANTERN_ROPE)[2]


def test_a_bracelet_stays_small() -> None:
    """Our own limit for a file that is sent by post: 600 kB for some 300 beads."""
    assert len(made(DEMOS["hill-gorse"])[2]) < 600_000


def test_a_bead_without_measures_is_named() -> None:
    subject, geometry, _ = made(LANTERN_ROPE)
    with pytest.raises(DesignError, match="'m'"):
        rope_model(replace(subject, beads=()), geometry)
