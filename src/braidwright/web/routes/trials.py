"""trials: what is tried before it is taken: a braid entered move by move, arrangements, a picture or a word laid on."""

from base64 import b64decode
from dataclasses import dataclass

from fastapi import APIRouter, Response

from braidwright.app.lettering import preview_word, take_word
from braidwright.app.pictures import preview_picture, read_picture
from braidwright.app.seeing import check_extent, opened_text, written_with
from braidwright.app.studio import Studio
from braidwright.app.trying import Tried, try_braid
from braidwright.app.walls import Wall, wall
from braidwright.domain.errors import RequestError
from braidwright.domain.lettering import Word
from braidwright.domain.picture import Placing
from braidwright.web.answers import answer
from braidwright.web.route import Route
from braidwright.web.wishes import BraidWish, PictureWish, WallWish, WordWish


@dataclass(frozen=True, slots=True, kw_only=True)
class PreviewAnswer:
    """Rows to look at, and the design file that has them, to be taken or left."""

    rows: tuple[str, ...]
    text: str
    notes: tuple[str, ...]


def add(router: APIRouter, studio: Studio) -> None:
    """The addresses."""
    _add_previews(router, studio)

    @router.post("/braid", response_model=Tried)
    def braid(wish: BraidWish) -> Response:
        """A braid entered move by move."""
        moves = tuple((move.take, move.put, move.slides) for move in wish.moves)
        return answer(try_braid(wish.name, wish.slots, tuple(wish.start), moves, wish.hand))

    @router.post("/arrangements", response_model=Wall)
    def arrangements(wish: WallWish) -> Response:
        """All looks of the cords of a design in some colours."""
        counts = {each.colour: each.count for each in wish.colours}
        if len(counts) < len(wish.colours):
            raise RequestError("One colour was given twice; give each colour once, with its number of cords.")
        braid = opened_text(wish.design, studio.catalogue).reading.design.braid
        return answer(wall(braid, counts, turned=wish.turned, swapped=wish.swapped))


def _add_previews(router: APIRouter, studio: Studio) -> None:
    @router.post("/preview/picture", response_model=PreviewAnswer)
    def picture(wish: PictureWish) -> Response:
        """A PNG or JPEG laid on the chart."""
        opened = opened_text(wish.design, studio.catalogue)
        check_extent(opened)
        try:
            content = b64decode(wish.picture, validate=True)
        except ValueError as error:
            raise RequestError("The picture did not arrive whole; choose it again.") from error
        placing = Placing(
            arc_deg=wish.arc_deg,
            centre_deg=wish.centre_deg,
            turn=270 if wish.upright else 0,
            fit=wish.fit,
            crop=(wish.left, wish.top, wish.right, wish.bottom),
            keys=None if wish.keys is None else tuple(wish.keys),
            mixing=wish.mixing,
        )
        laid = preview_picture(opened.reading.design, studio.catalogue, read_picture(content), placing)
        text = written_with(opened, opened.reading.design.with_rows(laid.rows))
        return answer(PreviewAnswer(rows=laid.rows, text=text, notes=laid.notes))

    @router.post("/preview/word", response_model=PreviewAnswer)
    def word(wish: WordWish) -> Response:
        """A word in beads."""
        opened = opened_text(wish.design, studio.catalogue)
        check_extent(opened)
        asked = Word(**wish.model_dump(exclude={"design"}, exclude_none=True))
        laid = preview_word(opened.reading.design, studio.catalogue, asked)
        text = written_with(opened, take_word(opened.reading.design, laid))
        return answer(PreviewAnswer(rows=laid.rows, text=text, notes=laid.notes))


ROUTE = Route(add=add)
