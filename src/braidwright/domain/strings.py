"""strings: the beads of each cord in stringing order, and back again. Two exact inverses.

The first strung is the first dropped. A string keeps its drops apart (a bare stitch is a drop of nothing, a stack a
drop of several), which is what makes the way back exact.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from braidwright.domain.braid import Braid
from braidwright.domain.design import Design
from braidwright.domain.errors import DesignError
from braidwright.domain.tray import BARE, Tray
from braidwright.domain.walk import stitch_cords

IntArray = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True)
class String:
    """The drops of one cord, first dropped first.

    Attributes:
        cord: Index of the cord in `Braid.start`.
        slot: The slot it starts in.
        drops: One character for each move this cord makes: "." or a key of the tray.
    """

    cord: int
    slot: int
    drops: str

    def beads(self, tray: Tray) -> tuple[str, ...]:
        """The keys of the single beads in stringing order: bare stitches gone, stacks unfolded."""
        unfolded = {key: tray.beads_of(key) for key in dict.fromkeys(self.drops)}
        return tuple(bead for key in self.drops for bead in unfolded[key])


def strings_of(design: Design) -> tuple[String, ...]:
    """The string of every cord, in start order."""
    return deal(design.braid, design.rows)


def deal(braid: Braid, rows: tuple[str, ...]) -> tuple[String, ...]:
    """Hand every stitch of the rows to the cord that makes it."""
    codes = _codes("".join(rows))
    cords = stitch_cords(braid, len(rows)).ravel()
    order = np.argsort(cords, kind="stable")
    ends = np.cumsum(np.bincount(cords, minlength=braid.cord_count))
    return tuple(
        String(cord=cord, slot=braid.start[cord], drops=_text(codes[order[start:end]]))
        for cord, (start, end) in enumerate(zip([0, *ends[:-1]], ends, strict=True))
    )


def rows_of(braid: Braid, strings: tuple[String, ...], rows: int) -> tuple[str, ...]:
    """The rows that these strings braid into: the way back from `deal`.

    Raises:
        DesignError: A cord with too few or too many drops for that many rows.
    """
    cords = stitch_cords(braid, rows).ravel()
    needed = np.bincount(cords, minlength=braid.cord_count)
    for cord, string in enumerate(strings):
        if len(string.drops) != needed[cord]:
            raise DesignError(
                f"The string of the cord in slot {braid.start[cord]} has {len(string.drops)} drops, but in {rows} rows "
                f"that cord makes {needed[cord]} stitches; correct the string or the number of rows."
            )
    codes = np.zeros(cords.size, dtype=np.uint32)
    codes[np.argsort(cords, kind="stable")] = _codes("".join(string.drops for string in strings))
    text, width = _text(codes), braid.stitches_per_row
    return tuple(text[at : at + width] for at in range(0, len(text), width))


def runs(drops: tuple[str, ...] | str) -> tuple[tuple[int, str], ...]:
    """Equal neighbours counted together: "aab" gives ((2, "a"), (1, "b"))."""
    found: list[tuple[int, str]] = []
    for key in drops:
        if found and found[-1][1] == key:
            found[-1] = (found[-1][0] + 1, key)
        else:
            found.append((1, key))
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class Phrase:
    """Part of a string as a maker counts it: a few runs, said once, and how many times they follow each other.

    Attributes:
        times: How many times the runs come, straight after each other.
        runs: Pairs (count, key).
    """

    times: int
    runs: tuple[tuple[int, str], ...]


def in_words(drops: tuple[str, ...] | str, name_of: Callable[[str], str]) -> str:
    """A string as it is said: "2 Moss, 23 times (1 Pool, 2 Foam)"; "no beads" when nothing is on it."""
    return ", ".join(_said(phrase, name_of) for phrase in phrases(drops)) or "no beads"


def _said(phrase: Phrase, name_of: Callable[[str], str]) -> str:
    inside = ", ".join(f"{count} {name_of(key)}" for count, key in phrase.runs)
    return inside if phrase.times == 1 else f"{phrase.times} times ({inside})"


LONGEST_GROUP = 12
WORTH_FOLDING = 4  # a fold must save at least so many runs, or it is harder to read than what it replaces


def phrases(drops: tuple[str, ...] | str) -> tuple[Phrase, ...]:
    """The runs of a string with every group that comes again straight away said once.

    A maker counts "23 times (1 Pool, 2 Foam)" with less trouble than 46 runs, and cannot slip a line.
    """
    every = runs(drops)
    found: list[Phrase] = []
    single: list[tuple[int, str]] = []
    at = 0
    while at < len(every):
        length, times = _best_group(every, at)
        if times == 1:
            single.append(every[at])
            at += 1
            continue
        if single:
            found.append(Phrase(times=1, runs=tuple(single)))
            single = []
        found.append(Phrase(times=times, runs=every[at : at + length]))
        at += length * times
    return (*found, Phrase(times=1, runs=tuple(single))) if single else tuple(found)


def _best_group(every: tuple[tuple[int, str], ...], at: int) -> tuple[int, int]:
    """The group from here whose repeats save most runs: its length and how many times it comes; (1, 1) for none."""
    best, saved = (1, 1), WORTH_FOLDING - 1
    for length in range(1, min(LONGEST_GROUP, (len(every) - at) // 2) + 1):
        group, times = every[at : at + length], 1
        while every[at + length * times : at + length * (times + 1)] == group:
            times += 1
        if (times - 1) * length > saved:
            best, saved = (length, times), (times - 1) * length
    return best


def bead_counts(design: Design) -> dict[str, int]:
    """How many single beads of each key the design holds, stacks unfolded, in tray order, unused ones as 0."""
    counts = {entry.key: 0 for entry in design.tray.beads}
    for key, drops in design.drop_counts().items():
        if key != BARE:
            for bead in design.tray.beads_of(key):
                counts[bead] += drops
    return counts


def _codes(text: str) -> NDArray[np.uint32]:
    """Characters as numbers, one for each character whatever its alphabet."""
    return np.frombuffer(text.encode("utf-32-le", "surrogatepass"), dtype=np.uint32)


def _text(codes: NDArray[np.uint32]) -> str:
    return codes.astype("<u4").tobytes().decode("utf-32-le", "surrogatepass")
