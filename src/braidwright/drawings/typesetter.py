"""typesetter: Typst behind three plain functions: a PDF of the pages, a PNG of one drawing, which signs the type has.

Data goes in as JSON and is never pasted into source, so that no title, name or note can be read as markup. No system
font is used and no clock is read: the same data gives the same bytes on every machine.
"""

import json
from datetime import UTC, datetime
from functools import cache
from importlib.resources import files
from typing import Any, Literal

import typst

SUBSTITUTE = "\u25a1"  # a white square: visible, and in the type
STAMP = datetime(2000, 1, 1, tzinfo=UTC)  # the same for every print
SAFE = frozenset(map(chr, (*range(0x20, 0x7F), *range(0xA0, 0x180)))) | frozenset(
    "\n\t\r\u2013\u2014\u2018\u2019\u201c\u201d\u2026"
)
MOST_TRIED = 4000  # distinct signs beyond the common ones; a longer text than any pattern's
PNG_MARGIN_MM = 4.0


def page_pdf(data: object) -> bytes:
    """The pages as PDF/UA-1; every sign must be in the type (see `missing_signs`).

    Raises:
        typst.TypstError: The pages break a rule of PDF/UA-1: a fault of this program, never of a design.
    """
    return _compile("pattern.typ", json.dumps(data, ensure_ascii=False), form="pdf")


def drawing_png(svg: str, width_mm: float, height_mm: float, pixels: int) -> bytes:
    """One drawing as PNG on white, so many pixels wide."""
    data = {"svg": svg, "width": width_mm, "height": height_mm, "margin": PNG_MARGIN_MM}
    ppi = pixels / ((width_mm + 2.0 * PNG_MARGIN_MM) / 25.4)
    return _compile("picture.typ", json.dumps(data, ensure_ascii=False), form="png", ppi=ppi)


def missing_signs(text: str) -> frozenset[str]:
    """The signs of a text that the type cannot show."""
    unknown = sorted(set(text) - SAFE)
    tried = unknown[:MOST_TRIED]
    if not tried or _shows("".join(tried)):
        return frozenset(unknown[MOST_TRIED:])
    return frozenset(sign for sign in tried if not _shows(sign)) | frozenset(unknown[MOST_TRIED:])


@cache
def _shows(signs: str) -> bool:
    try:
        _compile("probe.typ", signs, form="pdf")
    except typst.TypstError:
        return False
    return True


def _compile(name: str, data: str, *, form: Literal["pdf", "png"], ppi: float | None = None) -> bytes:
    made = _compiler().compile(
        input={"main": _source(name)},
        format=form,
        ppi=ppi,
        sys_inputs={"data": data},
        pdf_standards=["ua-1"] if form == "pdf" else [],
        timestamp=STAMP,
    )
    page: bytes = made[0] if isinstance(made, list) else made  # one PNG for each page; a drawing is one page
    return page


@cache
def _compiler() -> Any:  # noqa: ANN401  (Typst's own types do not know sources given as bytes by name)
    """Kept: a second document is set much quicker than the first."""
    compiler: Any = typst.Compiler
    return compiler({"main": b""}, ignore_system_fonts=True)


@cache
def _source(name: str) -> bytes:
    return files("braidwright.drawings.typst").joinpath(name).read_bytes()
