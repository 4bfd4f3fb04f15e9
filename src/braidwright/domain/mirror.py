"""mirror: the other hand. Two different wishes, each its own verb; see docs/conventions.md."""

from dataclasses import replace

from braidwright.domain.braid import Braid, mirrored
from braidwright.domain.chart import Column, columns
from braidwright.domain.design import Anchor, Design, PlacedMotif
from braidwright.domain.errors import RequestError
from braidwright.domain.patch import patch_stitches
from braidwright.domain.twist import disk_drift, mirrored_twist


def mirror_everything(design: Design) -> Design:
    """The design as a reader of the other hand works it: the rope becomes its own mirror image.

    Slots, moves and shift are mirrored; rows, strings and colours keep their order and so need no change. The front
    line goes to the mirrored side, and a twist that is stated in degrees turns the other way.
    Source: trade-facts, section 9 (slot k becomes 33 - k on the 32-slot disk).
    """
    front = design.front
    return replace(
        design,
        braid=mirrored(design.braid),
        twist=mirrored_twist(design.twist),
        front=None if front is None else replace(front, deg=0 - front.deg),
    )


def same_picture(design: Design, drift_deg: float | None = None) -> Design:
    """New strings, so that a reader of the other hand gets the picture as drawn, not its mirror image.

    Stations are matched by where they stand round the rope. The columns of the two hands drift in opposite
    directions, so each row is also turned back by the whole number of columns the two have drifted apart, counted
    from the middle row: a motif that follows the front line still does. A motif across a place where that number
    changes is put together again, stitch for stitch. Done twice, it gives the first design back.

    Args:
        design: The design.
        drift_deg: Turn of a column per row, degrees clockwise; None for what the moves alone say.
    """
    there = mirrored(design.braid)
    drift = disk_drift(design.braid) if drift_deg is None else drift_deg
    turns = row_turns(len(design.rows), len(columns(design.braid)), drift)
    maps = {by: stitch_map(design.braid, there, by) for by in set(turns)}
    rows = tuple("".join(text[source] for source in maps[by]) for text, by in zip(design.rows, turns, strict=True))
    motifs = tuple(_carried(motif, turns, maps) for motif in design.motifs)
    twist = mirrored_twist(design.twist)
    moved = replace(design, braid=there, rows=rows, motifs=motifs, twist=twist)
    return moved.with_rows(_gathered(design, moved, turns, maps))


def _gathered(
    design: Design, moved: Design, turns: tuple[int, ...], maps: dict[int, tuple[int, ...]]
) -> tuple[str, ...]:
    """The rows with every motif whole: a drop torn off changes places with what lies where it belongs.

    The Z side undoes in the opposite order what the S side did, so that two trips give the first design back.
    """
    trades = []
    for motif, carried in zip(design.motifs, moved.motifs, strict=True):
        for here, there in zip(motif.anchors, carried.anchors, strict=True):
            torn = patch_stitches(design, motif.lines, here)
            whole = patch_stitches(moved, motif.lines, there)
            for (old, _), (new, _) in zip(torn, whole, strict=True):
                trades.append((old.row - 1, maps[turns[old.row - 1]].index(old.stitch - 1), new.stitch - 1))
    cells = [list(text) for text in moved.rows]
    for row, one, other in trades if design.hand == "S" else reversed(trades):
        cells[row][one], cells[row][other] = cells[row][other], cells[row][one]
    return tuple("".join(line) for line in cells)


def row_turns(rows: int, column_count: int, drift_deg: float) -> tuple[int, ...]:
    """By how many columns, clockwise, each row of the other hand must be read further on.

    A column of this hand stands at its angle plus drift times the row, one of the other hand at its angle minus it.
    Rounding is to the nearest and odd about the middle, so that the other hand's turns are exactly the opposite.
    """
    middle = (rows - 1) / 2.0
    each = 2.0 * drift_deg * column_count / 360.0
    return tuple(_round_odd(each * (row - middle)) % column_count for row in range(rows))


def _round_odd(value: float) -> int:
    size = int(abs(value) + 0.5 - 1e-9)
    return size if value >= 0 else -size


def stitch_map(here: Braid, there: Braid, by: int) -> tuple[int, ...]:
    """For each stitch of a row of `there`, the stitch of `here` whose drop belongs to it, `by` columns turned.

    Raises:
        RequestError: The columns hold unequal numbers of stitches, so they cannot stand in for each other.
    """
    mine, theirs = columns(here), columns(there)
    if len({len(column.stitches) for column in mine}) > 1:
        raise RequestError(
            f"The same picture in the other hand: the columns of {here.name} hold unequal numbers of stitches "
            f"and cannot stand in for each other; mirror everything instead."
        )
    base = _offset(mine, theirs) if here.hand == "S" else -_offset(theirs, mine)
    found = [0] * here.stitches_per_row
    for index, column in enumerate(theirs):
        source = mine[(index + base - by) % len(mine)]
        for place, stitch in enumerate(column.stitches):
            found[stitch] = source.stitches[place]
    return tuple(found)


def _offset(mine: tuple[Column, ...], theirs: tuple[Column, ...]) -> int:
    """Which of my columns stands nearest to the first of theirs; asked from the S side, so two trips agree."""
    return min(range(len(mine)), key=lambda step: (round(_apart(mine[step].angle_deg, theirs[0].angle_deg), 6), step))


def _apart(one: float, other: float) -> float:
    return abs((one - other + 180.0) % 360.0 - 180.0)


def _carried(motif: PlacedMotif, turns: tuple[int, ...], maps: dict[int, tuple[int, ...]]) -> PlacedMotif:
    anchors = tuple(Anchor(row=at.row, stitch=maps[turns[at.row - 1]].index(at.stitch - 1) + 1) for at in motif.anchors)
    return replace(motif, anchors=anchors)
