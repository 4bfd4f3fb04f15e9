"""catalogue: what there is to choose from, each with where its figures come from."""

from dataclasses import dataclass

from fastapi import APIRouter, Response

from braidwright.app.glyphs import Glyph, glyphs
from braidwright.app.studio import Studio
from braidwright.domain.bead import Bead
from braidwright.domain.braid import Braid
from braidwright.domain.chart import Column, columns
from braidwright.domain.cord import Cord, EndCap
from braidwright.domain.tray import FINISHES, SYMBOLS
from braidwright.web.answers import answer
from braidwright.web.route import Route


@dataclass(frozen=True, slots=True, kw_only=True)
class BraidAnswer:
    """A braid and the columns of its chart."""

    braid: Braid
    columns: tuple[Column, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CatalogueAnswer:
    """All there is to choose from."""

    braids: tuple[BraidAnswer, ...]
    beads: tuple[Bead, ...]
    cords: tuple[Cord, ...]
    end_caps: tuple[EndCap, ...]
    finishes: tuple[str, ...]
    symbols: tuple[str, ...]
    glyphs: tuple[Glyph, ...]


def add(router: APIRouter, studio: Studio) -> None:
    """The addresses."""

    @router.get("/catalogue", response_model=CatalogueAnswer)
    def catalogue() -> Response:
        """Braids, beads, cords, end caps, finishes and symbols."""
        shelf = studio.catalogue
        braids = tuple(BraidAnswer(braid=braid, columns=columns(braid)) for braid in shelf.braids)
        return answer(
            CatalogueAnswer(
                braids=braids,
                beads=shelf.beads,
                cords=shelf.cords,
                end_caps=shelf.end_caps,
                finishes=FINISHES,
                symbols=SYMBOLS,
                glyphs=glyphs(),
            )
        )


ROUTE = Route(add=add)
