"""steps: the working written out: what to do next, with which cord, and what falls."""

from collections.abc import Iterator
from dataclasses import dataclass

from braidwright.domain.braid import MoveKind, turn
from braidwright.domain.chart import stations
from braidwright.domain.design import Design
from braidwright.domain.walk import holders


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One move of the working.

    Attributes:
        number: From 1, re-spaces counted.
        cord: The slot its cord started in: the cord's name.
        take: The slot it is lifted from now.
        put: The slot it is laid into.
        kind: "move" or "re-space".
        row: Row (repeat) of the working, from 1.
        stitch: Stitch of the row, from 1, or None for a re-space.
        station: Compass name of the station, or None for a re-space.
        column: Column of the chart, from 1, or None for a re-space.
        key: The drop: a key of the tray, "." for none; "" for a re-space.
        drop: The keys of the single beads let fall, in order.
    """

    number: int
    cord: int
    take: int
    put: int
    kind: MoveKind
    row: int
    stitch: int | None
    station: str | None
    column: int | None
    key: str
    drop: tuple[str, ...]


def steps_of(design: Design) -> Iterator[Step]:
    """Every move of the working, in order."""
    braid = design.braid
    places, at = _mover_places(design), stations(braid)
    table = holders(braid, len(design.rows))
    unfolded = {key: design.tray.beads_of(key) for key in design.drop_counts()}
    number = 0
    for row, text in enumerate(design.rows):
        stitch = 0
        for move, place in zip(braid.moves, places, strict=True):
            number += 1
            key = text[stitch] if move.is_stitch else ""
            station = at[stitch] if move.is_stitch else None
            yield Step(
                number=number,
                cord=braid.start[int(table[row, place])],
                take=turn(move.take, braid.shift * row, braid.slots),
                put=turn(move.put, braid.shift * row, braid.slots),
                kind=move.kind,
                row=row + 1,
                stitch=station.stitch + 1 if station else None,
                station=station.name if station else None,
                column=station.column + 1 if station else None,
                key=key,
                drop=unfolded[key] if key else (),
            )
            stitch += move.is_stitch


def _mover_places(design: Design) -> tuple[int, ...]:
    """The place whose cord makes each move of a repeat, re-spaces included."""
    braid = design.braid
    holder = {slot: place for place, slot in enumerate(braid.start)}
    found = []
    for move in braid.moves:
        holder[move.put] = holder.pop(move.take)
        found.append(holder[move.put])

    return tuple(found)
