"""pdf: read back by pikepdf and pypdf: tagged for screen readers, real text, both hands complete.

PDF/UA-1 is ISO 14289-1; the clauses named below are its. Typst writes to it and refuses what breaks it; here other
libraries look at the result. It is not certified: no full checker was in reach.
"""

import io
import re
from collections import Counter
from functools import cache
from itertools import pairwise
from typing import Any

import pikepdf
import pypdf
import pytest

from braidwright.app.publish import Wishes
from braidwright.domain.strings import strings_of
from braidwright.drawings import words
from braidwright.drawings.formats.pdf import bound, kept_in_order, runs_left, tongue
from packs import EVERY, HOSTILE, files, pack, pattern

ONLY = ("pdf",)
PLAIN = Wishes(formats=ONLY)
LARGE = Wishes(formats=ONLY, large_print=True)
LETTER = Wishes(formats=ONLY, paper="letter")
LEAST_PT, LEAST_LARGE_PT = 10.5, 16.0


@cache  # and so kept open as long as its elements are looked at
def pdf(name: str = "lanterns", wishes: Wishes = PLAIN) -> pikepdf.Pdf:
    return pikepdf.open(io.BytesIO(files(name, wishes)["pattern.pdf"]))


@cache
def text(name: str = "lanterns", wishes: Wishes = PLAIN) -> str:
    """All words without spaces, line ends and marks of direction: where a line breaks is no matter of truth."""
    pages = pypdf.PdfReader(io.BytesIO(files(name, wishes)["pattern.pdf"])).pages
    return tight(" ".join(page.extract_text() for page in pages))


def tight(said: str) -> str:
    return "".join(said.replace("\u200e", "").split())


def elements(made: pikepdf.Pdf) -> list[tuple[str, Any]]:
    """Every element of the structure, in reading order: pairs (kind, element)."""
    found: list[tuple[str, Any]] = []

    def walk(node: Any) -> None:
        if isinstance(node, pikepdf.Array):
            for each in node:
                walk(each)
        elif isinstance(node, pikepdf.Dictionary):
            if "/S" in node:
                found.append((str(node["/S"])[1:], node))
            if "/K" in node:
                walk(node["/K"])

    walk(made.Root.StructTreeRoot["/K"])
    return found


@pytest.mark.parametrize("name", EVERY)
def test_the_document_says_what_it_is(name: str) -> None:
    """Clauses 5 (identification), 7.1 (marked, title shown) and 7.2 (language)."""
    made = pdf(name)
    assert bool(made.Root.MarkInfo.Marked)
    assert str(made.Root.Lang) == "en"
    assert bool(made.Root.ViewerPreferences.DisplayDocTitle)
    with made.open_metadata() as meta:
        assert meta["pdfuaid:part"] == "1"
        assert meta["dc:title"].strip()
    if name != "strange":
        assert str(made.docinfo["/Title"]) == EVERY[name].title


@pytest.mark.parametrize("name", EVERY)
def test_headings_step_down_one_at_a_time(name: str) -> None:
    """Clause 7.4.2: no level is skipped."""
    levels = [int(kind[1]) for kind, _ in elements(pdf(name)) if re.fullmatch(r"H\d", kind)]
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))
    assert levels.count(1) == 9
    assert levels.count(2) >= 10


@pytest.mark.parametrize("name", EVERY)
def test_every_picture_has_words(name: str) -> None:
    """Clause 7.3."""
    figures = [node for kind, node in elements(pdf(name)) if kind == "Figure"]
    assert len(figures) >= 2 * (1 + len(EVERY[name].braid.moves))
    assert all(str(node.get("/Alt", "")).strip() for node in figures)


@pytest.mark.parametrize("name", EVERY)
def test_every_table_has_heads_for_its_columns(name: str) -> None:
    """Clause 7.5."""
    kinds = Counter(kind for kind, _ in elements(pdf(name)))
    assert kinds["Table"] == kinds["THead"] >= 5
    for kind, node in elements(pdf(name)):
        if kind == "TH":
            assert "Column" in str(node.get("/A", ""))


