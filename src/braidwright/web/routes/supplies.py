"""supplies: what to buy and to cut for some pieces of a design."""

from fastapi import APIRouter, Response

from braidwright.app.seeing import check_extent, opened_text
from braidwright.app.shopping import supplies as supplies_for
from braidwright.app.studio import Studio
from braidwright.domain.supplies import Supplies
from braidwright.web.answers import answer
from braidwright.web.route import Route
from braidwright.web.wishes import SuppliesWish


def add(router: APIRouter, studio: Studio) -> None:
    """The addresses."""

    @router.post("/supplies", response_model=Supplies)
    def supplies(wish: SuppliesWish) -> Response:
        """Beads, cords and findings for some pieces, and what they cost where prices are known."""
        opened = opened_text(wish.design, studio.catalogue)
        check_extent(opened)
        design = opened.reading.design
        return answer(supplies_for(design, studio.catalogue, pieces=wish.pieces, spare_percent=wish.spare_percent))


ROUTE = Route(add=add)
