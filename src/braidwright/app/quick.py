"""The quick predictor: the closed form where it holds, and silence where it does not."""

from dataclasses import dataclass, replace

from braidwright.app.shapes import estimated_geometry
from braidwright.domain.design import Design
from braidwright.domain.errors import RequestError
from braidwright.domain.geometry import Geometry
from braidwright.domain.kongoh import Kongoh, kongoh_of
from braidwright.domain.materials import Materials, MeanBead, RowKinds, mean_bead, row_kinds
from braidwright.domain.prediction import Prediction, Spread
from braidwright.physics.closed_form import (
    ACROSS_WITHIN,
    BARE_WITHIN,
    RISE_WITHIN,
    STEADY_DRIFT_DEG,
    TAKE_UP_WITHIN,
    TUBE_RISE_WITHIN,
    TWISTED_WITHIN,
    Settled,
    bare,
    beaded,
)

HOLLOW_FROM_COLUMNS = 6
SOLVED_BARE_COLUMNS = 4  # bare cord was compared with the solver in the rise for 8 cords only (physics.md, section 4)
AGAINST = "The quick formula was tried for ropes that turn the way their hand lays the cords, not against it."
NOT_KNOWN = "How far off this reckoning may be is not known for this design; a swatch of yours tells."
HOLLOW = "The tube is hollow and wants a core; the diameter is that of the round tube."
STRAYS = (
    "Give or take of an estimate is how far the quick formula strays from reckoning with every contact; "
    "your own tension comes on top."
)
WELL_KNOWN_COLUMNS = 4  # above, physics.md, 6 and the solver of this project part; see docs/decisions.md
MEASURE = "Braid a swatch of 20 rows or more, measure it, and enter it in the design."


@dataclass(frozen=True, slots=True)
class Quick:
    """Predicts by the closed form of physics.md, section 6."""

    def predict(self, design: Design, materials: Materials, drift_deg: float) -> Prediction:
        """The measures of each row; see `Predictor`."""
        silent = Prediction(
            rise_mm=None,
            diameter_mm=None,
            drift_deg=drift_deg,
            take_up=None,
            bare_rise_mm=None,
            bare_take_up=None,
            basis="not predicted yet",
        )
        kongoh = kongoh_of(design.braid)
        if kongoh is None:
            return _noted(
                silent,
                "Only kongoh gumi has a quick formula; have the shape of this braid solved, or measure a swatch.",
                MEASURE,
            )
        known = _with_bare(silent, kongoh, materials)
        kinds = row_kinds(design)
        if kinds.plain:
            return _plain(known, kongoh, materials)
        if kinds.stacked or kinds.part:
            what = "Stacks" if kinds.stacked else "Half-bare rows"
            return _noted(
                known,
                f"{what} have no quick formula; have the shape of this design solved, or measure a swatch.",
                MEASURE,
            )
        mean = mean_bead(design, materials)
        return known if mean is None else _beaded(known, kongoh, materials, mean, kinds)

    def shape(self, design: Design, materials: Materials, prediction: Prediction, drift_deg: float) -> Geometry | None:
        """The shape that the closed form gives; see `Predictor`."""
        return estimated_geometry(design, materials, prediction)


def _noted(prediction: Prediction, *notes: str) -> Prediction:
    return replace(prediction, notes=(*prediction.notes, *notes))


def _told(prediction: Prediction, kongoh: Kongoh, found: Settled) -> Prediction:
    return replace(
        prediction,
        rise_mm=found.rise_mm * kongoh.repeats_per_row,
        diameter_mm=found.diameter_mm,
        take_up=found.take_up,
        basis="estimated",
    )


def _with_bare(prediction: Prediction, kongoh: Kongoh, materials: Materials) -> Prediction:
    """What the leads do; where that is not known the beaded part may still be."""
    try:
        found = bare(kongoh.columns, materials.cord.diameter_mm)
    except RequestError:
        return prediction
    if materials.core_mm > _bare_hole(found, materials.cord.diameter_mm):
        return prediction
    rise = found.rise_mm * kongoh.repeats_per_row
    firm = kongoh.columns == SOLVED_BARE_COLUMNS and materials.cord.tex is not None and not materials.core_mm
    spread = replace(prediction.spread, bare_rise_mm=rise * BARE_WITHIN if firm else None)
    return replace(prediction, bare_rise_mm=rise, bare_take_up=found.take_up, spread=spread)


def _plain(prediction: Prediction, kongoh: Kongoh, materials: Materials) -> Prediction:
    try:
        found = bare(kongoh.columns, materials.cord.diameter_mm)
    except RequestError as reason:
        return _noted(prediction, str(reason), MEASURE)
    core, hole = materials.core_mm, _bare_hole(found, materials.cord.diameter_mm)
    if core > hole:
        return _noted(prediction, _too_thick(core, hole), MEASURE)
    notes = ["Reckoned for firm cord; satin is softer and comes out thinner.", *_core_left_out(core, hole)]
    if found.take_up is None:
        notes.append("The cord used is not predicted yet for this number of cords; measure it on a swatch.")
    told = _told(prediction, kongoh, found)
    if told.spread.bare_rise_mm is None:
        return _noted(told, *notes, NOT_KNOWN)
    return _noted(_spread(told, BARE_WITHIN, BARE_WITHIN, BARE_WITHIN), *notes, STRAYS)


