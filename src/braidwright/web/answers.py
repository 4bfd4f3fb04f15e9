"""answers: what the screen gets: plain dataclasses, written as JSON that any text survives."""

import json
from base64 import b64encode
from collections.abc import Mapping
from dataclasses import dataclass, fields, is_dataclass
from datetime import datetime
from math import lcm
from typing import Literal

import numpy as np
from fastapi import Response
from numpy.typing import NDArray

from braidwright.app.checks import Remark
from braidwright.app.library_port import Entry, State
from braidwright.app.seeing import Seen, written
from braidwright.app.sizes import worn_by_whom
from braidwright.app.solid_beads import Mesh
from braidwright.domain.braid import Braid
from braidwright.domain.chart import Column, columns
from braidwright.domain.design import Design
from braidwright.domain.fit import WornBy
from braidwright.domain.geometry import Geometry, IntArray
from braidwright.domain.prediction import Basis
from braidwright.domain.size import Size
from braidwright.domain.strings import String, in_words, runs, strings_of
from braidwright.domain.supplies import Supplies
from braidwright.domain.walk import cycles, stitch_cords, walk


@dataclass(frozen=True, slots=True, kw_only=True)
class Packed:
    """An array of numbers, packed.

    Attributes:
        shape: Its extents.
        kind: "f4": 32-bit floating point, "i4": 32-bit integers; little-endian.
        base64: The bytes, row by row.
    """

    shape: tuple[int, ...]
    kind: Literal["f4", "i4"]
    base64: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GeometryAnswer:
    """See `domain.geometry.Geometry`; `keys` is one character for each bead."""

    keys: str
    stitches: Packed
    bead_cords: Packed
    centres: Packed
    holes: Packed
    outward: Packed
    cords: tuple[Packed, ...]
    cord_mm: float
    heights: Packed
    reaches: Packed
    basis: Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class StringAnswer:
    """The string of one cord.

    Attributes:
        slot: The slot it starts in.
        colour: Of the cord, "#rrggbb".
        colour_name: What the pattern calls it, or "".
        drops: One character for each stitch of this cord.
        runs: Pairs (count, key) of single beads, first strung first.
        words: The same as it is said.
    """

    slot: int
    colour: str
    colour_name: str
    drops: str
    runs: tuple[tuple[int, str], ...]
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TrayAnswer:
    """One entry of the tray; a stack has beads and no bead, colour or finish of its own."""

    key: str
    name: str
    symbol: str
    bead: str | None
    colour: str | None
    finish: str | None
    stack: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MeshAnswer:
    """The solid of a bead: hole along z, reaching out along x; see `drawings.meshes.mesh.Mesh`."""

    points: Packed
    normals: Packed
    faces: Packed


@dataclass(frozen=True, slots=True, kw_only=True)
class MeshesAnswer:
    """The solids of the beads of a tray, by key."""

    meshes: dict[str, MeshAnswer]


