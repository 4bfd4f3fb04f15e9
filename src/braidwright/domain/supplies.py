"""supplies: what to buy and what to cut, for any number of pieces. Counts are exact; buying is rounded up."""

from collections import Counter
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from braidwright.domain.bead import Bead
from braidwright.domain.cord import EndCap
from braidwright.domain.design import Design
from braidwright.domain.errors import RequestError
from braidwright.domain.materials import Materials, mean_bead, row_kinds
from braidwright.domain.size import Size
from braidwright.domain.strings import bead_counts
from braidwright.domain.swatches import counted, told_by
from braidwright.domain.tray import TrayBead
from braidwright.domain.units import print_length

SEED_SPARE_PERCENT = 5.0  # trade-facts 5 and 8: kits hold 5 to 10 % more; common practice
ACCENT_SPARE_PERCENT = 10.0  # chips and culls, trade-facts 5, from memory
MOST_SPARE_PERCENT = 500.0
MOST_PIECES = 10_000

START_KNOT_MM = 30.0  # the knot that joins the cords at the start; common practice, no source
WORKING_END_MM = 100.0  # from the middle of the disk over the rim, and a hold on the bobbin; common practice, no source
SAFETY = 1.10  # the formula may say 6 % too little cord (physics.md, section 1), and hands differ
CUT_STEP_MM = 10.0

BARE_RULE = 2.5  # [IT][FR8]: 20 cm of unbeaded braid from 50 cm; check 19
BEADED_RULE = 3.0  # [NAT]: 17 in of beaded braid from 51 in, knots included; check 18

CORE_EXTRA_MM = 6 * 25.4  # [CORE1]: at least 6 in longer than the finished braid
CORE_FROM_BEAD_MM = 3.7  # [CORE1]: 6/0 and larger; the smallest 6/0 is 3.7 mm across [BM]
CORE_FROM_CORDS = 12  # [CORE1]: beaded 12- and 16-cord braids


@dataclass(frozen=True, slots=True, kw_only=True)
class BeadNeed:
    """One kind of bead to buy.

    Attributes:
        key: Its key in the tray.
        name: What the pattern calls it.
        bead: Catalogue name of the bead.
        colour: "#rrggbb".
        count: Beads braided in, for all pieces: exact.
        grams: Their weight.
        spare_percent: How many more to buy.
        buy_count: Beads to buy, rounded up.
        buy_grams: Their weight.
        cost: Cost of those, or None without a price.
    """

    key: str
    name: str
    bead: str
    colour: str
    count: int
    grams: float
    spare_percent: float
    buy_count: int
    buy_grams: float
    cost: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class CordNeed:
    """One colour of cord to cut.

    Attributes:
        kind: Catalogue name of the cord.
        name: What the pattern calls the colour, or "".
        colour: "#rrggbb".
        count: Cords, for all pieces.
        cut_mm: Length to cut for each, or None when nothing tells.
        total_mm: Length for all.
        doubled_count: Lengths to cut when pairs are folded in half at the start.
        doubled_mm: Length of each of those.
        single_count: Cords left over for which there is no partner of the colour, cut singly.
        cost: Cost of the total, or None without a price.
    """

    kind: str
    name: str
    colour: str
    count: int
    cut_mm: float | None
    total_mm: float | None
    doubled_count: int
    doubled_mm: float | None
    single_count: int
    cost: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class FindingNeed:
    """One kind of finding.

    Attributes:
        name: What a shop would call it.
        what: "end cap" or "clasp".
        count: For all pieces.
    """

    name: str
    what: str
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Core:
    """Core cord to braid around.

    Attributes:
        why: The sentence that says why one is advised, or which one the design has.
        count: For all pieces.
        cut_mm: Least length of each, or None when the length of the braid is not known.
        kind: Catalogue name of the core that the design has, or None.
        thick_mm: Its thickness, or None while none is chosen.
    """

    why: str
    count: int
    cut_mm: float | None
    kind: str | None = None
    thick_mm: float | None = None

    @property
    def thickness(self) -> str | None:
        """Its thickness in words, or None while none is chosen."""
        return None if self.thick_mm is None else f"{self.thick_mm:g} mm thick"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """What the supplies cost, in whatever money the prices are in.

    Attributes:
        beads: Cost of the beads that have a price.
        cord: Cost of the cord, or None without a price or length.
        findings: Cost of the findings, or None without a price.
        total: Sum of what is known.
        missing: What has no price.
    """

    beads: float | None
    cord: float | None
    findings: float | None
    total: float
    missing: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Supplies:
    """Everything to buy and cut for a number of pieces.

    Attributes:
        pieces: How many pieces.
        beads: The beads, in tray order; kinds that are not used are left out.
        cord: The cords, one entry for each colour, in start order.
        findings: End caps and clasps.
        core: Core cord, when the design has one or one is advised.
        cost: Cost, or None when no price is given at all.
        cut_basis: What the cut lengths rest on, in words.
        notes: What was assumed.
    """

    pieces: int
    beads: tuple[BeadNeed, ...]
    cord: tuple[CordNeed, ...]
    findings: tuple[FindingNeed, ...]
    core: Core | None
    cost: Cost | None
    cut_basis: str
    notes: tuple[str, ...] = ()


