"""places: how to stop, find the place again, and notice a mistake early."""

from itertools import groupby

import numpy as np

from braidwright.domain.braid import turn
from braidwright.domain.chart import stations
from braidwright.domain.design import Design
from braidwright.domain.strings import runs
from braidwright.domain.tray import BARE
from braidwright.domain.walk import slots_after, stitch_cords, walk
from braidwright.drawings.chapters.figures import length
from braidwright.drawings.manuscript import Grid
from braidwright.drawings.pattern import HandPart, Pattern
from braidwright.drawings.words import counted

MOST_CHECKS = 10
FEW_CORDS = 8


def pausing(design: Design, *, is_beaded: bool) -> tuple[str, ...]:
    """Where to stop and how to go on. Source: trade-facts, section 6 (common practice)."""
    braid = design.braid
    said = ["Stop at the end of a repeat when you can, and write down the number of the row."]
    if _worked_in_pairs(design):
        said.append(
            "If you must stop for long, stop after the first move of a pair: the point with three cords then says "
            "where to go on, "
            "by eye or by touch."
        )
    said += [
        "By touch: the cord that was laid last lies on top in the middle of the braid. Follow it out to the rim: "
        "the slot it lies in is where the last move ended, and the list of moves says what comes next.",
        "Never lay the disk down upside down, and leave the weight on; a clip on north keeps the disk from being "
        "turned unnoticed.",
    ]
    if braid.shift:
        way = "up" if braid.shift > 0 else "down"
        said.append(
            f"Numbers move {way} by {abs(braid.shift)} with each repeat. A small card with the start slots and a "
            f"row counter saves counting."
        )
    if is_beaded:
        said.append("A bare patch in a lane, or a cord with one bead more than the others, tells of a missed bead.")
    return tuple(said)


def _worked_in_pairs(design: Design) -> bool:
    """Whether the cords stand two by two, as in kongoh gumi, and each move makes a point of three."""
    braid = design.braid
    held = set(braid.start)
    beside = [sum(turn(slot, by, braid.slots) in held for by in (-1, 1)) for slot in braid.start]
    return all(count == 1 for count in beside) and all(move.is_stitch for move in braid.moves)


def check_rows(design: Design) -> tuple[int, ...]:
    """The rows at which to compare: whole rounds of the cords, at most ten of them, and the last row."""
    rows, home = len(design.rows), walk(design.braid).repeats_home
    step = home * max(1, -(-rows // (home * MOST_CHECKS)))
    checks = [row for row in range(step, rows, step) if rows - row > step // 2]
    return (*checks, rows)


def beads_left(design: Design) -> np.ndarray:
    """Single beads still on each cord before each row and after the last.

    Returns:
        Array (rows + 1, cords).
    """
    sizes = {key: len(design.tray.beads_of(key)) for key in {*design.tray.keys, BARE}}
    falls = np.array([[sizes[key] for key in text] for text in design.rows], dtype=np.int64)
    cords = stitch_cords(design.braid, len(design.rows))
    dropped = np.zeros((len(design.rows) + 1, design.braid.cord_count), dtype=np.int64)
    for stitch in range(design.width):
        np.add.at(dropped, (np.arange(1, len(design.rows) + 1), cords[:, stitch]), falls[:, stitch])
    fallen = np.cumsum(dropped, axis=0)
    left: np.ndarray = fallen[-1] - fallen
    return left


def row_check(pattern: Pattern, part: HandPart) -> Grid:
    """A table to compare with: beads left, where the first cord hangs, how long the rope is."""
    design, rise = part.design, pattern.size.rise_mm
    left = beads_left(design)
    knows_length = rise is not None and rise > 0.0 and _even_rows(design)
    head = ["After row"]
    head += ["Beads left on each cord"] if pattern.is_beaded else []
    head += [f"The cord that began in slot {design.braid.start[0]} hangs in"]
    head += ["Length so far"] if knows_length else []
    rows = []
    for row in check_rows(design):
        cells = [f"{row}"]
        cells += [_left_words(design, left[row])] if pattern.is_beaded else []
        cells += [f"slot {slots_after(design.braid, row)[0]}"]
        cells += [f"about {length(row * (rise or 0.0))}"] if knows_length else []
        rows.append(tuple(cells))
    widths = (0.0, 1.0, 0.8, 0.8) if pattern.is_beaded else (0.0, 1.0, 1.0)
    return Grid(
        title=f"Row check, hand {part.hand}",
        head=tuple(head),
        rows=tuple(rows),
        widths=widths[: len(head)],
        figures=(0,),
    )


def _even_rows(design: Design) -> bool:
    """Whether every row gains the same: all with beads, or all bare."""
    return len({text.count(BARE) == len(text) for text in design.rows}) == 1


def _left_words(design: Design, left: np.ndarray) -> str:
    """Beads left in words: one number when all agree, else each cord, equal ones together."""
    counts = [int(count) for count in left]
    if len(set(counts)) == 1:
        return f"{counts[0]} on each" if counts[0] else "none"
    if len(counts) > FEW_CORDS:
        return f"{min(counts)} to {max(counts)}, {sum(counts)} in all"
    by_count: dict[int, list[int]] = {}
    for slot, count in zip(design.braid.start, counts, strict=True):
        by_count.setdefault(count, []).append(slot)
    return "; ".join(
        f"{count} on cord{'s' if len(slots) > 1 else ''} {', '.join(str(slot) for slot in slots)}"
        for count, slots in sorted(by_count.items(), reverse=True)
    )


def in_row_words(design: Design) -> tuple[str, ...]:
    """The rows read aloud: what falls at each station, equal rows together."""
    names = tuple(station.name for station in stations(design.braid))
    lines, row = [], 1
    for text, same in groupby(design.rows):
        count = len(list(same))
        where = f"Row {row}" if count == 1 else f"Rows {row} to {row + count - 1}, {counted(count, 'row')} alike"
        lines.append(f"{where}: {row_words(design, text, names)}.")
        row += count
    return tuple(lines)


def row_words(design: Design, text: str, names: tuple[str, ...]) -> str:
    """One row: "all Moss", or each station with what falls there."""
    if len(set(text)) == 1:
        return f"all {design.tray.name_of(text[0])}"
    parts, at = [], 0
    for count, key in runs(tuple(text)):
        parts.append(f"{' '.join(names[at : at + count])} {design.tray.name_of(key)}")
        at += count
    return ", ".join(parts)
