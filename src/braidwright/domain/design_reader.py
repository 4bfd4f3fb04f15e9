"""design_reader: a design from the plain document of its file, each fault told in one sentence."""

import json
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import cast

from braidwright.domain.bead_table import bead_from_table, bead_warnings
from braidwright.domain.braid import Braid, Hand, in_hand
from braidwright.domain.braid_table import braid_from_table
from braidwright.domain.cord_table import cord_from_table, cord_warnings
from braidwright.domain.design import Anchor, CordChoice, CoreCord, Design, Findings, Front, PlacedMotif
from braidwright.domain.errors import DesignError, DocumentError
from braidwright.domain.swatch import Swatch
from braidwright.domain.table import Table, as_table, shown
from braidwright.domain.tray import FINISHES, Finish, Tray, TrayBead, TrayStack
from braidwright.domain.twist import WAYS, Twist, Way

FindBraid = Callable[[str], Braid]

DESIGN_FIELDS: tuple[str, ...] = (
    "braidwright", "title", "author", "licence", "language", "skill", "story", "notes", "braid", "hand", "cords",
    "tray", "rows", "lead_in_mm", "lead_out_mm", "twist", "front", "motifs", "findings", "spare_percent", "swatch",
    "swatches",
)  # fmt: skip
CORD_CHOICE_FIELDS = ("kind", "colours", "names", "price", "core")
CORE_FIELDS = ("mm",)
TWIST_FIELDS = ("deg",)
TRAY_FIELDS = ("bead", "stack", "colour", "finish", "name", "symbol", "price")
OPTIONAL_LISTS = ("names", "motifs", "anchors", "swatches")
FRONT_FIELDS = ("deg", "comfort_arc_deg")
MOTIF_FIELDS = ("name", "lines", "anchors")
FINDINGS_FIELDS = ("clasp", "clasp_mm", "end_cap", "price")
SWATCH_FIELDS = ("rows", "length_mm", "diameter_mm", "turn_rows", "cord_used_mm", "cord_cut_mm", "cord_left_mm")
SWATCHES_FIELDS = (*SWATCH_FIELDS, "braid", "cord", "bead")

MOST_ROWS = 500_000
MOST_SWATCHES = 200
LONGEST_LEAD_MM = 2_000.0
HIGHEST_PRICE = 1_000_000.0


@dataclass(frozen=True, slots=True)
class Reader:
    """What reading a design needs and gathers on the way.

    Attributes:
        find_braid: Gives the braid of a catalogue name, in the hand of its file.
        warnings: Sentences for the maker, gathered while reading.
    """

    find_braid: FindBraid
    warnings: list[str] = field(default_factory=list)

    def table(self, value: object, where: str, known: tuple[str, ...]) -> Table:
        """One table of the document, with a warning for every field nobody knows."""
        table = as_table(value, where=where, error=DocumentError)
        self.warnings.extend(table.strangers(known))
        return table


def read_document(document: object, find_braid: FindBraid) -> tuple[Design, tuple[str, ...]]:
    """The design that a plain document (upgraded to the present version) describes.

    Args:
        document: What the JSON reader gave.
        find_braid: Gives the braid of a catalogue name.

    Returns:
        The design, and sentences about fields that are not known and are kept.

    Raises:
        DocumentError, DesignError, BraidError, CatalogueError: What is wrong, where, and what to do.
    """
    reader = Reader(find_braid=find_braid)
    table = reader.table(document, "Design", DESIGN_FIELDS)
    braid, name, text = _braid(reader, table)
    design = Design(
        title=table.line("title"),
        braid=braid,
        braid_name=name,
        braid_text=text,
        cords=_cords(reader, table),
        tray=_tray(reader, table),
        rows=_texts(table, "rows", MOST_ROWS),
        lead_in_mm=_number(table, "lead_in_mm", 0.0, LONGEST_LEAD_MM),
        lead_out_mm=_number(table, "lead_out_mm", 0.0, LONGEST_LEAD_MM),
        twist=_twist(reader, table),
        front=_front(reader, table),
        motifs=_motifs(reader, table),
        findings=_findings(reader, table),
        swatch=_swatch(reader, table.fields["swatch"]) if table.has("swatch") else None,
        swatches=_swatches(reader, table),
        spare_percent=_number(table, "spare_percent", 0.0, 200.0),
        story=_text(table, "story"),
        notes=_text(table, "notes"),
        author=_line(table, "author"),
        licence=_text(table, "licence"),
        language=_line(table, "language"),
        skill=_line(table, "skill"),
        extra=extra_of(table, DESIGN_FIELDS),
    )
    return design, tuple(reader.warnings)


