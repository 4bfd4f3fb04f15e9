"""hole_fit: the cord fills half to two thirds of the hole's diameter.

Source: [CORD] topcenter.typepad.com/blog/2014/09/matching-cord-and-beads.html; [BC] beads.co
strategic-bead-sizing-for-kumihimo for what too thick a cord does.
"""

import pytest

from braidwright.domain.bead import Bead
from braidwright.domain.cord import Cord
from braidwright.domain.hole_fit import Verdict, hole_fit


def bead(hole_mm: float) -> Bead:
    return Bead(
        name="round-8/0",
        english="round seed bead 8/0",
        shape="round",
        diameter_mm=hole_mm * 3,
        length_mm=2.1,
        hole_mm=hole_mm,
        grams=0.0288,
        reach_mm=hole_mm * 1.5,
    )


def cord(diameter_mm: float) -> Cord:
    return Cord(name="tex-210", english="nylon cord", diameter_mm=diameter_mm)


@pytest.mark.parametrize("diameter_mm", [0.48, 0.50, 0.56])
def test_tex_210_suits_an_8_0(diameter_mm: float) -> None:
    """Check value 15: 0.48 mm if solid, 0.56 at 75 % packing, in a hole of 1.0."""
    assert hole_fit(bead(1.0), cord(diameter_mm)).suits


@pytest.mark.parametrize(
    ("diameter_mm", "verdict"),
    [
        (0.30, "thin"),
        (0.43, "thin"),
        (0.5, "suits"),
        (0.66, "suits"),
        (0.72, "thick"),
        (0.94, "thick"),
        (0.96, "will not pass"),
        (2.0, "will not pass"),
    ],
)
def test_the_verdict_follows_the_share_of_the_diameter(diameter_mm: float, verdict: Verdict) -> None:
    for hole_mm in (0.5, 1.0, 3.0):
        fit = hole_fit(bead(hole_mm), cord(diameter_mm * hole_mm))
        assert fit.verdict == verdict
        assert fit.share == pytest.approx(diameter_mm)
        assert fit.suits == (verdict == "suits")


def test_the_sentence_says_what_fills_what_and_that_the_diameter_is_meant() -> None:
    assert hole_fit(bead(1.0), cord(0.3)).sentence == (
        "tex-210 (0.3 mm) fills 30% of the diameter of the hole of round-8/0 (1 mm); thin for half to two thirds, "
        "so beads may stand out and the braid go limp: take a heavier cord, double it, or braid round a core."
    )
    assert "take a finer cord" in hole_fit(bead(1.0), cord(0.8)).sentence
    assert "too thick to thread" in hole_fit(bead(1.0), cord(1.0)).sentence