@dataclass(frozen=True, slots=True, kw_only=True)
class PressingAnswer:
    """One stitch whose bead would lie against the skin; row and stitch from 0."""

    row: int
    stitch: int
    key: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DesignAnswer:
    """Everything the screen needs of a design.

    Attributes:
        text: The design file.
        title: Its name.
        braid: The braid, in the hand of the design.
        columns: The columns of the chart, clockwise from north.
        rows: One text for each row, one character for each stitch.
        tray: Its entries in order.
        strings: The strings, in the order of the cords.
        size: What it measures and what that rests on; None while something in it is not known.
        supplies: What to buy and cut, likewise.
        end_cap: Catalogue name of the end cap, or None.
        worn: Whom it fits as a bracelet, or None.
        geometry: Where every bead and cord lies, or None while too little is known.
        cord_of: Which cord makes each stitch, (rows until every cord is home, stitches); it repeats from there on.
        pressing: The stitches whose beads would lie against the skin.
        faults: What must be mended first.
        warnings: What to look at.
        notes: What is good to know.
    """

    text: str
    title: str
    braid: Braid
    columns: tuple[Column, ...]
    rows: tuple[str, ...]
    tray: tuple[TrayAnswer, ...]
    strings: tuple[StringAnswer, ...]
    size: Size | None
    supplies: Supplies | None
    end_cap: str | None
    worn: WornBy | None
    geometry: GeometryAnswer | None
    cord_of: Packed
    pressing: tuple[PressingAnswer, ...]
    faults: tuple[Remark, ...]
    warnings: tuple[Remark, ...]
    notes: tuple[Remark, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StateAnswer:
    """A state of a design; `name` is what a change of it is made from."""

    name: str
    number: int
    title: str
    facts: dict[str, str]
    doing: str
    at: datetime
    brought_back: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryAnswer:
    """A design in the library."""

    design: int
    newest: StateAnswer
    begun: datetime
    removed: datetime | None


def answer(value: object, status: int = 200) -> Response:
    """A value as JSON; half of a surrogate pair is escaped, as JSON can and UTF-8 cannot."""
    content = json.dumps(value, default=_plain, allow_nan=False, separators=(",", ":"))
    return Response(content, status_code=status, media_type="application/json")


def design_answer(seen: Seen) -> DesignAnswer:
    """A design for the screen."""
    design, worked, report = seen.opened.reading.design, seen.worked, seen.report
    geometry = None if worked is None or worked.geometry is None else _geometry(worked.geometry)
    return DesignAnswer(
        text=written(seen.opened),
        title=design.title,
        braid=design.braid,
        columns=columns(design.braid),
        rows=design.rows,
        tray=_tray(design),
        strings=tuple(_string(design, string) for string in strings_of(design)),
        size=None if worked is None else worked.size,
        supplies=None if worked is None else worked.supplies,
        end_cap=None if worked is None or worked.end_cap is None else worked.end_cap.name,
        worn=None if worked is None else worn_by_whom(design, worked.size, worked.end_cap),
        geometry=geometry,
        cord_of=_whole(_cords_of(design.braid)),
        pressing=tuple(
            PressingAnswer(row=each.at.row - 1, stitch=each.at.stitch - 1, key=each.key) for each in report.pressing
        ),
        faults=report.faults,
        warnings=report.warnings,
        notes=report.notes,
    )


def meshes_answer(meshes: Mapping[str, Mesh]) -> MeshesAnswer:
    """Solids of beads for the screen."""
    return MeshesAnswer(
        meshes={
            key: MeshAnswer(points=_packed(mesh.points), normals=_packed(mesh.normals), faces=_whole(mesh.faces))
            for key, mesh in meshes.items()
        }
    )


def _cords_of(braid: Braid) -> IntArray:
    return stitch_cords(braid, lcm(*map(len, cycles(walk(braid).permutation))))


def _tray(design: Design) -> tuple[TrayAnswer, ...]:
    beads = {entry.key: entry for entry in design.tray.beads}
    found = []
    for key in design.tray.keys:
        bead = beads.get(key)
        found.append(
            TrayAnswer(
                key=key,
                name=design.tray.name_of(key),
                symbol=design.tray.symbol_of(key),
                bead=None if bead is None else bead.bead_name,
                colour=None if bead is None else bead.colour,
                finish=None if bead is None else bead.finish,
                stack=() if bead is not None else design.tray.beads_of(key),
            )
        )
    return tuple(found)


def _string(design: Design, string: String) -> StringAnswer:
    beads = string.beads(design.tray)
    return StringAnswer(
        slot=string.slot,
        colour=design.cords.colour(string.cord),
        colour_name=design.cords.colour_name(string.cord),
        drops=string.drops,
        runs=runs(beads),
        words=in_words(beads, design.tray.name_of),
    )


def _geometry(geometry: Geometry) -> GeometryAnswer:
    return GeometryAnswer(
        keys="".join(geometry.keys),
        stitches=_whole(geometry.stitches),
        bead_cords=_whole(geometry.bead_cords),
        centres=_packed(geometry.centres),
        holes=_packed(geometry.holes),
        outward=_packed(geometry.outward),
        cords=tuple(map(_packed, geometry.cords)),
        cord_mm=geometry.cord_mm,
        heights=_packed(geometry.heights),
        reaches=_packed(geometry.reaches),
        basis=geometry.basis,
    )


def _packed(array: NDArray[np.float64]) -> Packed:
    return Packed(shape=array.shape, kind="f4", base64=b64encode(array.astype("<f4").tobytes()).decode())


def _whole(array: NDArray[np.int64]) -> Packed:
    return Packed(shape=array.shape, kind="i4", base64=b64encode(array.astype("<i4").tobytes()).decode())


def _plain(value: object) -> object:
    if is_dataclass(value) and not isinstance(value, type):
        return {each.name: getattr(value, each.name) for each in fields(value)}
    if isinstance(value, datetime):
        return value.isoformat()
    raise TypeError(f"{type(value).__name__} has no JSON")


def entry_answer(entry: Entry) -> EntryAnswer:
    """A design of the library for the screen."""
    return EntryAnswer(design=entry.design, newest=state_answer(entry.newest), begun=entry.begun, removed=entry.removed)


def state_answer(state: State) -> StateAnswer:
    """A state of a design for the screen."""
    return StateAnswer(
        name=state.name,
        number=state.number,
        title=state.title,
        facts=dict(state.facts),
        doing=state.doing,
        at=state.at,
        brought_back=state.brought_back,
    )
