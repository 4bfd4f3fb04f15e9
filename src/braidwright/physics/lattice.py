"""lattice: the symmetry that makes a round braid out of one cell.

The group is { S^k C^e }: S is a screw about the z axis, C a part of a full turn about it.
Source: physics.md, section 3.
"""

from dataclasses import dataclass
from math import pi

import numpy as np

from braidwright.physics.state import NO_LAP, Images


@dataclass(frozen=True, slots=True, kw_only=True)
class Lattice:
    """A group of screws and turns.

    Attributes:
        turn_rad: Turn of the screw S, counter-clockwise seen from above.
        lift: Height of S, in rises.
        fold: How many of C make a full turn.
        next_step: The cord of the cell goes on in the copy S^next_step C^next_fold.
        next_fold: See there.
        reach: Copies from S^-reach to S^reach are looked at.
    """

    turn_rad: float
    lift: float
    fold: int
    next_step: int
    next_fold: int
    reach: int

    def element(self, step: int, fold: int) -> tuple[float, float]:
        """Turn in radians and lift in rises of S^step C^fold."""
        return step * self.turn_rad + fold * 2.0 * pi / self.fold, step * self.lift

    def elements(self) -> list[tuple[int, int]]:
        """Steps and folds of all copies looked at; the first is the cell itself."""
        steps = sorted(range(-self.reach, self.reach + 1), key=abs)
        return [(step, fold) for step in steps for fold in range(self.fold)]

    def next_image(self) -> int:
        """The place in `elements` of the copy in which the cord goes on."""
        return self.elements().index((self.next_step, self.next_fold % self.fold))

    def images(self) -> Images:
        """The copies as the forces use them."""
        elements = self.elements()
        turned = np.array([self.element(*element) for element in elements])
        return Images(
            cosine=np.cos(turned[:, 0]),
            sine=np.sin(turned[:, 0]),
            lift=turned[:, 1].copy(),
            own=np.array([self._own(*element) for element in elements]),
            laps=np.array([self._laps(*element) for element in elements], dtype=np.int64),
            inverse=np.array([elements.index((-step, -fold % self.fold)) for step, fold in elements], dtype=np.int64),
        )

    def _own(self, step: int, fold: int) -> float:
        """Of an element and its inverse one counts; one that is its own inverse counts half; the first not at all."""
        inverse = (-step, -fold % self.fold)
        if (step, fold) == inverse:
            return 0.0 if (step, fold) == (0, 0) else 0.5
        return 1.0 if (step, fold) > inverse else 0.0

    def _laps(self, step: int, fold: int) -> int:
        for laps in sorted(range(-2 * self.reach, 2 * self.reach + 1), key=abs):
            if (laps * self.next_step, laps * self.next_fold % self.fold) == (step, fold):
                return laps
        return NO_LAP
