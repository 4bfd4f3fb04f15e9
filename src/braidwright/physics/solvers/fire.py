"""fire: the fast inertial relaxation engine, a ball that rolls downhill and stops wherever the hill rises.

Source: E. Bitzek and others, Structural relaxation made simple, Physical Review Letters 97, 170201 (2006); the settings
are those of physics.md, section 3.
"""

from math import sqrt
from typing import NamedTuple

import numpy as np

from braidwright.physics.compiled import compiled
from braidwright.physics.state import Floats

LONGEST = 0.5  # over the root of the stiffness; physics.md has 0.9, with which light cells do not come to rest
DELAY = 8
FASTER, SLOWER = 1.1, 0.5
STEERING, STEERING_FADES = 0.15, 0.99
DT, ALPHA, DOWNHILL = 0, 1, 2  # places in Rolling.memory


class Rolling(NamedTuple):
    """Where a relaxation stands.

    Attributes:
        velocity: (unknowns,).
        memory: Time step, steering, and steps downhill since the last uphill one, (3,).
        longest_dt: Time step never exceeded.
        longest_step: Change of one unknown in a step never exceeded, mm.
    """

    velocity: Floats
    memory: Floats
    longest_dt: float
    longest_step: float


def rolling(unknowns: int, stiffness: float, longest_step: float) -> Rolling:
    """The start of a relaxation.

    Args:
        unknowns: How many.
        stiffness: Of the stiffest force, forces per mm; the mass is 1.
        longest_step: Change of one unknown in a step never exceeded, mm: what keeps bodies from passing each other.
    """
    longest_dt = LONGEST / sqrt(stiffness)
    return Rolling(np.zeros(unknowns), np.array([0.3 * longest_dt, STEERING, 0.0]), longest_dt, longest_step)


@compiled
def step(rolling: Rolling, unknowns: Floats, gradient: Floats) -> None:
    """One step: unknowns, velocity and memory are changed in place."""
    velocity, memory = rolling.velocity, rolling.memory
    power, speed, slope = 0.0, 0.0, 0.0
    for index in range(len(unknowns)):
        power -= gradient[index] * velocity[index]
        speed += velocity[index] ** 2
        slope += gradient[index] ** 2
    keep, turn = 1.0, 0.0
    if power > 0.0:
        keep = 1.0 - memory[ALPHA]
        turn = memory[ALPHA] * sqrt(speed / slope) if slope > 0.0 else 0.0
    _remember(rolling, power > 0.0)
    if power <= 0.0:
        keep = 0.0
    dt, fastest = memory[DT], 0.0
    for index in range(len(unknowns)):
        velocity[index] = keep * velocity[index] - (turn + dt) * gradient[index]
        fastest = max(fastest, abs(velocity[index]))
    slowed = min(1.0, rolling.longest_step / (fastest * dt)) if fastest > 0.0 else 1.0
    for index in range(len(unknowns)):
        velocity[index] *= slowed
        unknowns[index] += dt * velocity[index]


@compiled
def _remember(rolling: Rolling, is_downhill: bool) -> None:
    """Longer steps after some way downhill, shorter ones after an uphill one."""
    memory = rolling.memory
    if is_downhill:
        memory[DOWNHILL] += 1.0
        if memory[DOWNHILL] > DELAY:
            memory[DT] = min(FASTER * memory[DT], rolling.longest_dt)
            memory[ALPHA] *= STEERING_FADES
    else:
        memory[DOWNHILL] = 0.0
        memory[DT] *= SLOWER
        memory[ALPHA] = STEERING
