"""Measure the speeds the project promises: `make bench`. With --write the figures go into docs/benchmarks.md.

Never a timed test: these machines are noisy. Each figure is the best of a few runs beside the promise, with a plain
numpy sort of the same size as a yardstick, so that two machines can be compared by ratio.
"""

import argparse
import json
import os
import platform
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Literal

import numpy as np

from braidwright.app.pipeline import subject_of, work_out
from braidwright.app.shopping import supplies
from braidwright.app.sizes import size
from braidwright.catalogue.shelf import standard
from braidwright.domain.chart import column_texts
from braidwright.domain.design import Anchor, Design
from braidwright.domain.document import read_design
from braidwright.domain.paint import paint
from braidwright.domain.strings import deal, rows_of, strings_of
from braidwright.drawings.meshes.model import rope_model
from braidwright.drawings.pens.svg import render
from braidwright.drawings.sheet import Look, Subject
from braidwright.drawings.sheets import SHEETS

ROOT = Path(__file__).resolve().parent.parent


@dataclass(frozen=True)
class Figure:
    """One thing measured: what, how much, what was promised (None for a yardstick); seconds, or bytes for a size."""

    what: str
    measured: float
    promised: float | None
    unit: Literal["s", "bytes"] = "s"


def best(work: Callable[[], object], runs: int) -> float:
    """The shortest of several runs, seconds."""
    times = []
    for _ in range(runs):
        started = time.perf_counter()
        work()
        times.append(time.perf_counter() - started)
    return min(times)


def demo() -> Design:
    """The first demo design."""
    return read_design((ROOT / "designs" / "hill-gorse.json").read_text("utf-8"), standard().braid).design


def million(design: Design) -> Figure:
    """Walk, chart and strings, there and back, of a million stitches."""
    rows = tuple(design.rows[index % len(design.rows)] for index in range(250_000))

    def work() -> None:
        strings = deal(design.braid, rows)
        column_texts(design.braid, rows)
        assert rows_of(design.braid, strings, len(rows)) == rows

    return Figure("walk, chart and strings of 1,000,000 stitches, and back to the rows", best(work, 3), 1.0)


def one_stitch(design: Design) -> Figure:
    """From a painted stitch to new chart, strings, size and supplies."""
    long = replace(design, rows=("mmmm",) * 85, motifs=())
    shelf = standard()
    turn = iter(range(10**9))

    def work() -> None:
        step = next(turn)
        painted = paint(long, [Anchor(row=step % 85 + 1, stitch=step % 4 + 1)], "b")
        column_texts(painted.braid, painted.rows)
        strings_of(painted)
        size(painted, shelf)
        supplies(painted, shelf)

    work()
    return Figure("one painted stitch of 340 to new chart, strings, size and supplies", best(work, 30), 0.005)


def helped() -> Figure:
    """The help of the command line, a whole new process."""
    braidwright = shutil.which("braidwright", path=str(Path(sys.executable).parent))
    assert braidwright is not None
    work = lambda: subprocess.run([braidwright, "--help"], check=True, capture_output=True)  # noqa: E731
    work()
    return Figure("braidwright --help, a new process", best(work, 7), 0.4)


def kept() -> Figure:
    """The size of a rope that was solved before, a whole new process: the compiler is loaded, nothing is solved."""
    braidwright = shutil.which("braidwright", path=str(Path(sys.executable).parent))
    assert braidwright is not None
    with tempfile.TemporaryDirectory() as folder:
        command = [braidwright, "size", str(ROOT / "designs" / "two-becks.json"), "--solve"]
        places = os.environ | {"BRAIDWRIGHT_CACHE": folder}
        work = lambda: subprocess.run(command, check=True, capture_output=True, env=places)  # noqa: E731
        work()
        return Figure("braidwright size --solve of a rope solved before, a new process", best(work, 5), None)


def packed() -> list[Figure]:
    """The whole pattern pack, a whole new process, for every demo."""
    braidwright = shutil.which("braidwright", path=str(Path(sys.executable).parent))
    assert braidwright is not None
    figures = []
    for file in sorted((ROOT / "designs").glob("*.json")):
        with tempfile.TemporaryDirectory() as folder:
            command = [braidwright, "publish", str(file), "-o", str(Path(folder) / "pack")]
            work = lambda command=command: subprocess.run(command, check=True, capture_output=True)  # noqa: E731
            figures.append(Figure(f"the whole pack of {file.stem}, a new process", best(work, 2), 5.0))
    return figures


