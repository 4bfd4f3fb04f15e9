"""model: the rope as a scene for any 3D viewer: a bead is drawn once for each kind and placed many times.

Y is up and the rope lies along X, its first braided end to the left and its front toward the viewer (+Z), which is how
glTF 2.0 (3.4) wants the front of a thing; worn, it stands upright round the middle of the wrist, clasp underneath.
Every bead is a node with its row, station and name, to be found again.
"""

from dataclasses import dataclass, field

import numpy as np

from braidwright.domain.bead import Bead
from braidwright.domain.chart import stations
from braidwright.domain.errors import DesignError
from braidwright.domain.geometry import FloatArray, Geometry
from braidwright.drawings.meshes.bead_mesh import bead_mesh
from braidwright.drawings.meshes.binary import MM, Numbers, glb, quaternions
from braidwright.drawings.meshes.cord_mesh import cord_meshes
from braidwright.drawings.meshes.mesh import unit
from braidwright.drawings.meshes.surface import JsonTable, bead_surface, cord_surface, lining_surface
from braidwright.drawings.meshes.worn import within_findings
from braidwright.drawings.posing import Bent, Straight
from braidwright.drawings.sheet import Subject

# How round the cords are, as corners of a ring and degrees of bend from ring to ring: among beads, and in a rope that
# has none, where the cords are all there is to see.
AMONG_BEADS, ALONE = (6, 34.0), (10, 22.0)
TRIANGLES = 4

Stored = tuple[JsonTable, tuple[int, bool]]  # the attributes of points that were stored, and where their triangles are


@dataclass(slots=True)
class Parts:
    """Meshes, materials and nodes as they are gathered."""

    numbers: Numbers = field(default_factory=Numbers)
    meshes: list[JsonTable] = field(default_factory=list)
    materials: list[JsonTable] = field(default_factory=list)
    nodes: list[JsonTable] = field(default_factory=list)

    def add_material(self, material: JsonTable) -> int:
        """The number of a material; one that is there already is used again."""
        if material not in self.materials:
            self.materials.append(material)
        return self.materials.index(material)

    def add_mesh(self, name: str, *primitives: JsonTable) -> int:
        """The number of a new mesh."""
        self.meshes.append({"name": name, "primitives": list(primitives)})
        return len(self.meshes) - 1

    def add_node(self, node: JsonTable) -> int:
        """The number of a new node."""
        self.nodes.append(node)
        return len(self.nodes) - 1


def rope_model(subject: Subject, geometry: Geometry, bent: Bent | None = None) -> bytes:
    """The rope as a GLB file.

    Args:
        subject: The design, with the beads of its tray.
        geometry: Where every bead and every cord lies.
        bent: How it is bent round a wrist; None for a rope that lies straight.
    """
    parts = Parts()
    view = View(pose=bent or _straight(subject, geometry))
    children = [
        parts.add_node({"name": name, "children": nodes})
        for name, nodes in (
            ("beads", _beads(parts, subject, geometry, view)),
            ("cords", _cords(parts, subject, geometry, view)),
        )
        if nodes
    ]
    title = _flat(subject.design.title) or "rope"
    root = parts.add_node({"name": title, "children": children})
    used = sorted({name for material in parts.materials for name in _extensions(material)})
    model: JsonTable = {
        "asset": _asset(subject, geometry),
        "scene": 0,
        "scenes": [{"name": title, "nodes": [root]}],
        "nodes": parts.nodes,
        "meshes": parts.meshes,
        "materials": parts.materials,
    }
    return glb({**model, "extensionsUsed": used} if used else model, parts.numbers)


def _straight(subject: Subject, geometry: Geometry) -> Straight:
    """Along X, the middle of the rows in the origin."""
    return Straight(turned_deg=subject.design.front_line.deg, left=-geometry.length_mm / 2.0, axis=0.0, zoom=1.0)


DOWN_TO_UP = np.array((1.0, -1.0, 1.0))  # pages have their y downward


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """How the rope lies in the model: right, up and toward the viewer, mm."""

    pose: Straight | Bent

    def points(self, space: FloatArray) -> FloatArray:
        """Points of the straight rope in the model, (n, 3) mm."""
        placed: FloatArray = self.pose.points(space) * DOWN_TO_UP
        return placed

    def directions(self, space: FloatArray, vectors: FloatArray) -> FloatArray:
        """The directions of vectors at those points."""
        turned: FloatArray = self.pose.directions(space, vectors) * DOWN_TO_UP
        return turned


def _extensions(material: JsonTable) -> tuple[str, ...]:
    used = material.get("extensions")
    return tuple(used) if isinstance(used, dict) else ()


def _flat(text: str | None) -> str:
    return " ".join((text or "").split())


def _asset(subject: Subject, geometry: Geometry) -> JsonTable:
    design = subject.design
    title, author, licence = (_flat(text) for text in (design.title, design.author, design.licence))
    rights = ". ".join(text.rstrip(".") for text in (author, licence) if text)
    known = {"title": title, "author": author, "licence": licence, "hand": design.hand, "shape": geometry.basis}
    asset: JsonTable = {"version": "2.0", "generator": "Braidwright"}
    if rights:
        asset["copyright"] = f"{rights}."
    return {**asset, "extras": {name: value for name, value in known.items() if value}}


