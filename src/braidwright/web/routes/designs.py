"""designs: what a design is: read one, begin one."""

from fastapi import APIRouter, Response

from braidwright.app.designs import Opened
from braidwright.app.seeing import opened_text, seen
from braidwright.app.solid_beads import bead_solids
from braidwright.app.starting import Wishes, new_design
from braidwright.app.studio import Studio
from braidwright.domain.document import Reading
from braidwright.web.answers import DesignAnswer, MeshesAnswer, answer, design_answer, meshes_answer
from braidwright.web.route import Route
from braidwright.web.wishes import DesignWish, NewWish


def add(router: APIRouter, studio: Studio) -> None:
    """The addresses."""

    @router.post("/read", response_model=DesignAnswer)
    def read(wish: DesignWish) -> Response:
        """Everything the screen needs of a design, by the estimate."""
        return answer(design_answer(seen(opened_text(wish.design, studio.catalogue))))

    @router.post("/meshes", response_model=MeshesAnswer)
    def meshes(wish: DesignWish) -> Response:
        """The solids of the beads in the tray of a design."""
        return answer(meshes_answer(bead_solids(opened_text(wish.design, studio.catalogue))))

    @router.post("/new", response_model=DesignAnswer)
    def new(wish: NewWish) -> Response:
        """A design to begin with."""
        if wish.braid is not None:
            studio.catalogue.braid(wish.braid)  # a name, never the path of a file of this machine
        started = new_design(Wishes(**wish.model_dump(exclude_none=True)), studio.catalogue)
        reading = Reading(design=started.design, warnings=started.warnings)
        return answer(design_answer(seen(Opened(reading=reading, catalogue=studio.catalogue))))


ROUTE = Route(add=add)
