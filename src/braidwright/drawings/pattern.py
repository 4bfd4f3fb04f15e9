"""pattern: all that is known about a design when it is published, gathered in one value."""

from dataclasses import dataclass
from typing import Literal

from braidwright.domain.cord import Cord, EndCap
from braidwright.domain.design import Design
from braidwright.domain.fit import WornBy
from braidwright.domain.size import Size
from braidwright.domain.supplies import Supplies
from braidwright.drawings.sheet import Look, Subject

Paper = Literal["a4", "letter"]
HandKind = Literal["own", "mirror", "same-picture"]

PAPERS: dict[str, tuple[float, float]] = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
ORDINARY_PT, LARGE_PT = 11.0, 17.0  # large print is 16 pt and more (common practice of print for low vision)


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """The paper and the size of the print.

    Attributes:
        paper: "a4" or "letter".
        large_print: Whether for readers who want large letters.
    """

    paper: Paper = "a4"
    large_print: bool = False

    @property
    def width_mm(self) -> float:
        """Width of the sheet."""
        return PAPERS[self.paper][0]

    @property
    def height_mm(self) -> float:
        """Height of the sheet."""
        return PAPERS[self.paper][1]

    @property
    def margin_mm(self) -> float:
        """Margin left and right."""
        return 17.0 if self.large_print else 21.0

    @property
    def text_pt(self) -> float:
        """Size of running text."""
        return LARGE_PT if self.large_print else ORDINARY_PT

    def look(self, *, share: float = 1.0, height_share: float = 1.0) -> Look:
        """The room for a drawing: a share of the width, and of a page's height."""
        return Look(
            width_mm=share * (self.width_mm - 2.0 * self.margin_mm),
            height_mm=height_share * (self.height_mm - 85.0),
            text_scale=self.text_pt / ORDINARY_PT * 1.2,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class HandPart:
    """The design as a reader of one hand works it.

    Attributes:
        subject: The design in that hand, with what is known about it.
        kind: "own" for the hand of the design; "mirror" or "same-picture" for the other one.
        notes: What its braid file says about working it in this hand, or "".
    """

    subject: Subject
    kind: HandKind
    notes: str = ""

    @property
    def design(self) -> Design:
        """The design in that hand."""
        return self.subject.design

    @property
    def hand(self) -> str:
        """S or Z."""
        return self.subject.design.hand


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """Everything a published pattern is made from.

    Attributes:
        design: The design as its maker saved it.
        document: The text of its design file.
        hands: The hands that are published, the design's own first.
        size: What it measures.
        supplies: What to buy and cut.
        cord: Its cord.
        end_cap: Its end cap, or None.
        worn_by: Whom it fits, or None.
        page: Paper and print.
        edition: A short mark: two prints with the same mark are the same pattern.
        version: Version of this program.
    """

    design: Design
    document: str
    hands: tuple[HandPart, ...]
    size: Size
    supplies: Supplies
    cord: Cord
    end_cap: EndCap | None
    worn_by: WornBy | None
    page: Page
    edition: str
    version: str

    @property
    def own(self) -> HandPart:
        """The hand of the design."""
        return self.hands[0]

    @property
    def is_beaded(self) -> bool:
        """Whether any stitch drops a bead."""
        return self.own.subject.is_beaded
