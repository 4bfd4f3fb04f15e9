"""Measure the tightening: `python tools/bench_solver.py`. With --json the figures come as JSON.

A start of the round braid after compiling; whole ropes, of random beads and of a few rows that come again; and the same
energies given to a general-purpose minimiser, SciPy's L-BFGS-B, in the same run: two rings through each other, a turn
of a rope of two strands, and a cell of 16 beads. Both get the same neighbour lists, the same first shape and the same
largest force to stop at. Never a timed test: machines are noisy.
"""

import argparse
import json
import os
from dataclasses import asdict, dataclass
from functools import lru_cache
from math import pi

os.environ["OPENBLAS_NUM_THREADS"] = "1"  # or SciPy's threads fight over small vectors on a busy machine

import numpy as np
from bench import best

from braidwright.catalogue.shelf import standard
from braidwright.physics.balance import energy
from braidwright.physics.cells import loops, unit
from braidwright.physics.images import unknowns_of
from braidwright.physics.laid import uniform_rows
from braidwright.physics.lattice import Lattice
from braidwright.physics.measures import Whole
from braidwright.physics.neighbours import find, is_stale
from braidwright.physics.outcome import Outcome
from braidwright.physics.rope import Loose, Rope, laid_out
from braidwright.physics.round_braid import RoundBraid, limits, looses, settle
from braidwright.physics.solids import BeadSolid, Solid, cylinder_solid, reaching_solid, round_solid
from braidwright.physics.start import crossing, round_lattice
from braidwright.physics.state import HEAVE, Cell, Floats
from braidwright.physics.strung import Drop
from braidwright.physics.tighten import Limits, tighten
from braidwright.physics.uniform import UniformBraid, solve_uniform
from braidwright.physics.whole import Piece, solve_whole

PROMISED_MS = 20.0  # a start of the round braid
STILL = 0.01
DISK_DEG = 11.25
ROUNDS = {
    "8 cords, 11/0": RoundBraid(
        columns=4, cord_mm=0.5, bead=BeadSolid(diameter_mm=2.1, length_mm=1.45), drift_deg=11.25
    ),
    "8 cords, 8/0": RoundBraid(columns=4, cord_mm=0.5, bead=BeadSolid(diameter_mm=3.0, length_mm=2.1), drift_deg=11.25),
    "8 cords, 6/0": RoundBraid(columns=4, cord_mm=0.5, bead=BeadSolid(diameter_mm=4.0, length_mm=2.9), drift_deg=11.25),
    "12 cords, 8/0": RoundBraid(
        columns=6, cord_mm=0.5, bead=BeadSolid(diameter_mm=3.0, length_mm=2.1), drift_deg=11.25
    ),
    "16 cords, 8/0": RoundBraid(
        columns=8, cord_mm=0.5, bead=BeadSolid(diameter_mm=3.0, length_mm=2.1), drift_deg=11.25
    ),
    "8 cords, bare": RoundBraid(columns=4, cord_mm=1.0, bead=None, drift_deg=11.25),
    "12 cords, bare": RoundBraid(columns=6, cord_mm=1.0, bead=None, drift_deg=11.25),
}


@dataclass(frozen=True)
class Start:
    """What the starts of one round braid took: all told, a start, and the part of it that checks the topology."""

    what: str
    starts: int
    ms_a_start: float
    steps_a_start: float
    ms_whole: float


@dataclass(frozen=True)
class Long:
    """What a whole rope took: beads, seconds in all, the promise, the steps, and how it ended."""

    what: str
    beads: int
    seconds: float
    promised_s: float
    steps: int
    ending: str


@dataclass(frozen=True)
class Rival:
    """One problem, by the tightening and by SciPy: seconds, steps or evaluations, and the energy at the end."""

    what: str
    ours_s: float
    ours_steps: int
    ours_energy: float
    scipy_s: float
    scipy_evaluations: int
    scipy_energy: float

    @property
    def ratio(self) -> float:
        """How many times as long SciPy took."""
        return self.scipy_s / self.ours_s


class Energy:
    """The energy as SciPy wants it: a function of the unknowns, with the neighbour list kept while it is good."""

    def __init__(self, cell: Cell, start: Floats) -> None:
        self.cell, self.near, self.calls = cell, find(cell, start.copy()), 0

    def __call__(self, unknowns: Floats) -> tuple[float, Floats]:
        """Energy and gradient."""
        here, gradient = np.array(unknowns), np.zeros(len(unknowns))
        if is_stale(self.cell, self.near, here):
            self.near = find(self.cell, here)
        self.calls += 1
        return energy(self.cell, self.near, here, gradient), gradient


