"""Gradients against finite differences of the energy (physics.md, section 4: 0.5 %)."""

from math import hypot, pi, sin

import numpy as np
import pytest

from braidwright.physics.cells import loops, unit
from braidwright.physics.images import unknowns_of
from braidwright.physics.lattice import Lattice
from braidwright.physics.solids import BeadSolid
from braidwright.physics.start import Loose, crossing, round_lattice
from braidwright.physics.state import HEAVE, Cell, Floats
from braidwright.physics.tighten import evaluate

STEP_MM = 1e-6
BEAD = BeadSolid(diameter_mm=3.0, length_mm=2.1)
SPHERE = BeadSolid(diameter_mm=3.0, length_mm=3.0)


def by_differences(cell: Cell, unknowns: Floats) -> Floats:
    """The gradient from energies alone; 0 where a strand's last point follows another point."""
    found = np.zeros_like(unknowns)
    follows = {3 * point + axis for point in cell.joins[:, 0] for axis in range(3)}
    for index in set(range(len(unknowns))) - follows:
        there, back = unknowns.copy(), unknowns.copy()
        there[index] += STEP_MM
        back[index] -= STEP_MM
        found[index] = (evaluate(cell, there)[0] - evaluate(cell, back)[0]) / (2.0 * STEP_MM)
    return found


def ring(centre: tuple[float, float, float], way: int, count: int = 24) -> Floats:
    """A circle in one of two planes."""
    turns = np.linspace(0.0, 2.0 * pi, count, endpoint=False)
    flat = np.stack([np.cos(turns), np.sin(turns), np.zeros_like(turns)], axis=1)
    return np.asarray(centre + 0.8 * np.roll(flat, way, axis=1))


def pressed(columns: int, bead: BeadSolid | None, seed: int) -> tuple[Cell, Floats]:
    """A round braid squeezed into too narrow a tube and shaken, so that everything overlaps with something."""
    lattice, count = round_lattice(columns, 11.25), 14
    cell = unit(lattice, count, bead, cord_mm=0.5, weight=0.12)
    wide, rise = (1.9, 2.2) if bead else (0.8, 1.0)
    loose = Loose(radius_mm=wide, rise_mm=rise, beside=0.15)
    points = crossing(lattice, loose, bead.rod if bead else 0.0, count)
    return cell, unknowns_of(points + np.random.default_rng(seed).normal(0.0, 0.1, points.shape), rise, HEAVE)


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("bead", [BEAD, SPHERE, None])
@pytest.mark.parametrize("columns", [4, 6])
def test_the_gradient_of_a_round_braid(columns: int, bead: BeadSolid | None, seed: int) -> None:
    cell, unknowns = pressed(columns, bead, seed)
    energy, gradient = evaluate(cell, unknowns)
    without = evaluate(cell._replace(stiffness=0.0), unknowns)[0]
    assert energy > without + 0.1  # something does overlap
    assert gradient[-1] != 0.0
    assert np.abs(gradient - by_differences(cell, unknowns)).max() < 0.005 * np.abs(gradient).max()


def test_the_gradient_of_two_loops() -> None:
    cell, unknowns = loops([ring((0.0, 0.0, 0.0), 0), ring((0.6, 0.0, 0.0), 1)], 1.0)
    gradient = evaluate(cell, unknowns)[1]
    assert np.abs(gradient - by_differences(cell, unknowns)).max() < 0.005 * np.abs(gradient).max()


def test_equal_pieces_have_the_energy_of_their_length() -> None:
    """physics.md, section 2: T sqrt(n sum d^2) is T L for equal pieces, and more for others of the same length."""
    cell, unknowns = loops([ring((0.0, 0.0, 0.0), 0, 60) * 10.0], 1.0)
    long = 60 * 2.0 * 8.0 * sin(pi / 60)
    assert evaluate(cell, unknowns)[0] == pytest.approx(long)
    uneven = loops([10.0 * ring((0.0, 0.0, 0.0), 0, 60)[np.r_[0:20, 21:60]]], 1.0)
    assert evaluate(*uneven)[0] > long * (1.0 + 1e-4)


@pytest.mark.parametrize("wide", [1.0, 3.0])
def test_an_image_and_its_inverse_count_once(wide: float) -> None:
    """Two spheres of 3 mm half a turn from each other overlap once, and half of that belongs to each."""
    lattice = Lattice(turn_rad=1.0, lift=10.0, fold=2, next_step=1, next_fold=0, reach=2)
    cell = unit(lattice, 3, SPHERE, cord_mm=0.01, weight=0.0)
    points = np.array([[wide, 0.0, -1.5], [wide, 0.0, 1.5], [0.0, 0.0, 0.0]])
    span = hypot(2.0 * wide * sin(0.5), 7.0)  # from the top of the rod to the foot of the next one
    overlap = max(0.0, 3.0 - 2.0 * wide)
    expected = span + 0.5 * (0.5 * cell.stiffness * overlap**2)
    assert evaluate(cell, unknowns_of(points, 1.0, HEAVE))[0] == pytest.approx(expected)
