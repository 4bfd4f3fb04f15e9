"""Publish: from a design and a catalogue to every file of a pattern pack. Pure: nothing is read or written."""

from collections.abc import Callable
from dataclasses import dataclass
from hashlib import sha256
from typing import Literal, Protocol, get_args

from braidwright import __version__
from braidwright.app.pipeline import subject_of, work_out
from braidwright.app.ports import Predictor, Shelf, Watch
from braidwright.app.predictors import predictor_for
from braidwright.app.sizes import QUICK, worn_by_whom
from braidwright.domain.braid import Braid
from braidwright.domain.design import Design
from braidwright.domain.document import write_design
from braidwright.domain.errors import RequestError
from braidwright.domain.mirror import mirror_everything, same_picture
from braidwright.drawings.format import File
from braidwright.drawings.formats import FORMATS
from braidwright.drawings.pattern import PAPERS, HandKind, HandPart, Page, Paper, Pattern

OtherHand = Literal["mirror", "same-picture", "none"]
Progress = Callable[[str, float], None]
MOST_STITCHES = 100_000  # some 58 m of beaded rope of eight cords; a pattern of more fills a bookcase
README = "README.txt"
FIRST = ("pdf", "txt")  # what a reader begins with


class Stock(Shelf, Protocol):
    """The catalogue, as far as publishing needs it."""

    def braid(self, name: str) -> Braid:
        """The braid of this name, in the hand of its file. Raises CatalogueError when there is none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """How a pack is wanted.

    Attributes:
        paper: "a4" or "letter".
        large_print: Whether letters are large.
        other_hand: What readers of the other hand get: the "mirror" image, the "same-picture", or "none".
        spare_percent: Extra beads to buy; None for what the design says, or the usual.
        pieces: How many pieces the supplies are for.
        formats: Names of formats; () for all.
        solve: Whether sizes and pictures rest on the tightened braid, where that can be done yet.

    Raises:
        RequestError: A wish that is not known.
    """

    paper: Paper = "a4"
    large_print: bool = False
    other_hand: OtherHand = "mirror"
    spare_percent: float | None = None
    pieces: int = 1
    formats: tuple[str, ...] = ()
    solve: bool = False

    def __post_init__(self) -> None:
        """Refuse what is not known."""
        _check("paper", self.paper, tuple(PAPERS))
        _check("other hand", self.other_hand, get_args(OtherHand))
        for name in self.formats:
            _check("format", name, format_names())


@dataclass(frozen=True, slots=True, kw_only=True)
class Pack:
    """A pattern pack, not yet written anywhere.

    Attributes:
        files: Pairs (relative path with "/", bytes).
        warnings: Sentences for the maker.
    """

    files: tuple[File, ...]
    warnings: tuple[str, ...]


def format_names() -> tuple[str, ...]:
    """The formats a pack can hold."""
    return tuple(FORMATS)


def _check(what: str, value: str, known: tuple[str, ...]) -> None:
    if value not in known:
        raise RequestError(f"The {what} {value!r} is not known; use one of {', '.join(known)}.")


def publish(
    design: Design,
    catalogue: Stock,
    wishes: Wishes | None = None,
    *,
    progress: Progress | None = None,
    watch: Watch | None = None,
) -> Pack:
    """Everything published for one design.

    Args:
        design: The design.
        catalogue: Where its beads, cords, end caps and braid are looked up.
        wishes: How it is wanted.
        progress: Told what is being done and the share that is done, 0 to 1.
        watch: Told how far each solve is, 0 to 1; answers whether to go on. What was stopped stays estimated.

    Raises:
        CatalogueError: A name the catalogue does not know.
        RequestError: A wish that cannot be met.
    """
    wanted = wishes or Wishes()
    _check_length(design)
    tell = progress or _silent
    tell("Measuring the design", 0.0)
    pattern, warnings = gather(design, catalogue, wanted, predictor_for(solve=wanted.solve, watch=watch))
    names = wanted.formats or format_names()
    whole = sum(FORMATS[name].weight for name in names)
    files: list[File] = []
    done = 0.0
    for name in names:
        made = FORMATS[name]
        tell(made.title, 0.05 + 0.95 * done / whole)
        written = made.write(pattern)
        files += written.files
        warnings += written.warnings
        done += made.weight
    files.append((README, readme(pattern, names, files).encode("utf-8", "replace")))
    tell("Done", 1.0)
    return Pack(files=tuple(files), warnings=tuple(dict.fromkeys(warnings)))


def _check_length(design: Design) -> None:
    stitches = len(design.rows) * design.width
    if stitches > MOST_STITCHES:
        raise RequestError(
            f"A pattern of {stitches} stitches is too long for one pattern; make it shorter than {MOST_STITCHES} "
            f"stitches, or split it into several designs."
        )


def _silent(doing: str, share: float) -> None:
    """Nobody asked to be told."""


def gather(
    design: Design, catalogue: Stock, wishes: Wishes, predictor: Predictor = QUICK
) -> tuple[Pattern, tuple[str, ...]]:
    """The pattern of a design, and what the maker should know about it."""
    own = work_out(design, catalogue, predictor, pieces=wishes.pieces, spare_percent=wishes.spare_percent)
    document = write_design(design)
    others, warnings = _other_hand(design, wishes.other_hand, own.size.drift_deg)
    parts = [HandPart(subject=subject_of(own), kind="own", notes=_notes(design, "own"))]
    parts += [
        HandPart(subject=subject_of(work_out(other, catalogue, predictor)), kind=kind, notes=_notes(other, kind))
        for other, kind in others
    ]
    pattern = Pattern(
        design=design,
        document=document,
        hands=tuple(parts),
        size=own.size,
        supplies=own.supplies,
        cord=own.materials.cord,
        end_cap=own.end_cap,
        worn_by=worn_by_whom(design, own.size, own.end_cap),
        page=Page(paper=wishes.paper, large_print=wishes.large_print),
        edition=sha256(document.encode("utf-8", "surrogatepass")).hexdigest()[:8],
        version=__version__,
    )
    return pattern, (*warnings, *own.size.warnings)


def _other_hand(
    design: Design, wish: OtherHand, drift_deg: float
) -> tuple[tuple[tuple[Design, HandKind], ...], tuple[str, ...]]:
    """The design in the other hand, as wished; the mirror image where the same picture cannot be had."""
    if wish == "none":
        return (), ()
    mirror = mirror_everything(design)
    if wish == "mirror":
        return ((mirror, "mirror"),), ()
    try:
        return ((same_picture(design, drift_deg), "same-picture"),), ()
    except RequestError as reason:
        return ((mirror, "mirror"),), (f"{reason} The pack holds the mirror image.",)


def _notes(design: Design, kind: HandKind) -> str:
    """What the braid file says about working. The catalogue's files speak of both hands, a maker's own of its own."""
    return design.braid.notes if design.braid_name is not None or kind == "own" else ""


# --- what is what ----------------------------------------------------------------------------------------


def readme(pattern: Pattern, names: tuple[str, ...], files: list[File]) -> str:
    """The file that says what is what."""
    design = pattern.design
    title = " ".join(design.title.split())
    by = f" by {' '.join(design.author.split())}" if design.author else ""
    lines = [
        f"{title}{by}",
        f"A pattern pack, edition {pattern.edition}.",
        "",
        "Begin with pattern.pdf, or with pattern.txt when you use a screen reader.",
        "",
    ]
    for name in sorted(names, key=lambda each: (each not in FIRST, each)):
        own = [path for path, _ in files if _belongs(path, name)]
        lines += [*_listed(own), f"    {FORMATS[name].note}", ""] if own else []
    lines += [
        "pack.sha256",
        "    The list of these files, with a sum for each, so that a later pack can replace them.",
        "",
    ]
    hands = ", ".join(f"hand-{part.hand.lower()} is {_HANDS[part.kind]}" for part in pattern.hands)
    lines.append(f"Hands: {hands}.")
    if design.licence:
        lines += ["", f"Licence: {' '.join(design.licence.split())}"]
    return "\n".join(lines) + "\n"


_HANDS = {
    "own": "the rope as pictured",
    "mirror": "its mirror image",
    "same-picture": "the same picture worked the other way",
}


def _belongs(path: str, name: str) -> bool:
    return path.endswith("." + name)


def _listed(paths: list[str]) -> list[str]:
    """Paths, one to a line; many of one folder as a pattern."""
    if len(paths) <= 4:
        return paths
    folders = dict.fromkeys(path.rpartition("/")[0] for path in paths)
    suffix = paths[0].rpartition(".")[2]
    return [f"{folder}/*.{suffix}" for folder in folders]
