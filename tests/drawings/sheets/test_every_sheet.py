"""Laws over every sheet: every braid of the catalogue, both hands, three looks."""

import re
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from braidwright.domain.design import Design, Front
from braidwright.domain.prediction import Prediction
from braidwright.domain.tray import BARE
from braidwright.drawings.pen import Drawing
from braidwright.drawings.pens.recording import Mark
from braidwright.drawings.pens.svg import render
from braidwright.drawings.sheet import Look, Subject
from braidwright.drawings.sheets import SHEETS
from drawings.subjects import BRAIDS, LOOKS, drawings, marks, pen, subject
from strategies import designs

SLACK = 0.6  # mm a rounded edge or a stroke may reach over the frame
FRAMED = sorted(set(SHEETS) - {"rope-whole", "rope-front", "rope-back"})


def check(drawing: Drawing, look: Look) -> list[Mark]:
    """What must hold for any drawing; hands back its marks."""
    found = pen(drawing)
    assert found.depth == 0
    assert re.fullmatch(r"[a-z0-9-]+", drawing.name)
    assert drawing.title
    assert drawing.description
    assert drawing.width_mm <= look.width_mm + 1e-6 or drawing.name.startswith("move")
    assert all(np.isfinite(mark.points).all() for mark in found.marks if mark.points)
    assert all(mark.radii >= (0.0, 0.0) for mark in found.marks)
    return found.marks


@pytest.mark.parametrize("sheet", sorted(SHEETS))
@pytest.mark.parametrize("name", sorted(BRAIDS))
@pytest.mark.parametrize("look", LOOKS)
def test_every_sheet_draws_every_braid_inside_its_frame(sheet: str, name: str, look: Look) -> None:
    for drawing in drawings(sheet, subject(BRAIDS[name]), look):
        found = check(drawing, look)
        if sheet in FRAMED:
            reached = np.array([point for mark in found for point in mark.points])
            assert reached.min() >= -SLACK
            assert reached[:, 0].max() <= drawing.width_mm + SLACK
            assert reached[:, 1].max() <= drawing.height_mm + SLACK


@pytest.mark.parametrize("sheet", sorted(SHEETS))
def test_no_two_drawings_share_a_name(sheet: str) -> None:
    names = [drawing.name for drawing in drawings(sheet, subject(BRAIDS["kongoh-16-S"], 200), Look(height_mm=70.0))]
    assert len(names) == len(set(names))


@pytest.mark.parametrize("sheet", sorted(set(SHEETS) - {"each-move", "each-string", "legend"}))
def test_no_drawing_is_higher_than_asked_for_when_it_can_be_parted(sheet: str) -> None:
    look = Look(height_mm=120.0)
    for drawing in drawings(sheet, subject(BRAIDS["kongoh-16-S"], 200, keys="ab"), look):
        assert drawing.height_mm <= look.height_mm


@pytest.mark.parametrize("sheet", sorted(SHEETS))
def test_large_print_enlarges_every_word(sheet: str) -> None:
    """All but the set-up disk: there the slots set how large a number can be."""
    sizes = {}
    for scale in (1.0, 1.5):
        found = marks(sheet, subject(BRAIDS["kongoh-8-S"], 66, keys="ab"), Look(text_scale=scale))
        sizes[scale] = min(mark.lettering.size for mark in found if mark.lettering)
    if sheet == "setup-disk":
        assert sizes[1.5] >= sizes[1.0]
    else:
        assert sizes[1.5] == pytest.approx(1.5 * sizes[1.0])


@given(designs(rows=(1, 12)), st.sampled_from(sorted(SHEETS)), st.floats(-400.0, 400.0), st.sampled_from(LOOKS))
@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow])
def test_every_sheet_draws_every_legal_design(design: Design, sheet: str, drift: float, look: Look) -> None:
    known = Prediction(
        rise_mm=None, diameter_mm=None, drift_deg=drift, take_up=None,
        bare_rise_mm=None, bare_take_up=None, basis="not predicted yet",
    )  # fmt: skip
    fronted = replace(design, front=Front(deg=33.0))
    for drawing in drawings(sheet, Subject(design=fronted, prediction=known), look):
        check(drawing, look)
        assert render(drawing)


@pytest.mark.parametrize("sheet", ["rope-whole", "rope-front", "rope-back", "rope-worn"])
def test_a_rope_that_is_not_predicted_is_not_drawn(sheet: str) -> None:
    of = subject(BRAIDS["kongoh-8-S"], 66)
    assert drawings(sheet, of)
    assert drawings(sheet, Subject(design=of.design, beads=of.beads)) == ()
    assert drawings(sheet, replace(of, geometry=None)) == ()
    assert drawings(sheet, Subject(design=of.design, prediction=of.prediction, geometry=of.geometry)) == ()


def test_a_rope_of_cord_only_has_no_strings() -> None:
    of = subject(BRAIDS["kongoh-8-S"], keys=BARE)
    assert drawings("strings", of) == drawings("each-string", of) == ()
    assert drawings("rope-front", of)
