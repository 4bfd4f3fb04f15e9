"""images: from the points of a cell to those of its copies, and from the forces on copies back to the cell."""

import numpy as np

from braidwright.physics.compiled import compiled
from braidwright.physics.state import Cell, Floats, Images, Neighbours
from braidwright.physics.vectors import Vector, pile, put, row


@compiled
def moved(images: Images, image: int, a: Vector, rise: float) -> Vector:
    """Where a point of the cell lies in a copy."""
    c, s = images.cosine[image], images.sine[image]
    return c * a[0] - s * a[1], s * a[0] + c * a[1], a[2] + images.lift[image] * rise


@compiled
def turned_back(images: Images, image: int, a: Vector) -> Vector:
    """A force on a copy as it acts on the cell."""
    c, s = images.cosine[image], images.sine[image]
    return c * a[0] + s * a[1], c * a[1] - s * a[0], a[2]


@compiled
def points_of(unknowns: Floats) -> Floats:
    """The points among the unknowns, (points, 3), as a view."""
    return unknowns[:-1].reshape((len(unknowns) // 3, 3))


@compiled
def rise_of(cell: Cell, unknowns: Floats) -> float:
    """The rise among the unknowns, mm."""
    return float(unknowns[-1] * cell.heave)


@compiled
def stretch_of(cell: Cell, rise: float) -> float:
    """How many times higher than among the unknowns the points lie in space."""
    return float(rise / cell.tall_mm if cell.tall_mm > 0.0 else 1.0)


@compiled
def join(cell: Cell, points: Floats, rise: float) -> None:
    """Put the last point of every strand, among the unknowns, where the cord goes on."""
    own_rise = cell.tall_mm if cell.tall_mm > 0.0 else rise
    for index in range(len(cell.joins)):
        own = row(points, cell.joins[index, 1])
        put(points, cell.joins[index, 0], moved(cell.images, cell.joins[index, 2], own, own_rise))


@compiled
def laid(cell: Cell, points: Floats, rise: float) -> Floats:
    """The points of the cell as they lie in space."""
    there = points.copy()
    there[:, 2] *= stretch_of(cell, rise)
    return there


@compiled
def copy(cell: Cell, near: Neighbours, points: Floats, rise: float) -> None:
    """Fill in the points of every active copy, and clear the gradients on them."""
    stretch = stretch_of(cell, rise)
    for index in range(len(points)):
        put(near.copies[0], index, (points[index, 0], points[index, 1], points[index, 2] * stretch))
    for place in range(1, len(near.active)):
        for index in range(len(points)):
            put(near.copies[place], index, moved(cell.images, near.active[place], row(near.copies[0], index), rise))
    near.pulls[:] = 0.0


@compiled
def gather(cell: Cell, near: Neighbours, unknowns: Floats, gradient: Floats) -> float:
    """Add the gradients on copies to those on the points among the unknowns; returns the gradient on the rise, mm."""
    points, stretch = points_of(unknowns), stretch_of(cell, rise_of(cell, unknowns))
    on_rise = 0.0
    for place in range(len(near.active)):
        image = near.active[place]
        upward = 0.0
        for index in range(len(gradient)):
            pull = row(near.pulls[place], index)
            upward += pull[2]
            pile(gradient, index, turned_back(cell.images, image, pull), 1.0)
        on_rise += cell.images.lift[image] * upward
    for index in range(len(cell.joins)):
        last, own, image = cell.joins[index, 0], cell.joins[index, 1], cell.joins[index, 2]
        pull = row(gradient, last)
        on_rise += cell.images.lift[image] * pull[2]
        pile(gradient, own, turned_back(cell.images, image, pull), 1.0)
        gradient[last] = 0.0
    if cell.tall_mm > 0.0:
        for index in range(len(gradient)):
            on_rise += gradient[index, 2] * points[index, 2] / cell.tall_mm
            gradient[index, 2] *= stretch
    return on_rise


def unknowns_of(points: Floats, rise: float, heave: float) -> Floats:
    """Points and rise as one flat array."""
    return np.concatenate([points.ravel(), [rise / heave]])