def supplies_of(
    design: Design,
    materials: Materials,
    size: Size,
    *,
    cap: EndCap | None = None,
    pieces: int = 1,
    spare_percent: float | None = None,
) -> Supplies:
    """What to buy and cut for a design.

    Args:
        design: The design.
        materials: Its cord and beads.
        size: Its size.
        cap: The end cap for both ends, or None.
        pieces: How many pieces.
        spare_percent: Extra beads to buy; None for what the design says, or the usual 5 % (accents 10 %).

    Raises:
        RequestError: A number of pieces or a spare that makes no sense.
    """
    check_pieces(pieces)
    spare = check_spare(design.spare_percent if spare_percent is None else spare_percent)
    beads = _beads(design, materials, pieces, spare)
    cut, basis = cut_length(design, size)
    cord = _cords(design, pieces, cut)
    findings = _findings(design, cap, pieces)
    notes = () if cut is None else (
        f"Each cord is long enough for the braid, {print_length(START_KNOT_MM)} for the start knot and "
        f"{print_length(WORKING_END_MM)} to hold at the end, rounded up.",
    )  # fmt: skip
    return Supplies(
        pieces=pieces,
        beads=beads,
        cord=cord,
        findings=findings,
        core=core_need(design, materials, size, pieces),
        cost=_cost(design, beads, cord, pieces),
        cut_basis=basis,
        notes=notes,
    )


def check_pieces(pieces: int) -> int:
    """The same number of pieces, when it is one.

    Raises:
        RequestError: Less than one, or more than 10,000.
    """
    if not 1 <= pieces <= MOST_PIECES:
        raise RequestError(f"Supplies for {pieces} pieces cannot be listed; give 1 to {MOST_PIECES} pieces.")
    return pieces


def check_spare(percent: float | None) -> float | None:
    """The same spare, when it is one.

    Raises:
        RequestError: Below zero, above 500 or not a number.
    """
    if percent is not None and not 0.0 <= percent <= MOST_SPARE_PERCENT:
        raise RequestError(f"A spare of {percent:g} % cannot be bought; give 0 to {MOST_SPARE_PERCENT:g} %.")
    return percent


def _beads(design: Design, materials: Materials, pieces: int, spare: float | None) -> tuple[BeadNeed, ...]:
    counts = bead_counts(design)
    return tuple(
        _bead_need(design, entry, materials.bead(entry.key), counts[entry.key] * pieces, spare)
        for entry in design.tray.beads
        if counts[entry.key]
    )


def _bead_need(design: Design, entry: TrayBead, bead: Bead, count: int, spare: float | None) -> BeadNeed:
    usual = ACCENT_SPARE_PERCENT if bead.stands_out else SEED_SPARE_PERCENT
    percent = usual if spare is None else spare
    buy = ceil(count * (1 + Fraction(percent) / 100))  # exact: 5 % of 340 is 17, and no rounding adds an 18th
    return BeadNeed(
        key=entry.key,
        name=design.tray.name_of(entry.key),
        bead=entry.bead_name,
        colour=entry.colour,
        count=count,
        grams=count * bead.grams,
        spare_percent=percent,
        buy_count=buy,
        buy_grams=buy * bead.grams,
        cost=None if entry.price is None else entry.price * buy * bead.grams,
    )


def cut_length(design: Design, size: Size) -> tuple[float | None, str]:
    """The length to cut for one cord, and what it rests on; None when nothing tells.

    Never shorter than the take-up needs. Without a take-up the trade's multiples of the finished length serve.
    """
    leads = size.lead_in_mm + size.lead_out_mm
    if size.cord_used_mm is not None:
        words = "the cord used by your swatch" if _is_measured(design) else "the predicted take-up"
        return _rounded_up(size.cord_used_mm * _safety(design, size) + START_KNOT_MM + WORKING_END_MM), f"From {words}."
    if size.take_up is not None and size.beaded_mm is not None and size.beaded_mm == size.length_mm:
        needed = size.beaded_mm * size.take_up * _safety(design, size) + START_KNOT_MM + WORKING_END_MM
        return _rounded_up(needed + leads * BARE_RULE), (
            f"From the take-up of the rows; the bare ends by the trade's rule of thumb, "
            f"{BARE_RULE:g} times their length."
        )
    if size.length_mm is None:
        return None, (
            "The cord lengths cannot be told yet, because neither length nor take-up is predicted for this design; "
            "braid and measure a swatch."
        )
    plain = row_kinds(design).plain
    needed = size.length_mm * (BARE_RULE if plain else BEADED_RULE) + leads * BARE_RULE
    known = (
        (size.take_up or 0.0) * (size.beaded_mm or 0.0) * SAFETY + START_KNOT_MM + WORKING_END_MM + leads * BARE_RULE
    )
    rule = f"{BARE_RULE:g} times the bare braid" if plain else (
        f"{BEADED_RULE:g} times the beaded and {BARE_RULE:g} times the bare braid"
    )  # fmt: skip
    return _rounded_up(max(needed, known)), f"From the trade's rule of thumb, {rule}, knots included: a rough figure."


