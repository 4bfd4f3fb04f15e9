"""Bead: what a bead measures. Size is diameter and length along the hole, never only an aught number."""

from dataclasses import dataclass
from typing import Literal, get_args

from braidwright.domain.errors import CatalogueError

Shape = Literal[
    "round", "cylinder", "teardrop", "magatama", "long-magatama", "dagger", "petal", "pressed-round",
    "fire-polished", "bicone", "lentil",
]  # fmt: skip
SHAPES: tuple[str, ...] = get_args(Shape)
# What beads that reach out are made of, for pictures, models and the solver alike: balls on the line from the hole to
# the farthest point. Pairs (share of the way to the middle of the last ball, radius as a share of half the width); from
# the look of the beads, no source.
REACHES: dict[str, tuple[tuple[float, float], ...]] = {
    "teardrop": ((0.0, 0.66), (1.0, 1.0)),
    "magatama": ((0.0, 0.8), (1.0, 1.0)),
    "long-magatama": ((0.0, 0.72), (0.5, 0.86), (1.0, 0.9)),
    "dagger": ((0.0, 0.6), (0.5, 0.85), (0.8, 0.55), (1.0, 0.16)),
    "petal": ((0.0, 0.5), (0.55, 1.0), (0.85, 0.7), (1.0, 0.3)),
}
OFF_CENTRE: frozenset[str] = frozenset(REACHES)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bead:
    """One kind of bead, without a colour.

    Attributes:
        name: Short name, unique in the catalogue, such as "round-8/0".
        english: What a shop would call it.
        shape: One of SHAPES; "teardrop" is what shops call a drop bead.
        diameter_mm: Outside diameter across the hole; for an off-centre hole, the width of the part round the hole.
        length_mm: Length along the hole: what the bead takes of its cord.
        hole_mm: Diameter of the hole.
        grams: Weight of one bead.
        reach_mm: From the middle of the hole to the farthest outside point: how far it stands off its cord.
        sources: Pairs (figure, source or "from memory"), one for every figure.
        sure: How sure, in words.

    Raises:
        CatalogueError: A figure that no bead has.
    """

    name: str
    english: str
    shape: Shape
    diameter_mm: float
    length_mm: float
    hole_mm: float
    grams: float
    reach_mm: float
    sources: tuple[tuple[str, str], ...] = ()
    sure: str = ""

    def __post_init__(self) -> None:
        """Refuse impossible figures."""
        if self.shape not in SHAPES:
            raise CatalogueError(
                f"Bead {self.name}: shape {self.shape!r} is not known; use one of {', '.join(SHAPES)}."
            )
        for figure in ("diameter_mm", "length_mm", "hole_mm", "grams", "reach_mm"):
            value = getattr(self, figure)
            if not 0.0 < value < 100.0:
                raise CatalogueError(f"Bead {self.name}: {figure} is {value}; give a figure between 0 and 100.")
        if self.hole_mm >= self.diameter_mm:
            raise CatalogueError(
                f"Bead {self.name}: the hole ({self.hole_mm} mm) is not smaller than the bead "
                f"({self.diameter_mm} mm); check the two figures."
            )

    @property
    def stands_out(self) -> bool:
        """Whether the bead reaches out to one side of its cord, as teardrops, magatamas, daggers and petals do."""
        return self.shape in OFF_CENTRE
