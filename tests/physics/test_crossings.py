"""The round braid on paper is the braid of the moves: the same crossings, the same polynomial, loose and tight.

Kongoh gumi of the catalogue is traced on the disk by `domain.topology`, which has its own outside checks; here the
curves in space are read from one side. Curves and moves see opposite hands: a turn that is clockwise from above on the
disk is counter-clockwise in the frame of the solver, so signs are turned over.
"""

from collections import Counter
from dataclasses import replace
from math import pi, radians

import numpy as np
import pytest

from braidwright.catalogue.shelf import standard
from braidwright.domain import topology as moves
from braidwright.physics.crossings import braid_word, burau, crossing_sums, lines, topology_of
from braidwright.physics.lattice import Lattice
from braidwright.physics.round_braid import RoundBraid, looses, settle, topology
from braidwright.physics.solids import BeadSolid
from braidwright.physics.start import crossing, round_lattice

COLUMNS = [4, 6, 8, 12]
BEAD = BeadSolid(diameter_mm=3.0, length_mm=2.1)


def word_of_moves(columns: int) -> tuple[int, ...]:
    """The generators of one repeat on the disk, its turn undone, seen in a mirror."""
    braid = standard().braid(f"kongoh-{2 * columns}")
    return tuple(-generator for generator in moves.braid_word(braid) + moves.turn_back(braid))


def other_way_round(columns: int) -> Lattice:
    """The same moves, the pairs taken in the opposite order round the disk: another braid from 12 cords on."""
    lattice = round_lattice(columns, 11.25)
    return replace(lattice, turn_rad=lattice.turn_rad + 4.0 * pi / columns)


@pytest.mark.parametrize("columns", COLUMNS)
def test_the_known_shape_has_the_crossings_of_the_moves(columns: int) -> None:
    braid = standard().braid(f"kongoh-{2 * columns}")
    of_first_cord = [turns for cord, turns in enumerate(moves.linking(braid)[0]) if cord != 0]
    assert Counter(topology(columns).sums) == Counter(-2 * turns for turns in of_first_cord)


@pytest.mark.parametrize("columns", COLUMNS)
def test_the_known_shape_has_the_polynomial_of_the_moves(columns: int) -> None:
    expected = burau(word_of_moves(columns), 2 * columns)
    assert np.allclose(topology(columns).polynomial or (), expected, rtol=1e-6, atol=1e-6)


@pytest.mark.parametrize("columns", [6, 8])
def test_the_opposite_order_of_pairs_is_another_braid(columns: int) -> None:
    """The polynomial can tell, where the sums cannot."""
    loose = looses(RoundBraid(columns=columns, cord_mm=0.5, bead=BEAD, drift_deg=11.25))[0]
    lattice = other_way_round(columns)
    found = topology_of(lattice, crossing(lattice, loose, 2.1, 60), loose.rise_mm, radians(11.25))
    assert sorted(found.sums) == sorted(topology(columns).sums)
    assert not np.allclose(found.polynomial or (), topology(columns).polynomial or (), rtol=0.01)


@pytest.mark.parametrize("drift", [0.0, 11.25, 20.0])
@pytest.mark.parametrize("bead", [BEAD, None])
@pytest.mark.parametrize("columns", COLUMNS)
def test_every_loose_shape_is_that_braid(columns: int, bead: BeadSolid | None, drift: float) -> None:
    lattice = round_lattice(columns, drift)
    for loose in looses(RoundBraid(columns=columns, cord_mm=0.5, bead=bead, drift_deg=drift)):
        points = crossing(lattice, loose, bead.rod if bead else 0.0, 60)
        assert topology(columns).is_of(lattice, points, loose.rise_mm, radians(drift))


@pytest.mark.parametrize("columns", COLUMNS)
def test_turned_against_the_moves_some_loose_shape_is_that_braid(columns: int) -> None:
    """The others are thrown away, as `settle` compares every start with the known shape."""
    lattice = round_lattice(columns, -11.25)
    assert any(
        topology(columns).is_of(lattice, crossing(lattice, loose, 2.1, 60), loose.rise_mm, radians(-11.25))
        for loose in looses(RoundBraid(columns=columns, cord_mm=0.5, bead=BEAD, drift_deg=-11.25))
    )


@pytest.mark.parametrize("columns", [4, 6, 8])
def test_the_tight_beaded_braid_reads_as_the_moves(columns: int) -> None:
    """The whole braid word is read back from the curves; it is a word of the same braid."""
    shape = settle(RoundBraid(columns=columns, cord_mm=0.5, bead=BEAD, drift_deg=11.25))
    assert shape.outcome.is_settled
    word = braid_word(lines(shape.lattice, shape.points, shape.rise_mm, radians(11.25), 1.0))
    assert word is not None
    assert np.allclose(burau(word, 2 * columns), burau(word_of_moves(columns), 2 * columns), rtol=1e-6, atol=1e-6)


def test_a_cord_that_slipped_through_is_seen() -> None:
    """Cords that come down on the wrong side of their neighbours make another braid."""
    lattice = round_lattice(4, 11.25)
    loose = looses(RoundBraid(columns=4, cord_mm=0.5, bead=BEAD, drift_deg=11.25))[0]
    points = crossing(lattice, replace(loose, beside=-0.6), 2.1, 60)
    assert not topology(4).is_of(lattice, points, loose.rise_mm, radians(11.25))


@pytest.mark.parametrize("hand", [1, -1])
def test_a_rope_of_two_strands(hand: int) -> None:
    """A right-handed helix of two strands has right-handed crossings: two a turn."""
    lattice = Lattice(turn_rad=0.0, lift=1.0, fold=2, next_step=1, next_fold=0, reach=1)
    turns = np.linspace(0.0, 2.0 * pi, 49)
    strand = np.stack([np.cos(hand * turns), np.sin(hand * turns), turns], axis=1)
    once = lines(lattice, strand, 2.0 * pi, 0.0, 1.0)
    assert braid_word(once) == (hand, hand)
    assert crossing_sums(lattice, strand, 2.0 * pi, 0.0) == (2 * hand * 2,)  # over two repeats


def test_burau_knows_the_relations_of_braids() -> None:
    """Source: E. Artin, Theory of braids (1947): far generators commute, near ones slide past each other."""
    assert np.allclose(burau((1, 2, 1), 4), burau((2, 1, 2), 4))
    assert np.allclose(burau((1, 3, 2), 4), burau((3, 1, 2), 4))
    assert np.allclose(burau((2, -2), 4), burau((), 4))
    assert not np.allclose(burau((1, 2), 4), burau((1, -2), 4))
