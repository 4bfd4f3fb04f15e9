"""Design: braid, cords, tray and drops as one frozen value; edits (paint, resize, mirror, motif) return a new one."""

from collections import Counter
from dataclasses import dataclass, replace

from braidwright.domain.braid import Braid, Hand
from braidwright.domain.cord import Cord
from braidwright.domain.errors import DesignError
from braidwright.domain.swatch import Swatch
from braidwright.domain.tray import BARE, Extra, Tray
from braidwright.domain.twist import Twist, check_twist

DEFAULT_LEAD_MM = 15.0
DEFAULT_COMFORT_ARC_DEG = 120.0
MOST_STITCHES = 4_000_000
LEAST_CORE_MM, MOST_CORE_MM = 0.1, 30.0  # a rope hangs through the hole of the disk, 2 to 4 cm wide [IT][PEN]


@dataclass(frozen=True, slots=True, kw_only=True)
class CoreCord:
    """The cord along the axis, round which a wide tube is braided.

    Attributes:
        kind: Catalogue name of a cord, or None with a thickness.
        mm: Thickness, mm, or None with a name.
        extra: Fields of the file this program does not know, kept.

    Raises:
        DesignError: Both, neither, or a thickness that no core has.
    """

    kind: str | None = None
    mm: float | None = None
    extra: Extra = ()

    def __post_init__(self) -> None:
        """Refuse an impossible core."""
        if (self.kind is None) == (self.mm is None):
            raise DesignError("Cords, core: give the name of a cord or a thickness (mm), one of the two.")
        if self.mm is not None and not LEAST_CORE_MM <= self.mm <= MOST_CORE_MM:
            raise DesignError(
                f"Cords, core: {self.mm:g} mm is no core for a rope that hangs through the hole of a disk; "
                f"give {LEAST_CORE_MM:g} to {MOST_CORE_MM:g} mm, or leave core out."
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class CordChoice:
    """The cords of a design.

    Attributes:
        kind: Catalogue name, or the cord itself written into the design.
        colours: One "#rrggbb" for all cords, or one for each start slot in the order of `Braid.start`.
        names: What the pattern calls the colours, same length as colours, or () to call them by number.
        price: Price of one metre, or None.
        core: The cord along the axis, or None to braid without one.
        kind_text: A cord written into the design, as JSON text, so that it is written back as it was read.
        extra: Fields of the file this program does not know, kept.
    """

    kind: str | Cord
    colours: tuple[str, ...]
    names: tuple[str, ...] = ()
    price: float | None = None
    core: CoreCord | None = None
    kind_text: str | None = None
    extra: Extra = ()

    @property
    def core_mm(self) -> float:
        """The thickness stated for the core, mm; 0 without one. That of a core by name: see `Materials.core_mm`."""
        return 0.0 if self.core is None or self.core.mm is None else float(self.core.mm)

    @property
    def kind_name(self) -> str:
        """The catalogue name of the cord, or the name it carries in the design."""
        return self.kind if isinstance(self.kind, str) else self.kind.name

    def colour(self, cord: int) -> str:
        """The colour of the cord that starts in place `cord`."""
        return self.colours[0] if len(self.colours) == 1 else self.colours[cord]

    def colour_name(self, cord: int) -> str:
        """What the pattern calls that colour; "" when it has no name."""
        if not self.names:
            return ""
        return self.names[0] if len(self.names) == 1 else self.names[cord]


@dataclass(frozen=True, slots=True, kw_only=True)
class Front:
    """Which side is worn outward.

    Attributes:
        deg: Direction of the front line at the middle row, degrees clockwise from north of the (turned) pattern.
        comfort_arc_deg: Width of the part of the back that must stay smooth, or None for the usual.
        extra: Fields of the file this program does not know, kept.
    """

    deg: float = 0.0
    comfort_arc_deg: float | None = None
    extra: Extra = ()

    @property
    def arc_deg(self) -> float:
        """The width of the comfort arc in use, degrees."""
        return DEFAULT_COMFORT_ARC_DEG if self.comfort_arc_deg is None else self.comfort_arc_deg


@dataclass(frozen=True, slots=True, kw_only=True)
class Anchor:
    """One stitch: `row` and `stitch` count from 1."""

    row: int
    stitch: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedMotif:
    """A small patch of drops and where it was placed.

    Attributes:
        name: What the design calls it.
        lines: The patch: lines are rows, characters are stations going clockwise round the rope; the middle
            character of the middle line lies on the anchor; a space leaves what is there.
        anchors: Where it lies.
        extra: Fields of the file this program does not know, kept.
    """

    name: str
    lines: tuple[str, ...]
    anchors: tuple[Anchor, ...] = ()
    extra: Extra = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Findings:
    """What closes the piece.

    Attributes:
        clasp: What the pattern calls the clasp, or None.
        clasp_mm: Length the closed clasp adds, or None for not said.
        end_cap: Catalogue name of the end cap, or None to let the program choose.
        price: Price of the findings of one piece, or None.
        extra: Fields of the file this program does not know, kept.
    """

    clasp: str | None = None
    clasp_mm: float | None = None
    end_cap: str | None = None
    price: float | None = None
    extra: Extra = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """A rope as its maker thought of it.

    Attributes:
        title: Its name.
        braid: The braid, in the hand of the design.
        braid_name: The catalogue name the design file uses, or None when the braid is written into the design.
        braid_text: A braid written into the design, as JSON text, so that it is written back as it was read.
        cords: The cords.
        tray: The kinds of bead.
        rows: One text for each row, first braided first; one character for each stitch of the repeat in working
            order; "." for no bead, any other character a key of the tray.
        lead_in_mm: Bare braid before the first row, or None for the usual.
        lead_out_mm: Bare braid after the last row, or None for the usual.
        twist: How far the columns turn, or None for what the disk gives when held still.
        front: Which side is worn outward, or None when it makes no difference.
        motifs: Patches placed, so that longer and shorter can keep them centred.
        findings: What closes the piece, or None.
        swatch: A sample the maker measured, or None.
        swatches: Further samples, each perhaps of another braid, cord or bead; those that agree count.
        story: A paragraph for the reader, or None.
        notes: The maker's notes, printed in the pack, or None.
        author: Who designed it, or None.
        licence: What readers may do with it, or None.
        language: BCP 47 tag of the texts, or None for English.
        skill: For whom it is, or None.
        spare_percent: Extra beads to buy, or None for the usual.
        extra: Fields of the file this program does not know, kept.

    Raises:
        DesignError: Rows of the wrong width, keys that the tray lacks, a wrong number of colours.
    """

    title: str
    braid: Braid
    braid_name: str | None
    cords: CordChoice
    tray: Tray
    rows: tuple[str, ...]
    lead_in_mm: float | None = None
    lead_out_mm: float | None = None
    twist: Twist | None = None
    front: Front | None = None
    motifs: tuple[PlacedMotif, ...] = ()
    findings: Findings | None = None
    swatch: Swatch | None = None
    swatches: tuple[Swatch, ...] = ()
    story: str | None = None
    notes: str | None = None
    author: str | None = None
    licence: str | None = None
    language: str | None = None
    skill: str | None = None
    spare_percent: float | None = None
    braid_text: str | None = None
    extra: Extra = ()

    def __post_init__(self) -> None:
        """Refuse a design whose parts do not fit each other."""
        self._check_rows()
        if self.twist is not None:
            check_twist(self.twist, self.braid)
        count = len(self.cords.colours)
        if self.cords.names and len(self.cords.names) != count:
            raise DesignError(
                f"Cords: {len(self.cords.names)} names for {count} colours; "
                f"give each colour one name, or leave names out."
            )
        if count not in (1, self.braid.cord_count):
            raise DesignError(
                f"Cords: {count} colours for {self.braid.cord_count} cords; give one colour for all, "
                f"or one for each start slot ({self.braid.cord_count})."
            )
        for motif in self.motifs:
            for anchor in motif.anchors:
                if not (1 <= anchor.row <= len(self.rows) and 1 <= anchor.stitch <= self.width):
                    raise DesignError(
                        f"Motif {motif.name!r}: it is placed on row {anchor.row}, stitch {anchor.stitch}, which the "
                        f"design does not have; use rows 1 to {len(self.rows)} and stitches 1 to {self.width}."
                    )

    def _check_rows(self) -> None:
        known = {*self.tray.keys, BARE}
        if not self.rows:
            raise DesignError("Rows: the design has no rows; give at least one.")
        if len(self.rows) * self.width > MOST_STITCHES:
            raise DesignError(f"Rows: more than {MOST_STITCHES} stitches; split the design into several pieces.")
        for text in dict.fromkeys(self.rows):
            if len(text) != self.width or not known.issuperset(text):
                self._refuse_row(self.rows.index(text) + 1, text, known)

    def _refuse_row(self, number: int, text: str, known: set[str]) -> None:
        if len(text) != self.width:
            raise DesignError(
                f"Row {number} ({text!r}) has {len(text)} stitches, but one repeat of {self.braid.name} makes "
                f"{self.width}; give one character for each stitch."
            )
        stitch, key = next((n, key) for n, key in enumerate(text, 1) if key not in known)
        raise DesignError(
            f"Row {number}, stitch {stitch}: {key!r} is not in the tray; "
            f"add it to the tray or use one of {', '.join((*self.tray.keys, BARE))}."
        )

    @property
    def width(self) -> int:
        """Stitches in a row."""
        return self.braid.stitches_per_row

    @property
    def hand(self) -> Hand:
        """The hand it is worked in."""
        return self.braid.hand

    @property
    def lead_in(self) -> float:
        """Bare braid before the first row, mm."""
        return DEFAULT_LEAD_MM if self.lead_in_mm is None else self.lead_in_mm

    @property
    def lead_out(self) -> float:
        """Bare braid after the last row, mm."""
        return DEFAULT_LEAD_MM if self.lead_out_mm is None else self.lead_out_mm

    @property
    def front_line(self) -> Front:
        """The front in use: the one said, or north."""
        return self.front or Front()

    def drop_counts(self) -> dict[str, int]:
        """How many drops of each key the rows hold, bare stitches included, most first."""
        return dict(Counter("".join(self.rows)).most_common())

    def with_rows(self, rows: tuple[str, ...]) -> "Design":
        """The same design with other rows."""
        return replace(self, rows=rows)
