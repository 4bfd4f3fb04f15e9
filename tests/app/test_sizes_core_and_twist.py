"""Sizes of designs with a core and of designs that say how they turn."""

from dataclasses import dataclass, replace
from math import cos, radians

import pytest

from braidwright.app.quick import HOLLOW, Quick
from braidwright.app.shopping import supplies
from braidwright.app.sizes import asked_drift, materials_of, predict, shape, size
from braidwright.app.tightened import UNIFORMS_KEPT, piece_of
from braidwright.domain.cord import Cord
from braidwright.domain.design import CordChoice, CoreCord, Design
from braidwright.domain.errors import CatalogueError, DesignError
from braidwright.domain.geometry import Geometry
from braidwright.domain.materials import Materials
from braidwright.domain.mirror import mirror_everything
from braidwright.domain.prediction import Prediction
from braidwright.domain.resize import resize
from braidwright.domain.swatch import Swatch
from braidwright.domain.twist import HANGING, HELD, Twist
from braidwright.physics.measures import Whole
from braidwright.physics.whole import solve_whole
from rope import SHELF, kongoh, maru_yotsu, rope

FULL = ("aaaa",) * 72


def cored(core: CoreCord | None, cords: int = 8, rows: int = 40) -> Design:
    choice = CordChoice(kind="tex-210", colours=("#222222",), core=core)
    return rope(("a" * (cords // 2),) * rows, braid=kongoh(cords), cords=choice)


@dataclass(frozen=True, slots=True)
class Knowing:
    """A predictor that knows how wide the hole is."""

    hollow_mm: float

    def predict(self, design: Design, materials: Materials, drift_deg: float) -> Prediction:
        return replace(Quick().predict(design, materials, drift_deg), hollow_mm=self.hollow_mm)

    def shape(self, design: Design, materials: Materials, prediction: Prediction, drift_deg: float) -> Geometry | None:
        return None


# --- core -------------------------------------------------------------------------------------------------


def test_a_core_is_known_by_its_thickness_or_by_the_cord_it_is() -> None:
    by_figure, by_name = (materials_of(cored(core), SHELF) for core in (CoreCord(mm=3), CoreCord(kind="satin-2")))
    assert (by_figure.core_mm, by_name.core_mm, materials_of(cored(None), SHELF).core_mm) == (3.0, 2.0, 0.0)
    assert cored(CoreCord(mm=3)).cords.core_mm == 3.0
    assert cored(None).cords.core_mm == cored(CoreCord(kind="satin-2")).cords.core_mm == 0.0
    with pytest.raises(CatalogueError, match="straw"):
        materials_of(cored(CoreCord(kind="straw")), SHELF)


@pytest.mark.parametrize("mm", [0, -1, 0.05, 31, 1e9])
def test_an_impossible_core_is_refused(mm: float) -> None:
    """The hole of a disk is 2 to 4 cm wide (trade-facts, 4 [IT][PEN]), and the rope hangs through it."""
    with pytest.raises(DesignError, match=r"Cords, core: .* give 0\.1 to 30 mm, or leave core out\."):
        CoreCord(mm=mm)


def test_the_formula_says_that_it_knows_no_core() -> None:
    with_core, without = size(cored(CoreCord(mm=3), 16), SHELF), size(cored(None, 16), SHELF)
    assert with_core.diameter_mm == without.diameter_mm
    assert any("formula knows no core" in note for note in with_core.notes)
    assert HOLLOW in without.notes
    assert HOLLOW not in with_core.notes
    assert (with_core.length_error_mm, with_core.core_mm) == (None, 3.0)


def test_round_a_core_thicker_than_its_hole_the_formula_is_silent() -> None:
    """By our own solver: on a core of 3 mm eight cords of 8/0 come out 8.9 mm thick, not 6.9, take-up 1.9, not 1.5."""
    found = size(cored(CoreCord(mm=3)), SHELF)
    assert (found.length_mm, found.diameter_mm, found.take_up, found.basis) == (None, None, None, "not predicted yet")
    assert any("3 mm is thicker than the hole" in note for note in found.notes)
    assert shape(cored(CoreCord(mm=3)), SHELF) is None
    bare = rope(("....",) * 40, cords=CordChoice(kind="tex-210", colours=("#222222",), core=CoreCord(mm=3)))
    assert size(bare, SHELF).diameter_mm is None
    assert size(rope(("....",) * 40), SHELF).diameter_mm is not None


@pytest.mark.parametrize(("cords", "core_mm", "least", "most"), [(16, 4.2, -0.04, 0.04), (8, 3.0, 0.2, 0.4)])
def test_the_hole_of_the_formula_is_what_a_core_may_fill(cords: int, core_mm: float, least: float, most: float) -> None:
    """Formula and solver, two reckonings of one rope: a core as thick as the hole is let pass, a thicker one is not."""
    design = cored(None, cords, rows=8)
    estimate = predict(design, SHELF)
    assert estimate.diameter_mm is not None
    assert (core_mm <= estimate.diameter_mm - 2.0 * 3.0) == (most < 0.1)
    piece = replace(piece_of(design, materials_of(design, SHELF), estimate.drift_deg), core_mm=core_mm)
    solved = solve_whole(piece, UNIFORMS_KEPT.found, None)
    assert isinstance(solved, Whole)
    assert least <= solved.diameter_mm / estimate.diameter_mm - 1.0 <= most


def test_a_swatch_tells_what_the_formula_cannot() -> None:
    found = size(replace(cored(CoreCord(mm=3)), swatch=Swatch(rows=20, length_mm=46.0, diameter_mm=9.0)), SHELF)
    assert found.length_mm == pytest.approx(92.0)
    assert found.diameter_mm == 9.0
    assert found.basis == "corrected by a swatch"


def test_a_hollow_tube_is_warned_of_once_with_the_core_that_fills_it() -> None:
    """physics.md, 4: tubes of 12 and 16 cords flatten."""
    found = size(cored(None, 16), SHELF, Knowing(hollow_mm=3.4))
    told = [sentence for sentence in (*found.warnings, *found.notes) if "hollow" in sentence]
    assert told == [
        "The tube is hollow, so it flattens when it is worn: braid it round a core cord about 3.4 mm thick."
    ]
    assert told[0] in found.warnings
    assert found.hollow_mm == 3.4


def test_a_core_too_thin_leaves_the_tube_hollow_and_a_full_one_does_not() -> None:
    thin = size(cored(CoreCord(mm=1), 16), SHELF, Knowing(hollow_mm=3.4))
    assert any(sentence.startswith("Round a core of 1 mm the tube is still hollow") for sentence in thin.warnings)
    assert not any("hollow" in sentence for sentence in size(cored(CoreCord(mm=3), 16), SHELF, Knowing(0.0)).warnings)


def test_the_windows_of_the_trade_are_those_of_ropes_without_a_core() -> None:
    """trade-facts, 4.1: 2.1 to 2.6 beads across for 8 cords of 8/0, which a core makes thicker."""
    for core, is_unusual in ((None, True), (CoreCord(mm=3), False)):
        thick = replace(cored(core), swatch=Swatch(rows=20, length_mm=46.0, diameter_mm=9.0))
        assert any("that makers see" in sentence for sentence in size(thick, SHELF).warnings) == is_unusual


def test_supplies_say_how_much_core_to_cut() -> None:
    """[CORE1], check 27 of trade-facts: at least 6 in longer than the finished braid; nothing else is advised."""
    for core, thick in ((CoreCord(mm=3), 3.0), (CoreCord(kind="satin-2"), 2.0)):
        design = cored(core, 16)
        found, length = supplies(design, SHELF, pieces=3).core, size(design, SHELF).length_mm
        assert found is not None
        assert length is not None
        assert (found.count, found.thick_mm, found.kind) == (3, thick, core.kind)
        assert found.why.endswith(f"{thick:g} mm thick.")
        assert found.cut_mm is not None
        assert length + 30.0 + 6 * 25.4 <= found.cut_mm <= length + 30.0 + 6 * 25.4 + 10.0
    advised = supplies(cored(None, 16), SHELF).core
    assert advised is not None
    assert (advised.thick_mm, advised.kind, advised.thickness) == (None, None, None)


def test_a_core_without_a_price_is_missing_from_the_cost() -> None:
    cost = supplies(cored(CoreCord(mm=3), 16), SHELF).cost
    assert cost is not None
    assert "core cord" in cost.missing


def test_the_weight_says_that_it_leaves_the_core_out() -> None:
    heavy = Cord(name="x", english="x", diameter_mm=0.5)
    for cords in ("tex-210", heavy):
        choice = CordChoice(kind=cords, colours=("#222222",), core=CoreCord(mm=1))
        found = size(rope(("a" * 8,) * 40, braid=kongoh(16), cords=choice), SHELF)
        assert any("the core cord and the findings." in note for note in found.notes)


def test_mirroring_and_resizing_keep_the_core() -> None:
    design = cored(CoreCord(mm=3, extra=(("dyed", "true"),)), 16)
    assert mirror_everything(design).cords == resize(design, 7).cords == design.cords


# --- twist ------------------------------------------------------------------------------------------------


def turned(twist: Twist | None, swatch: Swatch | None = None) -> Design:
    return replace(rope(FULL, swatch=swatch), twist=twist)


@pytest.mark.parametrize(
    ("twist", "drift", "rests"),
    [(None, 11.25, "held"), (HELD, 11.25, "held"), (HANGING, 18.0, "hanging"), (Twist(deg=14.5), 14.5, "asked")],
)
def test_size_and_prediction_take_the_twist_asked_for(twist: Twist | None, drift: float, rests: str) -> None:
    """physics.md, 5."""
    found = size(turned(twist), SHELF)
    assert (found.drift_deg, found.twist, found.turn_rows) == (drift, rests, 360.0 / drift)
    assert predict(turned(twist), SHELF).drift_deg == asked_drift(turned(twist)) == drift
    assert found.turn_rows_range is not None
    least, most = found.turn_rows_range
    assert least <= 360.0 / drift <= most
    assert any("Twist is soft" in note for note in found.notes)
    other = size(mirror_everything(turned(twist)), SHELF)
    assert (other.drift_deg, other.turn_rows_range) == (-drift, found.turn_rows_range)


def test_the_pictures_and_the_comfort_arc_turn_with_it() -> None:
    """Beads of one column, 20 rows apart, stand 20 times the drift apart round the rope."""
    for twist, drift in ((None, 11.25), (HANGING, 18.0), (Twist(deg=3.0), 3.0)):
        design = turned(twist)
        found = shape(design, SHELF)
        assert found is not None
        place = {(row, stitch): index for index, (row, stitch, _) in enumerate(found.stitches.tolist())}
        one, other = (found.outward[place[row, 0]] for row in (10, 30))
        cosine = float(one[0] * other[0] + one[1] * other[1])
        assert cosine == pytest.approx(_cosine(20.0 * drift), abs=1e-6)


def _cosine(deg: float) -> float:
    return cos(radians(deg))


def test_more_twist_makes_the_rope_shorter_or_less_sure() -> None:
    """physics.md, 5: over 11 to 30 degrees the rise falls 6 % and the diameter grows 6 %."""
    held, hanging = size(turned(None), SHELF), size(turned(HANGING), SHELF)
    assert held.rise_error_mm is not None
    assert hanging.rise_error_mm is not None
    assert hanging.rise_error_mm > held.rise_error_mm


@pytest.mark.parametrize("twist", [None, HELD, HANGING, Twist(deg=0), Twist(deg=-20.0)])
def test_a_measured_turn_decides_over_all(twist: Twist | None) -> None:
    """physics.md, 5: the swatch decides; rows per full turn of a column."""
    found = size(turned(twist, Swatch(rows=60, turn_rows=24.0)), SHELF)
    assert abs(found.drift_deg) == pytest.approx(15.0)
    assert (found.twist, found.turn_rows_range) == ("measured", None)
    assert any("decides the twist" in note for note in found.notes) == (twist is not None)
    if twist != Twist(deg=-20.0):
        assert found.drift_deg > 0.0


def test_a_measured_turn_goes_the_way_the_braid_turns_where_no_turn_was_expected() -> None:
    design = mirror_everything(turned(Twist(deg=0), Swatch(rows=60, turn_rows=24.0)))
    assert size(design, SHELF).drift_deg == pytest.approx(-15.0)


def test_a_twist_mechanics_does_not_favour_is_warned_of() -> None:
    """physics.md, 5: the energy falls slowly up to about 50 degrees a repeat, with the shift."""
    against = size(turned(Twist(deg=-20)), SHELF)
    assert any("against the way" in sentence for sentence in against.warnings)
    assert (against.basis, against.length_mm) == ("not predicted yet", None)  # the formula was never compared with it
    assert any("more than a rope takes" in sentence for sentence in size(turned(Twist(deg=70)), SHELF).warnings)
    for deg in (0, 11.25, 31, 50):
        assert not any("asks for" in sentence for sentence in size(turned(Twist(deg=deg)), SHELF).warnings)


def test_no_range_is_made_up_for_braids_whose_turn_nobody_knows() -> None:
    for twist, words in ((None, "held still"), (HANGING, "hangs free"), (Twist(deg=9), "the design asks for")):
        found = size(replace(rope(("aaaa",) * 20, braid=maru_yotsu()), twist=twist), SHELF)
        assert found.turn_rows_range is None
        assert any(words in note for note in found.notes)
    assert size(turned(Twist(deg=0)), SHELF).turn_rows is None
