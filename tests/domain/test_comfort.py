"""The comfort arc: which beads that stand out would lie against the skin."""

from dataclasses import replace

from braidwright.domain.bead import Bead
from braidwright.domain.comfort import pressing, standing_out
from braidwright.domain.design import Design, Front, PlacedMotif
from braidwright.domain.motif import Course, along_the_front

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
