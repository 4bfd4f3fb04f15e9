"""pdf: the printed pattern, tagged for screen readers (PDF/UA-1), in the type of the house."""

import re
from collections.abc import Callable
from unicodedata import bidirectional

from braidwright.drawings.chapters.figures import NO_BREAK
from braidwright.drawings.chapters.whole import manuscript
from braidwright.drawings.format import Format, Written
from braidwright.drawings.manuscript import (
    Block,
    Cell,
    Chapter,
    Facts,
    Grid,
    Heading,
    Manuscript,
    Marked,
    MoveList,
    Paragraph,
    Picture,
    Steps,
    StringList,
    Warned,
)
from braidwright.drawings.pattern import Page, Pattern
from braidwright.drawings.prints import Print
from braidwright.drawings.typesetter import SUBSTITUTE, missing_signs, page_pdf

JsonTable = dict[str, object]
TONGUE = re.compile(r"^(?P<lang>[A-Za-z]{2,3})(?:-(?P<script>[A-Za-z]{4}))?(?:-(?P<region>[A-Za-z]{2}))?(?:-.*)?$")
RUNNING = 58  # signs of the title in the foot of a page
FLOWING = frozenset({"finishing", "about"})  # chapters that need no page of their own
# What PDF/UA-1 or XML 1.0 does not allow: control signs, marks of byte order, halves of signs.
FORBIDDEN = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ud800-\udfff\ufeff\ufffe\uffff]")
NUMBERED = re.compile(r"\b(?:slots?|rows?) \d|\b\d+ (?=\w)")
LEFT_TO_RIGHT_MARK = "\u200e"
MOST_NAMED = 12
KEPT_ITEMS, KEPT_ROWS, KEPT_SIGNS = 9, 12, 1100  # a list or table up to this long is kept on one page


def write(pattern: Pattern) -> Written:
    """The pages, and a warning when a sign of the design is in no type of ours."""
    data = fit_for_type(pages(manuscript(pattern), pattern.page))
    missing = missing_signs(_all_text(data))
    shown = _replaced(data, {ord(sign): SUBSTITUTE for sign in missing})
    return Written(files=(("pattern.pdf", page_pdf(shown)),), warnings=_told(missing))


def _told(missing: frozenset[str]) -> tuple[str, ...]:
    if not missing:
        return ()
    named = ", ".join(
        f"{sign} (U+{ord(sign):04X})" if sign.isprintable() else f"U+{ord(sign):04X}"
        for sign in sorted(missing)[:MOST_NAMED]
    )
    more = "" if len(missing) <= MOST_NAMED else f" and {len(missing) - MOST_NAMED} more"
    return (
        f"The PDF: its type has no sign for {named}{more}, and shows {SUBSTITUTE} there; the text pattern, the "
        f"pictures and the design "
        f"file hold the words as you wrote them, and other letters in the design would print.",
    )


# --- data for the page ---------------------------------------------------------------------------------


def pages(written: Manuscript, page: Page) -> JsonTable:
    """The manuscript as the template reads it."""
    title = " ".join(written.title.split())
    return {
        "title": title,
        "title_rtl": runs_left(title),
        "title_scale": 3.1 if len(title) <= 26 else 2.5 if len(title) <= 50 else 1.8,
        "running": title if len(title) <= RUNNING else title[: RUNNING - 1].rstrip() + "\u2026",
        "author": written.author,
        "author_rtl": runs_left(written.author),
        "subtitle": written.subtitle,
        "tongue": tongue(written.language),
        "page": {
            "width": page.width_mm,
            "height": page.height_mm,
            "margin": page.margin_mm,
            "text": page.text_pt,
            "large": page.large_print,
        },
        "chapters": [_chapter(chapter) for chapter in written.chapters],
    }


def tongue(language: str) -> JsonTable:
    """Language, script and region of a BCP 47 tag as Typst wants them; English when it is no tag."""
    found = TONGUE.match(language)
    parts = found.groupdict() if found else {"lang": "en", "region": None, "script": None}
    return {
        "lang": (parts["lang"] or "en").lower(),
        "region": (parts["region"] or "").upper() or None,
        "script": (parts["script"] or "").lower() or "auto",
    }


def runs_left(text: str) -> bool:
    """Whether a text reads from right to left: its first letter says so (Unicode, annex 9, rules P2 and P3)."""
    kinds = (bidirectional(sign) for sign in text)
    return next((kind for kind in kinds if kind in ("L", "R", "AL")), "L") != "L"


def bound(text: str) -> str:
    """A number stays on the line of what it counts, and a slot with its number."""
    return NUMBERED.sub(lambda found: found[0].replace(" ", NO_BREAK), text)


