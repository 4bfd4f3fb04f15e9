"""Sizes: what a design measures, whom it fits, and how many rows a wish needs."""

from dataclasses import replace

from braidwright.app.ports import Predictor, Shelf
from braidwright.app.quick import HOLLOW, MEASURE, NOT_KNOWN, Quick
from braidwright.domain.bead import Bead
from braidwright.domain.cord import Cord, EndCap
from braidwright.domain.design import Design
from braidwright.domain.errors import RequestError
from braidwright.domain.fit import (
    Fit,
    WornBy,
    bound_satin_mm,
    bracelet_mm,
    choose_end_cap,
    ease_mm,
    findings_mm,
    fitted,
    neckline_mm,
    worn_by,
)
from braidwright.domain.geometry import Geometry
from braidwright.domain.materials import Materials, mean_bead, row_kinds
from braidwright.domain.prediction import Prediction
from braidwright.domain.size import Size, size_of
from braidwright.domain.swatches import corrected, counted, looked_at, measured_drift
from braidwright.domain.twist import drift_of, way_round
from braidwright.domain.units import check_length

QUICK = Quick()
MEASURED_TWIST = "The full turn measured on a swatch decides the twist, not the twist that the design asks for."


def materials_of(design: Design, shelf: Shelf) -> Materials:
    """The cord and beads of a design, those written into it as they are, the others from the shelf.

    Raises:
        CatalogueError: A name the shelf does not know.
    """
    kind, core = design.cords.kind, design.cords.core
    return Materials(
        cord=kind if isinstance(kind, Cord) else shelf.cord(kind),
        beads=tuple(
            (entry.key, entry.bead if isinstance(entry.bead, Bead) else shelf.bead(entry.bead))
            for entry in design.tray.beads
        ),
        core_mm=design.cords.core_mm if core is None or core.kind is None else shelf.cord(core.kind).diameter_mm,
    )


def predict(design: Design, shelf: Shelf, predictor: Predictor = QUICK) -> Prediction:
    """What each row is expected to measure, corrected by the swatches of the design when it has any.

    Args:
        design: The design.
        shelf: Where beads and cords are looked up.
        predictor: The quick formula, or anything else behind the same seam.

    Raises:
        CatalogueError: A bead or cord the shelf does not know.
    """
    return _predicted(design, materials_of(design, shelf), predictor)[1]


def shape(design: Design, shelf: Shelf, predictor: Predictor = QUICK) -> Geometry | None:
    """Where every bead and every cord lies, with the measures of `predict`, or None while too little is known.

    Raises:
        CatalogueError: A bead or cord the shelf does not know.
    """
    materials = materials_of(design, shelf)
    return predictor.shape(design, materials, predict(design, shelf, predictor), asked_drift(design))


def size(design: Design, shelf: Shelf, predictor: Predictor = QUICK) -> Size:
    """What the design measures, what that rests on, and what is unusual about it.

    Raises:
        CatalogueError: A bead or cord the shelf does not know.
    """
    materials = materials_of(design, shelf)
    before, after = _predicted(design, materials, predictor)
    mean = mean_bead(design, materials)
    told = looked_at(counted(design)[0], before, None if mean is None else mean.length_mm)
    found = size_of(design, materials, after, told)
    if found.hollow_mm is None:
        return found
    return replace(found, notes=tuple(note for note in found.notes if note != HOLLOW))  # the hole is known: told once


def asked_drift(design: Design) -> float:
    """The drift that a predictor is asked for, degrees clockwise a row: that of the swatches decides over all.

    Where no turn was measured it is the one the design asks for, or else that of a disk held still.
    Source: physics.md, section 5.
    """
    return measured_drift(counted(design)[0], drift_of(design.twist, design.braid), way_round(design.braid))