def start_of(what: str, braid: RoundBraid) -> Start:
    """Every loose shape of a round braid, tightened."""
    lattice, settled = round_lattice(braid.columns, braid.drift_deg), settle(braid)
    cell = unit(lattice, len(settled.points), braid.bead, cord_mm=braid.cord_mm, weight=2.0 * braid.weight_share)
    rod = 0.0 if braid.bead is None else braid.bead.rod
    firsts = [
        unknowns_of(crossing(lattice, loose, rod, len(settled.points)), loose.rise_mm, HEAVE) for loose in looses(braid)
    ]
    steps = [tighten(cell, first, limits(braid)).outcome.steps for first in firsts]
    seconds = [best(lambda first=first: tighten(cell, first, limits(braid)), 3) for first in firsts]
    return Start(
        what=what,
        starts=len(firsts),
        ms_a_start=1e3 * sum(seconds) / len(firsts),
        steps_a_start=sum(steps) / len(firsts),
        ms_whole=1e3 * best(lambda: settle(braid), 3),
    )


def hopf() -> tuple[Cell, Floats]:
    """Two loose rings of 60 points through each other."""
    turns = np.linspace(0.0, 2.0 * pi, 60, endpoint=False)
    c, s, o = np.cos(turns), np.sin(turns), np.zeros(60)
    return loops([3.0 * np.stack([c, s, o], axis=1), 3.0 * np.stack([c + 1.0, o, s], axis=1)], 1.0)


def helix() -> tuple[Cell, Floats]:
    """A loose turn of a rope of two strands, 48 points a strand, its height free."""
    lattice = Lattice(turn_rad=2.0 * pi, lift=1.0, fold=2, next_step=1, next_fold=0, reach=2)
    turns = np.linspace(0.0, 2.0 * pi, 49)
    points = np.stack([0.8 * np.cos(turns), 0.8 * np.sin(turns), 4.5 * turns / (2.0 * pi)], axis=1)
    return unit(lattice, 49, None, cord_mm=1.0, weight=0.0), unknowns_of(points, 4.5, HEAVE)


KINDS: tuple[Solid, ...] = (
    round_solid(3.0, 2.1),
    round_solid(2.1, 1.45),
    round_solid(4.0, 2.9),
    cylinder_solid(1.6, 1.3),
    reaching_solid(2.4, ((0.0, 1.2), (1.9, 1.7))),
)
ROUND: tuple[Drop, ...] = ((0,), (0,), (1,), (2,))  # three sizes of round beads
ANY: tuple[Drop, ...] = ((0,), (0,), (1,), (2,), (3,), (4,), (1, 1), ())  # and cylinders, drops, stacks, bare stitches

uniform = lru_cache(maxsize=16)(solve_uniform)


def rope_of(rows: int, seed: int, drops: tuple[Drop, ...], times: int = 1) -> Piece:
    """Kongoh gumi of eight cords with rows of random drops, all of them so many times over."""
    chance = np.random.default_rng(seed)
    made = tuple(tuple(drops[int(chance.integers(len(drops)))] for _ in range(4)) for _ in range(rows)) * times
    return Piece(
        braid=standard().braid("kongoh-8"),
        rows=made,
        kinds=KINDS,
        cord_mm=0.5,
        drift_deg=DISK_DEG,
        lead_in_mm=10.0,
        lead_out_mm=10.0,
    )


def longs() -> list[Long]:
    """Whole ropes; the shape of the uniform braid they are laid out from is solved anew for each."""
    return [
        long("340 round beads of three sizes, nothing comes again", rope_of(85, 1, ROUND), 3.0, 3),
        long("about 340 beads with drops, cylinders, stacks and bare stitches", rope_of(85, 1, ANY), 3.0, 3),
        long("340 beads, 32 of which come again and again", rope_of(8, 2, ROUND, 11), 0.5, 3),
        long("2,400 round beads of three sizes, nothing comes again", rope_of(600, 3, ROUND), 25.0, 1),
        long("about 2,400 beads with everything", rope_of(600, 3, ANY), 25.0, 1),
    ]


def long(what: str, made: Piece, promised_s: float, runs: int) -> Long:
    """One whole rope."""
    found: list[Whole | Outcome] = []

    def work() -> None:
        uniform.cache_clear()
        found.append(solve_whole(made, uniform))

    seconds = best(work, runs)
    outcome = found[-1].outcome if isinstance(found[-1], Whole) else found[-1]
    beads = sum(len(drop) for row in made.rows for drop in row)
    return Long(
        what=what,
        beads=beads,
        seconds=seconds,
        promised_s=promised_s,
        steps=outcome.steps,
        ending=outcome.ending,
    )


