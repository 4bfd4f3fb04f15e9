"""The comfort arc: which beads that stand out would lie against the skin."""

from dataclasses import replace

import numpy as np
import pytest

from braidwright.domain.bead import Bead
from braidwright.domain.comfort import FELT_MM, pressing, standing_out
from braidwright.domain.design import Anchor, Design, Front, PlacedMotif
from braidwright.domain.errors import DesignError
from braidwright.domain.geometry import Geometry, reaches_of
from braidwright.domain.motif import Course, along_the_front
from braidwright.domain.prediction import Basis

BEADS = {
    "a": Bead(
        name="round-8/0", english="", shape="round", diameter_mm=3.0, length_mm=2.1, hole_mm=1.0, grams=0.029,
        reach_mm=1.5,
    ),
    "g": Bead(
        name="teardrop-3.4", english="", shape="teardrop", diameter_mm=3.4, length_mm=2.5, hole_mm=0.9, grams=0.042,
        reach_mm=2.6,
    ),
}  # fmt: skip
COURSE = Course(rise_mm=2.3, drift_deg=11.25, radius_mm=1.95)


def accented(design: Design, back: float) -> Design:
    """Teardrops along a line `back` degrees away from the front."""
    long = replace(design, rows=("aaaa",) * 64, motifs=(), front=Front(deg=back))
    placed = along_the_front(long, PlacedMotif(name="drops", lines=("g",)), COURSE, 10.0)
    return replace(placed, front=Front(deg=0.0))


def test_accents_along_the_front_leave_the_back_smooth(two_kinds: Design) -> None:
    assert pressing(accented(two_kinds, 0.0), BEADS.__getitem__, 11.25) == ()


def test_accents_along_the_back_are_all_found(two_kinds: Design) -> None:
    found = pressing(accented(two_kinds, 180.0), BEADS.__getitem__, 11.25)
    design = accented(two_kinds, 180.0)
    assert len(found) == "".join(design.rows).count("g") > 10
    for one in found:
        assert design.rows[one.at.row - 1][one.at.stitch - 1] == "g"
        assert one.from_back_deg <= 60.0


def test_the_arc_is_the_designs_own(two_kinds: Design) -> None:
    sideways = accented(two_kinds, 100.0)
    narrow = replace(sideways, front=Front(deg=0.0, comfort_arc_deg=10.0))
    wide = replace(sideways, front=Front(deg=0.0, comfort_arc_deg=360.0))
    assert pressing(narrow, BEADS.__getitem__, 11.25) == ()
    assert len(pressing(wide, BEADS.__getitem__, 11.25)) == "".join(wide.rows).count("g")


def test_without_a_front_there_is_no_back(two_kinds: Design) -> None:
    assert pressing(replace(accented(two_kinds, 180.0), front=None), BEADS.__getitem__, 11.25) == ()


def test_what_stands_out(two_kinds: Design) -> None:
    mixed = two_kinds.with_rows(("aaaa", "agka") * 4)
    assert standing_out(mixed, BEADS.__getitem__) == {"g", "k"}
    all_drops = two_kinds.with_rows(("gggg",) * 4)
    assert standing_out(all_drops, BEADS.__getitem__) == {"g"}
    assert standing_out(two_kinds.with_rows(("....",) * 8), BEADS.__getitem__) == set()


def standing(keys: tuple[str, ...], degrees: tuple[float, ...], radius: float, basis: Basis) -> Geometry:
    """A rope of one row whose beads lie at these angles, so far from the axis, holes along it."""
    turns = np.radians(degrees)
    out = np.stack((np.sin(turns), np.cos(turns), np.zeros(len(keys))), axis=1)
    centres = radius * out + np.array((0.0, 0.0, 1.0))
    return Geometry(
        keys=keys,
        stitches=np.array([(0, at, 0) for at in range(len(keys))]),
        bead_cords=np.zeros(len(keys), dtype=np.int64),
        centres=centres,
        holes=np.tile((0.0, 0.0, 1.0), (len(keys), 1)),
        outward=out,
        cords=(np.array(((0.0, 0.0, 0.0), (0.0, 0.0, 2.3))),),
        cord_mm=0.5,
        heights=np.array((0.0, 2.3)),
        reaches=reaches_of(tuple(BEADS[key] for key in keys), centres, out),
        basis=basis,
    )


