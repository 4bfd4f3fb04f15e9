"""kept_shapes: the shapes of round braids as they are kept between two runs."""

import numpy as np

from braidwright.app.keeping import Codec, facts_of, number, outcome_from
from braidwright.physics.round_braid import RoundBraid, Shape
from braidwright.physics.start import round_lattice
from braidwright.store.solved import Kept


def _packed(shape: Shape) -> Kept | None:
    if shape.outcome.ending == "stopped":
        return None
    return Kept(
        arrays={"points": shape.points, "energies": np.array(shape.energies, dtype=np.float64)},
        facts={
            "rise_mm": shape.rise_mm,
            "diameter_mm": shape.diameter_mm,
            "take_up": shape.take_up,
            **facts_of(shape.outcome),
        },
    )


def _unpacked(braid: RoundBraid, kept: Kept) -> Shape:
    points = kept.arrays["points"]
    if points.ndim != 2 or points.shape[1] != 3 or points.dtype != np.float64:
        raise ValueError("these are no points in space")
    return Shape(
        rise_mm=number(kept, "rise_mm"),
        diameter_mm=number(kept, "diameter_mm"),
        take_up=number(kept, "take_up"),
        points=points,
        lattice=round_lattice(braid.columns, braid.drift_deg),
        outcome=outcome_from(kept),
        energies=tuple(float(each) for each in kept.arrays["energies"]),
    )


ROUND_BRAIDS: Codec[RoundBraid, Shape] = Codec(name="round braid", pack=_packed, unpack=_unpacked)