def _predicted(design: Design, materials: Materials, predictor: Predictor) -> tuple[Prediction, Prediction]:
    """The prediction before and after the swatches."""
    swatches, aside = counted(design)
    before = predictor.predict(design, materials, asked_drift(design))
    after = corrected(before, swatches, plain=row_kinds(design).plain)
    after = replace(after, notes=(*after.notes, *aside))
    if not swatches:
        return before, after
    if after.rise_mm is not None:  # what the maker has done need not be asked of her again
        asked = (MEASURE, NOT_KNOWN) if after.basis == "corrected by a swatch" else (MEASURE,)
        after = replace(after, notes=tuple(note for note in after.notes if note not in asked))
    if design.twist is not None and after.spread.drift_deg is not None:
        after = replace(after, notes=(*after.notes, MEASURED_TWIST))
    return before, after


def end_cap_of(design: Design, shelf: Shelf, measured: Size) -> EndCap | None:
    """The end cap the design names, or the one that suits its diameter, or None when nothing tells.

    Args:
        design: The design.
        shelf: Where end caps are looked up and chosen from.
        measured: The size of the design.

    Raises:
        CatalogueError: The design names an end cap the shelf does not know.
    """
    if design.findings is not None and design.findings.end_cap is not None:
        return shelf.end_cap(design.findings.end_cap)
    if measured.diameter_mm is None:
        return None
    plain = row_kinds(design).plain
    across = measured.diameter_mm
    if plain and measured.basis in ("estimated", "solved") and materials_of(design, shelf).cord.tex is None:
        across = bound_satin_mm(across)
    return choose_end_cap(across, beaded=not plain, caps=shelf.end_caps)


def fit_wrist(design: Design, measured: Size, cap: EndCap | None, wrist: float, ease: str) -> Fit:
    """The rows that make this design a bracelet for a wrist.

    Args:
        design: The design.
        measured: Its size.
        cap: The end cap for both ends, or None.
        wrist: Girth of the wrist, mm.
        ease: A word of EASES, or a length.

    Raises:
        RequestError: No such wrist or ease, or length or thickness are not known.
    """
    if measured.diameter_mm is None:
        raise RequestError(
            "The thickness of this design is not predicted yet, so it cannot be fitted to a wrist; "
            "braid a swatch, measure rows, length and diameter, and enter it in the design."
        )
    return _fit(design, measured, cap, bracelet_mm(wrist, ease_mm(ease), measured.diameter_mm))


def fit_neckline(design: Design, measured: Size, cap: EndCap | None, neckline: str) -> Fit:
    """The rows that make this design reach a neckline by name.

    Raises:
        RequestError: No such neckline, or the length is not known.
    """
    return _fit(design, measured, cap, neckline_mm(neckline))


def fit_length(design: Design, measured: Size, cap: EndCap | None, finished_mm: float) -> Fit:
    """The rows that make this design as long as wished, caps and clasp included.

    Raises:
        RequestError: The length of a row is not known, or the findings leave no room.
    """
    return _fit(design, measured, cap, check_length(finished_mm, "finished length"))


def worn_by_whom(design: Design, measured: Size, cap: EndCap | None) -> WornBy | None:
    """The range of wrists the design fits as it is, or None when its size is not known or it is no bracelet."""
    if measured.length_mm is None or measured.diameter_mm is None:
        return None
    findings, _ = findings_mm(design.findings, cap)
    return worn_by(measured.length_mm + findings, measured.diameter_mm)


def _fit(design: Design, measured: Size, cap: EndCap | None, wished_mm: float) -> Fit:
    """Rows are added or taken where the beads are; bare rows stay as they are."""
    rise, length, beaded = measured.rise_mm, measured.length_mm, measured.beaded_mm
    if rise is None or length is None or beaded is None:
        raise RequestError(
            "The length of this design is not predicted yet, so it cannot be fitted; "
            "braid a swatch, measure rows and length, and enter it in the design."
        )
    findings, notes = findings_mm(design.findings, cap)
    other = (len(design.rows) - round(beaded / rise), length - beaded)
    fit = fitted(wished_mm, rise, findings, other=other)
    return replace(fit, end_cap=None if cap is None else cap.name, notes=notes)
