"""solvable: whether a design can be tightened at all, and why a size rests on no solved shape."""

from braidwright.app.ports import Predictor, Shelf
from braidwright.app.quick import Quick
from braidwright.app.sizes import asked_drift, materials_of
from braidwright.domain.design import Design
from braidwright.domain.hole_fit import hole_fit
from braidwright.domain.materials import Materials
from braidwright.domain.strings import bead_counts


def why_not_threaded(design: Design, materials: Materials) -> str | None:
    """Why no rope can be made of these beads and this cord, in a sentence; None when it can."""
    cord = materials.cord
    for key, count in bead_counts(design).items():
        bead = materials.bead(key)
        if count and hole_fit(bead, cord).verdict == "will not pass":
            return (
                f"The braid was not tightened, since {cord.name} ({cord.diameter_mm:g} mm) cannot be threaded through "
                f"{bead.name}, whose hole is {bead.hole_mm:g} mm; take a finer cord, or beads with a wider hole."
            )
    return None


def why_not_solved(design: Design, shelf: Shelf, predictor: Predictor) -> tuple[str, ...]:
    """Why a predictor that should solve this design did not, in sentences; () when it did, or could not be expected to.

    Raises:
        CatalogueError: A bead or cord the shelf does not know.
    """
    materials = materials_of(design, shelf)
    drift = asked_drift(design)
    found = predictor.predict(design, materials, drift)
    if found.basis == "solved":
        return ()
    quick = Quick().predict(design, materials, drift)
    return tuple(sentence for sentence in found.notes if sentence not in quick.notes)
