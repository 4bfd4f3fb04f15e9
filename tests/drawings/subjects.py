"""Designs to draw: every braid of the catalogue in both hands, and designs that try a drawing's patience.

Bead figures: trade-facts, section 2 (round 8/0 and teardrop 3.4). The measures of the rope: physics.md, section 4.
"""

from dataclasses import replace

import numpy as np

from braidwright.app.shapes import estimated_geometry
from braidwright.catalogue.shelf import standard
from braidwright.domain.bead import Bead, Shape
from braidwright.domain.braid import Braid, mirrored
from braidwright.domain.cord import Cord
from braidwright.domain.design import CordChoice, Design, Front
from braidwright.domain.materials import Materials
from braidwright.domain.prediction import Prediction
from braidwright.domain.tray import Tray, TrayBead, TrayStack
from braidwright.drawings.pen import Drawing
from braidwright.drawings.pens.recording import Mark, RecordingPen, record
from braidwright.drawings.sheet import Look, Subject
from braidwright.drawings.sheets import SHEETS


def bead(name: str, shape: Shape, across: float, along: float, reach: float) -> Bead:
    """A bead of certain measures, mm."""
    return Bead(
        name=name,
        english=name,
        shape=shape,
        diameter_mm=across,
        length_mm=along,
        hole_mm=1.0,
        grams=0.03,
        reach_mm=reach,
    )


ROUND = bead("round-8/0", "round", 3.0, 2.1, 1.5)
TEARDROP = bead("teardrop-3.4", "teardrop", 3.4, 2.4, 2.8)
TRAY = Tray(
    entries=(
        TrayBead(key="a", bead="round-8/0", colour="#1b5e50", name="Moss"),
        TrayBead(key="b", bead="round-8/0", colour="#efe6d2", finish="pearl", name="Barley"),
        TrayBead(key="g", bead="teardrop-3.4", colour="#c08a2b", finish="transparent", name="Gorse"),
        TrayStack(key="k", stack=("a", "b", "a"), name="Nest"),
    )
)
BEADS = (("a", ROUND), ("b", ROUND), ("g", TEARDROP))
KNOWN = Prediction(
    rise_mm=2.3,
    diameter_mm=6.88,
    drift_deg=11.25,
    take_up=1.5,
    bare_rise_mm=1.0,
    bare_take_up=1.6,
    basis="estimated",
)
LOOKS = (Look(), Look(width_mm=90.0, height_mm=120.0), Look(text_scale=1.6))

BRAIDS: dict[str, Braid] = {}
for one in standard().braids:
    BRAIDS[f"{one.name}-{one.hand}"] = one
    BRAIDS[f"{one.name}-{mirrored(one).hand}"] = mirrored(one)


def design(braid: Braid, rows: int = 23, *, keys: str = "aaab.gk") -> Design:
    """A design of that many rows, drops by chance but the same every time."""
    chance = np.random.default_rng(8)
    texts = tuple("".join(chance.choice(list(keys), braid.stitches_per_row)) for _ in range(rows))
    return Design(
        title="Hill Gorse",
        braid=braid,
        braid_name=None,
        cords=CordChoice(kind="tex-210", colours=("#2d2a3a",)),
        tray=TRAY,
        rows=texts,
        front=Front(deg=10.0),
    )


def subject(braid: Braid, rows: int = 23, *, keys: str = "aaab.gk") -> Subject:
    """A design with its beads, with measures and its shape."""
    shift = braid.shift * 360.0 / braid.slots
    known = replace(KNOWN, drift_deg=shift)
    return shaped(Subject(design=design(braid, rows, keys=keys), beads=BEADS, prediction=known))


def shaped(of: Subject) -> Subject:
    """The subject with the estimated shape of its rope, and findings of 28 mm."""
    assert of.prediction is not None
    materials = Materials(cord=Cord(name="tex-210", english="bead cord", diameter_mm=0.5), beads=of.beads)
    return replace(of, geometry=estimated_geometry(of.design, materials, of.prediction), findings_mm=28.0)


def drawings(name: str, of: Subject, look: Look = LOOKS[0]) -> tuple[Drawing, ...]:
    """The drawings of one sheet."""
    return SHEETS[name].draw(of, look)


def marks(name: str, of: Subject, look: Look = LOOKS[0]) -> list[Mark]:
    """Everything that one sheet draws."""
    return [mark for drawing in drawings(name, of, look) for mark in pen(drawing).marks]


def pen(drawing: Drawing) -> RecordingPen:
    """The recording pen after a drawing."""
    return record(drawing)
