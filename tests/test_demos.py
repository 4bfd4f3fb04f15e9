"""The demo designs in designs/ are what tools/make_demos.py makes, and each keeps its promise."""

import runpy
from itertools import pairwise
from pathlib import Path

import pytest

from braidwright.app.sizes import materials_of, predict, size
from braidwright.catalogue.shelf import standard
from braidwright.domain.chart import column_texts, columns, stations
from braidwright.domain.comfort import pressing
from braidwright.domain.design import Design
from braidwright.domain.document import read_design
from braidwright.domain.motif import from_front
from braidwright.domain.resize import smallest_period
from braidwright.domain.strings import bead_counts, strings_of

ROOT = Path(__file__).resolve().parent.parent
MADE = runpy.run_path(str(ROOT / "tools" / "make_demos.py"))["DEMOS"]
NAMES = ("bracken-lead", "hill-gorse", "ridge-at-dusk", "two-becks")


def demo(name: str) -> Design:
    return read_design((ROOT / "designs" / f"{name}.json").read_text("utf-8"), standard().braid).design


def test_there_are_four_and_no_others() -> None:
    assert tuple(sorted(MADE)) == NAMES
    assert tuple(sorted(file.stem for file in (ROOT / "designs").glob("*.json"))) == NAMES


@pytest.mark.parametrize("name", NAMES)
def test_a_demo_is_what_the_tool_makes_and_reads_without_a_warning(name: str) -> None:
    reading = read_design((ROOT / "designs" / f"{name}.json").read_text("utf-8"), standard().braid)
    assert reading.warnings == ()
    assert reading.design == MADE[name]()


@pytest.mark.parametrize("name", NAMES)
def test_a_demo_is_said_to_be_invented_and_has_terms(name: str) -> None:
    design = demo(name)
    assert "invented" in (design.story or "")
    assert design.licence
    assert size(design, standard()).basis == "estimated"


def test_hill_gorse_has_its_accents_in_front_and_a_smooth_back() -> None:
    design = demo("hill-gorse")
    drift = predict(design, standard()).drift_deg
    beads = dict(materials_of(design, standard()).beads)
    assert pressing(design, beads.__getitem__, drift) == ()
    for row, text in enumerate(design.rows):
        for stitch, key in enumerate(text):
            if key == "g":
                assert abs(from_front(design, drift, row, stitch)) <= 60
    assert bead_counts(design)["g"] == len(design.motifs[0].anchors) >= 12


def test_two_becks_is_a_spiral() -> None:
    design = demo("two-becks")
    assert smallest_period(design.rows) == 8
    # Every column shows the same run of waters, a quarter of the period further on from one column to the next.
    texts = column_texts(design.braid, design.rows)
    for earlier, later in pairwise(texts):
        assert later[:-2] == earlier[2:]
    assert {len(string.drops) for string in strings_of(design)} == {95}


def test_ridge_at_dusk_shows_a_moon_in_the_sky_and_heather_below() -> None:
    design = demo("ridge-at-dusk")
    drift = predict(design, standard()).drift_deg
    up: dict[str, list[float]] = {key: [] for key in "hvesno"}
    for row, text in enumerate(design.rows):
        for stitch, key in enumerate(text):
            angle = from_front(design, drift, row, stitch)
            if abs(angle) <= 130:
                up[key].append(angle)
    middle = {key: sum(angles) / len(angles) for key, angles in up.items()}
    assert middle["h"] < middle["v"] < middle["e"] < middle["o"] < middle["n"]
    assert len(columns(design.braid)) == 8


def test_bracken_lead_is_plain_cord_in_three_colours() -> None:
    design = demo("bracken-lead")
    assert set("".join(design.rows)) == {"."}
    assert len(set(design.cords.colours)) == 3
    # Trade-facts, section 5 (found by simulation): a cord keeps to two opposite sides, so the four cords that start
    # north and south fill the north and south columns: there the rope shows nothing but rust.
    rust = design.cords.colours[0]
    for cord, slot in enumerate(design.braid.start):
        side = slot in {32, 1, 16, 17}
        assert (design.cords.colours[cord] == rust) == side
    assert {station.name for station in stations(design.braid)} == {"N", "E", "S", "W"}
