"""resemblance: how well the beads on a chart give the colours they should give, from near and from afar."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from braidwright.domain.oklab import FloatArray, oklab_of
from braidwright.domain.surface import Surface

BoolArray = NDArray[np.bool_]

# Up to which mean difference from afar a tray suits a picture, and up to which the picture is recognised; and from how
# many stitches across something can be told in it. Our own choice after looking at some, no source.
SUITS, RECOGNISED = 5.0, 12.0
FEWEST_ACROSS = 6.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Resemblance:
    """How well the beads give a picture. Differences are of OKLab, where black and white are 100 apart.

    Attributes:
        near: Mean difference between the colour a stitch should have and the one it has.
        afar: The same when the rope is seen from so far that neighbouring stitches run into one.
        across: Stitches of mean size across the shorter side of the picture.
        along: Stitches of mean size along its longer side.
    """

    near: float
    afar: float
    across: float
    along: float

    @property
    def sentences(self) -> tuple[str, ...]:
        """What a maker should know of it."""
        if self.afar <= SUITS:
            colours = "The colours of the tray suit this picture"
        elif self.afar <= RECOGNISED:
            colours = "The colours of the tray give this picture roughly; a bead of a missing colour would help"
        else:
            colours = "The colours of the tray are far from those of this picture; add beads nearer to them"
        told: tuple[str, ...] = (
            f"{colours} (seen from afar they are {self.afar:.0f} apart, where black and white are 100).",
        )
        if self.across < FEWEST_ACROSS:
            told += (
                f"The picture is only about {self.across:.0f} by {self.along:.0f} stitches large, so no more than its "
                f"main shapes will be seen; use a part of it, a wider arc, or more cords.",
            )
        return told


def resemblance(
    surface: Surface, wanted: FloatArray, given: FloatArray, inside: BoolArray, size_mm: tuple[float, float]
) -> Resemblance:
    """How well a picture is given.

    Args:
        surface: Where the stitches lie.
        wanted: The light every stitch should have, (rows, stitches, 3).
        given: The light it has, (rows, stitches, 3).
        inside: Which stitches take part, (rows, stitches).
        size_mm: Width and height of the picture on the rope.
    """
    cell = _mean_cell(surface)
    return Resemblance(
        near=_apart(wanted[inside], given[inside]),
        afar=_apart(*_blurred(surface, wanted[inside], given[inside], inside)),
        across=min(size_mm) / cell,
        along=max(size_mm) / cell,
    )


def _mean_cell(surface: Surface) -> float:
    return float(np.sqrt(surface.cell_mm.prod(axis=1)).mean())


def _apart(wanted: FloatArray, given: FloatArray) -> float:
    return 100.0 * float(np.linalg.norm(oklab_of(wanted) - oklab_of(given), axis=1).mean())


def _blurred(
    surface: Surface, wanted: FloatArray, given: FloatArray, inside: BoolArray
) -> tuple[FloatArray, FloatArray]:
    """The light of every stitch that takes part, mixed with that of its neighbours, as a bell of one stitch's width."""
    order = np.argsort(surface.along_mm[inside], kind="stable")
    turned = np.radians(surface.from_front_deg[inside][order])
    radius = surface.radius_mm
    places = np.stack((surface.along_mm[inside][order], radius * np.cos(turned), radius * np.sin(turned)), axis=1)
    light = np.concatenate((wanted, given), axis=1)[order]
    total: FloatArray = light.copy()
    weight: FloatArray = np.ones((len(places), 1))
    width = _mean_cell(surface)
    for step in range(1, len(places)):
        apart = places[step:] - places[:-step]
        if apart[:, 0].min() > 2.0 * width:
            break
        share = np.exp(-(apart**2).sum(axis=1) / (2.0 * width**2))[:, None]
        total[step:] += share * light[:-step]
        total[:-step] += share * light[step:]
        weight[step:] += share
        weight[:-step] += share
    return (total / weight)[:, :3], (total / weight)[:, 3:]