@pytest.mark.parametrize("name", EVERY)
def test_lists_and_contents_are_marked(name: str) -> None:
    kinds = Counter(kind for kind, _ in elements(pdf(name)))
    assert kinds["L"] >= 5
    assert kinds["LI"] == kinds["LBody"] > kinds["L"]
    assert kinds["TOCI"] == 9


@pytest.mark.parametrize("name", EVERY)
def test_every_font_is_embedded_and_can_be_read_back(name: str) -> None:
    """Clauses 7.21.4.1 and 7.21.7."""
    seen = 0
    for item in pdf(name).objects:
        if isinstance(item, pikepdf.Dictionary) and item.get("/Type") == "/Font" and "/DescendantFonts" in item:
            seen += 1
            assert "/ToUnicode" in item
            described = item.DescendantFonts[0].FontDescriptor
            assert any(key in described for key in ("/FontFile", "/FontFile2", "/FontFile3"))
    assert seen >= 2


@pytest.mark.parametrize("name", [name for name in EVERY if name != "strange"])
def test_every_string_and_move_is_there_as_text_for_both_hands(name: str) -> None:
    said = text(name)
    for part in pattern(name).hands:
        for sentence in words.move_sentences(part.design):
            assert tight(sentence) in said
        for string in strings_of(part.design):
            if part.subject.is_beaded:
                assert tight(words.string_words(part.design, string)) in said
        assert tight(f"Hand {part.hand}: ") in said


def test_every_step_caution_and_figure_is_there_as_text() -> None:
    said, design = text(), EVERY["lanterns"]
    for caution in words.CAUTIONS:
        assert tight(f"Caution: {caution.title}. {caution.text}") in said
    assert tight(words.DEFER) in said
    for step in words.set_up_sentences(design):
        assert tight(step) in said
    for need in pattern().supplies.beads:
        assert tight(f"{need.buy_count}, {need.buy_grams:.1f} g") in said
    for told in (design.author, design.notes, design.licence, design.skill, "mm (", "estimated"):
        assert told is not None
        assert tight(told) in said


def test_a_design_that_is_not_predicted_says_so() -> None:
    assert tight("Length of the rows not predicted yet") in text("seven")
    assert tight("not predicted yet") in text("stacked")


def test_strange_signs_are_text_and_never_markup() -> None:
    said = text("strange")
    assert tight("$x$ *b* _e_ <t> @ref") in said
    assert tight("#panic()") in said
    assert tight("```raw``` // comment /* x */") in said
    assert tight("□") in said
    assert "漢" not in said
    assert pack("strange", PLAIN).warnings


def test_signs_that_no_page_may_hold_do_not_stop_the_press() -> None:
    from dataclasses import replace

    from braidwright.app.publish import publish
    from packs import LANTERN_ROPE, SHELF

    odd = replace(LANTERN_ROPE, title="A\ufeffB\u0001\ue000\U0010ffff\u202e", story="\ud800" + HOSTILE * 40)
    made = publish(odd, SHELF, PLAIN)
    assert dict(made.files)["pattern.pdf"].startswith(b"%PDF-")


@pytest.mark.parametrize(
    ("wishes", "width_mm", "height_mm"), [(PLAIN, 210.0, 297.0), (LARGE, 210.0, 297.0), (LETTER, 215.9, 279.4)]
)
def test_the_paper_is_the_paper_wished(wishes: Wishes, width_mm: float, height_mm: float) -> None:
    """ISO 216 for A4; ANSI/ASME Y14.1 for Letter, 8.5 by 11 in."""
    for page in pypdf.PdfReader(io.BytesIO(files(wishes=wishes)["pattern.pdf"])).pages:
        assert float(page.mediabox.width) / 72 * 25.4 == pytest.approx(width_mm, abs=0.2)
        assert float(page.mediabox.height) / 72 * 25.4 == pytest.approx(height_mm, abs=0.2)


