"""lettering: a word in beads, along the rope, stacked letter under letter, or round it.

Every bead of a letter lies in the column that is nearest to its line on the front. Columns turn with the drift, so a
long stroke changes to the next column now and then; it stays on its line, and the word does not wander round the rope.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import floor

from braidwright.domain.chart import Column, columns
from braidwright.domain.design import Anchor, Design, PlacedMotif
from braidwright.domain.errors import RequestError
from braidwright.domain.letters import ALPHABETS, Dots
from braidwright.domain.motif import from_front
from braidwright.domain.paint import check_key
from braidwright.domain.typesetting import Way, typeset

LONGEST_WORD = 200
SEEN_DEG = 90.0  # to either side of the front line: what is seen at once
WELL_SEEN = 0.95
Cells = dict[tuple[int, int], str]

_ADVICE = {
    "along": "stack the letters, leave out accents, or braid with more cords",
    "stacked": "leave out wide letters, or braid with more cords",
    "round": "use a shorter word, or write it along the rope",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
    """What is to be written, and how.

    Attributes:
        text: The word; spaces are gaps.
        key: The bead of the letters.
        ground: The bead round them, or None to leave what is there.
        way: "along" is read along the rope as it lies with row 1 at the left; "stacked" has upright letters one under
            the other on a rope that hangs with row 1 below; "round" has them side by side round that rope.
        height: Which alphabet: beads from the foot of a capital to its top.
        row: In which row its middle lies, from 1, or None for the middle of the piece.
        centre_deg: Where its middle lies round the rope, degrees clockwise from the front line.
    """

    text: str
    key: str
    ground: str | None = None
    way: Way = "along"
    height: int = 5
    row: int | None = None
    centre_deg: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Lettered:
    """A word to look at.

    Attributes:
        rows: All rows of the design with the word on them.
        motif: The word as a motif that longer, shorter and the other hand keep, or None where a column has several
            stitches in a row and no motif can say it.
        seen: Share of the beads of the letters that is seen from the front, 0 to 1.
        notes: Sentences for the maker.
    """

    rows: tuple[str, ...]
    motif: PlacedMotif | None
    seen: float
    notes: tuple[str, ...]


def letter(design: Design, drift_deg: float, word: Word) -> Lettered:
    """Lay a word on the chart of a design; the design stays as it is.

    Args:
        design: The design.
        drift_deg: Turn of a column per row, degrees clockwise.
        word: What to write, and how.

    Raises:
        RequestError: A letter that is not drawn, a bead the tray lacks, no room along the rope or round it.
    """
    _check(design, word)
    ink, around = typeset(ALPHABETS[word.height], word.text, word.way)
    grid = _grid(design, drift_deg, word, ink)
    letters = set(grid.cells(ink))
    _check_room(design, word, grid, letters)
    cells: Cells = {}
    if word.ground is not None:
        cells = {cell: word.ground for cell in grid.cells(around) if 0 <= cell[0] < len(design.rows)}
    cells |= dict.fromkeys(letters, word.key)
    text = [list(row) for row in design.rows]
    for (row, stitch), key in cells.items():
        text[row][stitch] = key
    seen = sum(abs(from_front(design, drift_deg, *cell)) <= SEEN_DEG for cell in letters) / len(letters)
    return Lettered(
        rows=tuple("".join(row) for row in text),
        motif=_motif(grid, cells, word.text),
        seen=seen,
        notes=_notes(word, len(grid.every), seen),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Grid:
    """The chart as letters see it: columns round the rope and places up each of them.

    Attributes:
        every: The columns.
        way: Which way the word runs.
        middle: The middle of the word, in beads to the right and up.
        size: How many columns and how many places up them it takes.
        home: Height of that middle, in places up a column (rows, where a column has one stitch a row).
        front: Which column lies at the wanted line where the height is `home`, fractions allowed.
        lean: How many columns less that is for each place further up.
    """

    every: tuple[Column, ...]
    way: Way
    middle: tuple[float, float]
    size: tuple[int, int]
    home: float
    front: float
    lean: float

    def cells(self, dots: Dots) -> Iterator[tuple[int, int]]:
        """Row and stitch, from 0, of beads of the word; no two share one, unless they meet round the rope."""
        held = len(self.every[0].stitches)
        for right, up in sorted(dots):
            x, y = right - self.middle[0], up - self.middle[1]
            high, across = (x, y) if self.way == "along" else (y, -x)
            part = across % 1.0  # 0 or a half, the same for the whole word
            line = self.front - self.lean * high
            column = self.every[(floor(line + part + 0.5) + floor(across)) % len(self.every)]
            place = floor(self.home + high - column.steps[0] * held + 0.5)
            yield place // held, column.stitches[place % held]


def _grid(design: Design, drift_deg: float, word: Word, ink: Dots) -> _Grid:
    every = columns(design.braid)
    held = len(every[0].stitches)
    left, right = min(x for x, _ in ink), max(x for x, _ in ink)
    foot, top = min(y for _, y in ink), max(y for _, y in ink)
    size = (right - left + 1, top - foot + 1)
    half = max(step for column in every for step in column.steps) / 2.0
    rows = len(design.rows) - 1
    height = (rows / 2.0 if word.row is None else word.row - 1) + half
    spacing = 360.0 / len(every)
    wanted = word.centre_deg + design.front_line.deg - drift_deg * (height - rows / 2.0)
    return _Grid(
        every=every,
        way=word.way,
        middle=((left + right) / 2.0, (foot + top) / 2.0),
        size=size[::-1] if word.way == "along" else size,
        home=height * held,
        front=(wanted - every[0].angle_deg) / spacing,
        lean=drift_deg / spacing / held,
    )


def _check(design: Design, word: Word) -> None:
    if not word.text.strip() or len(word.text) > LONGEST_WORD:
        raise RequestError(f"Lettering: give a word of 1 to {LONGEST_WORD} letters.")
    if word.height not in ALPHABETS:
        high = " or ".join(map(str, ALPHABETS))
        raise RequestError(f"Lettering: there is no alphabet {word.height} beads high; use {high}.")
    if not abs(word.centre_deg) <= 360.0:
        raise RequestError(f"Lettering: {word.centre_deg:g} degrees from the front is no direction; use -180 to 180.")
    check_key(design, word.key)
    if word.ground is not None:
        check_key(design, word.ground)
    if word.key == word.ground:
        raise RequestError("Lettering: letters and ground are the same bead; choose two.")
    if len({len(column.stitches) for column in columns(design.braid)}) > 1:
        raise RequestError(
            f"Lettering: the columns of {design.braid.name} hold unequal numbers of stitches, so letters would be "
            f"torn; use another braid."
        )


def _check_room(design: Design, word: Word, grid: _Grid, letters: set[tuple[int, int]]) -> None:
    """Refuse a word that meets itself round the rope or hangs over an end."""
    if grid.size[0] > len(grid.every):
        raise RequestError(
            f"Lettering: {word.text.strip()!r} needs {grid.size[0]} columns round the rope, which has "
            f"{len(grid.every)}; {_ADVICE[word.way]}."
        )
    if word.row is not None and not 1 <= word.row <= len(design.rows):
        raise RequestError(f"Lettering: row {word.row} is not in the design; use rows 1 to {len(design.rows)}.")
    low, high = min(row for row, _ in letters), max(row for row, _ in letters)
    if low < 0 or high >= len(design.rows):
        needed = high - low + 1
        cure = "make the piece longer" if needed > len(design.rows) else "place it farther from the end"
        raise RequestError(
            f"Lettering: the word takes {needed} rows and would lie on rows {low + 1} to {high + 1}, but the design "
            f"has rows 1 to {len(design.rows)}; {cure}, or use a shorter word."
        )


def _motif(grid: _Grid, cells: Cells, text: str) -> PlacedMotif | None:
    """The word as a patch of whole rows, anchored on the column at the front."""
    if len(grid.every[0].stitches) > 1:
        return None
    first, last = min(row for row, _ in cells), max(row for row, _ in cells)
    count = len(grid.every)
    home = floor(grid.front + 0.5) % count
    place_of = {column.stitches[0]: index for index, column in enumerate(grid.every)}
    lines = [[" "] * count for _ in range(first, last + 1)]
    for (row, stitch), key in cells.items():
        lines[row - first][(place_of[stitch] - home + (count - 1) // 2) % count] = key
    anchor = Anchor(row=first + (last - first) // 2 + 1, stitch=grid.every[home].stitches[0] + 1)
    return PlacedMotif(name=f"word {text.strip()}", lines=tuple("".join(line) for line in lines), anchors=(anchor,))


def _notes(word: Word, count: int, seen: float) -> tuple[str, ...]:
    """What is not seen of the word from the front."""
    if seen >= WELL_SEEN or word.way == "round":
        return ()
    return (
        f"From the front {100.0 * seen:.0f} % of the beads of these letters are seen, since the rope has {count} "
        f"columns; to see more, {_ADVICE[word.way]}.",
    )
