"""worn: the rope bent round a wrist, as the picture of the worn bracelet has it: clasp underneath, front outward."""

from math import pi

import numpy as np

from braidwright.domain.fit import bracelet_wrist_mm
from braidwright.domain.geometry import FloatArray
from braidwright.drawings.posing import Bent, ring_of
from braidwright.drawings.rope import rope_of
from braidwright.drawings.sheet import Subject

HEIGHT_OF_WIDTH = 0.75  # of a wrist, our own choice, the same as in the picture
GAP_MM = 1.0  # the two ends do not touch: the clasp, which is not modelled, holds them


def worn_pose(subject: Subject) -> Bent | None:
    """How the rope lies round the wrist it fits, or None when it fits none, or while its size is not predicted."""
    rope = rope_of(subject)
    if rope is None or subject.findings_mm is None:
        return None
    finished = rope.heights[-1] + subject.findings_mm
    if bracelet_wrist_mm(finished, rope.diameter) is None:
        return None
    return Bent(
        ring=ring_of(finished - pi * rope.diameter, HEIGHT_OF_WIDTH),
        distance=rope.diameter / 2.0,
        start=subject.findings_mm / 2.0,
        turned_deg=rope.turned_deg,
        centre=(0.0, 0.0),
        zoom=1.0,
    )


def within_findings(curve: FloatArray, length: float, findings: float) -> FloatArray:
    """The part of a cord that shows in the closed piece: its ends are cut off where the other end begins.

    Args:
        curve: The axis of the cord, (nodes, 3) mm, its ends along the rope.
        length: Length of the rows, mm.
        findings: What caps and clasp add, mm.
    """
    spare = max(0.0, (findings - GAP_MM) / 2.0)
    low, high = -spare, length + spare
    inside = np.flatnonzero((curve[:, 2] >= low) & (curve[:, 2] <= high))
    if inside.size == 0:
        return curve
    first, last = int(inside[0]), int(inside[-1])
    kept = [curve[first : last + 1]]
    if first > 0:
        kept.insert(0, _cut(curve[first - 1], curve[first], low)[None])
    if last + 1 < len(curve):
        kept.append(_cut(curve[last + 1], curve[last], high)[None])
    return np.concatenate(kept)


def _cut(outside: FloatArray, inside: FloatArray, height: float) -> FloatArray:
    """The point at a height on the way from a point beyond it to one that is not."""
    share = (height - inside[2]) / (outside[2] - inside[2])
    point: FloatArray = inside + share * (outside - inside)
    return point
