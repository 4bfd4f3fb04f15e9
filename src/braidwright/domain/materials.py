"""Materials: the cord and the beads a design names, looked up once, and the mean bead of a mixture."""

from collections import Counter
from dataclasses import dataclass
from itertools import groupby

from braidwright.domain.bead import Bead
from braidwright.domain.cord import Cord
from braidwright.domain.design import Design
from braidwright.domain.errors import DesignError
from braidwright.domain.strings import bead_counts
from braidwright.domain.tray import BARE

MISSED_SHARE = 0.25  # a row with at most this share of bare stitches counts as beaded: a missed bead dents, no more
SHORT_GAP_ROWS = 3  # fewer bare rows than this between beads are a gap in the pattern: the bead rows meet across it


@dataclass(frozen=True, slots=True, kw_only=True)
class Materials:
    """The cord and the beads of one design.

    Attributes:
        cord: The cord.
        beads: Pairs (tray key, bead) of the single beads, in tray order.
        core_mm: Thickness of the core cord along the axis; 0 without one.
    """

    cord: Cord
    beads: tuple[tuple[str, Bead], ...]
    core_mm: float = 0.0

    def bead(self, key: str) -> Bead:
        """The bead of a tray key.

        Raises:
            DesignError: No such key, or the key of a stack.
        """
        for name, bead in self.beads:
            if name == key:
                return bead
        raise DesignError(f"The tray has no single bead {key!r}; it has {', '.join(name for name, _ in self.beads)}.")


def bare_diameter(cord_count: int, cord_mm: float) -> float:
    """About how thick a braid of bare cords is, mm.

    Source: a straight line through physics.md, 6 (4.75, 6.1 and 7.3 cord diameters for 8, 12 and 16 cords).
    """
    return cord_mm * (2.2 + 0.32 * cord_count)


@dataclass(frozen=True, slots=True, kw_only=True)
class MeanBead:
    """The bead that a mixture is reckoned as, each kind weighing as often as it is used.

    Attributes:
        diameter_mm: Mean outside diameter of the part round the hole.
        length_mm: Mean length along the hole.
        reach_mm: The farthest that any bead used stands off its cord.
        kinds: How many different sizes are mixed.
        accents: Whether some bead used stands out to one side.
        cylinders: Whether some bead used has flat ends.
    """

    diameter_mm: float
    length_mm: float
    reach_mm: float
    kinds: int
    accents: bool
    cylinders: bool


def mean_bead(design: Design, materials: Materials) -> MeanBead | None:
    """The mean bead of a design, or None when it holds no bead."""
    used = [(materials.bead(key), count) for key, count in bead_counts(design).items() if count]
    total = sum(count for _, count in used)
    if total == 0:
        return None
    return MeanBead(
        diameter_mm=sum(bead.diameter_mm * count for bead, count in used) / total,
        length_mm=sum(bead.length_mm * count for bead, count in used) / total,
        reach_mm=max(bead.reach_mm for bead, _ in used),
        kinds=len({(bead.diameter_mm, bead.length_mm) for bead, _ in used}),
        accents=any(bead.stands_out for bead, _ in used),
        cylinders=any(bead.shape == "cylinder" for bead, _ in used),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class RowKinds:
    """How many rows of a design are of which kind.

    Attributes:
        beaded: A bead at every stitch, or at three quarters of them and more.
        missed: Of those, the rows with a bare stitch.
        part: Half-bare rows: beads at some stitches only.
        stacked: Rows with a stack.
        bare: Wholly bare rows.
        gaps: Of those, the rows of short gaps between beads.
    """

    beaded: int
    missed: int
    part: int
    stacked: int
    bare: int
    gaps: int

    @property
    def plain(self) -> bool:
        """Whether the whole design is cord without beads."""
        return self.beaded + self.part + self.stacked == 0


def row_kinds(design: Design) -> RowKinds:
    """Count the rows of each kind."""
    stacks = frozenset(key for key in design.tray.keys if len(design.tray.beads_of(key)) > 1)
    found: Counter[str] = Counter()
    for text, count in Counter(design.rows).items():
        found[_kind(text, stacks)] += count
    missed = found["missed"]
    return RowKinds(
        beaded=found["beaded"] + missed,
        missed=missed,
        part=found["part"],
        stacked=found["stacked"],
        bare=found["bare"],
        gaps=_short_gaps(design.rows) if found["bare"] else 0,
    )


def _kind(text: str, stacks: frozenset[str]) -> str:
    bare = text.count(BARE)
    if bare == len(text):
        return "bare"
    if not stacks.isdisjoint(text):
        return "stacked"
    if bare == 0:
        return "beaded"
    return "missed" if bare <= MISSED_SHARE * len(text) else "part"


def _short_gaps(rows: tuple[str, ...]) -> int:
    runs = [(bare, len(list(run))) for bare, run in groupby(rows, lambda text: text.count(BARE) == len(text))]
    return sum(length for bare, length in runs[1:-1] if bare and length < SHORT_GAP_ROWS)
