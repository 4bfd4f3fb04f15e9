"""The tightened predictor: any braid with any beads, from its solved shape; the quick predictor where that fails."""

from dataclasses import dataclass, replace

import numpy as np

from braidwright.app.keeping import Keeper
from braidwright.app.kept_ropes import UNIFORMS, WHOLES
from braidwright.app.ports import Watch
from braidwright.app.quick import NOT_KNOWN, Quick
from braidwright.app.shapes import estimated_geometry, rescaled
from braidwright.app.solids import solid_of
from braidwright.app.solvable import why_not_threaded
from braidwright.app.solved_shapes import geometry_of
from braidwright.domain.braid import mirrored
from braidwright.domain.design import Design
from braidwright.domain.errors import RequestError
from braidwright.domain.geometry import Geometry
from braidwright.domain.materials import Materials, mean_bead, row_kinds
from braidwright.domain.pieces import pieces_of
from braidwright.domain.prediction import Prediction, Spread
from braidwright.domain.tray import BARE
from braidwright.physics.measures import Whole
from braidwright.physics.outcome import Outcome
from braidwright.physics.uniform import Uniform, UniformBraid, solve_uniform
from braidwright.physics.whole import Piece, solve_whole

SAME = 1e-6  # a measure that a swatch has changed by less is the solved one


@dataclass(frozen=True, slots=True)
class Solved:
    """Predicts from the solved shape of the whole rope.

    Attributes:
        watch: Told what share of a solve is done, 0 when it begins and 1 when it ends; answers whether to go on. What
            was stopped stays estimated, and says so.
    """

    watch: Watch | None = None

    def predict(self, design: Design, materials: Materials, drift_deg: float) -> Prediction:
        """The measures of each row; see `Predictor`."""
        quick = Quick().predict(design, materials, drift_deg)
        try:
            whole = self._solved(design, materials, drift_deg)
        except RequestError as reason:
            return replace(quick, notes=(*quick.notes, str(reason)))
        return _told(design, materials, quick, whole)

    def shape(self, design: Design, materials: Materials, prediction: Prediction, drift_deg: float) -> Geometry | None:
        """The solved shape, as long and as thick as a swatch found it; the estimate where there is none."""
        try:
            whole = self._solved(design, materials, drift_deg)
        except RequestError:
            return estimated_geometry(design, materials, prediction)
        found = geometry_of(design, whole, materials.cord.diameter_mm, drift_deg)
        if prediction.rise_mm is None or prediction.diameter_mm is None:
            return found
        ratio, change = prediction.rise_mm / _rises(design, whole)[0], prediction.diameter_mm - whole.diameter_mm
        if abs(ratio - 1.0) < SAME and abs(change) < SAME:
            return found
        return rescaled(found, ratio, change, prediction.basis)

    def _solved(self, design: Design, materials: Materials, drift_deg: float) -> Whole:
        """The shape of a whole design.

        Raises:
            RequestError: It has none; the sentence says why.
        """
        reason = why_not_threaded(design, materials)
        if reason is not None:
            raise RequestError(reason)
        if not pieces_of(design.braid).is_one:
            raise RequestError("The braid was not tightened, since its moves do not hold all cords together.")
        piece = piece_of(design, materials, drift_deg)
        is_other_hand = piece.braid.hand == "Z"  # both hands of a design are one rope, in a mirror
        found = WHOLES_KEPT.found(_mirrored(piece) if is_other_hand else piece, self.watch)
        if isinstance(found, Outcome):
            raise RequestError(found.sentence)
        return found.mirrored() if is_other_hand else found


def piece_of(design: Design, materials: Materials, drift_deg: float) -> Piece:
    """What the solver is asked for a design: beads count by their size and shape, not by their colour."""
    solids = {key: solid_of(bead) for key, bead in materials.beads}
    used = {bead: solids[bead] for key in design.drop_counts() if key != BARE for bead in design.tray.beads_of(key)}
    kinds = tuple(dict.fromkeys(used.values()))
    drops = {
        key: () if key == BARE else tuple(kinds.index(used[bead]) for bead in design.tray.beads_of(key))
        for key in design.drop_counts()
    }
    return Piece(
        braid=replace(design.braid, name="", english="", japanese="", source="", sure="", notes=""),
        rows=tuple(tuple(drops[key] for key in row) for row in design.rows),
        kinds=kinds,
        cord_mm=materials.cord.diameter_mm,
        drift_deg=drift_deg,
        lead_in_mm=design.lead_in,
        lead_out_mm=design.lead_out,
        core_mm=materials.core_mm,
    )


def _mirrored(piece: Piece) -> Piece:
    return replace(piece, braid=mirrored(piece.braid), drift_deg=-piece.drift_deg)


def _uniform(made: UniformBraid, watch: Watch | None) -> Uniform:
    return solve_uniform(made, watch)


def _whole(piece: Piece, watch: Watch | None) -> Whole | Outcome:
    return solve_whole(piece, UNIFORMS_KEPT.found, watch)


# The same rope is asked about again at every edit of its colours, and in every run.
UNIFORMS_KEPT = Keeper(UNIFORMS, _uniform)
WHOLES_KEPT = Keeper(WHOLES, _whole)


def _told(design: Design, materials: Materials, quick: Prediction, whole: Whole) -> Prediction:
    """The prediction with what was solved."""
    rise, bare_rise = _rises(design, whole)
    return replace(
        quick,
        rise_mm=rise,
        diameter_mm=whole.diameter_mm,
        take_up=whole.take_up,
        bare_rise_mm=bare_rise,
        bare_take_up=whole.bare_take_up,
        accents_add_mm=max(0.0, 2.0 * float(whole.reaches.max(initial=0.0)) - whole.diameter_mm),
        hollow_mm=whole.hollow_mm,
        basis="solved",
        spread=Spread(),  # the solver repeats itself to 1 %, but nobody has published measured ropes to hold it against
        notes=(*_notes(design, materials, whole), NOT_KNOWN),
    )


def _rises(design: Design, whole: Whole) -> tuple[float, float]:
    """The mean rise of the rows, and of the bare rows among them or the leads.

    Wholly bare rows count apart, so that together with the others they are as long as the rope; of a rope of cord only
    all its rows count, and both are the same.
    """
    bare = [set(row) == {BARE} for row in design.rows]
    rises = np.diff(whole.heights)
    is_plain = row_kinds(design).plain
    rows = [index for index, is_bare in enumerate(bare) if not is_bare or is_plain]
    bare_rows = [index for index, is_bare in enumerate(bare) if is_bare and not is_plain]
    rise = float(rises[rows].mean())
    bare_rise = float(rises[bare_rows].mean()) if len(bare_rows) > 0 else rise if is_plain else whole.bare_rise_mm
    return rise, bare_rise


def _notes(design: Design, materials: Materials, whole: Whole) -> tuple[str, ...]:
    if mean_bead(design, materials) is None:
        return ("Reckoned for firm cord; satin is softer and comes out thinner.",)
    if whole.hollow_mm > 0.0:
        return ("It was solved as a round tube.",)
    return ()
