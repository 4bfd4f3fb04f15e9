"""Sheets: one drawing of a design for a screen, for the reader of either hand."""

from dataclasses import replace
from typing import Literal

from braidwright.app.designs import Opened
from braidwright.app.pipeline import draw, work_out
from braidwright.app.ports import Predictor
from braidwright.app.sizes import QUICK, predict
from braidwright.domain.design import Design
from braidwright.domain.errors import RequestError
from braidwright.domain.mirror import mirror_everything, same_picture
from braidwright.domain.resize import resize
from braidwright.drawings.pens.svg import render
from braidwright.drawings.sheet import Look
from braidwright.drawings.sheets import SHEETS

Reader = Literal["own", "mirror", "same-picture"]
LARGE = 1.5
THUMBNAIL_MM = 105.0
THUMBNAIL_ROPE_MM = 46.0
USUAL_RISE_MM = 2.0


def for_reader(opened: Opened, reader: Reader) -> Design:
    """The design as a reader works it.

    Raises:
        RequestError: The picture cannot be kept in the other hand.
    """
    design = opened.reading.design
    if reader == "own":
        return design
    if reader == "mirror":
        return mirror_everything(design)
    return same_picture(design, predict(design, opened.catalogue).drift_deg)


def sheet_pictures(
    opened: Opened, sheet: str, reader: Reader = "own", *, width_mm: float, is_large: bool = False
) -> tuple[str, ...]:
    """The drawings of one sheet as SVG; () when there is nothing true to draw.

    Args:
        opened: The design.
        sheet: A name of the family of sheets.
        reader: How its reader works.
        width_mm: Room across.
        is_large: Whether letters and symbols are large.

    Raises:
        RequestError: No such sheet.
    """
    if sheet not in SHEETS:
        raise RequestError(f"There is no sheet {sheet!r}; use one of {', '.join(SHEETS)}.")
    worked = work_out(for_reader(opened, reader), opened.catalogue)
    look = Look(width_mm=width_mm, text_scale=LARGE if is_large else 1.0)
    return tuple(map(render, draw(worked, sheet, look)))


def small_picture(opened: Opened, predictor: Predictor = QUICK) -> str | None:
    """A small picture of a design: the middle of the rope from the front, or its chart where no shape is known."""
    design = opened.reading.design
    rise = predict(design, opened.catalogue, predictor).rise_mm or USUAL_RISE_MM
    rows = max(4, round(THUMBNAIL_ROPE_MM / rise))  # as many as lie side by side in one line
    # the middle of a piece, where a front line looks outward, is kept by resizing
    short = resize(design, rows) if len(design.rows) > rows else design
    worked = work_out(replace(short, swatch=None, swatches=()), opened.catalogue, predictor)
    for sheet in ("rope-front", "flat-chart"):
        drawings = draw(worked, sheet, Look(width_mm=THUMBNAIL_MM, height_mm=THUMBNAIL_MM))
        if drawings:
            return render(drawings[0])
    return None
