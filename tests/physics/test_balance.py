"""Gradients against finite differences of the energy (physics.md, section 4: 0.5 %)."""

from dataclasses import replace
from math import cos, hypot, pi, sin

import numpy as np
import pytest

from braidwright.physics.cells import loops, unit
from braidwright.physics.images import unknowns_of
from braidwright.physics.laid import Strand, uniform_rows
from braidwright.physics.lattice import Lattice
from braidwright.physics.neighbours import find
from braidwright.physics.rope import Loose as LooseRope
from braidwright.physics.rope import Rope, laid_out
from braidwright.physics.solids import BeadSolid, Body, Solid
from braidwright.physics.start import Loose, crossing, round_lattice
from braidwright.physics.state import HEAVE, Cell, Floats
from braidwright.physics.strung import Drop, Make, grown, string
from braidwright.physics.tighten import Limits, evaluate, tighten
from physics.mixed import (
    BARE,
    CONE,
    CORD_MM,
    DAGGER,
    DISK_DEG,
    DROP,
    EIGHT,
    ELEVEN,
    KINDS,
    LONG,
    SIX,
    TUBE,
    kongoh,
    uniform,
)

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


def squeezed(drops: tuple[Drop, ...], core_mm: float, hold: float) -> tuple[Cell, Floats]:
    """Rows of eight cords, half settled and shaken, so that much overlaps with something."""
    rows = (drops, (*drops[2:], *drops[:2]))
    rope = Rope(braid=kongoh(), rows=rows, kinds=KINDS, cord_mm=CORD_MM, drift_deg=DISK_DEG, core_mm=core_mm)
    ways = uniform((3.0, 2.1)).ways
    strung, make = laid_out(rope, ways, uniform_rows(ways, 2), LooseRope(room_mm=1.0, room_wide_mm=1.4), 0.45)
    cell, start = strung.cell._replace(hold=0.0), unknowns_of(strung.points, make.tall_mm, strung.cell.heave)
    for share in (0.3, 0.6, 1.0):
        tight = tighten(
            grown(replace(strung, cell=cell), make, share), start, Limits(most_steps=40, still=0.1, longest_step=0.05)
        )
        start = unknowns_of(tight.points, tight.rise_mm, cell.heave)
        cell = cell._replace(tall_mm=tight.rise_mm)
    start[:-1] += np.random.default_rng(5).normal(0.0, 0.02, len(start) - 1)
    start[-1] *= 0.985  # the rise is not that at which the points stand: a cell that is stretched
    return cell._replace(hold=hold), start


ROPES = [
    pytest.param(((DROP,), (EIGHT,), (DROP,), (ELEVEN,)), 0.0, 0.0, id="off their hole, two bodies"),
    pytest.param(((DAGGER,), (EIGHT,), (DAGGER,), (EIGHT,)), 0.0, 0.0, id="off their hole, three bodies"),
    pytest.param(((TUBE,), (LONG,), (CONE,), (LONG,)), 0.0, 0.0, id="several bodies on a rod"),
    pytest.param(((ELEVEN, ELEVEN), (EIGHT,), BARE, (TUBE, DROP)), 0.0, 0.0, id="stacks and a bare stitch"),
    pytest.param(((EIGHT,), (DROP,), (TUBE,), (SIX,)), 4.5, 0.0, id="a core"),
    pytest.param(((EIGHT,), (DROP,), (EIGHT,), BARE), 0.0, 10.0, id="held"),
    pytest.param((BARE, BARE, BARE, BARE), 0.0, 10.0, id="bare and held"),
]


@pytest.mark.parametrize(("drops", "core_mm", "hold"), ROPES)
def test_the_gradient_of_a_rope(drops: tuple[Drop, ...], core_mm: float, hold: float) -> None:
    cell, unknowns = squeezed(drops, core_mm, hold)
    near = find(cell, unknowns.copy())
    assert {-1.0, 0.0, 1.0} <= {float(cell.images.lift[image]) for image in near.active}  # copies above and below
    energy, gradient = evaluate(cell, unknowns)
    for without in (cell._replace(stiffness=0.0), cell._replace(core_mm=0.0), cell._replace(hold=0.0)):
        if without != cell:
            assert energy > evaluate(without, unknowns)[0] + 1e-4
    assert abs(gradient[-1]) > 1e-3
    found = by_differences(cell, unknowns)
    assert np.abs(gradient - found).max() < 0.005 * np.abs(gradient).max()
    tips = [3 * tip + axis for tip in cell.tips if tip >= 0 for axis in range(3)]
    assert not tips or np.abs(found[tips]).max() > 0.1  # something lies against a body off its hole
    assert abs(gradient[-1] - found[-1]) < 0.005 * abs(found[-1]) + 1e-4