def extra_of(table: Table, known: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    """The fields nobody knows, each with its JSON text, so that they can be written back; stated empty lists too."""
    return tuple(
        (name, as_json(value))
        for name, value in table.fields.items()
        if name not in known or (name in OPTIONAL_LISTS and value == [])
    )


def as_json(value: object) -> str:
    """A plain value as JSON text."""
    return json.dumps(value, ensure_ascii=False)


def _braid(reader: Reader, table: Table) -> tuple[Braid, str | None, str | None]:
    """The braid in the hand of the design, its catalogue name, or the text it was written with."""
    hand = cast(Hand, table.choice("hand", ("S", "Z")))
    value = table.get("braid", DESIGN_FIELDS)
    if isinstance(value, str):
        braid = reader.find_braid(value)
        return in_hand(braid, hand), value, None
    braid, warnings = braid_from_table(value, name="own braid", where="Design, braid", unstated_hand=hand)
    reader.warnings.extend(warnings)
    return in_hand(braid, hand), None, as_json(value)


def _cords(reader: Reader, design: Table) -> CordChoice:
    table = reader.table(design.get("cords", DESIGN_FIELDS), "Cords", CORD_CHOICE_FIELDS)
    kind = table.get("kind", CORD_CHOICE_FIELDS)
    text = None
    if not isinstance(kind, str):
        text = as_json(kind)
        reader.warnings.extend(cord_warnings(kind, where="Cords, kind"))
    return CordChoice(
        kind=kind if isinstance(kind, str) else cord_from_table(kind, name="own cord", where="Cords, kind"),
        kind_text=text,
        colours=tuple(colour(table, "colours", text) for text in _texts(table, "colours", 64)),
        names=_texts(table, "names", 64) if table.has("names") else (),
        price=_number(table, "price", 0.0, HIGHEST_PRICE),
        core=_core(reader, table),
        extra=extra_of(table, CORD_CHOICE_FIELDS),
    )


def _core(reader: Reader, cords: Table) -> CoreCord | None:
    """A core by the name of a cord, or by its thickness."""
    if not cords.has("core"):
        return None
    if isinstance(cords.fields["core"], str):
        return CoreCord(kind=cords.line("core"))
    table = reader.table(cords.fields["core"], "Cords, core", CORE_FIELDS)
    return CoreCord(mm=table.number("mm", CORE_FIELDS), extra=extra_of(table, CORE_FIELDS))


def _tray(reader: Reader, design: Table) -> Tray:
    table = as_table(design.get("tray", DESIGN_FIELDS), where="Tray", error=DocumentError)
    return Tray(entries=tuple(_entry(reader, key, value) for key, value in table.fields.items()))


def _entry(reader: Reader, key: str, value: object) -> TrayBead | TrayStack:
    where = f"Tray, {shown(key)}"
    table = reader.table(value, where, TRAY_FIELDS)
    if table.has("stack"):
        if table.has("bead"):
            raise table.fault("stack", "it is a bead and a stack at once; keep one of the two fields.")
        return TrayStack(
            key=key,
            stack=_texts(table, "stack", 50),
            name=_line(table, "name"),
            symbol=_line(table, "symbol"),
            extra=extra_of(table, ("stack", "name", "symbol")),
        )
    bead = table.get("bead", TRAY_FIELDS)
    if not isinstance(bead, str):
        reader.warnings.extend(bead_warnings(bead, where=f"{where}, bead"))
    return TrayBead(
        key=key,
        bead=bead if isinstance(bead, str) else bead_from_table(bead, name="own bead", where=f"{where}, bead"),
        bead_text=None if isinstance(bead, str) else as_json(bead),
        colour=colour(table, "colour", table.line("colour")),
        finish=cast(Finish, table.choice("finish", FINISHES)) if table.has("finish") else None,
        name=_line(table, "name"),
        symbol=_line(table, "symbol"),
        price=_number(table, "price", 0.0, HIGHEST_PRICE),
        extra=extra_of(table, TRAY_FIELDS),
    )


def _twist(reader: Reader, design: Table) -> Twist | None:
    """A twist by the way of working, or in degrees a row."""
    if not design.has("twist"):
        return None
    if isinstance(design.fields["twist"], str):
        return Twist(way=cast(Way, design.choice("twist", WAYS)))
    table = reader.table(design.fields["twist"], "Twist", TWIST_FIELDS)
    return Twist(deg=table.number("deg", TWIST_FIELDS), extra=extra_of(table, TWIST_FIELDS))


def _front(reader: Reader, design: Table) -> Front | None:
    if not design.has("front"):
        return None
    table = reader.table(design.fields["front"], "Front", FRONT_FIELDS)
    return Front(
        deg=in_range(table, "deg", -360.0, 360.0),
        comfort_arc_deg=_number(table, "comfort_arc_deg", 0.0, 360.0),
        extra=extra_of(table, FRONT_FIELDS),
    )


def _motifs(reader: Reader, design: Table) -> tuple[PlacedMotif, ...]:
    if not design.has("motifs"):
        return ()
    found = []
    for number, value in enumerate(design.items("motifs", most=200), 1):
        table = reader.table(value, f"Motif {number}", MOTIF_FIELDS)
        anchors = table.items("anchors", most=20_000) if table.has("anchors") else ()
        found.append(
            PlacedMotif(
                name=table.line("name"),
                lines=_texts(table, "lines", 1000),
                anchors=tuple(_anchor(table, value) for value in anchors),
                extra=extra_of(table, MOTIF_FIELDS),
            )
        )
    return tuple(found)


def _anchor(table: Table, value: object) -> Anchor:
    parts = table.as_items("anchors", value)
    if len(parts) != 2:
        raise table.fault("anchors", f"{shown(value)} of {len(parts)} was found; write each as [row, stitch].")
    return Anchor(row=table.as_whole("anchors", parts[0]), stitch=table.as_whole("anchors", parts[1]))


def _findings(reader: Reader, design: Table) -> Findings | None:
    if not design.has("findings"):
        return None
    table = reader.table(design.fields["findings"], "Findings", FINDINGS_FIELDS)
    return Findings(
        clasp=_line(table, "clasp"),
        clasp_mm=_number(table, "clasp_mm", 0.0, 500.0),
        end_cap=_line(table, "end_cap"),
        price=_number(table, "price", 0.0, HIGHEST_PRICE),
        extra=extra_of(table, FINDINGS_FIELDS),
    )


def _swatches(reader: Reader, design: Table) -> tuple[Swatch, ...]:
    """The further swatches; a fault is told with the number of the swatch."""
    if not design.has("swatches"):
        return ()
    found = []
    for number, value in enumerate(design.items("swatches", most=MOST_SWATCHES), 1):
        where = f"Swatch {number}"
        try:
            found.append(_swatch(reader, value, where, SWATCHES_FIELDS))
        except DesignError as error:
            raise DesignError(f"{where}{str(error).removeprefix('Swatch')}") from error
    return tuple(found)


def _swatch(reader: Reader, value: object, where: str = "Swatch", known: tuple[str, ...] = SWATCH_FIELDS) -> Swatch:
    table = reader.table(value, where, known)
    names = {name: _line(table, name) for name in ("braid", "cord", "bead") if name in known}
    return Swatch(
        rows=table.whole("rows", known),
        length_mm=_number(table, "length_mm", 0.0, 100_000.0),
        diameter_mm=_number(table, "diameter_mm", 0.0, 1_000.0),
        turn_rows=_number(table, "turn_rows", 0.0, 100_000.0),
        cord_used_mm=_number(table, "cord_used_mm", 0.0, 1_000_000.0),
        cord_cut_mm=_number(table, "cord_cut_mm", 0.0, 1_000_000.0),
        cord_left_mm=_number(table, "cord_left_mm", 0.0, 1_000_000.0),
        extra=extra_of(table, known),
        **names,
    )


def in_range(table: Table, name: str, low: float, high: float) -> float:
    """A number from low to high; whole numbers stay whole, so that writing gives back what was read."""
    value = table.number(name)
    if not low <= value <= high:
        raise table.fault(name, f"{value} was found; give {low:g} to {high:g}.")
    return value


def colour(table: Table, name: str, text: str) -> str:
    """A colour written #rrggbb."""
    if len(text) != 7 or text[0] != "#" or any(sign not in "0123456789abcdefABCDEF" for sign in text[1:]):
        raise table.fault(name, f"{shown(text)} was found; write a colour as #rrggbb, such as #1b6e5a.")
    return text


def _number(table: Table, name: str, low: float, high: float) -> float | None:
    return in_range(table, name, low, high) if table.has(name) else None


def _line(table: Table, name: str) -> str | None:
    return table.line(name) if table.has(name) else None


def _text(table: Table, name: str) -> str | None:
    return table.text(name) if table.has(name) else None


def _texts(table: Table, name: str, most: int) -> tuple[str, ...]:
    found = []
    for number, value in enumerate(table.items(name, DESIGN_FIELDS, most), 1):
        if not isinstance(value, str):
            raise table.fault(f"{name}, entry {number}", f"{shown(value)} was found; give a text.")
        found.append(value)
    return tuple(found)
