"""The list of neighbours leaves nothing out while it is good, and a cord is kept from itself by its length."""

from math import pi

import numpy as np
import pytest

from braidwright.physics.balance import energy
from braidwright.physics.cells import loops, unit
from braidwright.physics.images import unknowns_of
from braidwright.physics.neighbours import find, is_stale, margin_mm
from braidwright.physics.solids import BeadSolid
from braidwright.physics.start import Loose, crossing, round_lattice
from braidwright.physics.state import HEAVE, Cell, Floats
from braidwright.physics.tighten import evaluate

BEAD = BeadSolid(diameter_mm=3.0, length_mm=2.1)


def tight_cell(bead: BeadSolid | None) -> tuple[Cell, Floats]:
    """A round braid of eight cords, about as tight as it gets."""
    lattice, count = round_lattice(4, 11.25), 18
    cell = unit(lattice, count, bead, cord_mm=0.5, weight=0.12)
    wide, rise = (2.2, 2.4) if bead else (0.9, 1.0)
    points = crossing(lattice, Loose(radius_mm=wide, rise_mm=rise, beside=0.15), bead.rod if bead else 0.0, count)
    return cell, unknowns_of(points, rise, HEAVE)


def bent_back(pieces: int, gap_mm: float) -> Floats:
    """A loop of cord like a hairpin: two straight runs of 6 mm, so far apart, with round ends."""
    run, half = np.linspace(-3.0, 3.0, pieces), 0.5 * gap_mm
    ends = np.linspace(-pi / 2, pi / 2, max(3, round(pieces * gap_mm * pi / 12.0)))[1:-1]
    ahead = np.stack([run, np.full_like(run, -half)], axis=1)
    round_one = np.stack([3.0 + half * np.cos(ends), half * np.sin(ends)], axis=1)
    flat = np.concatenate([ahead, round_one, -ahead, -round_one])
    return np.column_stack([flat, np.zeros(len(flat))])


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("bead", [BEAD, None])
def test_while_the_list_is_good_it_gives_the_energy_of_a_fresh_one(bead: BeadSolid | None, seed: int) -> None:
    cell, unknowns = tight_cell(bead)
    near, rng, compared = find(cell, unknowns), np.random.default_rng(seed), 0
    for _ in range(20):
        moved = unknowns + rng.normal(0.0, 0.12 * margin_mm(cell), len(unknowns))
        moved[-1] = unknowns[-1] + rng.normal(0.0, 0.02 * margin_mm(cell))
        if is_stale(cell, near, moved):
            continue
        compared += 1
        here = moved.copy()
        # lengths along the cord are those of the list's making: only pieces far from that limit are compared
        assert energy(cell, near, here, np.zeros_like(here)) == pytest.approx(evaluate(cell, moved)[0], rel=0.02)
    assert compared > 3


def test_what_moved_half_the_margin_makes_a_list_stale() -> None:
    cell, unknowns = tight_cell(BEAD)
    near = find(cell, unknowns)
    for share, expected in ((0.49, False), (0.51, True)):
        moved = unknowns.copy()
        moved[4] += share * margin_mm(cell)
        assert is_stale(cell, near, moved) is expected
    risen = unknowns.copy()
    risen[-1] *= 1.5
    assert is_stale(cell, near, risen)


@pytest.mark.parametrize("pieces", [20, 40, 80])
def test_a_cord_that_comes_back_collides_with_itself_however_finely_it_is_divided(pieces: int) -> None:
    """physics.md, section 2: a fixed number of vertices gave a bare rise of 3.1 d, where the truth is 1.97 d."""
    cell, unknowns = loops([bent_back(pieces, 0.8)], 1.0)
    pushed = evaluate(cell, unknowns)[0] - evaluate(cell._replace(stiffness=0.0), unknowns)[0]
    per_piece = 0.5 * cell.stiffness * 0.2**2
    assert pushed > per_piece * pieces
    cell, unknowns = loops([bent_back(pieces, 1.3)], 1.0)
    assert evaluate(cell, unknowns)[0] == pytest.approx(evaluate(cell._replace(stiffness=0.0), unknowns)[0])


def test_a_gentle_bend_does_not_collide() -> None:
    turns = np.linspace(0.0, 2.0 * pi, 60, endpoint=False)
    ring = np.stack([np.cos(turns), np.sin(turns), np.zeros(60)], axis=1)
    for wide, collides in ((0.75, False), (0.45, True)):
        cell, unknowns = loops([wide * ring], 1.0)
        pushed = evaluate(cell, unknowns)[0] - evaluate(cell._replace(stiffness=0.0), unknowns)[0]
        assert (pushed > 0.0) is collides
