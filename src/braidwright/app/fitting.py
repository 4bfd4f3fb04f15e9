"""Fitting: how many rows a wished length, wrist or neckline takes, and the design in that size."""

from dataclasses import dataclass, replace

from braidwright.app.ports import Predictor
from braidwright.app.sizes import QUICK, end_cap_of, fit_length, fit_neckline, fit_wrist, size
from braidwright.catalogue.shelf import Catalogue
from braidwright.domain.cord import EndCap
from braidwright.domain.design import Design, Findings
from braidwright.domain.errors import RequestError
from braidwright.domain.fit import DEFAULT_EASE, Fit, ease_mm, neckline_mm
from braidwright.domain.resize import resize
from braidwright.domain.size import Size
from braidwright.domain.units import parse_length


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthWish:
    """How long a piece is to be: exactly one of the four is given.

    Attributes:
        rows: Rows.
        length_mm: Length of the rows.
        wrist_mm: Wrist of whoever wears it.
        neckline: A neckline by name, or the finished length as a maker writes it.
        ease: For a wrist: how loosely, a word of the trade or a length.
        findings_mm: Length that caps and clasp add together; None for what the design says.
    """

    rows: int | None = None
    length_mm: float | None = None
    wrist_mm: float | None = None
    neckline: str | None = None
    ease: str = DEFAULT_EASE
    findings_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Resized:
    """A design in another size.

    Attributes:
        design: The design.
        before: Rows it had.
        fit: How the rows were reckoned, or None when they were given.
        lost: Motif anchors that fell off an end.
    """

    design: Design
    before: int
    fit: Fit | None
    lost: int


def check_wish(wish: LengthWish) -> None:
    """Refuse what could not be met by any design, before its size is worked out.

    Raises:
        RequestError: Not exactly one of rows, length, wrist and neckline, or an ease or a neckline that is none.
    """
    names = {"rows": wish.rows, "length": wish.length_mm, "wrist": wish.wrist_mm, "neckline": wish.neckline}
    given = [name for name, value in names.items() if value is not None]
    if len(given) != 1:
        what = "Nothing says how long the piece is to be" if not given else f"Both {given[0]} and {given[1]} are given"
        raise RequestError(f"{what}; give one of rows, length, wrist or neckline.")
    if wish.wrist_mm is not None:
        ease_mm(wish.ease)
    if wish.neckline is not None:
        _check_neckline(wish.neckline)


def resized(design: Design, catalogue: Catalogue, wish: LengthWish) -> Resized:
    """The design in the size wished for, rows added or taken equally at both ends.

    Raises:
        RequestError: No wish or two, or one that cannot be met.
        CatalogueError: A bead, cord or end cap that is not known.
    """
    check_wish(wish)
    fit = None if wish.rows is not None else fit_for(design, catalogue, wish)
    rows = wish.rows if fit is None else fit.rows
    changed = resize(design, rows or 0)
    anchors = sum(len(motif.anchors) for motif in design.motifs)
    kept = sum(len(motif.anchors) for motif in changed.motifs)
    return Resized(design=changed, before=len(design.rows), fit=fit, lost=anchors - kept)


def fit_for(design: Design, catalogue: Catalogue, wish: LengthWish, predictor: Predictor = QUICK) -> Fit:
    """How many rows a length, a wrist or a neckline takes.

    Args:
        design: The design.
        catalogue: Where beads, cords and end caps are looked up.
        wish: The length, wrist or neckline.
        predictor: What tells the size.

    Raises:
        RequestError: The wish cannot be met, or the size of the design is not known.
        CatalogueError: A bead, cord or end cap that is not known.
    """
    measured = size(design, catalogue, predictor)
    given = 0.0 if wish.length_mm is not None else wish.findings_mm
    if given is None:
        return _fit(design, measured, end_cap_of(design, catalogue, measured), wish)
    closed = replace(design, findings=Findings(clasp_mm=given))
    return replace(_fit(closed, measured, None, wish), notes=())


def _fit(design: Design, measured: Size, cap: EndCap | None, wish: LengthWish) -> Fit:
    if wish.length_mm is not None:
        return fit_length(design, measured, cap, wish.length_mm)
    if wish.wrist_mm is not None:
        return fit_wrist(design, measured, cap, wish.wrist_mm, wish.ease)
    neckline = wish.neckline or ""
    if _is_length(neckline):
        return fit_length(design, measured, cap, parse_length(neckline, "neckline"))
    return fit_neckline(design, measured, cap, neckline)


def _check_neckline(neckline: str) -> None:
    if _is_length(neckline):
        parse_length(neckline, "neckline")
    else:
        neckline_mm(neckline)


def _is_length(neckline: str) -> bool:
    """Whether a neckline is told as a finished length and not by its name."""
    return neckline.strip()[:1].isdigit()
