"""resize: longer and shorter by rows, equally at both ends, with motifs staying centred."""

from collections import Counter
from dataclasses import replace

from braidwright.domain.design import Anchor, Design, PlacedMotif
from braidwright.domain.errors import RequestError

MOST_ROWS = 500_000


def resize(design: Design, rows: int, ground: str | None = None) -> Design:
    """The design with so many rows, the same number added or taken at both ends; an odd one comes or goes last.

    Added rows carry the pattern on when all rows repeat with a period; else each stitch takes the drop that is
    commonest in its column: the plain ground. Source for "equally at both ends": common practice, no source.

    Args:
        design: The design.
        rows: Rows wanted.
        ground: One text for every added row instead, one character for each stitch.

    Raises:
        RequestError: No rows, too many, or a ground that does not fit.
    """
    if not 1 <= rows <= MOST_ROWS:
        raise RequestError(f"Rows: {rows} is not a length; give 1 to {MOST_ROWS}.")
    if ground is not None and (len(ground) != design.width or not {*design.tray.keys, "."}.issuperset(ground)):
        raise RequestError(f"Ground {ground!r}: give {design.width} characters, each a key of the tray or '.'.")
    more = rows - len(design.rows)
    if more < 0:
        first = -more // 2
        return _moved(design, design.rows[first : first + rows], -first)
    before = more // 2
    return _moved(design, _extended(design, before, more - before, ground), before)


def _extended(design: Design, before: int, after: int, ground: str | None) -> tuple[str, ...]:
    rows = design.rows
    period = None if ground else smallest_period(rows)
    if period is None:
        plain = ground or ground_of(design)
        return (plain,) * before + rows + (plain,) * after
    return tuple(rows[index % period] for index in range(-before, len(rows) + after))


def smallest_period(rows: tuple[str, ...]) -> int | None:
    """The smallest period that the rows keep and show at least twice; None when they do not repeat."""
    for period in range(1, len(rows) // 2 + 1):
        if rows[period:] == rows[:-period]:
            return period
    return None


def ground_of(design: Design) -> str:
    """The plain ground: for each stitch of a row, the drop that is commonest there."""
    return "".join(Counter(text[index] for text in design.rows).most_common(1)[0][0] for index in range(design.width))


def _moved(design: Design, rows: tuple[str, ...], by: int) -> Design:
    """The design with these rows, its motifs moved along; anchors that fall off an end are dropped."""
    motifs = tuple(_shifted(motif, by, len(rows)) for motif in design.motifs)
    return replace(design, rows=rows, motifs=motifs)


def _shifted(motif: PlacedMotif, by: int, rows: int) -> PlacedMotif:
    anchors = (Anchor(row=at.row + by, stitch=at.stitch) for at in motif.anchors)
    return replace(motif, anchors=tuple(at for at in anchors if 1 <= at.row <= rows))