def cell_of_16() -> tuple[Cell, Floats]:
    """Four rows of 8/0, laid out from the shape that symmetry gives and shaken."""
    braid = standard().braid("kongoh-8")
    ways = uniform(UniformBraid(braid=braid, bead=(3.0, 2.1), cord_mm=0.5, drift_deg=DISK_DEG)).ways
    rope = Rope(braid=braid, rows=(((0,),) * 4,) * 4, kinds=KINDS, cord_mm=0.5, drift_deg=DISK_DEG)
    strung, make = laid_out(rope, ways, uniform_rows(ways, 4), Loose(room_mm=2.1, room_wide_mm=3.0), 0.3)
    shaken = strung.points + np.random.default_rng(1).normal(0.0, 0.05, strung.points.shape)
    return strung.cell, unknowns_of(shaken, make.tall_mm, strung.cell.heave)


def rival(what: str, cell: Cell, start: Floats, still: float = STILL) -> Rival:
    """One problem by both."""
    from scipy.optimize import minimize

    ours_limits = Limits(most_steps=50_000, still=still, longest_step=0.05)
    options = {"gtol": still, "ftol": 0.0, "maxiter": 50_000, "maxfun": 200_000}
    ours = tighten(cell, start, ours_limits)
    function = Energy(cell, start)
    theirs = minimize(function, start, jac=True, method="L-BFGS-B", options=options)
    return Rival(
        what=what,
        ours_s=best(lambda: tighten(cell, start, ours_limits), 3),
        ours_steps=ours.outcome.steps,
        ours_energy=ours.outcome.energy,
        scipy_s=best(lambda: minimize(Energy(cell, start), start, jac=True, method="L-BFGS-B", options=options), 3),
        scipy_evaluations=function.calls,
        scipy_energy=float(theirs.fun),
    )


def rivals() -> list[Rival]:
    """Every problem by both; none without SciPy."""
    try:
        import scipy  # noqa: F401
    except ModuleNotFoundError:
        return []
    return [
        rival("Hopf link, 2 x 60 points", *hopf()),
        rival("double helix, 48 points and the rise", *helix()),
        rival("cell of 16 beads, force 0.05", *cell_of_16(), still=0.05),
    ]


def shown(starts: list[Start], ropes: list[Long], compared: list[Rival]) -> str:
    """The figures as Markdown tables."""
    lines = [
        "| round braid | starts | ms a start | promised | steps a start | ms all told |",
        "|---|---:|---:|---:|---:|---:|",
    ]
    lines += [
        f"| {one.what} | {one.starts} | {one.ms_a_start:.1f} | {PROMISED_MS:g} | {one.steps_a_start:.0f} | "
        f"{one.ms_whole:.0f} |"
        for one in starts
    ]
    lines += ["", "| whole rope | beads | seconds | promised | steps | ended |", "|---|---:|---:|---:|---:|---|"]
    lines += [
        f"| {one.what} | {one.beads} | {one.seconds:.2f} | {one.promised_s:g} | {one.steps} | {one.ending} |"
        for one in ropes
    ]
    if not compared:
        return "\n".join([*lines, "", "SciPy is not installed, so there is nothing to compare with."])
    lines += ["", "| problem | ours | steps | energy | SciPy | evaluations | energy | SciPy : ours |"]
    lines += ["|---|---:|---:|---:|---:|---:|---:|---:|"]
    lines += [
        f"| {one.what} | {one.ours_s:.3f} s | {one.ours_steps} | {one.ours_energy:.4f} | {one.scipy_s:.3f} s | "
        f"{one.scipy_evaluations} | {one.scipy_energy:.4f} | {one.ratio:.2f} |"
        for one in compared
    ]
    lines += [
        "",
        "An energy of SciPy's far below ours is of cords that slipped through each other: its steps have no bound.",
    ]
    return "\n".join(lines)


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--json", action="store_true", help="print JSON instead of tables")
    wishes = parser.parse_args()
    starts, ropes = [start_of(what, braid) for what, braid in ROUNDS.items()], longs()
    compared = rivals()
    if wishes.json:
        print(
            json.dumps(
                {
                    "starts": [asdict(one) for one in starts],
                    "ropes": [asdict(one) for one in ropes],
                    "rivals": [asdict(one) for one in compared],
                },
                indent=2,
            )
        )
    else:
        print(shown(starts, ropes, compared))


if __name__ == "__main__":
    main()
