"""design_writer: the plain document of a design; what was read comes back unchanged."""

import json
from typing import Any

from braidwright.domain.bead import Bead
from braidwright.domain.bead_table import bead_from_table, bead_to_table
from braidwright.domain.braid_table import braid_from_table, braid_to_table
from braidwright.domain.cord_table import cord_from_table, cord_to_table
from braidwright.domain.design import CordChoice, CoreCord, Design, Findings, Front, PlacedMotif
from braidwright.domain.swatch import Swatch
from braidwright.domain.tray import Extra, TrayBead, TrayStack
from braidwright.domain.twist import Twist

VERSION = 1

Plain = dict[str, Any]

SWATCH_MEASURES = (
    "length_mm", "diameter_mm", "turn_rows", "cord_used_mm", "cord_cut_mm", "cord_left_mm", "braid", "cord", "bead",
)  # fmt: skip


def plain_document(design: Design) -> Plain:
    """The document of a design, in the order a person reads it: what it is, how it is made, the rows, the rest."""
    document: Plain = {"braidwright": VERSION, "title": design.title}
    for name in ("author", "licence", "language", "skill", "story", "notes"):
        _put(document, name, getattr(design, name))
    document["braid"] = design.braid_name or _braid(design)
    document["hand"] = design.hand
    document["cords"] = _cords(design.cords)
    document["tray"] = {entry.key: _entry(entry) for entry in design.tray.entries}
    document["rows"] = list(design.rows)
    _put(document, "lead_in_mm", design.lead_in_mm)
    _put(document, "lead_out_mm", design.lead_out_mm)
    _put(document, "twist", design.twist and _twist(design.twist))
    _put(document, "front", design.front and _front(design.front))
    if design.motifs:
        document["motifs"] = [_motif(motif) for motif in design.motifs]
    _put(document, "findings", design.findings and _findings(design.findings))
    _put(document, "spare_percent", design.spare_percent)
    _put(document, "swatch", design.swatch and _swatch(design.swatch))
    if design.swatches:
        document["swatches"] = [_swatch(swatch) for swatch in design.swatches]
    return _with_kept(document, design.extra)


def _put(document: Plain, name: str, value: object) -> None:
    if value is not None:
        document[name] = value


def _with_kept(document: Plain, extra: Extra) -> Plain:
    """The fields nobody knows behind those that are known."""
    return document | {name: json.loads(text) for name, text in extra if name not in document}


def _braid(design: Design) -> Plain:
    """The braid as it was written, or complete; its hand is added when the design's hand alone would now mislead."""
    if design.braid_text is None:
        return braid_to_table(design.braid)
    table: Plain = json.loads(design.braid_text)
    read, _ = braid_from_table(table, name="own braid", where="Design, braid", unstated_hand=design.hand)
    if "hand" not in table and read.moves != design.braid.moves:
        table["hand"] = "Z" if design.hand == "S" else "S"
    return table


def _cords(cords: CordChoice) -> Plain:
    kind: object = cords.kind
    if not isinstance(cords.kind, str):
        kind = _kept(
            cords.kind_text,
            lambda table: cord_from_table(table, name="own cord", where="Cords") == cords.kind,
        )
        kind = kind or cord_to_table(cords.kind)
    document: Plain = {"kind": kind, "colours": list(cords.colours)}
    if cords.names:
        document["names"] = list(cords.names)
    _put(document, "price", cords.price)
    _put(document, "core", cords.core and _core(cords.core))
    return _with_kept(document, cords.extra)


def _core(core: CoreCord) -> object:
    return core.kind if core.kind is not None else _with_kept({"mm": core.mm}, core.extra)


def _kept(text: str | None, still_true: Any) -> Plain | None:  # noqa: ANN401  (a one-line predicate)
    """The table as it was written, when it still says the same."""
    if text is None:
        return None
    table: Plain = json.loads(text)
    return table if still_true(table) else None


def _bead(entry: TrayBead) -> object:
    if isinstance(entry.bead, str):
        return entry.bead
    bead: Bead = entry.bead
    kept = _kept(entry.bead_text, lambda table: bead_from_table(table, name="own bead", where="Tray") == bead)
    return kept or bead_to_table(bead)


def _entry(entry: TrayBead | TrayStack) -> Plain:
    document: Plain
    if isinstance(entry, TrayStack):
        document = {"stack": list(entry.stack)}
    else:
        document = {"bead": _bead(entry), "colour": entry.colour}
        _put(document, "finish", entry.finish)
    _put(document, "name", entry.name)
    _put(document, "symbol", entry.symbol)
    if isinstance(entry, TrayBead):
        _put(document, "price", entry.price)
    return _with_kept(document, entry.extra)


def _twist(twist: Twist) -> object:
    return twist.way if twist.way is not None else _with_kept({"deg": twist.deg}, twist.extra)


def _front(front: Front) -> Plain:
    document: Plain = {"deg": front.deg}
    _put(document, "comfort_arc_deg", front.comfort_arc_deg)
    return _with_kept(document, front.extra)


def _motif(motif: PlacedMotif) -> Plain:
    document: Plain = {"name": motif.name, "lines": list(motif.lines)}
    if motif.anchors:
        document["anchors"] = [[at.row, at.stitch] for at in motif.anchors]
    return _with_kept(document, motif.extra)


def _findings(findings: Findings) -> Plain:
    document: Plain = {}
    for name in ("clasp", "clasp_mm", "end_cap", "price"):
        _put(document, name, getattr(findings, name))
    return _with_kept(document, findings.extra)


def _swatch(swatch: Swatch) -> Plain:
    document: Plain = {"rows": swatch.rows}
    for name in SWATCH_MEASURES:
        _put(document, name, getattr(swatch, name))
    return _with_kept(document, swatch.extra)