@pytest.mark.parametrize(("wishes", "least"), [(PLAIN, LEAST_PT), (LETTER, LEAST_PT), (LARGE, LEAST_LARGE_PT)])
def test_no_running_text_is_smaller_than_promised(wishes: Wishes, least: float) -> None:
    """Sizes of everything set outside drawings: Typst sets text with the size of the font, drawings with a matrix."""
    sizes = set()
    for page in pypdf.PdfReader(io.BytesIO(files(wishes=wishes)["pattern.pdf"])).pages:
        for sentence, size in told_with_size(page):
            if any(word in sentence for word in ("estimated", "Caution", "Slots are counted", "of a", "Moss, ")):
                sizes.add(round(size, 2))
    assert sizes
    assert min(sizes) >= least


def told_with_size(page: pypdf.PageObject) -> list[tuple[str, float]]:
    found: list[tuple[str, float]] = []

    def visit(said: str, cm: list[float], tm: list[float], _font: object, size: float) -> None:
        found.append((said, abs(size * tm[3] * cm[3])))

    page.extract_text(visitor_text=visit)
    return found


def test_large_print_says_the_same_on_more_pages() -> None:
    count, large = (len(pdf(wishes=wishes).pages) for wishes in (PLAIN, LARGE))
    assert count < large < 4 * count
    for sentence in words.move_sentences(EVERY["lanterns"]):
        assert tight(sentence) in text(wishes=LARGE)


@pytest.mark.parametrize(("name", "least", "most"), [("lanterns", 12, 24), ("seven", 10, 20), ("wide", 14, 34)])
def test_the_number_of_pages_is_sane(name: str, least: int, most: int) -> None:
    assert least <= len(pdf(name).pages) <= most


def test_no_page_is_empty_and_every_one_names_its_piece_and_number() -> None:
    pages = pypdf.PdfReader(io.BytesIO(files(wishes=PLAIN)["pattern.pdf"])).pages
    for number, page in enumerate(pages, 1):
        said = page.extract_text()
        assert len(said) > 150, number
        assert f"{number} of {len(pages)}" in said
        assert "Fen Lanterns" in said


def test_the_foot_names_the_hand_of_the_page() -> None:
    hands = []
    for page in pypdf.PdfReader(io.BytesIO(files(wishes=PLAIN)["pattern.pdf"])).pages:
        told = re.search(r"Fen Lanterns\s+(?:Hand ([SZ])\s+)?\d+ of \d+", page.extract_text())
        assert told
        hands.append(told[1] or "-")
    assert re.fullmatch(r"-+S+Z+-+", "".join(hands))


def test_no_system_font_and_no_clock() -> None:
    made = pdf()
    assert str(made.docinfo["/CreationDate"]).startswith("D:20000101")
    names = {
        str(item.BaseFont)
        for item in made.objects
        if isinstance(item, pikepdf.Dictionary) and item.get("/Type") == "/Font" and "/BaseFont" in item
    }
    assert all("Libertinus" in name or "DejaVu" in name for name in names)


@pytest.mark.parametrize(
    ("tag", "expected"),
    [
        ("en", ("en", None, "auto")),
        ("de-AT", ("de", "AT", "auto")),
        ("sr-Latn-RS", ("sr", "RS", "latn")),
        ("no tag", ("en", None, "auto")),
        ("", ("en", None, "auto")),
    ],
)
def test_language_tags(tag: str, expected: tuple[str, str | None, str]) -> None:
    """BCP 47 (RFC 5646), section 2.1: language, script, region."""
    found = tongue(tag)
    assert (found["lang"], found["region"], found["script"]) == expected


def test_direction_is_that_of_the_first_letter() -> None:
    """Unicode, annex 9, rules P2 and P3."""
    assert not runs_left("# Hello שלום")
    assert runs_left("12 שלום hello")
    assert not runs_left("12 !")


def test_counts_stay_with_their_names() -> None:
    assert kept_in_order("3 Moss, 1 Pearl") == "3 Moss, 1 Pearl"
    assert kept_in_order("3 שלום, 1 אב").replace("\u200e", "|") == "3 שלום|, 1 אב"


def test_a_number_stays_with_what_it_counts() -> None:
    assert bound("3 Moss, 1 Night blue in slot 12.").replace("\u00a0", "~") == "3~Moss, 1~Night blue in slot~12."


def test_the_designer_s_words_are_marked_with_their_language() -> None:
    languages = {str(node.get("/Lang", "")) for _, node in elements(pdf())}
    assert "en-GB" in languages
