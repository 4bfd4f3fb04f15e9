"""New designs: complete, of the size asked for, with cord that suits the beads."""

import pytest

from braidwright.app.designs import open_catalogue
from braidwright.app.sizes import size
from braidwright.app.starting import Wishes, new_design, suited_cord, title_from
from braidwright.domain.document import read_design, write_design
from braidwright.domain.errors import BraidwrightError
from braidwright.domain.hole_fit import hole_fit

CATALOGUE = open_catalogue()
ROUNDS = ("round-11/0", "round-8/0", "round-6/0")


@pytest.mark.parametrize("bead", ROUNDS)
@pytest.mark.parametrize("braid", ["kongoh-8", "maru-yotsu", "tubular-16"])
def test_a_new_design_reads_back_as_it_is(bead: str, braid: str) -> None:
    started = new_design(Wishes(title="New", braid=braid, bead=bead), CATALOGUE)
    read = read_design(write_design(started.design), CATALOGUE.braid)
    assert (read.design, read.warnings) == (started.design, ())


@pytest.mark.parametrize("bead", [bead.name for bead in CATALOGUE.beads])
def test_no_cord_of_the_catalogue_suits_better(bead: str) -> None:
    """The rule of half to two thirds of the hole [CORD]: a cord within it is taken whenever there is one."""
    found = CATALOGUE.bead(bead)
    by_tex = [cord for cord in CATALOGUE.cords if cord.tex is not None]
    if any(hole_fit(found, cord).suits for cord in by_tex):
        assert hole_fit(found, suited_cord(found, CATALOGUE.cords)).suits


def test_8_0_beads_get_tex_210() -> None:
    """Trade-facts, section 3: Tex 210 is the usual cord of 8/0 beads, [CORD] topcenter.typepad.com."""
    assert suited_cord(CATALOGUE.bead("round-8/0"), CATALOGUE.cords).name == "tex-210"


@pytest.mark.parametrize("wished", [100.0, 165.0, 400.0])
def test_a_length_is_met_within_half_a_row(wished: float) -> None:
    design = new_design(Wishes(title="New", length_mm=wished), CATALOGUE).design
    measured = size(design, CATALOGUE)
    assert measured.length_mm is not None
    assert measured.rise_mm is not None
    assert abs(measured.length_mm - wished) <= measured.rise_mm / 2 + 1e-9


def test_without_a_size_something_is_begun_and_said() -> None:
    assert "average wrist" in new_design(Wishes(title="New"), CATALOGUE).notes[0]
    assert "not predicted" in new_design(Wishes(title="New", braid="tubular-8"), CATALOGUE).notes[0]
    with pytest.raises(BraidwrightError, match="not predicted"):
        new_design(Wishes(title="New", braid="tubular-8", length_mm=165.0), CATALOGUE)


@pytest.mark.parametrize(
    ("file", "title"),
    [("my-rope.json", "My rope"), ("a/b/dusk__ridge.JSON", "Dusk ridge"), ("-.json", "New design"), ("", "New design")],
)
def test_a_file_name_makes_a_title(file: str, title: str) -> None:
    assert title_from(file) == title
