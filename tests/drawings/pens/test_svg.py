"""SVG: parsed by two libraries, escaped, described, and the same bytes twice."""

import math
from xml.etree import ElementTree

import pytest
from svgelements import SVG, Path, Shape, Text

from braidwright.domain.tray import SYMBOLS
from braidwright.drawings.pen import Drawing, Gradient, Lettering, Paint, Pen
from braidwright.drawings.pens import PENS
from braidwright.drawings.pens.recording import RecordingPen
from braidwright.drawings.pens.svg import number, render
from braidwright.drawings.sheets import SHEETS
from braidwright.drawings.symbols import draw_symbol
from drawings.subjects import BRAIDS, LOOKS, drawings, subject

NAME = "{http://www.w3.org/2000/svg}"
HOSTILE = "<script>alert('x')</script> & \"quotes\" ]]> \x00\x1f \ud800 漢"
GLOW = Gradient(kind="radial", stops=((0.0, "#ffffff"), (1.0, "#9c2f42")), start=(0.5, 0.5), end=(1.0, 0.5))
FADE = Gradient(kind="linear", stops=((0.0, "#ffffff"), (1.0, "#9c2f42")), start=(0.0, 0.0), end=(0.0, 1.0))


def draw_test_card(pen: Pen) -> None:
    """One of everything."""
    pen.begin("all kinds", "card")
    pen.polygon(((1.0, 1.0), (9.0, 1.0), (9.0, 9.0)), Paint(fill=GLOW))
    pen.line((0.0, 0.0), (10.0, 10.0), Paint(edge="#000000", width=0.3, dash=(1.0, 0.5)))
    pen.circle((5.0, 5.0), 2.0, Paint(fill="#ffffff", edge="#000000"))
    pen.ellipse((5.0, 5.0), (3.0, 1.0), Paint(fill=FADE, opacity=0.5), 30.0)
    for index, symbol in enumerate(SYMBOLS):
        draw_symbol(pen, symbol, (2.0 + index, 15.0), 0.9, "#2a2521")
    pen.text((1.0, 20.0), HOSTILE, Lettering(size=3.0, colour="#000000", anchor="middle", is_bold=True), HOSTILE)
    pen.end()


CARD = Drawing(name="card", width_mm=30, height_mm=25, title=HOSTILE, description=HOSTILE, paint=draw_test_card)


@pytest.mark.parametrize("name", sorted(PENS))
def test_every_pen_draws_the_test_card(name: str) -> None:
    assert PENS[name].draw(CARD)


def test_whatever_is_written_stays_words() -> None:
    root = ElementTree.fromstring(render(CARD))
    kept = HOSTILE.replace("\x00", "").replace("\x1f", "").replace("\ud800", "")
    assert root.find(f"{NAME}title").text == kept  # type: ignore[union-attr]
    assert root.find(f"{NAME}desc").text == kept  # type: ignore[union-attr]
    (text,) = root.iter(f"{NAME}text")
    assert text.text == kept
    assert text.get("data-of") == kept
    assert {element.tag.removeprefix(NAME) for element in root.iter()} == {
        *("svg", "title", "desc", "defs", "radialGradient", "linearGradient", "stop", "g"),
        *("polygon", "line", "circle", "ellipse", "path", "text"),
    }


def test_a_screen_reader_is_told_what_it_is() -> None:
    root = ElementTree.fromstring(render(CARD))
    assert root.get("role") == "img"
    assert root.get("aria-labelledby") == "card-title card-desc"
    assert [child.get("id") for child in list(root)[:2]] == ["card-title", "card-desc"]
    assert root.get("width") == "30mm"
    assert root.get("viewBox") == "0 0 30 25"


def test_gradients_are_written_once_and_found() -> None:
    root = ElementTree.fromstring(render(CARD))
    idents = [element.get("id") for tag in ("radialGradient", "linearGradient") for element in root.iter(NAME + tag)]
    fills = {element.get("fill") for element in root.iter()}
    assert sorted(idents, key=str) == ["card-fill-1", "card-fill-2"]
    assert {f"url(#{ident})" for ident in idents} <= fills


@pytest.mark.parametrize(
    ("value", "text"), [(3.0, "3"), (0.254, "0.25"), (-0.001, "0"), (-1.5, "-1.5"), (100.0, "100")]
)
def test_numbers_are_short(value: float, text: str) -> None:
    assert number(value) == text


@pytest.mark.parametrize("sheet", sorted(SHEETS))
@pytest.mark.parametrize("look", LOOKS)
def test_another_library_reads_every_sheet(sheet: str, look: object) -> None:
    """`svgelements` finds as many shapes as the recording pen, all of them finite. It shares no code with us."""
    for drawing in drawings(sheet, subject(BRAIDS["kongoh-8-S"], keys="aabg."), look):  # type: ignore[arg-type]
        pen = RecordingPen()
        drawing.paint(pen)
        drawn = [mark for mark in pen.marks if mark.kind not in ("text", "group")]
        read = SVG.parse(source=_file(render(drawing)), ppi=25.4)
        shapes = [element for element in read.elements() if isinstance(element, Shape)]
        assert len(shapes) == len(drawn)
        texts = [element.text for element in read.elements() if isinstance(element, Text)]
        assert texts == [mark.words for mark in pen.marks if mark.kind == "text"]
        for shape in shapes:
            box = Path(shape).bbox()
            assert box is None or all(math.isfinite(value) for value in box)


@pytest.mark.parametrize("name", sorted(BRAIDS))
def test_the_same_bytes_twice(name: str) -> None:
    once, again = (
        "".join(render(drawing) for sheet in SHEETS for drawing in drawings(sheet, subject(BRAIDS[name], 5)))
        for _ in range(2)
    )
    assert once == again
    assert once.count("<svg") > len(SHEETS) - 4


def _file(text: str) -> object:
    from io import StringIO

    return StringIO(text)