# --- beads ----------------------------------------------------------------------------------------------


def _beads(parts: Parts, subject: Subject, geometry: Geometry, view: View) -> list[int]:
    """A node for each bead."""
    kinds = _bead_kinds(parts, subject, geometry)
    names = {key: _flat(subject.design.tray.name_of(key)) for key in kinds}
    places = (view.points(geometry.centres) / MM).round(7).tolist()
    turns = quaternions(_own_axes(geometry, view)).round(6).tolist()
    winds = [station.name for station in stations(subject.design.braid)]
    stacked = {tuple(each[:2]) for each in geometry.stitches[geometry.stitches[:, 2] > 0].tolist()}
    nodes = []
    for key, (row, stitch, place), cord, at, turn in zip(
        geometry.keys, geometry.stitches.tolist(), geometry.bead_cords.tolist(), places, turns, strict=True
    ):
        which = f" bead {place + 1}" if (row, stitch) in stacked else ""
        node: JsonTable = {
            "name": f"row {row + 1} {winds[stitch]} {names[key]}{which}",
            "mesh": kinds[key],
            "translation": at,
            "rotation": turn,
            "extras": {"row": row + 1, "stitch": stitch + 1, "bead": place + 1, "key": key, "cord": cord + 1},
        }
        nodes.append(parts.add_node(node))
    return nodes


def _own_axes(geometry: Geometry, view: View) -> FloatArray:
    """The axes of every bead as columns: where it reaches out, the third direction, its hole, (n, 3, 3)."""
    hole, out = (view.directions(geometry.centres, vectors) for vectors in (geometry.holes, geometry.outward))
    out = out - (out * hole).sum(axis=1, keepdims=True) * hole
    spare = np.cross(hole, np.eye(3)[np.argmin(np.abs(hole), axis=1)])
    out = unit(np.where(np.linalg.norm(out, axis=1, keepdims=True) > 1e-6, out, spare))
    return np.stack((out, np.cross(hole, out), hole), axis=2)


def _bead_kinds(parts: Parts, subject: Subject, geometry: Geometry) -> dict[str, int]:
    """A mesh for each kind of bead in use; kinds of one shape and size share their points."""
    stored: dict[Bead, Stored] = {}
    kinds: dict[str, int] = {}
    for key in dict.fromkeys(geometry.keys):
        bead = subject.bead(key)
        if bead is None:
            raise DesignError(f"The model needs the measures of the bead {key!r}, which are not known.")
        if bead not in stored:
            mesh = bead_mesh(bead)
            stored[bead] = (parts.numbers.add_points(mesh), parts.numbers.add_faces(mesh))
        kinds[key] = _bead_kind(parts, subject, key, bead, stored[bead])
    return kinds


def _bead_kind(parts: Parts, subject: Subject, key: str, bead: Bead, stored: Stored) -> int:
    name, finish = _flat(subject.design.tray.name_of(key)), subject.finish(key)
    glass = max(0.1, (bead.diameter_mm - bead.hole_mm) / 2.0)
    material = parts.add_material(bead_surface(name, subject.colour(key), finish, glass))
    mesh = bead_mesh(bead)
    spans = [(material, 0, len(mesh.faces))]
    if finish == "silver-lined":
        lining = parts.add_material(lining_surface())
        spans = [(material, 0, mesh.hole_from), (lining, mesh.hole_from, len(mesh.faces))]
    return parts.add_mesh(name, *(_primitive(parts, stored, span) for span in spans))


def _primitive(parts: Parts, stored: Stored, span: tuple[int, int, int]) -> JsonTable:
    """Some of the triangles that were stored, in a material: (material, first, last)."""
    material, first, last = span
    indices = parts.numbers.view_faces(stored[1], first, last)
    return {"attributes": stored[0], "indices": indices, "material": material, "mode": TRIANGLES}


# --- cords ----------------------------------------------------------------------------------------------


def _cords(parts: Parts, subject: Subject, geometry: Geometry, view: View) -> list[int]:
    """A node and a mesh for each cord. All tubes are built alike, so the triangles of the longest serve every one."""
    if not geometry.cords:
        return []
    design = subject.design
    shown = geometry.cords
    if isinstance(view.pose, Bent):
        shown = tuple(within_findings(curve, geometry.length_mm, 2.0 * view.pose.start) for curve in shown)
    curves = tuple(view.points(curve) for curve in shown)
    meshes = cord_meshes(curves, geometry.cord_mm, *(AMONG_BEADS if geometry.keys else ALONE))
    faces = parts.numbers.add_faces(max(meshes, key=lambda mesh: len(mesh.points)))
    nodes = []
    for cord, mesh in enumerate(meshes):
        said = _flat(design.cords.colour_name(cord))
        name = f"cord {cord + 1} {said}".rstrip()
        material = parts.add_material(cord_surface(f"cord {said}".rstrip(), design.cords.colour(cord)))
        primitive = _primitive(parts, (parts.numbers.add_points(mesh), faces), (material, 0, len(mesh.faces)))
        told = {"cord": cord + 1, "slot": design.braid.start[cord]}
        nodes.append(parts.add_node({"name": name, "mesh": parts.add_mesh(name, primitive), "extras": told}))
    return nodes
