"""pictures: drawings of a design as SVG: a sheet for a reader of either hand, and small ones for the library."""

from dataclasses import dataclass, replace
from typing import Annotated, Any

from fastapi import APIRouter, Path, Response

from braidwright.app.designs import Opened
from braidwright.app.seeing import check_extent, opened_text, seen
from braidwright.app.sheets import for_reader, sheet_pictures, small_picture
from braidwright.app.studio import Studio
from braidwright.domain.errors import RequestError
from braidwright.web.answers import DesignAnswer, answer, design_answer
from braidwright.web.route import Route
from braidwright.web.wishes import ReaderWish, SheetWish

Number = Annotated[int, Path(ge=1, le=2**53)]
Name = Annotated[str, Path(pattern="^[0-9a-f]{64}$")]
_SVG: dict[int | str, dict[str, Any]] = {200: {"content": {"image/svg+xml": {"schema": {"type": "string"}}}}}


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetAnswer:
    """The drawings of a sheet, as SVG; none when there is nothing true to draw."""

    drawings: tuple[str, ...]


def add(router: APIRouter, studio: Studio) -> None:
    """The addresses."""

    @router.post("/sheet", response_model=SheetAnswer)
    def sheet(wish: SheetWish) -> Response:
        """One sheet of a design."""
        opened = opened_text(wish.design, studio.catalogue)
        check_extent(opened)
        return answer(
            SheetAnswer(
                drawings=sheet_pictures(opened, wish.sheet, wish.reader, width_mm=wish.width_mm, is_large=wish.large)
            )
        )

    @router.post("/reader", response_model=DesignAnswer)
    def reader(wish: ReaderWish) -> Response:
        """A design as a reader of the other hand works it; nothing is kept."""
        opened = opened_text(wish.design, studio.catalogue)
        check_extent(opened)
        design = for_reader(opened, wish.reader)
        return answer(design_answer(seen(replace(opened, reading=replace(opened.reading, design=design)))))

    @router.get("/library/{design}/picture/{name}", responses=_SVG)
    def picture(design: Number, name: Name) -> Response:
        """A small picture of a state; its name stands for its content, so it may be kept."""
        library = studio.open_library()
        drawn = small_picture(Opened(reading=library.look(design, name).reading, catalogue=library.catalogue))
        if drawn is None:
            raise RequestError("There is no picture of this design yet, because nothing of it is known to draw.")
        return Response(drawn, media_type="image/svg+xml")


ROUTE = Route(add=add)
