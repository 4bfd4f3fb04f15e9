"""The tightening against shapes that are known exactly, and how it ends when it does not end well."""

from math import atan, degrees, hypot, pi, sqrt

import numpy as np
import pytest

from braidwright.physics.cells import loops, unit
from braidwright.physics.images import unknowns_of
from braidwright.physics.lattice import Lattice
from braidwright.physics.outcome import ENDINGS, Outcome
from braidwright.physics.solids import BeadSolid
from braidwright.physics.state import HEAVE, Cell, Floats
from braidwright.physics.tighten import AT_A_TIME, Limits, Tightened, tighten

USUAL = Limits(most_steps=20_000, still=0.01, longest_step=0.05)


def turned(count: int) -> Floats:
    """Equal turns all round."""
    return np.linspace(0.0, 2.0 * pi, count, endpoint=False)


def hopf(count: int = 60, cord_mm: float = 1.0) -> tuple[Cell, Floats]:
    """Two loose rings through each other."""
    c, s, o = np.cos(turned(count)), np.sin(turned(count)), np.zeros(count)
    wide = 3.0 * cord_mm
    rings = [wide * np.stack([c, s, o], axis=1), wide * np.stack([c + 1.0, o, s], axis=1)]
    return loops(rings, cord_mm)


def long(cell: Cell, tight: Tightened) -> float:
    """Length of all strands, mm."""
    steps = [np.diff(tight.points[first : last + 1], axis=0) for first, last in cell.strands]
    return float(sum(np.linalg.norm(step, axis=1).sum() for step in steps))


def test_the_hopf_link() -> None:
    """Two rings, each of radius one diameter: 4 pi diameters.

    Source: J. Cantarella, R. Kusner, J. Sullivan, On the minimum ropelength of knots and links, Inventiones
    mathematicae 150 (2002). Limit 0.3 % (physics.md, section 4).
    """
    cell, start = hopf()
    tight = tighten(cell, start, USUAL)
    assert tight.outcome.is_settled
    assert long(cell, tight) == pytest.approx(4.0 * pi, rel=0.003)


def test_the_trefoil() -> None:
    """16.3715 diameters.

    Source: S. Przybyl, P. Pieranski, High resolution portrait of the ideal trefoil knot, Journal of Physics A 47
    (2014). Limit 0.5 % (physics.md, section 4).
    """
    t = turned(120)
    x, y = np.sin(t) + 2.0 * np.sin(2.0 * t), np.cos(t) - 2.0 * np.cos(2.0 * t)
    cell, start = loops([np.stack([x, y, -np.sin(3.0 * t)], axis=1)], 1.0)
    tight = tighten(cell, start, USUAL)
    assert tight.outcome.is_settled
    assert long(cell, tight) == pytest.approx(16.3715, rel=0.005)


@pytest.mark.parametrize(("strands", "angle"), [(2, 39.4), (3, 42.8)])
def test_the_tight_helix_of_zero_twist(strands: int, angle: float) -> None:
    """The pitch angle at which a rope of so many strands gets the most turns out of a length of strand.

    One straight piece and a screw make the rope: its length is least for a turn that is given. Source: J. Bohr,
    K. Olsen, The ancient art of laying rope, EPL 93 (2011), and K. Olsen, J. Bohr, The generic geometry of helices
    and their close-packed structures, Theor. Chem. Acc. 125 (2010). Limit 0.3 degrees (physics.md, section 4).
    """
    turn = 2.0 * pi / 48
    lattice = Lattice(turn_rad=turn, lift=turn / (2.0 * pi), fold=strands, next_step=1, next_fold=0, reach=60)
    cell = unit(lattice, 2, None, cord_mm=1.0, weight=0.0)
    start = unknowns_of(np.array([[1.0, 0.0, 0.0], [1.0, 0.0, 0.0]]), 5.0, HEAVE)
    tight = tighten(cell, start, Limits(most_steps=100_000, still=2e-5, longest_step=0.05))
    assert tight.outcome.is_settled
    radius = hypot(*tight.points[0, :2])
    assert degrees(atan(tight.rise_mm / (2.0 * pi * radius))) == pytest.approx(angle, abs=0.3)


