"""edits: a design and a change, answered by the new design."""

from dataclasses import replace

from fastapi import APIRouter, Response

from braidwright.app.designs import Opened
from braidwright.app.edits import motif_along_the_front, other_hand, whole_cord
from braidwright.app.fitting import LengthWish, resized
from braidwright.app.seeing import check_extent, opened_text, seen
from braidwright.app.studio import Studio
from braidwright.domain.design import Design
from braidwright.domain.motif import place
from braidwright.domain.paint import exchange, fill, paint
from braidwright.web import wishes
from braidwright.web.answers import DesignAnswer, answer, design_answer
from braidwright.web.route import Route


def add(router: APIRouter, studio: Studio) -> None:
    """The addresses."""
    _add_drops(router, studio)
    _add_patches(router, studio)
    _add_wholes(router, studio)


def _add_drops(router: APIRouter, studio: Studio) -> None:
    @router.post("/edit/paint", response_model=DesignAnswer)
    def paint_stitches(wish: wishes.PaintWish) -> Response:
        """Let one drop fall at some stitches."""
        opened = _opened(wish, studio)
        return _answer(opened, paint(opened.reading.design, (at.anchor() for at in wish.stitches), wish.key))

    @router.post("/edit/fill", response_model=DesignAnswer)
    def fill_rows(wish: wishes.FillWish) -> Response:
        """Let one drop fall at every stitch, or of some rows."""
        opened = _opened(wish, studio)
        design = opened.reading.design
        return _answer(opened, fill(design, wish.key, (wish.first or 1, wish.last or len(design.rows))))

    @router.post("/edit/exchange", response_model=DesignAnswer)
    def exchange_beads(wish: wishes.ExchangeWish) -> Response:
        """Replace one bead by another wherever it falls."""
        opened = _opened(wish, studio)
        return _answer(opened, exchange(opened.reading.design, wish.old, wish.new))

    @router.post("/edit/cord", response_model=DesignAnswer)
    def paint_cord(wish: wishes.CordWish) -> Response:
        """Let one drop fall along a whole cord."""
        opened = _opened(wish, studio)
        return _answer(opened, whole_cord(opened.reading.design, wish.slot, wish.key))


def _add_patches(router: APIRouter, studio: Studio) -> None:
    @router.post("/edit/motif", response_model=DesignAnswer)
    def place_motif(wish: wishes.PlaceWish) -> Response:
        """Lay a patch on some stitches, and remember it as a motif."""
        opened = _opened(wish, studio)
        return _answer(opened, place(opened.reading.design, wish.motif(wish.at)))

    @router.post("/edit/front", response_model=DesignAnswer)
    def place_along_the_front(wish: wishes.FrontWish) -> Response:
        """Lay a motif along the front line at a spacing."""
        opened = _opened(wish, studio)
        return _answer(opened, motif_along_the_front(opened, wish.motif(), wish.spacing_mm, wish.count))


def _add_wholes(router: APIRouter, studio: Studio) -> None:
    @router.post("/edit/mirror", response_model=DesignAnswer)
    def mirror(wish: wishes.MirrorWish) -> Response:
        """The other hand."""
        opened = _opened(wish, studio)
        return _answer(opened, other_hand(opened, keep_picture=wish.keep_picture))

    @router.post("/edit/resize", response_model=DesignAnswer)
    def resize(wish: wishes.ResizeWish) -> Response:
        """Longer or shorter, equally at both ends."""
        opened = _opened(wish, studio)
        asked = LengthWish(**wish.model_dump(exclude={"design"}, exclude_none=True))
        return _answer(opened, resized(opened.reading.design, studio.catalogue, asked).design)


def _opened(wish: wishes.DesignWish, studio: Studio) -> Opened:
    opened = opened_text(wish.design, studio.catalogue)
    check_extent(opened)
    return opened


def _answer(opened: Opened, design: Design) -> Response:
    return answer(design_answer(seen(replace(opened, reading=replace(opened.reading, design=design)))))


ROUTE = Route(add=add)
