"""Shopping: what to buy and cut for a design."""

from braidwright.app.ports import Predictor, Shelf
from braidwright.app.sizes import QUICK, end_cap_of, materials_of, size
from braidwright.domain.design import Design
from braidwright.domain.supplies import Supplies, supplies_of


def supplies(
    design: Design,
    shelf: Shelf,
    *,
    pieces: int = 1,
    spare_percent: float | None = None,
    predictor: Predictor = QUICK,
) -> Supplies:
    """What to buy and cut for a number of pieces.

    Args:
        design: The design.
        shelf: Where beads, cords and end caps are looked up.
        pieces: How many pieces.
        spare_percent: Extra beads to buy; None for what the design says, or the usual.
        predictor: What tells the size.

    Raises:
        CatalogueError: A bead, cord or end cap the shelf does not know.
        RequestError: A number of pieces or a spare that makes no sense.
    """
    measured = size(design, shelf, predictor)
    return supplies_of(
        design,
        materials_of(design, shelf),
        measured,
        cap=end_cap_of(design, shelf, measured),
        pieces=pieces,
        spare_percent=spare_percent,
    )
