"""edits: changes of a design that need to know its cords or its measures; the others are verbs of the craft."""

from braidwright.app.courses import course_of
from braidwright.app.designs import Opened
from braidwright.app.sizes import predict
from braidwright.domain.design import Anchor, Design, PlacedMotif
from braidwright.domain.errors import RequestError
from braidwright.domain.mirror import mirror_everything, same_picture
from braidwright.domain.motif import along_the_front
from braidwright.domain.paint import paint
from braidwright.domain.walk import stitch_cords


def whole_cord(design: Design, slot: int, key: str) -> Design:
    """Let one drop fall at every stitch of the cord that starts in a slot.

    Raises:
        RequestError: No cord starts there, or a key the tray does not have.
    """
    start = design.braid.start
    if slot not in start:
        raise RequestError(f"No cord starts in slot {slot}; cords start in {', '.join(map(str, start))}.")
    made = stitch_cords(design.braid, len(design.rows)) == start.index(slot)
    places = ((int(row), int(stitch)) for row, stitch in zip(*made.nonzero(), strict=True))
    return paint(design, (Anchor(row=row + 1, stitch=stitch + 1) for row, stitch in places), key)


def other_hand(opened: Opened, *, keep_picture: bool) -> Design:
    """The design for the other hand, everything mirrored or the picture as drawn.

    Raises:
        BraidwrightError: The picture cannot be kept, or a bead is not known.
    """
    design = opened.reading.design
    if not keep_picture:
        return mirror_everything(design)
    return same_picture(design, predict(design, opened.catalogue).drift_deg)


def motif_along_the_front(opened: Opened, motif: PlacedMotif, spacing_mm: float, count: int | None) -> Design:
    """A motif placed along the front line at a spacing, centred on the piece.

    Raises:
        BraidwrightError: More motifs than fit, a spacing that is none, a patch with a fault, a bead not known.
    """
    design = opened.reading.design
    return along_the_front(design, motif, course_of(design, opened.catalogue)[0], spacing_mm, count)