@pytest.mark.parametrize(("drops", "core_mm", "hold"), ROPES[:5])
def test_nothing_changes_when_everything_is_turned_and_lifted(
    drops: tuple[Drop, ...], core_mm: float, hold: float
) -> None:
    cell, unknowns = squeezed(drops, core_mm, hold)
    unknowns[-1] = cell.tall_mm / cell.heave  # a cell is stretched about height 0, so it is lifted as it stands
    energy, gradient = evaluate(cell, unknowns)
    c, s = cos(0.7), sin(0.7)
    moved = unknowns.copy()
    x, y = unknowns[:-1:3], unknowns[1:-1:3]
    moved[:-1:3], moved[1:-1:3], moved[2:-1:3] = c * x - s * y, s * x + c * y, unknowns[2:-1:3] + 1.3
    again, there = evaluate(cell, moved)
    assert again == pytest.approx(energy, rel=1e-9)
    assert np.allclose(c * gradient[:-1:3] - s * gradient[1:-1:3], there[:-1:3], atol=1e-5 * np.abs(gradient).max())
    assert there[-1] == pytest.approx(gradient[-1], abs=1e-4)


def test_rows_are_held_on_the_axis_and_at_their_turn() -> None:
    """The pull of the hold alone, of rows that were carried aside or turned since they were laid."""
    cell, unknowns = squeezed(((EIGHT,), (DROP,), (EIGHT,), BARE), 0.0, 10.0)
    free = cell._replace(hold=0.0)

    def held(here: Floats) -> float:
        return evaluate(cell, here)[0] - evaluate(free, here)[0]

    c, s = cos(0.1), sin(0.1)
    x, y = unknowns[:-1:3].copy(), unknowns[1:-1:3].copy()
    aside, turned = unknowns.copy(), unknowns.copy()
    aside[:-1:3] += 0.2
    turned[:-1:3], turned[1:-1:3] = c * x - s * y, s * x + c * y
    for here in (aside, turned):
        assert held(here) > held(unknowns) + 0.05
        pull = evaluate(cell, here)[1] - evaluate(free, here)[1]
        for index in range(0, 60, 7):
            there, back = here.copy(), here.copy()
            there[index] += 1e-3
            back[index] -= 1e-3
            assert (held(there) - held(back)) / 2e-3 == pytest.approx(pull[index], abs=0.005 * np.abs(pull).max())


def test_a_cord_that_goes_through_a_disc_is_pushed_over_its_rim() -> None:
    """A flat bead on an upright cord, and a slanting cord that goes through its disc at half the radius."""
    cell, unknowns = through_a_disc(0.5)
    gradient = evaluate(cell, unknowns)[1]
    found = by_differences(cell, unknowns)
    assert np.abs(gradient - found).max() < 0.005 * np.abs(gradient).max()
    energies = [evaluate(*through_a_disc(share))[0] for share in (0.2, 0.5, 0.9, 1.1, 1.5)]
    assert energies == sorted(energies, reverse=True)  # it gets easier all the way out


def through_a_disc(share: float) -> tuple[Cell, Floats]:
    """The bead, and the cord at a share of the radius of its disc."""
    solid = Solid(rod_mm=1.0, bodies=(Body(disc_mm=2.0, rounding_mm=0.3),))
    make = Make(
        kinds=(solid,),
        cord_mm=0.5,
        core_mm=0.0,
        weight=0.0,
        tall_mm=9.0,
        row_mm=0.0,
        turn_deg=0.0,
        room_mm=9.0,
        room_wide_mm=9.0,
        piece_mm=2.0,
        slack=1.0,
    )
    upright = np.array([[0.0, 0.0, 0.0], [0.0, 0.0, 4.6], [0.0, 0.0, 9.0]])
    beside = np.array([[2.0 * share - 0.5, 0.3, 0.0], [2.0 * share + 0.03, 0.1, 4.6], [2.0 * share - 0.5, 0.3, 9.0]])
    strands = [
        Strand(points=upright, stitches=((0, 0),), middles=(1,)),
        Strand(points=beside, stitches=(), middles=()),
    ]
    strung = string(strands, {(0, 0): (0,)}, (0, 1), make)
    return strung.cell, unknowns_of(strung.points, 9.0, strung.cell.heave)