def _beaded(
    prediction: Prediction, kongoh: Kongoh, materials: Materials, mean: MeanBead, kinds: RowKinds
) -> Prediction:
    drift = prediction.drift_deg / kongoh.repeats_per_row
    if drift * (1.0 if kongoh.hand == "S" else -1.0) < 0.0:
        return _noted(prediction, AGAINST, MEASURE)
    try:
        found = beaded(kongoh.columns, materials.cord.diameter_mm, mean.diameter_mm, mean.length_mm, drift)
    except RequestError as reason:
        return _noted(prediction, str(reason), MEASURE)
    core, hole = materials.core_mm, found.diameter_mm - 2.0 * mean.diameter_mm
    if core > hole:
        return _noted(prediction, _too_thick(core, hole), MEASURE)
    about = _about_braid(prediction, kongoh.columns, drift, is_cored=core > 0.0)
    notes = (*_core_left_out(core, hole), *_about_beads(mean, kinds), *about)
    told = _told(prediction, kongoh, found)
    if core or _is_uneven(mean, kinds):
        return _noted(told, *notes, NOT_KNOWN)
    if kongoh.columns in TUBE_RISE_WITHIN:  # only the rise was compared
        return _noted(_spread(told, TUBE_RISE_WITHIN[kongoh.columns], None, None), *notes, STRAYS)
    if abs(drift) > STEADY_DRIFT_DEG:
        return _noted(_spread(told, TWISTED_WITHIN, TWISTED_WITHIN, None), *notes, STRAYS)
    return _noted(_spread(told, RISE_WITHIN, ACROSS_WITHIN, TAKE_UP_WITHIN), *notes, STRAYS)


def _is_uneven(mean: MeanBead, kinds: RowKinds) -> bool:
    """Whether the formula was never compared with such beads and rows."""
    return bool(mean.kinds > 1 or mean.accents or mean.cylinders or kinds.missed or kinds.gaps)


def _bare_hole(found: Settled, cord_mm: float) -> float:
    """Width left along the axis of a bare braid: its wall is two cords thick, which cross."""
    return found.diameter_mm - 4.0 * cord_mm


def _core_left_out(core_mm: float, hole_mm: float) -> tuple[str, ...]:
    """Solved, tubes of 12 and 16 cords on a core no thicker than this hole keep their diameter within 4 %."""
    if not core_mm:
        return ()
    return (
        f"The formula knows no core and reckons this rope as braided round nothing; a core no thicker than its hole of "
        f"{hole_mm:.1f} mm changes its thickness little.",
    )


def _too_thick(core_mm: float, hole_mm: float) -> str:
    """Solved, a rope of 8 cords and 8/0 beads on a core of 3 mm is 28 % thicker and uses 26 % more cord."""
    return (
        f"The quick formula knows no core, and one of {core_mm:g} mm is thicker than the hole it leaves "
        f"({max(0.0, hole_mm):.1f} mm); have the shape solved."
    )


def _spread(told: Prediction, rise: float, across: float | None, take_up: float | None) -> Prediction:
    """With how far the formula strayed from the solver, as shares of each measure."""
    spread = Spread(
        rise_mm=None if told.rise_mm is None else told.rise_mm * rise,
        diameter_mm=None if told.diameter_mm is None or across is None else told.diameter_mm * across,
        take_up=None if told.take_up is None or take_up is None else told.take_up * take_up,
        bare_rise_mm=told.spread.bare_rise_mm,
    )
    return replace(told, spread=spread)


def _about_beads(mean: MeanBead, kinds: RowKinds) -> tuple[str, ...]:
    said = (
        (
            mean.kinds > 1,
            f"Beads of {mean.kinds} sizes are mixed; reckoned with the mean bead "
            f"({mean.diameter_mm:.2f} x {mean.length_mm:.2f} mm, each kind as often as it is used), "
            f"so measure a swatch.",
        ),
        (mean.accents, "Beads that stand out to one side count with the part round their hole."),
        (mean.cylinders, "The formula is for round beads; cylinders nest a little differently."),
        (kinds.missed > 0, f"Rows with a bare stitch or two ({kinds.missed}) are reckoned as fully beaded."),
        (kinds.gaps > 0, "Short bare gaps between beads are reckoned as bare braid; they come out a little longer."),
    )
    return tuple(sentence for holds, sentence in said if holds)


def _about_braid(prediction: Prediction, columns: int, drift_deg: float, *, is_cored: bool) -> tuple[str, ...]:
    braided = "round a core" if is_cored else "for this number of cords"
    said = (
        (columns >= HOLLOW_FROM_COLUMNS and not is_cored, HOLLOW),
        (
            columns > WELL_KNOWN_COLUMNS,
            "The formula was fitted to tubes wound the other way round; solved, rows of 12 cords come out about 7 % "
            "longer and rows of 16 about 15 %, so have the shape solved, or measure a swatch.",
        ),
        (
            abs(drift_deg) > STEADY_DRIFT_DEG,
            "With this much twist the rope comes out up to 6 % shorter and thicker than the formula says.",
        ),
        (
            prediction.bare_take_up is None,
            f"The cord used by bare braid is not predicted yet {braided}.",
        ),
    )
    return tuple(sentence for holds, sentence in said if holds)
