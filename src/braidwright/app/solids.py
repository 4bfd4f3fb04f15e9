"""solids: the beads of the catalogue as the solver sees them."""

from braidwright.domain.bead import REACHES, Bead
from braidwright.physics.solids import Body, Solid, bicone_solid, cylinder_solid, round_solid


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
    """Balls from the hole outward, as pictures and models have them; no thicker along the hole than the bead."""
    half, profile = bead.diameter_mm / 2.0, REACHES[bead.shape]
    far = max(0.01, bead.reach_mm - half * profile[-1][1])
    bodies = []
    for share, radius in profile:
        rounding = min(half * radius, bead.length_mm / 2.0)
        # round the hole the bead is as long as its rod: no other cord may slip in between
        ends = bead.length_mm / 2.0 - rounding if share == 0.0 else 0.0
        bodies += [
            Body(disc_mm=half * radius - rounding, rounding_mm=rounding, along_mm=along, off_mm=share * far)
            for along in ((-ends, ends) if ends > 0.0 else (0.0,))
        ]
    return Solid(rod_mm=bead.length_mm, bodies=tuple(bodies))