def kept_in_order(text: str) -> str:
    """A list of counts and names that stays in order when names read from right to left.

    A mark after each such name keeps the next number from being drawn into it (Unicode, annex 9, section 2.6).
    """
    made, last = [], "L"
    for sign in text:
        kind = bidirectional(sign)
        if last in ("R", "AL") and sign in ",()":
            made.append(LEFT_TO_RIGHT_MARK)
            last = "L"
        made.append(sign)
        last = kind if kind in ("L", "R", "AL") else last
    return "".join(made)


def _chapter(chapter: Chapter) -> JsonTable:
    blocks = [_block(block) for block in chapter.blocks]
    return {
        "title": chapter.title,
        "hand": chapter.hand,
        "fresh": chapter.key not in FLOWING,
        "blocks": [block for block in blocks if block is not None],
    }


def _block(block: Block) -> JsonTable | None:
    laid = LAID.get(type(block))
    return None if laid is None else laid(block)


def _drawn(made: Print) -> JsonTable:
    return {"svg": made.svg, "alt": made.drawing.description, "width": made.drawing.width_mm}


def _cell(cell: Cell) -> object:
    return {"mark": _drawn(cell.mark), "text": cell.text} if isinstance(cell, Marked) else cell


def _heading(block: Heading) -> JsonTable:
    return {"kind": "heading", "text": block.text, "fresh": block.fresh}


def _paragraph(block: Paragraph) -> JsonTable:
    return {"kind": "paragraph", "text": block.text, "style": block.kind, "rtl": runs_left(block.text)}


def _steps(block: Steps) -> JsonTable:
    whole = len(block.items) <= KEPT_ITEMS and sum(len(item) for item in block.items) <= KEPT_SIGNS
    return {"kind": "steps", "items": [bound(item) for item in block.items], "numbered": block.numbered, "whole": whole}


def _facts(block: Facts) -> JsonTable:
    return {
        "kind": "facts",
        "facts": [{"name": fact.name, "value": fact.value, "rests": fact.rests_on} for fact in block.facts],
    }


def _grid(block: Grid) -> JsonTable:
    return {
        "kind": "table",
        "title": block.title,
        "head": list(block.head),
        "rows": [[_cell(cell) for cell in row] for row in block.rows],
        "widths": list(block.widths),
        "figures": list(block.figures),
        "titled": block.titled,
        "whole": len(block.rows) <= KEPT_ROWS and _signs(block) <= KEPT_SIGNS,
    }


def _signs(block: Grid) -> int:
    return sum(len(cell.text if isinstance(cell, Marked) else cell) for row in block.rows for cell in row)


def _picture(block: Picture) -> JsonTable:
    return {"kind": "picture", "caption": block.caption, "centred": block.centred, **_drawn(block.drawing)}


def _moves(block: MoveList) -> JsonTable:
    return {
        "kind": "moves",
        "sentences": [bound(sentence) for sentence in block.sentences],
        "drawings": [_drawn(drawing) for drawing in block.drawings],
    }


def _strings(block: StringList) -> JsonTable:
    return {
        "kind": "strings",
        "title": block.title,
        "cords": [
            {
                "slot": cord.slot,
                "where": cord.where,
                "cord": _cell(cord.cord),
                "words": kept_in_order(bound(cord.words)),
                "beads": cord.beads,
            }
            for cord in block.cords
        ],
    }


def _warned(block: Warned) -> JsonTable:
    return {"kind": "caution", "title": block.title, "text": block.text}


LAID: dict[type, Callable[..., JsonTable]] = {
    Heading: _heading,
    Paragraph: _paragraph,
    Steps: _steps,
    Facts: _facts,
    Grid: _grid,
    Picture: _picture,
    MoveList: _moves,
    StringList: _strings,
    Warned: _warned,
}


# --- text that the type can show -------------------------------------------------------------------------


def fit_for_type(data: JsonTable) -> JsonTable:
    """The data with a visible square for what no page can hold."""
    return _changed(data, lambda text: FORBIDDEN.sub(SUBSTITUTE, text))


def _replaced(data: JsonTable, signs: dict[int, str]) -> JsonTable:
    return _changed(data, lambda text: text.translate(signs)) if signs else data


def _changed(data: JsonTable, change: Callable[[str], str]) -> JsonTable:
    def walk(value: object) -> object:
        if isinstance(value, str):
            return change(value)
        if isinstance(value, dict):
            return {key: walk(each) for key, each in value.items()}
        return [walk(each) for each in value] if isinstance(value, list) else value

    return {key: walk(value) for key, value in data.items()}


def _all_text(value: object) -> str:
    """Every sign that is set, joined."""
    signs: set[str] = set()

    def walk(each: object) -> None:
        if isinstance(each, str):
            signs.update(each)
        elif isinstance(each, dict):
            for inner in each.values():
                walk(inner)
        elif isinstance(each, list):
            for inner in each:
                walk(inner)

    walk(value)
    return "".join(sorted(signs))


FORMAT = Format(
    name="pdf",
    title="Setting the pages",
    note="The printed pattern, tagged for screen readers.",
    weight=0.35,
    write=write,
)
