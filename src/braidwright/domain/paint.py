"""paint: change drops. Each verb returns a new design; nothing else moves."""

from collections.abc import Iterable
from dataclasses import replace

from braidwright.domain.design import Anchor, Design
from braidwright.domain.errors import DesignError, RequestError
from braidwright.domain.tray import BARE, TrayBead, TrayStack


def paint(design: Design, stitches: Iterable[Anchor], key: str) -> Design:
    """Let the drop `key` fall at these stitches.

    Args:
        design: The design.
        stitches: Rows and stitches, counted from 1.
        key: A key of the tray, or "." for none.

    Raises:
        RequestError: A stitch the design does not have, or a key the tray does not have.
    """
    check_key(design, key)
    changed: dict[int, list[str]] = {}
    for at in stitches:
        check_stitch(design, at)
        changed.setdefault(at.row - 1, list(design.rows[at.row - 1]))[at.stitch - 1] = key
    rows = list(design.rows)
    for row, cells in changed.items():
        rows[row] = "".join(cells)
    return design.with_rows(tuple(rows))


def fill(design: Design, key: str, rows: tuple[int, int] | None = None) -> Design:
    """Let the drop `key` fall at every stitch, or at every stitch of the rows from first to last (from 1).

    Raises:
        RequestError: Rows the design does not have, or a key the tray does not have.
    """
    check_key(design, key)
    first, last = rows or (1, len(design.rows))
    if not 1 <= first <= last <= len(design.rows):
        raise RequestError(f"Fill: rows {first} to {last} are not in the design; use rows 1 to {len(design.rows)}.")
    filled = (key * design.width,) * (last - first + 1)
    return design.with_rows((*design.rows[: first - 1], *filled, *design.rows[last:]))


def exchange(design: Design, old: str, new: str) -> Design:
    """Replace one tray bead by another wherever it falls: in the rows, in stacks and in motifs.

    Raises:
        RequestError: A key the tray does not have, or a stack asked to go inside a stack.
    """
    check_key(design, old)
    check_key(design, new)
    swap = str.maketrans({old: new})
    entries: list[TrayBead | TrayStack] = []
    for entry in design.tray.entries:
        if isinstance(entry, TrayStack) and old in entry.stack:
            if new == BARE or new not in {bead.key for bead in design.tray.beads}:
                raise RequestError(
                    f"Exchange: {old!r} is part of the stack {entry.key!r}, so only a single bead can take its place; "
                    f"choose a bead, or change that stack first."
                )
            entries.append(replace(entry, stack=tuple(new if key == old else key for key in entry.stack)))
        else:
            entries.append(entry)
    return replace(
        design,
        rows=tuple(text.translate(swap) for text in design.rows),
        tray=replace(design.tray, entries=tuple(entries)),
        motifs=tuple(
            replace(motif, lines=tuple(line.translate(swap) for line in motif.lines)) for motif in design.motifs
        ),
    )


def check_stitch(design: Design, at: Anchor) -> None:
    """Refuse a stitch the design does not have.

    Raises:
        RequestError: Names the stitch and what the design has.
    """
    if not (1 <= at.row <= len(design.rows) and 1 <= at.stitch <= design.width):
        raise RequestError(
            f"Row {at.row}, stitch {at.stitch} is not in the design; "
            f"use rows 1 to {len(design.rows)} and stitches 1 to {design.width}."
        )


def check_key(design: Design, key: str) -> None:
    """Refuse a key the tray does not have.

    Raises:
        RequestError: Names the key and what the tray has.
    """
    if key == BARE:
        return
    try:
        design.tray.get(key)
    except DesignError as error:
        raise RequestError(str(error)) from error