def faced(design: Design, row: str) -> Design:
    return replace(design, rows=(row,), motifs=(), front=Front(deg=0.0))


def test_reach_is_from_the_axis_to_the_outermost_point(two_kinds: Design) -> None:
    found = standing(("a", "g"), (0.0, 90.0), 2.0, "solved")
    assert found.reaches == pytest.approx((2.0 + 1.5, 2.0 + 2.6))
    sideways = reaches_of((BEADS["g"],), np.array([(2.0, 0.0, 0.0)]), np.array([(0.0, 1.0, 0.0)]))
    assert sideways == pytest.approx((2.0 + 1.7,)), "the part round the hole, since the tip hangs beside"


def test_in_a_known_shape_a_bead_is_felt_where_it_really_lies(two_kinds: Design) -> None:
    """Stitch 4 of the chart is far from the back, but in this rope its tip lies 10 degrees from it."""
    design = faced(two_kinds, "aaag")
    found = pressing(design, BEADS.__getitem__, 11.25, standing(tuple("aaag"), (0, 90, 180, 170), 2.0, "solved"))
    assert [(one.at, one.key) for one in found] == [(Anchor(row=1, stitch=4), "g")]
    assert found[0].from_back_deg == pytest.approx(10.0)
    away = standing(tuple("aaag"), (0, 90, 180, 100), 2.0, "solved")
    assert pressing(design, BEADS.__getitem__, 11.25, away) == ()


def test_in_a_known_shape_what_hangs_level_with_the_others_is_not_felt(two_kinds: Design) -> None:
    design = faced(two_kinds, "aaag")
    shape = standing(tuple("aaag"), (0, 90, 180, 180), 2.0, "solved")
    for by, is_felt in ((FELT_MM - 0.01, False), (FELT_MM + 0.01, True)):
        usual = float(shape.reaches[0])
        raised = replace(shape, reaches=np.array((usual, usual, usual, usual + by)))
        assert bool(pressing(design, BEADS.__getitem__, 11.25, raised)) == is_felt


@pytest.mark.parametrize(
    ("basis", "is_felt"), [("estimated", True), ("corrected by a swatch", True), ("solved", False)]
)
def test_a_stack_is_taken_to_be_felt_until_it_is_solved(two_kinds: Design, basis: Basis, is_felt: bool) -> None:
    design = faced(two_kinds, "aaak")
    shape = standing(tuple("aaaa"), (0, 90, 100, 180), 2.0, basis)
    assert bool(pressing(design, BEADS.__getitem__, 11.25, shape)) == is_felt


def test_beads_of_the_commonest_size_are_never_felt(two_kinds: Design) -> None:
    """A hollow tube comes out uneven, but it is smooth all the same."""
    design = faced(two_kinds, "aaaa")
    shape = standing(tuple("aaaa"), (0, 90, 180, 170), 2.0, "solved")
    uneven = replace(shape, reaches=shape.reaches + np.array((0.0, 0.0, 1.0, 0.0)))
    assert pressing(design, BEADS.__getitem__, 11.25, uneven) == ()


def test_heights_that_fall_are_refused(two_kinds: Design) -> None:
    shape = standing(("a",), (0.0,), 2.0, "solved")
    for heights in ((0.0, -1.0), (1.0, 2.0), (0.0,)):
        with pytest.raises(DesignError, match="heights of the rows"):
            replace(shape, heights=np.array(heights))
    assert shape.length_mm == 2.3