@pytest.mark.parametrize(
    ("spheres", "tube", "spacing"),
    [(2, 2.0, sqrt(1.0 / 2.0)), (3, 1.0 + 2.0 / sqrt(3.0), sqrt(2.0 / 3.0)), (4, 1.0 + sqrt(2.0), 2.0**-0.25)],
)
def test_rings_of_spheres_in_a_tube(spheres: int, tube: float, spacing: float) -> None:
    """Rings of 2, 3 and 4 touching spheres, each turned by half a place over the last.

    A cord through each ring draws it tight and a weight presses the rings together. Source: A. Mughal and others,
    Dense packings of spheres in cylinders, Physical Review E 85 (2012). Limit 0.3 % (physics.md, section 4).
    """
    lattice = Lattice(turn_rad=pi / spheres, lift=1.0, fold=spheres, next_step=0, next_fold=1, reach=4)
    ball = BeadSolid(diameter_mm=1.0, length_mm=1.0, rod_mm=0.1)
    cell = unit(lattice, 3, ball, cord_mm=0.01, weight=-0.3)._replace(stiffness=4000.0)
    start = unknowns_of(np.array([[1.5, -0.05, 0.0], [1.5, 0.05, 0.0], [0.0, 0.0, 0.0]]), 1.5, HEAVE)
    tight = tighten(cell, start, Limits(most_steps=50_000, still=5e-4, longest_step=0.02))
    assert tight.outcome.is_settled
    assert 1.0 + 2.0 * hypot(*tight.points[:2].mean(axis=0)[:2]) == pytest.approx(tube, rel=0.003)
    assert tight.rise_mm == pytest.approx(spacing, rel=0.003)


def test_the_energy_falls_and_the_start_is_left_alone() -> None:
    cell, start = hopf(30)
    before = start.copy()
    energies = [
        tighten(cell, start, Limits(most_steps=steps, still=0.01, longest_step=0.05)).outcome.energy
        for steps in (0, 300, 1000, 3000)
    ]
    assert energies == sorted(energies, reverse=True)
    assert np.array_equal(start, before)


def test_out_of_steps() -> None:
    cell, start = hopf(20)
    end = tighten(cell, start, Limits(most_steps=17, still=0.01, longest_step=0.05)).outcome
    assert (end.ending, end.steps, end.is_settled) == ("out of steps", 17, False)


@pytest.mark.parametrize("bad", [np.nan, np.inf, 1e200])
def test_what_cannot_be_blows_up_and_does_not_hang(bad: float) -> None:
    cell, start = hopf(20)
    start[7] = bad
    assert tighten(cell, start, USUAL).outcome.ending == "blew up"


def test_a_solve_is_watched_and_can_be_stopped() -> None:
    cell, start = hopf(20)
    seen: list[tuple[int, float]] = []

    def watch(taken: int, force: float) -> bool:
        seen.append((taken, force))
        return len(seen) < 2

    end = tighten(cell, start, Limits(most_steps=20_000, still=1e-9, longest_step=0.05), watch).outcome
    assert end.ending == "stopped"
    assert [taken for taken, _ in seen] == [AT_A_TIME, 2 * AT_A_TIME]
    assert end.steps == 2 * AT_A_TIME


def test_where_no_way_down_is_found_it_rolls_and_still_has_a_bound() -> None:
    """Asked for more than numbers can give, it comes to where nothing falls any more."""
    cell, start = hopf(20)
    end = tighten(cell, start, Limits(most_steps=3000, still=1e-15, longest_step=0.05)).outcome
    assert (end.ending, end.steps) == ("out of steps", 3000)
    assert end.largest_force < 1e-3


def test_the_same_start_gives_the_same_shape() -> None:
    cell, start = hopf(20)
    one, other = (tighten(cell, start, USUAL) for _ in range(2))
    assert np.array_equal(one.points, other.points)
    assert not one.points.flags.writeable


def test_every_ending_has_its_sentence() -> None:
    sentences = [Outcome(ending=ending, steps=1, energy=0.0, largest_force=0.0).sentence for ending in ENDINGS]  # type: ignore[arg-type]
    assert len(set(sentences)) == len(ENDINGS)
    assert all(sentence.endswith(".") for sentence in sentences)
