"""Pictures: a PNG or JPEG laid on the chart of a design, as a preview that is taken or left."""

from dataclasses import replace

from braidwright.app.courses import course_of
from braidwright.app.ports import Predictor, Shelf
from braidwright.app.sizes import QUICK, materials_of
from braidwright.domain.design import Design
from braidwright.domain.picture import LaidPicture, Placing, lay_picture
from braidwright.domain.raster import Raster, raster_of
from braidwright.intake.pictures import pixels_of


def read_picture(content: bytes) -> Raster:
    """A PNG or JPEG, ready to be laid as often as wished.

    Raises:
        RequestError: It is too large, neither of the two, or broken.
    """
    return raster_of(pixels_of(content))


def preview_picture(
    design: Design, shelf: Shelf, picture: Raster, placing: Placing, predictor: Predictor = QUICK
) -> LaidPicture:
    """A picture laid on a design: rows to look at; the design stays as it is until `design.with_rows` takes them.

    Unless the placing names beads, stacks, bare stitches and beads that stand out are not chosen from.

    Raises:
        RequestError: A placing that makes no sense.
        CatalogueError: A bead or cord the shelf does not know.
    """
    course, notes = course_of(design, shelf, predictor)
    if placing.keys is None:
        keys, aside = smooth_keys(design, shelf)
        placing = replace(placing, keys=keys)
        notes += aside
    laid = lay_picture(design, course, picture, placing)
    return replace(laid, notes=(*laid.notes, *notes))


def smooth_keys(design: Design, shelf: Shelf) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The single beads a picture is made of, and a sentence when some that stand out were left out."""
    materials = materials_of(design, shelf)
    every = tuple(entry.key for entry in design.tray.beads)
    smooth = tuple(key for key in every if not materials.bead(key).stands_out)
    if not smooth or smooth == every:
        return every, ()
    names = ", ".join(design.tray.name_of(key) for key in every if key not in smooth)
    return smooth, (f"Beads that stand out were left out of the picture ({names}); name them to have them chosen.",)
