"""manuscript: a pattern written out as chapters of blocks, before it is known how they will be shown.

The PDF, the text for screen readers and whatever comes later say the same things, because they are all set from one
manuscript. A block is plain text and drawings; no block knows a file format.
"""

from dataclasses import dataclass
from typing import Literal

from braidwright.drawings.prints import Print

ParagraphKind = Literal["plain", "lead", "maker", "note"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Marked:
    """Words with a small mark before them, which shows what the words say.

    Attributes:
        mark: The mark; its description stands for it where it is not seen.
        text: The words.
    """

    mark: Print
    text: str


Cell = str | Marked


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """A heading inside a chapter.

    Attributes:
        text: Its words.
        fresh: Whether it had better begin a new page on paper.
    """

    text: str
    fresh: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Paragraph:
    """Running text.

    Attributes:
        text: The words.
        kind: "lead" opens a chapter, "maker" is the designer's own words in the design's language, "note" is an aside.
    """

    text: str
    kind: ParagraphKind = "plain"


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps:
    """Things to do, or to know, one to an item.

    Attributes:
        items: One sentence or two each.
        numbered: Whether the order matters.
    """

    items: tuple[str, ...]
    numbered: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """One figure of the piece.

    Attributes:
        name: What it is.
        value: The figure, with units.
        rests_on: What it rests on, or "".
    """

    name: str
    value: str
    rests_on: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """Several figures, to be taken in at a glance."""

    facts: tuple[Fact, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """A table.

    Attributes:
        title: What it lists; spoken before it.
        head: Names of the columns.
        rows: The cells of each row.
        widths: Shares of the width, one for each column; 0 for as narrow as it goes.
        figures: Indices of columns that hold numbers.
        titled: Whether the title is printed; a heading just above may say it already.
    """

    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    widths: tuple[float, ...]
    figures: tuple[int, ...] = ()
    titled: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A drawing, with a caption or "".

    Attributes:
        drawing: The drawing.
        caption: Words under it.
        centred: Whether it stands in the middle of the page.
    """

    drawing: Print
    caption: str = ""
    centred: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveList:
    """The moves of one repeat.

    Attributes:
        sentences: One for each move.
        drawings: One for each move, or () when there are none.
    """

    sentences: tuple[str, ...]
    drawings: tuple[Print, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class CordString:
    """What one cord carries.

    Attributes:
        slot: The slot it starts in.
        where: The side of the disk, in words.
        cord: Its colour.
        words: The whole string in words.
        beads: How many single beads.
    """

    slot: int
    where: str
    cord: Cell
    words: str
    beads: int


@dataclass(frozen=True, slots=True, kw_only=True)
class StringList:
    """The strings of all cords, in start order."""

    title: str
    cords: tuple[CordString, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Warned:
    """A caution where it matters.

    Attributes:
        title: What it is about.
        text: What to do.
    """

    title: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RowWords:
    """The rows read aloud, for those who do not see the chart: one line each, equal neighbours together."""

    lines: tuple[str, ...]


Block = Heading | Paragraph | Steps | Facts | Grid | Picture | MoveList | StringList | Warned | RowWords


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """One chapter.

    Attributes:
        key: Short name, unique in the manuscript.
        title: Its heading.
        blocks: What it says.
        hand: "S" or "Z" when it is for readers of one hand only, else "".
    """

    key: str
    title: str
    blocks: tuple[Block, ...]
    hand: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Manuscript:
    """A pattern, written out.

    Attributes:
        title: Title of the piece.
        author: Who designed it, or "".
        subtitle: The braid, in a line.
        language: BCP 47 tag of the designer's own words.
        chapters: The chapters, in the order of print; the first is the cover.
    """

    title: str
    author: str
    subtitle: str
    language: str
    chapters: tuple[Chapter, ...]
