"""solids: the beads of the catalogue as the solver sees them."""

from braidwright.domain.bead import REACHES, Bead
from braidwright.physics.solids import Solid, bicone_solid, cylinder_solid, reaching_solid, round_solid


def solid_of(bead: Bead) -> Solid:
    """The bodies of a bead: of a round, pressed or flat one a single disc, of others a few."""
    if bead.stands_out:
        return _reaching(bead)
    if bead.shape == "cylinder":
        return cylinder_solid(bead.diameter_mm, bead.length_mm)
    if bead.shape == "bicone":
        return bicone_solid(bead.diameter_mm, bead.length_mm)
    return round_solid(bead.diameter_mm, bead.length_mm)


def _reaching(bead: Bead) -> Solid:
    """Balls from the hole outward, as pictures and models have them."""
    half, profile = bead.diameter_mm / 2.0, REACHES[bead.shape]
    far = max(0.01, bead.reach_mm - half * profile[-1][1])
    return reaching_solid(bead.length_mm, [(share * far, half * radius) for share, radius in profile])