def _is_measured(design: Design) -> bool:
    told = told_by(counted(design)[0])
    return told.take_up is not None or told.used_mm is not None


def _safety(design: Design, size: Size) -> float:
    """How much more to cut than is needed: the usual, or twice the error of a take-up that was measured roughly."""
    if size.take_up is None or size.take_up_error is None or not _is_measured(design):
        return SAFETY
    return max(SAFETY, 1.0 + 2.0 * size.take_up_error / size.take_up)


def _rounded_up(mm: float) -> float:
    return ceil(round(mm / CUT_STEP_MM, 9)) * CUT_STEP_MM


def _cords(design: Design, pieces: int, cut: float | None) -> tuple[CordNeed, ...]:
    chosen = [(design.cords.colour(n), design.cords.colour_name(n)) for n in range(design.braid.cord_count)]
    return tuple(
        _cord_need(design, colour, name, (per_piece, pieces), cut)
        for (colour, name), per_piece in Counter(chosen).items()
    )


def _cord_need(design: Design, colour: str, name: str, how_many: tuple[int, int], cut: float | None) -> CordNeed:
    per_piece, pieces = how_many
    total = None if cut is None else cut * per_piece * pieces
    price = design.cords.price
    return CordNeed(
        kind=design.cords.kind_name,
        name=name,
        colour=colour,
        count=per_piece * pieces,
        cut_mm=cut,
        total_mm=total,
        doubled_count=per_piece // 2 * pieces,
        doubled_mm=None if cut is None else 2.0 * cut,
        single_count=per_piece % 2 * pieces,
        cost=None if price is None or total is None else price * total / 1000.0,
    )


def _findings(design: Design, cap: EndCap | None, pieces: int) -> tuple[FindingNeed, ...]:
    needs = []
    if cap is not None:
        needs.append(FindingNeed(name=cap.english, what="end cap", count=2 * pieces))
    clasp = design.findings.clasp if design.findings is not None else None
    needs.append(FindingNeed(name=clasp or "clasp", what="clasp", count=pieces))
    return tuple(needs)


def core_need(design: Design, materials: Materials, size: Size, pieces: int = 1) -> Core | None:
    """The core of the design; else one that is advised: for wide beaded tubes, and for 6/0 beads and larger.

    Source for when, and for how much longer than the finished braid it is cut: [CORE1].
    """
    chosen, mean = design.cords.core, mean_bead(design, materials)
    cords = design.braid.cord_count
    if chosen is not None:
        which = f"{chosen.kind}, " if chosen.kind is not None else ""
        why = f"The rope is braided around a core cord: {which}{materials.core_mm:g} mm thick."
    elif mean is not None and cords >= CORE_FROM_CORDS:
        why = f"A beaded braid of {cords} cords is a hollow tube that flattens: braid it around a core cord."
    elif mean is not None and mean.diameter_mm >= CORE_FROM_BEAD_MM:
        why = f"Beads of {mean.diameter_mm:.1f} mm leave a hollow: a core cord keeps the rope round."
    else:
        return None
    finished = None if size.length_mm is None else size.length_mm + size.lead_in_mm + size.lead_out_mm
    return Core(
        why=why,
        count=pieces,
        cut_mm=None if finished is None else _rounded_up(finished + CORE_EXTRA_MM),
        kind=None if chosen is None else chosen.kind,
        thick_mm=None if chosen is None else materials.core_mm,
    )


def _cost(design: Design, beads: tuple[BeadNeed, ...], cord: tuple[CordNeed, ...], pieces: int) -> Cost | None:
    priced = [bead.cost for bead in beads if bead.cost is not None]
    cords = [need.cost for need in cord if need.cost is not None]
    each = design.findings.price if design.findings is not None else None
    found = Cost(
        beads=sum(priced) if priced else None,
        cord=sum(cords) if cords else None,
        findings=None if each is None else each * pieces,
        total=0.0,
        missing=(
            *(bead.name for bead in beads if bead.cost is None),
            *(("cord",) if not cords else ()),
            *(("core cord",) if design.cords.core is not None else ()),
            *(("findings",) if each is None else ()),
        ),
    )
    known = [part for part in (found.beads, found.cord, found.findings) if part is not None]
    return replace(found, total=sum(known)) if known else None
