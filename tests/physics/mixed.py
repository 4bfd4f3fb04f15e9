"""Ropes of mixed beads to test with: every kind of solid, stacks and bare stitches.

Sizes of beads: trade-facts, sections 2.1 and 2.2.
"""

from functools import lru_cache

import numpy as np

from braidwright.catalogue.shelf import standard
from braidwright.domain.braid import Braid
from braidwright.physics.solids import Solid, bicone_solid, cylinder_solid, reaching_solid, round_solid
from braidwright.physics.strung import Drop
from braidwright.physics.uniform import Uniform, UniformBraid, solve_uniform
from braidwright.physics.whole import Piece

CORD_MM = 0.5
DISK_DEG = 11.25
EIGHT, ELEVEN, SIX, TUBE, LONG, DROP, DAGGER, CONE = range(8)
KINDS: tuple[Solid, ...] = (
    round_solid(3.0, 2.1),
    round_solid(2.1, 1.45),
    round_solid(4.0, 2.9),
    cylinder_solid(1.6, 1.3),
    cylinder_solid(1.8, 3.0),
    reaching_solid(2.4, ((0.0, 1.2), (1.9, 1.7))),
    reaching_solid(1.8, ((0.0, 1.0), (3.9, 1.1), (7.8, 1.2))),
    bicone_solid(4.0, 3.6),
)
BARE: Drop = ()

remembered = lru_cache(maxsize=64)(solve_uniform)


def kongoh(cords: int = 8) -> Braid:
    """Kongoh gumi of the catalogue."""
    return standard().braid(f"kongoh-{cords}")


def uniform(bead: tuple[float, float] | None, cords: int = 8, core_mm: float = 0.0) -> Uniform:
    """Kongoh gumi of one bead, solved once."""
    return remembered(
        UniformBraid(braid=kongoh(cords), bead=bead, cord_mm=CORD_MM, drift_deg=DISK_DEG, core_mm=core_mm)
    )


def any_rows(
    count: int, seed: int, width: int = 4, drops: tuple[Drop, ...] | None = None
) -> tuple[tuple[Drop, ...], ...]:
    """Rows of random drops, mostly 8/0, with everything else between."""
    chance = np.random.default_rng(seed)
    every = drops or ((EIGHT,), (EIGHT,), (ELEVEN,), (SIX,), (TUBE,), (DROP,), (CONE,), (ELEVEN, ELEVEN), BARE)
    return tuple(tuple(every[int(chance.integers(len(every)))] for _ in range(width)) for _ in range(count))


def piece(rows: tuple[tuple[Drop, ...], ...], **changed: object) -> Piece:
    """A rope of eight cords with these rows."""
    wishes: dict[str, object] = {
        "braid": kongoh(),
        "rows": rows,
        "kinds": KINDS,
        "cord_mm": CORD_MM,
        "drift_deg": DISK_DEG,
        **changed,
    }
    return Piece(**wishes)  # type: ignore[arg-type]
