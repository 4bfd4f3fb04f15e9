"""Courses: how the columns of a design run, for whatever is laid on its surface in true proportions."""

from math import pi

from braidwright.app.ports import Predictor, Shelf
from braidwright.app.sizes import QUICK, materials_of, predict
from braidwright.domain.chart import columns
from braidwright.domain.design import Design
from braidwright.domain.materials import mean_bead
from braidwright.domain.motif import Course

FROM_SIZES = (
    "The length of a row and the thickness of this rope are not predicted yet, so proportions are those of its beads; "
    "a swatch makes them true."
)


def course_of(design: Design, shelf: Shelf, predictor: Predictor = QUICK) -> tuple[Course, tuple[str, ...]]:
    """How the columns run, and a sentence when that rests on the sizes of the beads only.

    Raises:
        CatalogueError: A bead or cord the shelf does not know.
    """
    materials = materials_of(design, shelf)
    mean = mean_bead(design, materials)
    thick = materials.cord.diameter_mm if mean is None else mean.diameter_mm
    told = predict(design, shelf, predictor)
    if told.rise_mm is not None and told.diameter_mm is not None and told.diameter_mm > thick:
        radius = (told.diameter_mm - thick) / 2.0
        return Course(rise_mm=told.rise_mm, drift_deg=told.drift_deg, radius_mm=radius), ()
    every = columns(design.braid)
    held = max(len(column.stitches) for column in every)
    long = materials.cord.diameter_mm if mean is None else mean.length_mm
    # Beads side by side round the rope and end to end along it: common practice, no source. For kongoh gumi of 8 and
    # 16 cords the closed form has 4 % and 6 % less round it, and 10 % more along it.
    course = Course(rise_mm=long * held, drift_deg=told.drift_deg, radius_mm=len(every) * thick / (2.0 * pi))
    return course, (FROM_SIZES,)
