"""patch: which stitches a motif covers when its middle lies on an anchor."""

from braidwright.domain.chart import columns, stations
from braidwright.domain.design import Anchor, Design, PlacedMotif
from braidwright.domain.errors import RequestError
from braidwright.domain.tray import BARE


def check_patch(design: Design, motif: PlacedMotif) -> None:
    """Refuse a patch that cannot be laid.

    Raises:
        RequestError: Nothing in it, wider than the rope, or a key the tray does not have.
    """
    if not motif.lines or not any(line.strip(" ") for line in motif.lines):
        raise RequestError(f"Motif {motif.name!r} is empty; give at least one line with a key in it.")
    widest = max(len(line) for line in motif.lines)
    if widest > len(columns(design.braid)):
        raise RequestError(
            f"Motif {motif.name!r} is {widest} stations wide, but the rope has {len(columns(design.braid))}; "
            f"make it narrower."
        )
    unknown = {*"".join(motif.lines)} - {*design.tray.keys, BARE, " "}
    if unknown:
        raise RequestError(
            f"Motif {motif.name!r} uses {min(unknown)!r}, which is not in the tray; add it or change it."
        )


def patch_stitches(design: Design, lines: tuple[str, ...], anchor: Anchor) -> tuple[tuple[Anchor, str], ...]:
    """The stitches a patch covers when its middle lies on the anchor; what would fall off an end is left out."""
    every = columns(design.braid)
    home = stations(design.braid)[anchor.stitch - 1].column
    found = []
    for line_number, line in enumerate(lines):
        row = anchor.row + line_number - (len(lines) - 1) // 2
        if not 1 <= row <= len(design.rows):
            continue
        for place_in_line, key in enumerate(line):
            if key != " ":
                column = every[(home + place_in_line - (len(line) - 1) // 2) % len(every)]
                found.append((Anchor(row=row, stitch=column.stitches[0] + 1), key))
    return tuple(found)
