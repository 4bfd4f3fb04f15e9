"""The beads of the catalogue as the solver sees them: as wide, as long and as far out as the catalogue says."""

from itertools import pairwise

import pytest

from braidwright.app.solids import solid_of
from braidwright.catalogue.shelf import standard
from braidwright.domain.bead import Bead

BEADS = {bead.name: bead for bead in standard().beads}


@pytest.mark.parametrize("bead", BEADS.values(), ids=BEADS)
def test_a_solid_measures_what_its_bead_measures(bead: Bead) -> None:
    solid = solid_of(bead)
    assert solid.rod_mm == bead.length_mm
    assert 1 <= len(solid.bodies) <= 5
    low = min(body.along_mm - body.rounding_mm for body in solid.bodies)
    high = max(body.along_mm + body.rounding_mm for body in solid.bodies)
    assert high == pytest.approx(-low)
    assert high <= bead.length_mm / 2.0 + 1e-9
    reach = max(body.off_mm + body.disc_mm + body.rounding_mm for body in solid.bodies)
    assert reach == pytest.approx(bead.reach_mm if bead.stands_out else bead.diameter_mm / 2.0)
    assert (solid.arm_mm > 0.0) == bead.stands_out


@pytest.mark.parametrize("bead", [bead for bead in BEADS.values() if bead.stands_out], ids=lambda bead: bead.name)
def test_round_its_hole_a_bead_that_reaches_out_is_closed_from_end_to_end(bead: Bead) -> None:
    """No gap along the rod in which another cord could lie: balls that reach its ends and each other."""
    own = sorted((body.along_mm, body.rounding_mm) for body in solid_of(bead).bodies if body.off_mm == 0.0)
    assert own[0][0] - own[0][1] == pytest.approx(-bead.length_mm / 2.0)
    assert own[-1][0] + own[-1][1] == pytest.approx(bead.length_mm / 2.0)
    for (along, rounding), (then, other) in pairwise(own):
        assert then - along <= 2.0 * (rounding + other)
