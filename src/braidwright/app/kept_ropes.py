"""kept_ropes: uniform braids and whole ropes as they are kept between two runs."""

from typing import Any, cast

import numpy as np
from numpy.typing import NDArray

from braidwright.app.keeping import Codec, facts_of, number, outcome_from
from braidwright.physics.measures import Whole
from braidwright.physics.outcome import Outcome
from braidwright.physics.uniform import Uniform, UniformBraid
from braidwright.physics.ways import Ways
from braidwright.physics.whole import Piece
from braidwright.store.solved import Kept

Floats = NDArray[np.float64]
ARRAYS = ("rods", "outward", "kinds", "stitches", "bead_cords", "reaches", "heights")
MEASURES = ("diameter_mm", "take_up", "bare_rise_mm", "bare_take_up", "core_mm", "hollow_mm")


def _lines(lines: tuple[Floats, ...]) -> dict[str, NDArray[np.float64] | NDArray[np.int64]]:
    """Lines of unequal length as two arrays."""
    return {
        "points": np.concatenate([np.zeros((0, 3)), *lines]),
        "ends": np.cumsum([len(line) for line in lines], dtype=np.int64),
    }


def _lines_from(kept: Kept) -> list[Floats]:
    points, ends = kept.arrays["points"], kept.arrays["ends"]
    if points.ndim != 2 or points.shape[1] != 3 or ends.ndim != 1 or (len(ends) and ends[-1] != len(points)):
        raise ValueError("these are no lines in space")
    return [np.array(line) for line in np.split(points, ends[:-1])] if len(ends) else []


def _uniform_packed(uniform: Uniform) -> Kept | None:
    if uniform.outcome.ending == "stopped":
        return None
    return Kept(
        arrays=_lines((*uniform.ways.stitches, *uniform.ways.idle)),
        facts={
            "rise_mm": uniform.ways.rise_mm,
            "drift_deg": uniform.ways.drift_deg,
            "core_mm": uniform.core_mm,
            **facts_of(uniform.outcome),
        },
    )


def _uniform_unpacked(made: UniformBraid, kept: Kept) -> Uniform:
    lines, count = _lines_from(kept), made.braid.stitches_per_row
    if len(lines) < count:
        raise ValueError("a way is missing")
    ways = Ways(
        stitches=tuple(lines[:count]),
        idle=tuple(lines[count:]),
        rise_mm=number(kept, "rise_mm"),
        drift_deg=number(kept, "drift_deg"),
    )
    return Uniform(ways=ways, outcome=outcome_from(kept), core_mm=number(kept, "core_mm"))


def _whole_packed(whole: Whole | Outcome) -> Kept | None:
    if isinstance(whole, Outcome):
        return None if whole.ending == "stopped" else Kept(arrays={}, facts=facts_of(whole))
    return Kept(
        arrays=_lines(whole.cords) | {name: getattr(whole, name) for name in ARRAYS},
        facts={name: getattr(whole, name) for name in MEASURES} | facts_of(whole.outcome),
    )


def _whole_unpacked(piece: Piece, kept: Kept) -> Whole | Outcome:
    outcome = outcome_from(kept)
    if not outcome.is_settled:
        return outcome
    arrays = {name: np.array(kept.arrays[name]) for name in ARRAYS}
    if len(arrays["heights"]) != len(piece.rows) + 1 or len(arrays["rods"]) != len(arrays["kinds"]):
        raise ValueError("this is another rope")
    figures = {name: number(kept, name) for name in MEASURES}
    return Whole(cords=tuple(_lines_from(kept)), outcome=outcome, **cast(Any, arrays | figures))


UNIFORMS: Codec[UniformBraid, Uniform] = Codec(name="uniform", pack=_uniform_packed, unpack=_uniform_unpacked)
WHOLES: Codec[Piece, Whole | Outcome] = Codec(name="whole", pack=_whole_packed, unpack=_whole_unpacked)