def of_340(design: Design) -> Subject:
    """A bracelet of 340 beads that repeats nothing, three colours and finishes mixed, its shape being known."""
    random = np.random.default_rng(1)
    keys = [entry.key for entry in design.tray.beads]
    rows = tuple("".join(keys[kind] for kind in row) for row in random.integers(0, len(keys), (85, 4)))
    return subject_of(work_out(replace(design, rows=rows, motifs=()), standard()))


def modelled(subject: Subject) -> list[Figure]:
    """The 3D model of a bracelet, its shape being known."""
    geometry = subject.geometry
    assert geometry is not None
    what = f"the 3D model of a bracelet of {len(geometry.keys)} beads"
    return [
        Figure(what, best(lambda: rope_model(subject, geometry), 10), 0.05),
        Figure(f"{what}, its size", len(rope_model(subject, geometry)), None, "bytes"),
    ]


def pictured(subject: Subject) -> list[Figure]:
    """The vector pictures of a bracelet, from its shape to the text of the file, with everything on the sheet."""
    assert subject.geometry is not None
    figures = []
    for name in ("rope-front", "rope-back", "rope-whole", "rope-worn"):
        draw = lambda name=name: [render(drawing) for drawing in SHEETS[name].draw(subject, Look())]  # noqa: E731
        what = f"the vector picture {name} of {len(subject.geometry.keys)} beads"
        size = sum(len(text.encode()) for text in draw())
        figures += [Figure(what, best(draw, 5), 0.1), Figure(f"{what}, its size", size, 300_000, "bytes")]
    return figures


def yardstick() -> Figure:
    """A plain numpy sort, to compare machines by."""
    numbers = np.random.default_rng(1).integers(0, 8, 1_000_000)
    return Figure(
        "yardstick: numpy stable sort of 1,000,000 small numbers",
        best(lambda: np.argsort(numbers, kind="stable"), 5),
        None,
    )


def machine() -> str:
    """What it was measured on, without any name of the machine."""
    memory = os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES") / 2**30
    return (
        f"{platform.system()} {platform.machine()}, {os.cpu_count()} cores, {memory:.0f} GiB, "
        f"Python {platform.python_version()}, numpy {np.__version__}"
    )


def table(figures: list[Figure]) -> str:
    """The figures as a Markdown table."""
    lines = ["| what | measured | promised | |", "|---|---:|---:|---|"]
    for figure in figures:
        promised = "" if figure.promised is None else shown(figure.promised, figure.unit)
        verdict = "" if figure.promised is None else "kept" if figure.measured <= figure.promised else "**not kept**"
        lines.append(f"| {figure.what} | {shown(figure.measured, figure.unit)} | {promised} | {verdict} |")
    return "\n".join(lines)


def shown(value: float, unit: str) -> str:
    """Seconds, milliseconds or kilobytes, three figures."""
    if unit == "bytes":
        return f"{value / 1000:.0f} kB"
    return f"{value:.2f} s" if value >= 0.4 else f"{value * 1000:.3g} ms"


def main() -> None:
    """Measure, print, and with --write keep."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--write", action="store_true", help="write docs/benchmarks.md")
    parser.add_argument("--json", action="store_true", help="print JSON instead of a table")
    wishes = parser.parse_args()
    design = demo()
    rope = of_340(design)
    figures = [
        yardstick(), million(design), one_stitch(design), *pictured(rope), *modelled(rope), helped(), kept(), *packed()
    ]  # fmt: skip
    if wishes.json:
        print(json.dumps([figure.__dict__ for figure in figures], indent=2))
        return
    text = f"Machine: {machine()}.\n\n{table(figures)}\n"
    print(text)
    if wishes.write:
        solver = subprocess.run(
            [sys.executable, str(ROOT / "tools" / "bench_solver.py")], check=True, capture_output=True, text=True
        ).stdout
        studio = subprocess.run(
            [sys.executable, str(ROOT / "tools" / "bench_studio.py")], check=True, capture_output=True, text=True
        ).stdout
        page = (
            "# Speeds\n\nMeasured by `make bench` (`tools/bench.py --write` writes this page); best of a few runs "
            f"each, on a shared and noisy machine.\n\n{text}\n## The solver\n\n{solver}\n## The studio\n\n"
            "In Chromium, by `tools/bench_studio.py`; medians of several presses, without a graphics card.\n\n"
            f"```\n{studio}```\n"
        )
        (ROOT / "docs" / "benchmarks.md").write_text(page, encoding="utf-8")


if __name__ == "__main__":
    main()
