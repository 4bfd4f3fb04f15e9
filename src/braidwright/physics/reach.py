"""reach: how far from the axis of the rope a flat disc with a rounding reaches."""

from math import pi

import numpy as np

from braidwright.physics.state import Floats


def disc_reaches(centres: Floats, units: Floats, disc_mm: float, rounding_mm: float, ways: int) -> Floats:
    """From the z axis to the outermost point of every disc, (discs,) mm.

    A disc of radius R with rounding r and axis u reaches c . n + R sqrt(1 - (u . n)^2) + r in a direction n.

    Args:
        centres: Middles of the discs, (discs, 3) mm.
        units: Their axes, unit, (discs, 3).
        disc_mm: Radius of the flat disc.
        rounding_mm: Radius of the rounding.
        ways: In how many directions it is measured.
    """
    turns = np.linspace(0.0, 2.0 * pi, ways, endpoint=False)
    n = np.stack([np.cos(turns), np.sin(turns)])
    across = np.sqrt(np.maximum(0.0, 1.0 - (units[:, :2] @ n) ** 2))
    found: Floats = (centres[:, :2] @ n + disc_mm * across).max(axis=1) + rounding_mm
    return found
