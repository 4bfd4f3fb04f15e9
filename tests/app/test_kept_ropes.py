"""Uniform braids and whole ropes come back from disk as they were solved.

No outside source: these are promises of ours, in docs/decisions.md.
"""

from dataclasses import fields, replace
from functools import lru_cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from braidwright.app.keeping import STOPPED, Codec, Keeper
from braidwright.app.kept_ropes import UNIFORMS, WHOLES
from braidwright.app.ports import Watch
from braidwright.physics.measures import Whole
from braidwright.physics.outcome import Outcome
from braidwright.physics.solids import round_solid
from braidwright.physics.uniform import UniformBraid, solve_uniform
from braidwright.physics.whole import Piece, solve_whole
from braidwright.store.solved import Kept, SolvedStore
from rope import kongoh, maru_yotsu

MADE = UniformBraid(braid=maru_yotsu(), bead=(3.0, 2.1), cord_mm=0.5, drift_deg=0.0)
KINDS = (round_solid(3.0, 2.1), round_solid(4.0, 2.9))
ROPE = Piece(
    braid=kongoh(8),
    rows=(*[((0,),) * 4] * 3, ((1,), (0,), (), (0, 0)), *[((0,),) * 4] * 2),
    kinds=KINDS,
    cord_mm=0.5,
    drift_deg=11.25,
    lead_in_mm=5.0,
    lead_out_mm=5.0,
)
find = lru_cache(solve_uniform)


def whole(piece: Piece, watch: Watch | None) -> Whole | Outcome:
    return solve_whole(piece, find, watch)


def same(one: object, other: object) -> bool:
    """Whether two frozen results hold the same, arrays included."""
    if isinstance(one, np.ndarray):
        return np.array_equal(one, np.asarray(other))
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(same, one, other))
    if hasattr(one, "__dataclass_fields__"):
        return all(same(getattr(one, each.name), getattr(other, each.name)) for each in fields(one))  # type: ignore[arg-type]
    return bool(one == other)


@pytest.mark.parametrize(
    ("codec", "solve", "ask"), [(UNIFORMS, solve_uniform, MADE), (WHOLES, whole, ROPE)], ids=["uniform", "whole"]
)
def test_a_result_comes_back_from_disk_as_it_was_solved(
    codec: Codec[Any, Any], solve: Any, ask: Any, tmp_path: Path
) -> None:
    first = Keeper(codec, solve, SolvedStore(tmp_path)).found(ask)

    def never(ask: object, watch: Watch | None) -> object:
        raise AssertionError(ask)

    again = Keeper(codec, never, SolvedStore(tmp_path)).found(ask)
    assert again.outcome.is_settled
    assert same(again, first)


@pytest.mark.parametrize(
    ("codec", "solve", "ask"), [(UNIFORMS, solve_uniform, MADE), (WHOLES, whole, ROPE)], ids=["uniform", "whole"]
)
def test_what_was_stopped_is_not_kept(codec: Codec[Any, Any], solve: Any, ask: Any, tmp_path: Path) -> None:
    found = Keeper(codec, solve, SolvedStore(tmp_path)).found(ask, lambda share: share == 0.0)
    outcome = found if isinstance(found, Outcome) else found.outcome
    assert outcome.ending == STOPPED.ending
    assert list(tmp_path.iterdir()) == []


def test_a_rope_that_has_no_shape_is_kept_as_its_outcome(tmp_path: Path) -> None:
    failed = replace(STOPPED, ending="topology changed")
    for _ in range(2):
        assert Keeper(WHOLES, lambda *_: failed, SolvedStore(tmp_path)).found(ROPE) == failed
    assert len(list(tmp_path.iterdir())) == 1


@pytest.mark.parametrize("name", ["points", "ends", "heights", "rods"])
def test_what_is_not_whole_is_no_rope(name: str) -> None:
    kept = WHOLES.pack(whole(ROPE, None))
    assert kept is not None
    broken = Kept(arrays={**kept.arrays, name: kept.arrays[name][:-1]}, facts=kept.facts)
    with pytest.raises(ValueError, match=r"rope|lines"):
        WHOLES.unpack(ROPE, broken)
