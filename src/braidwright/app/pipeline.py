"""The story of the program on one page: from a braid and its drops to pictures and files.

    braid --walk--> stitches --drop--> chart and strings --predict--> size and supplies --draw--> a page, a picture

Each step is one call. The pattern pack begins here; look into a step by opening the module it names.
"""

from dataclasses import dataclass

from braidwright.app.ports import Predictor, Shelf
from braidwright.app.shopping import supplies
from braidwright.app.sizes import QUICK, end_cap_of, materials_of, predict, shape, size
from braidwright.domain.chart import Column, columns
from braidwright.domain.cord import EndCap
from braidwright.domain.design import Design
from braidwright.domain.fit import findings_mm
from braidwright.domain.geometry import Geometry
from braidwright.domain.materials import Materials
from braidwright.domain.prediction import Prediction
from braidwright.domain.size import Size
from braidwright.domain.strings import String, strings_of
from braidwright.domain.supplies import Supplies
from braidwright.domain.walk import Walk, walk
from braidwright.drawings.pen import Drawing
from braidwright.drawings.sheet import Look, Subject
from braidwright.drawings.sheets import SHEETS


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """A design with everything that follows from it.

    Attributes:
        design: The design itself.
        walk: Who sits where: what one repeat does to the cords.
        columns: The chart's columns, clockwise from north; the rows of the design fill them.
        strings: The beads of each cord, first strung first.
        materials: The cord and beads, looked up.
        prediction: What a row measures, and what that rests on.
        geometry: Where every bead and every cord lies, or None while too little is predicted.
        size: What the piece measures.
        supplies: What to buy and to cut.
        end_cap: The end cap it is closed with, or None.
    """

    design: Design
    walk: Walk
    columns: tuple[Column, ...]
    strings: tuple[String, ...]
    materials: Materials
    prediction: Prediction
    geometry: Geometry | None
    size: Size
    supplies: Supplies
    end_cap: EndCap | None


def work_out(
    design: Design,
    shelf: Shelf,
    predictor: Predictor = QUICK,
    *,
    pieces: int = 1,
    spare_percent: float | None = None,
) -> Worked:
    """Everything that follows from a design.

    Args:
        design: The design; its braid was proved workable when it was made.
        shelf: Where beads, cords and end caps are looked up.
        predictor: What tells the shape: the quick formula, or anything else behind the same seam.
        pieces: How many pieces the supplies are for.
        spare_percent: Extra beads to buy; None for what the design says, or the usual.

    Raises:
        CatalogueError: A bead, cord or end cap the shelf does not know.
        RequestError: A number of pieces or a spare that makes no sense.
    """
    measured = size(design, shelf, predictor)
    return Worked(
        design=design,
        walk=walk(design.braid),
        columns=columns(design.braid),
        strings=strings_of(design),
        materials=materials_of(design, shelf),
        prediction=predict(design, shelf, predictor),
        geometry=shape(design, shelf, predictor),
        size=measured,
        supplies=supplies(design, shelf, pieces=pieces, spare_percent=spare_percent, predictor=predictor),
        end_cap=end_cap_of(design, shelf, measured),
    )


def subject_of(worked: Worked) -> Subject:
    """What a sheet draws: the design with its measures, and nothing of how they were found."""
    return Subject(
        design=worked.design,
        beads=worked.materials.beads,
        cord_mm=worked.materials.cord.diameter_mm,
        prediction=worked.prediction,
        geometry=worked.geometry,
        findings_mm=findings_mm(worked.design.findings, worked.end_cap)[0],
    )


def draw(worked: Worked, sheet: str, look: Look) -> tuple[Drawing, ...]:
    """One sheet of a design: a chart, the set-up disk, the rope; nothing when there is nothing true to draw.

    Args:
        worked: The design, worked out.
        sheet: A name of the family of sheets, such as "flat-chart".
        look: Width, height and size of text.
    """
    return SHEETS[sheet].draw(subject_of(worked), look)
