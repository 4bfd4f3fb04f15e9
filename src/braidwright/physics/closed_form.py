"""The closed form: length, thickness and take-up of kongoh gumi from a formula. Numbers only.

Source: physics.md, section 6. It was fitted to the contact solver of that page, not to trade data: outside diameter
-0.6 to +2.3 %, rise within 3 % while the drift is at most 16 degrees, take-up -6 to +3 %. For beads one at every
stitch; half-bare and stacked stitches have no closed form.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import pi, radians, sin, sqrt

from braidwright.domain.errors import RequestError

FLATTENING = 0.3  # kap: share of its width that a nylon cord keeps between two beads; the one material constant
CORD_BETWEEN_BEADS = 0.27  # fitted to the solver: cord diameters between the ends of two beads of a column
TAKE_UP_FITTED = 1.02  # fitted to the solver: the path of a cord is a little longer than its chords
BARE_OUTSIDE = {4: 4.75, 6: 6.1, 8: 7.3}  # columns -> outside diameter in cord diameters
BARE_TAKE_UP = {4: 1.565}  # columns -> middle of the range 1.53 to 1.60 the solver gives (physics.md, section 4)

# How far the formula strayed from the contact solver, as shares of the measure (physics.md, sections 1, 4 and 5).
# Of the outside diameter -0.6 to +2.3 % and of the take-up -6 to +3 %: the larger side counts.
RISE_WITHIN = 0.03
ACROSS_WITHIN = 0.023
TAKE_UP_WITHIN = 0.06
TUBE_RISE_WITHIN = {6: 0.07, 8: 0.15}  # columns -> wound as the moves go; our own solver, docs/decisions.md, 17
TWISTED_WITHIN = 0.06  # rise and diameter beyond STEADY_DRIFT_DEG
BARE_WITHIN = 0.03  # 8 cords: rise 1.97, outside 4.7 to 4.8 and take-up 1.53 to 1.60 against 2, 4.75 and 1.565
STEADY_DRIFT_DEG = 16.0

TRIED_COLUMNS = (4, 6, 8)  # kongoh gumi of 8, 12 and 16 cords: what the formula was compared with the solver for
MOST_DRIFT_DEG = {
    4: 30.0,
    6: 16.0,
    8: 16.0,
}  # beyond these the formula was not compared, and on wide tubes it runs away
SLENDEREST_BEAD = 1.0  # length over diameter: longer beads are no spherodiscs
FLATTEST_BEAD = 0.4
THICKEST_CORD = 0.45  # cord over bead diameter: a thicker one does not go through any hole


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """What a braid settles to.

    Attributes:
        rise_mm: Length gained per repeat, mm.
        diameter_mm: Outside diameter, mm.
        take_up: Cord used per length of braid, or None where the formula does not say.
    """

    rise_mm: float
    diameter_mm: float
    take_up: float | None


@lru_cache(maxsize=1024)
def beaded(columns: int, cord_mm: float, bead_mm: float, bead_length_mm: float, drift_deg: float) -> Settled:
    """Kongoh gumi with one bead at every stitch.

    Args:
        columns: Columns of the braid: half the number of cords.
        cord_mm: Cord diameter.
        bead_mm: Outside diameter of the bead.
        bead_length_mm: Length of the bead along its hole.
        drift_deg: Turn of a column per repeat, degrees; the sign makes no difference to the size.

    Raises:
        RequestError: Outside what the formula was compared with the solver for; the sentence says in what.

    Source: physics.md, section 6.
    """
    _refuse_untried(columns, cord_mm / bead_mm, bead_length_mm / bead_mm, abs(drift_deg))
    rise = bead_length_mm + cord_mm * sqrt(CORD_BETWEEN_BEADS**2 + FLATTENING**2)
    rounding = min(bead_mm, bead_length_mm) / 2.0
    disc = bead_mm / 2.0 - rounding
    delta = radians(abs(drift_deg))
    axis = 0.0
    for m in (0, -1):  # the two nearest neighbours of a bead: of the next column, in its own row and the row below
        theta = (2.0 * pi + 2.0 * delta) / columns + m * delta
        dz = 2.0 * rise / columns + m * rise
        if abs(dz) < 2.0 * rounding:
            gap = 2.0 * disc + sqrt(4.0 * rounding**2 - dz**2)
            axis = max(axis, gap / (2.0 * sin(theta / 2.0)))
    if axis == 0.0:
        raise RequestError(
            "The beads are too short beside the cord to touch each other, which the quick formula needs."
        )
    across = 2.0 * axis
    path = bead_length_mm + sqrt(across**2 + (2.0 * rise - bead_length_mm) ** 2)
    return Settled(rise_mm=rise, diameter_mm=across + bead_mm, take_up=TAKE_UP_FITTED * path / (2.0 * rise))


def bare(columns: int, cord_mm: float) -> Settled:
    """Kongoh gumi of cord alone, without a core.

    Args:
        columns: Columns of the braid: half the number of cords.
        cord_mm: Cord diameter.

    Raises:
        RequestError: A number of cords the solver was not asked about.

    Source: physics.md, sections 4 and 6; real satin is softer and comes out a little thinner and shorter in take-up.
    """
    if columns not in TRIED_COLUMNS:
        raise RequestError(_untried_cords(columns))
    return Settled(
        rise_mm=2.0 * cord_mm * columns / 4.0,
        diameter_mm=BARE_OUTSIDE[columns] * cord_mm,
        take_up=BARE_TAKE_UP.get(columns),
    )


def _untried_cords(columns: int) -> str:
    tried = ", ".join(str(2 * count) for count in TRIED_COLUMNS)
    return f"The quick formula was tried for kongoh gumi of {tried} cords, not of {2 * columns}."


def _refuse_untried(columns: int, cord_share: float, slenderness: float, drift_deg: float) -> None:
    if columns not in TRIED_COLUMNS:
        raise RequestError(_untried_cords(columns))
    if drift_deg > MOST_DRIFT_DEG[columns]:
        raise RequestError(
            f"The quick formula was tried up to a drift of {MOST_DRIFT_DEG[columns]:g} degrees a row, "
            f"not for {drift_deg:.3g}."
        )
    if slenderness > SLENDEREST_BEAD + 1e-9:
        raise RequestError("The beads are longer than they are wide, and the quick formula is for round beads.")
    if slenderness < FLATTEST_BEAD:
        raise RequestError("The beads are very flat along the hole, and the quick formula is for round beads.")
    if cord_share > THICKEST_CORD:
        raise RequestError("The cord is nearly as thick as the beads, so it cannot go through them.")
