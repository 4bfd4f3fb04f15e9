"""Starting: a new design from a few wishes, complete and ready to be changed."""

from dataclasses import dataclass, replace
from pathlib import Path

from braidwright.app.braids import find_braid
from braidwright.app.fitting import LengthWish, fit_for
from braidwright.catalogue.shelf import Catalogue
from braidwright.domain.bead import Bead
from braidwright.domain.braid import Braid, Hand, in_hand
from braidwright.domain.braid_table import braid_to_table
from braidwright.domain.cord import Cord
from braidwright.domain.design import CordChoice, Design
from braidwright.domain.design_reader import as_json
from braidwright.domain.errors import RequestError
from braidwright.domain.fit import DEFAULT_EASE, WRISTS
from braidwright.domain.hole_fit import LEAST_SHARE, MOST_SHARE
from braidwright.domain.resize import MOST_ROWS
from braidwright.domain.tray import BARE, Tray, TrayBead

DEFAULT_BRAID = "kongoh-8"
DEFAULT_BEAD = "round-8/0"
DEFAULT_CORD = "tex-210"
DEFAULT_COLOUR = "#1b6e5a"
DEFAULT_CORD_COLOUR = "#4a3b32"
NAME_OF_THE_FIRST = "Ground"
ROWS_UNPREDICTED = 72  # about a bracelet of 8/0 beads in kongoh gumi: something to begin with


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """What a maker may say about a new design; None leaves it to the program.

    Attributes:
        title: Its name.
        braid: A catalogue name, or the path of a braid file.
        hand: S or Z.
        bead: Catalogue name of the bead; "none" for a braid of cord alone.
        colour: Colour of the beads.
        cord: Catalogue name of the cord; None takes the one that suits the hole of the bead.
        cord_colour: Colour of the cords.
        rows: Rows.
        length_mm: Length of the rows.
        wrist_mm: Wrist to fit.
        ease: How loosely, a word of the trade or a length.
    """

    title: str
    braid: str = DEFAULT_BRAID
    hand: Hand | None = None
    bead: str = DEFAULT_BEAD
    colour: str = DEFAULT_COLOUR
    cord: str | None = None
    cord_colour: str = DEFAULT_CORD_COLOUR
    rows: int | None = None
    length_mm: float | None = None
    wrist_mm: float | None = None
    ease: str = DEFAULT_EASE


@dataclass(frozen=True, slots=True, kw_only=True)
class Started:
    """A new design, and what to tell about it.

    Attributes:
        design: The design.
        notes: Sentences: what was chosen for the maker.
        warnings: Sentences: what to look at.
    """

    design: Design
    notes: tuple[str, ...]
    warnings: tuple[str, ...]


def new_design(wishes: Wishes, catalogue: Catalogue) -> Started:
    """A design of one kind of bead at every stitch (or of cord alone), of the size wished.

    Raises:
        BraidwrightError: A name that is not known, more than one size, or a size that cannot be reckoned.
    """
    _refuse_two_sizes(wishes)
    found = find_braid(wishes.braid, catalogue)
    braid = found.braid if wishes.hand is None else in_hand(found.braid, wishes.hand)
    bead = None if wishes.bead.lower() == "none" else catalogue.bead(wishes.bead)
    cord = _cord(wishes, bead, catalogue)
    draft = Design(
        title=wishes.title,
        braid=braid,
        braid_name=found.name,
        braid_text=None if found.name else as_json(braid_to_table(braid)),
        cords=CordChoice(kind=cord.name, colours=(wishes.cord_colour,)),
        tray=_tray(wishes, bead),
        rows=(_row(braid, bead),) * (wishes.rows or ROWS_UNPREDICTED),
    )
    rows, notes = _rows(wishes, draft, catalogue)
    design = replace(draft, rows=(_row(braid, bead),) * rows)
    return Started(design=design, notes=notes, warnings=found.warnings)


def title_from(file: str) -> str:
    """A title for a design that is given none: its file's name as words."""
    words = " ".join(Path(file).stem.replace("_", " ").replace("-", " ").split())
    plain = "".join(sign for sign in words if sign.isprintable())[:100].strip()
    return plain[:1].upper() + plain[1:] if plain else "New design"


def _refuse_two_sizes(wishes: Wishes) -> None:
    given = [
        name
        for name, value in (("rows", wishes.rows), ("length", wishes.length_mm), ("wrist", wishes.wrist_mm))
        if value is not None
    ]
    if len(given) > 1:
        raise RequestError(f"Both {given[0]} and {given[1]} say how long the piece is to be; give one of them.")
    if wishes.rows is not None and not 1 <= wishes.rows <= MOST_ROWS:
        raise RequestError(f"Rows: {wishes.rows} is not a length; give 1 to {MOST_ROWS}.")


def _cord(wishes: Wishes, bead: Bead | None, catalogue: Catalogue) -> Cord:
    if wishes.cord is not None:
        return catalogue.cord(wishes.cord)
    return catalogue.cord(DEFAULT_CORD) if bead is None else suited_cord(bead, catalogue.cords)


def suited_cord(bead: Bead, cords: tuple[Cord, ...]) -> Cord:
    """Of the cords sold by Tex, the one that fills the hole of a bead best: nearest to half to two thirds of it."""
    wanted = (LEAST_SHARE + MOST_SHARE) / 2.0 * bead.hole_mm
    by_tex = [cord for cord in cords if cord.tex is not None] or list(cords)
    return min(by_tex, key=lambda cord: abs(cord.diameter_mm - wanted))


def _tray(wishes: Wishes, bead: Bead | None) -> Tray:
    if bead is None:
        return Tray(entries=())
    return Tray(entries=(TrayBead(key="a", bead=bead.name, colour=wishes.colour, name=NAME_OF_THE_FIRST),))


def _row(braid: Braid, bead: Bead | None) -> str:
    return ("a" if bead else BARE) * braid.stitches_per_row


def _rows(wishes: Wishes, draft: Design, catalogue: Catalogue) -> tuple[int, tuple[str, ...]]:
    if wishes.rows is not None:
        return wishes.rows, ()
    wrist = WRISTS["average"] if wishes.length_mm is None and wishes.wrist_mm is None else wishes.wrist_mm
    wish = LengthWish(length_mm=wishes.length_mm, wrist_mm=wrist, ease=wishes.ease)
    asked = wishes.length_mm is not None or wishes.wrist_mm is not None
    try:
        fit = fit_for(draft, catalogue, wish)
    except RequestError:
        if asked:
            raise
        return ROWS_UNPREDICTED, (
            f"The size of this braid is not predicted yet, so {ROWS_UNPREDICTED} rows were taken to begin with.",
        )
    chosen = () if asked else ("No size was asked for, so it fits an average wrist.",)
    return fit.rows, (*chosen, *fit.notes)
