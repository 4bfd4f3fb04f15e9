"""The tightened predictor: the solver where it holds, and the quick predictor everywhere else."""

from dataclasses import dataclass, replace

from braidwright.app.keeping import Keeper, Watch
from braidwright.app.kept_shapes import ROUND_BRAIDS
from braidwright.app.quick import HOLLOW_FROM_COLUMNS, NOT_KNOWN, Quick
from braidwright.app.shapes import estimated_geometry
from braidwright.app.solvable import why_not_threaded
from braidwright.domain.design import Design
from braidwright.domain.errors import RequestError
from braidwright.domain.geometry import Geometry
from braidwright.domain.kongoh import Kongoh, kongoh_of
from braidwright.domain.materials import Materials, MeanBead, mean_bead, row_kinds
from braidwright.domain.prediction import Prediction, Spread
from braidwright.physics.closed_form import FLATTEST_BEAD, SLENDEREST_BEAD, THICKEST_CORD
from braidwright.physics.round_braid import RoundBraid, Shape, settle
from braidwright.physics.solids import BeadSolid


@dataclass(frozen=True, slots=True)
class Solved:
    """Predicts kongoh gumi with one size of bead at every stitch, or of bare cord, from its solved shape.

    Attributes:
        watch: Told what share of a solve is done, 0 when it begins and 1 when it ends; answers whether to go on. What
            was stopped stays estimated, and says so.
    """

    watch: Watch | None = None

    def predict(self, design: Design, materials: Materials, drift_deg: float) -> Prediction:
        """The measures of each row; see `Predictor`."""
        quick = Quick().predict(design, materials, drift_deg)
        reason = why_not_threaded(design, materials)
        if reason is not None:
            return replace(quick, notes=(*quick.notes, reason))
        kongoh = kongoh_of(design.braid)
        if kongoh is None:
            return quick
        asked = _Asked(
            kongoh=kongoh,
            cord_mm=materials.cord.diameter_mm,
            drift_deg=_drift(kongoh, drift_deg),
            watch=self.watch,
        )
        if row_kinds(design).plain:
            return _told(_with_bare(quick, asked), asked, None)
        mean = mean_bead(design, materials)
        if mean is None or not _is_even(design, mean, asked.cord_mm):
            return quick
        known = _with_bare(quick, asked) if _has_bare(design) else quick
        return _told(known, asked, BeadSolid(diameter_mm=mean.diameter_mm, length_mm=mean.length_mm))

    def shape(self, design: Design, materials: Materials, prediction: Prediction, drift_deg: float) -> Geometry | None:
        """The shape that the closed form gives; see `Predictor`."""
        return estimated_geometry(design, materials, prediction)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asked:
    """What is asked of the solver.

    Attributes:
        kongoh: The braid.
        cord_mm: Diameter of the cord.
        drift_deg: Turn of a column a smallest repeat, positive the way the hand lays its cords.
        watch: Who is asked whether to go on, or None.
    """

    kongoh: Kongoh
    cord_mm: float
    drift_deg: float
    watch: Watch | None

    def shape(self, bead: BeadSolid | None) -> Shape:
        """The shape with this bead, or of bare cord.

        Raises:
            RequestError: No such braid has a shape, or the solver was stopped or did not find it.
        """
        columns = self.kongoh.columns
        braid = RoundBraid(columns=columns, cord_mm=self.cord_mm, bead=bead, drift_deg=self.drift_deg)
        shape = SHAPES.found(braid, self.watch)
        if not shape.outcome.is_settled:
            raise RequestError(shape.outcome.sentence)
        return shape


def _settled(braid: RoundBraid, watch: Watch | None) -> Shape:
    return settle(braid, watch)


# The same braid is asked about again at every edit of its colours, and in every run.
SHAPES = Keeper(ROUND_BRAIDS, _settled)


def _drift(kongoh: Kongoh, drift_deg: float) -> float:
    """The turn of a column a smallest repeat, positive the way the hand lays its cords."""
    return drift_deg / kongoh.repeats_per_row * (1.0 if kongoh.hand == "S" else -1.0)


def _is_even(design: Design, mean: MeanBead, cord_mm: float) -> bool:
    """Whether every row holds the same round bead at every stitch."""
    kinds = row_kinds(design)
    if kinds.stacked or kinds.part or kinds.missed or kinds.gaps:
        return False
    if mean.kinds > 1 or mean.accents or mean.cylinders:
        return False
    slender = mean.length_mm / mean.diameter_mm
    return FLATTEST_BEAD <= slender <= SLENDEREST_BEAD + 1e-9 and cord_mm <= THICKEST_CORD * mean.diameter_mm


def _has_bare(design: Design) -> bool:
    return design.lead_in + design.lead_out > 0.0 or row_kinds(design).bare > 0


def _with_bare(prediction: Prediction, asked: _Asked) -> Prediction:
    """What bare rows and leads do; what the quick formula says of them stands when they do not settle."""
    try:
        shape = asked.shape(None)
    except RequestError:
        return prediction
    rise = shape.rise_mm * asked.kongoh.repeats_per_row
    return replace(prediction, bare_rise_mm=rise, bare_take_up=shape.take_up)


def _told(prediction: Prediction, asked: _Asked, bead: BeadSolid | None) -> Prediction:
    """The prediction with what was solved, or with a word why it was not."""
    try:
        shape = asked.shape(bead)
    except RequestError as reason:
        return replace(prediction, notes=(*prediction.notes, str(reason)))
    notes = []
    if bead is None:
        notes.append("Reckoned for firm cord; satin is softer and comes out thinner.")
    elif asked.kongoh.columns >= HOLLOW_FROM_COLUMNS:
        notes.append("The tube is hollow and wants a core; the diameter is that of the round tube.")
    return replace(
        prediction,
        rise_mm=shape.rise_mm * asked.kongoh.repeats_per_row,
        diameter_mm=shape.diameter_mm,
        take_up=shape.take_up,
        basis="solved",
        spread=Spread(),  # the solver repeats itself to 1 %, but nobody has published measured ropes to hold it against
        notes=(*notes, NOT_KNOWN),
    )
