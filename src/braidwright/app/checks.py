"""Checks: everything a maker should know about a design before stringing a bead."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import combinations

from braidwright.app.designs import Opened
from braidwright.app.ports import Predictor
from braidwright.app.sizes import QUICK, materials_of, shape, size
from braidwright.catalogue.shelf import Catalogue
from braidwright.domain.bead import Bead
from braidwright.domain.comfort import Pressing, pressing
from braidwright.domain.cord import Cord
from braidwright.domain.design import Design
from braidwright.domain.errors import CatalogueError
from braidwright.domain.hole_fit import hole_fit
from braidwright.domain.likeness import alike, alike_beads
from braidwright.domain.materials import Materials
from braidwright.domain.pieces import Pieces, pieces_of
from braidwright.domain.size import Size
from braidwright.domain.strings import bead_counts
from braidwright.domain.tray import SYMBOLS


@dataclass(frozen=True, slots=True, kw_only=True)
class Remark:
    """One thing to know.

    Attributes:
        about: What it is about: "file", "bead", "cord", "colour", "comfort", "braid", "size", "tray", "findings".
        sentence: The sentence for the maker.
    """

    about: str
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """What a check found.

    Attributes:
        design: The design.
        pieces: Whether the braid holds together.
        beads: Single beads in the design.
        size: What it measures, or None when a bead or cord is not known.
        faults: What must be mended before it can be braided.
        warnings: What to look at.
        notes: What is good to know.
        pressing: The stitches whose beads would lie against the skin.
    """

    design: Design
    pieces: Pieces
    beads: int
    size: Size | None
    faults: tuple[Remark, ...]
    warnings: tuple[Remark, ...]
    notes: tuple[Remark, ...]
    pressing: tuple[Pressing, ...] = ()

    @property
    def can_be_braided(self) -> bool:
        """Whether nothing must be mended first."""
        return not self.faults


def check(opened: Opened, predictor: Predictor = QUICK) -> Report:
    """Everything there is to tell about a design, by the quick formula or whatever else predicts."""
    design, catalogue = opened.reading.design, opened.catalogue
    pieces = pieces_of(design.braid)
    faults = tuple(_unknown_names(design, catalogue))
    warnings = [
        *_remarks("file", (*catalogue.warnings, *opened.reading.warnings)),
        *_remarks("braid", _falls_apart(pieces)),
        *_remarks("tray", _unused(design)),
        *_remarks("colour", (*_alike_beads(design), *_alike_cords(design))),
    ]
    measured = None
    felt: tuple[Pressing, ...] = ()
    if not faults:
        measured = size(design, catalogue, predictor)
        materials = materials_of(design, catalogue)
        warnings += _remarks("cord", _unsuited(design, materials))
        geometry = shape(design, catalogue, predictor)
        felt = pressing(design, materials.bead, measured.drift_deg, geometry)
        warnings += _remarks("comfort", _on_the_skin(design, felt))
        told = {remark.sentence for remark in warnings}
        warnings += _remarks("size", (sentence for sentence in measured.warnings if sentence not in told))
    return Report(
        design=design,
        pieces=pieces,
        beads=sum(bead_counts(design).values()),
        size=measured,
        faults=faults,
        warnings=tuple(warnings),
        notes=tuple(_remarks("size", () if measured is None else measured.notes)),
        pressing=felt,
    )


def _remarks(about: str, sentences: tuple[str, ...] | Iterator[str]) -> Iterator[Remark]:
    return (Remark(about=about, sentence=sentence) for sentence in sentences)


def _unknown_names(design: Design, catalogue: Catalogue) -> Iterator[Remark]:
    """Beads, cords and end cap that the catalogue does not know."""
    if not isinstance(design.cords.kind, Cord):
        yield from _refused("cord", "Cords", catalogue.cord, design.cords.kind)
    if design.cords.core is not None and design.cords.core.kind is not None:
        yield from _refused("cord", "Cords, core", catalogue.cord, design.cords.core.kind)
    for entry in design.tray.beads:
        if not isinstance(entry.bead, Bead):
            yield from _refused("bead", f"Tray, {entry.key!r}", catalogue.bead, entry.bead)
    if design.findings is not None and design.findings.end_cap is not None:
        yield from _refused("findings", "Findings", catalogue.end_cap, design.findings.end_cap)


def _refused(about: str, where: str, look_up: Callable[[str], object], name: str) -> Iterator[Remark]:
    try:
        look_up(name)
    except CatalogueError as error:
        yield Remark(about=about, sentence=f"{where}: {error}")


def _falls_apart(pieces: Pieces) -> tuple[str, ...]:
    if pieces.is_one:
        return ()
    listed = "; ".join(", ".join(str(slot) for slot in piece) for piece in pieces.pieces)
    seems = "falls apart" if pieces.certain else "seems to fall apart (this is not proved)"
    return (
        f"The braid {seems} into {len(pieces.pieces)} separate ones, of the cords that start in slots {listed}; "
        f"add moves that bring them over each other.",
    )


def _unused(design: Design) -> Iterator[str]:
    """Kinds of bead that no row uses, and more kinds than there are symbols."""
    held = bead_counts(design)
    drops = design.drop_counts()
    for entry in design.tray.entries:
        if not drops.get(entry.key) and not held.get(entry.key):
            yield f"Tray: {_called(design, entry.key)} is in no row; leave it out, or paint some stitches with it."
    if len(design.tray.entries) > len(SYMBOLS):
        yield (
            f"Tray: it has {len(design.tray.entries)} kinds of bead and there are {len(SYMBOLS)} symbols, so some "
            f"share one; use fewer kinds in one design."
        )


def _called(design: Design, key: str) -> str:
    name = design.tray.name_of(key)
    return repr(key) if name == key else f"{name} ({key!r})"


def _alike_beads(design: Design) -> Iterator[str]:
    """Beads of one kind whose colours, and finishes, are too alike."""
    held = bead_counts(design)
    for pair in alike_beads(entry for entry in design.tray.beads if held.get(entry.key)):
        yield pair.sentence(f"Tray: {_called(design, pair.one)} and {_called(design, pair.other)}")


def _alike_cords(design: Design) -> Iterator[str]:
    chosen: dict[str, str] = {}
    for number, colour in enumerate(design.cords.colours):
        slot = design.braid.start[number]
        chosen.setdefault(colour.lower(), design.cords.colour_name(number) or f"the cord in slot {slot}")
    for (one, first), (other, second) in combinations(chosen.items(), 2):
        pair = alike((first, one), (second, other))
        if pair is not None:
            yield pair.sentence(f"Cords: {first} and {second}")


def _unsuited(design: Design, materials: Materials) -> Iterator[str]:
    """Beads whose hole does not suit the cord, each kind once."""
    held = bead_counts(design)
    for bead in dict.fromkeys(bead for key, bead in materials.beads if held.get(key)):
        fit = hole_fit(bead, materials.cord)
        if not fit.suits:
            yield fit.sentence


def _on_the_skin(design: Design, found: tuple[Pressing, ...]) -> tuple[str, ...]:
    """Beads that stand out in the comfort arc."""
    if not found:
        return ()
    first = found[0].at
    kinds = ", ".join(design.tray.name_of(key) for key in dict.fromkeys(each.key for each in found))
    many = "1 stitch lies" if len(found) == 1 else f"{len(found)} stitches lie"
    return (
        f"{many} against the skin with beads that stand out ({kinds}), the first in row {first.row}, "
        f"stitch {first.stitch}; use smooth beads within {design.front_line.arc_deg / 2:g} degrees of the back.",
    )
