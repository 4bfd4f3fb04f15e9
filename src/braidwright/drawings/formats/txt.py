"""txt: the whole pattern in words, for screen readers and braille lines: one step to a line, no picture needed.

Compass words go with slot numbers, tables are lines in which every cell has its name, and what one must know before
beginning (words, cautions) comes first. Source for the order: trade-facts, section 8, accessible patterns.
"""

from collections.abc import Callable, Iterator

from braidwright.drawings.chapters.whole import manuscript
from braidwright.drawings.format import Format, Written
from braidwright.drawings.manuscript import (
    Block,
    Cell,
    Chapter,
    CordString,
    Facts,
    Grid,
    Heading,
    Manuscript,
    Marked,
    MoveList,
    Paragraph,
    RowWords,
    Steps,
    StringList,
    Warned,
)
from braidwright.drawings.pattern import Pattern

ORDER = ("cover", "beginning", "cautions", "needs", "hand", "mending", "longer", "finishing", "about")
FOR_THE_EAR = (
    "This is the whole pattern in words. No picture is needed. Chapters are marked with two number signs, parts of a "
    "chapter with three; search for them to move about.",
    "Directions are compass words seen from above with north away from you, and each goes with its slot number.",
    "Mark north on the disk with a pin, a cut or a raised dot. Mark the slots of the start too, if that helps.",
    "Tell the cords apart by touch as well: cords of different texture, or a different knot at the free end of each.",
    "Read all steps of a part before you begin it.",
)


def text_of(pattern: Pattern) -> str:
    """The pattern in words."""
    return "\n".join(_lines(manuscript(pattern))) + "\n"


def _lines(written: Manuscript) -> Iterator[str]:
    yield f"# {_flat(written.title)}"
    yield ""
    yield from (
        _flat(line) for line in (f"By {written.author}." if written.author else "", f"{written.subtitle}.") if line
    )
    chapters = list(written.chapters)
    yield from _chapter(chapters[0], title="At a glance")
    yield ""
    yield "## How to read this text"
    yield ""
    yield from FOR_THE_EAR
    for chapter in sorted(chapters[1:], key=lambda each: ORDER.index("hand" if each.hand else each.key)):
        yield from _chapter(chapter)


def _chapter(chapter: Chapter, title: str = "") -> Iterator[str]:
    yield ""
    yield f"## {_flat(title or chapter.title)}"
    yield ""
    at_the_top = True
    for heading, lines in _parts(chapter):
        if heading is not None and lines:  # a part that is all picture has nothing to be read aloud
            yield from _heading(heading, spaced=not at_the_top)
        yield from lines
        at_the_top = at_the_top and not lines


def _parts(chapter: Chapter) -> list[tuple[Heading | None, list[str]]]:
    """The parts of a chapter, each under its heading, with the lines that can be read aloud."""
    parts: list[tuple[Heading | None, list[str]]] = [(None, [])]
    for block in chapter.blocks:
        if isinstance(block, Heading):
            parts.append((block, []))
        else:
            parts[-1][1].extend(_block(block))
    return parts


def _block(block: Block) -> Iterator[str]:
    speak = SPOKEN.get(type(block))
    if speak is not None:
        yield from speak(block)


def _heading(block: Heading, *, spaced: bool) -> Iterator[str]:
    if spaced:
        yield ""
    yield f"### {_flat(block.text)}"
    yield ""


def _paragraph(block: Paragraph) -> Iterator[str]:
    yield _flat(block.text)


def _steps(block: Steps) -> Iterator[str]:
    for number, item in enumerate(block.items, 1):
        yield f"Step {number}. {_flat(item)}" if block.numbered else f"- {_flat(item)}"


def _facts(block: Facts) -> Iterator[str]:
    for fact in block.facts:
        yield f"{_flat(fact.name)}: {_flat(fact.value)}" + (f" ({_flat(fact.rests_on)})." if fact.rests_on else ".")


def _grid(block: Grid) -> Iterator[str]:
    yield f"{_flat(block.title)}. {len(block.rows)} line{'s' if len(block.rows) != 1 else ''}:"
    for row in block.rows:
        yield "; ".join(f"{name}: {_cell(cell)}" for name, cell in zip(block.head, row, strict=True)) + "."


def _cell(cell: Cell) -> str:
    return _flat(cell.text if isinstance(cell, Marked) else cell)


def _moves(block: MoveList) -> Iterator[str]:
    for number, sentence in enumerate(block.sentences, 1):
        yield f"Move {number}. {_flat(sentence)}"


def _strings(block: StringList) -> Iterator[str]:
    yield f"{_flat(block.title)}. {len(block.cords)} cords:"
    for cord in block.cords:
        yield from _cord(cord)


def _cord(cord: CordString) -> Iterator[str]:
    where = f"Slot {cord.slot}, {cord.where}, {_cell(cord.cord)}"
    if not cord.beads:
        yield f"{where}: no beads."
        return
    yield f"{where}: {cord.beads} bead{'s' if cord.beads != 1 else ''}: {_flat(cord.words)}."


def _warned(block: Warned) -> Iterator[str]:
    yield f"Caution: {_flat(block.title)}. {_flat(block.text)}"


def _rows(block: RowWords) -> Iterator[str]:
    yield ""
    yield "### The rows, to check by"
    yield ""
    yield "Each row names the sides in the order of the moves, with what falls there."
    yield from (_flat(line) for line in block.lines)


SPOKEN: dict[type, Callable[..., Iterator[str]]] = {
    Paragraph: _paragraph,
    Steps: _steps,
    Facts: _facts,
    Grid: _grid,
    MoveList: _moves,
    StringList: _strings,
    Warned: _warned,
    RowWords: _rows,
}


def _flat(text: str) -> str:
    """On one line, whatever line ends the text holds: a line is a step."""
    return " ".join(text.split())


def write(pattern: Pattern) -> Written:
    """One text file."""
    return Written(files=(("pattern.txt", text_of(pattern).encode("utf-8", "replace")),))


FORMAT = Format(
    name="txt",
    title="Writing it out in words",
    note="The whole pattern in words, for screen readers: one step to a line, no picture needed.",
    weight=0.02,
    write=write,
)
