"""svg: every picture of the pattern, to scale, for print at any size."""

from braidwright.drawings.format import File, Format, Written
from braidwright.drawings.pattern import HandPart, Pattern
from braidwright.drawings.pens.svg import render
from braidwright.drawings.sheet import Look
from braidwright.drawings.sheets import SHEETS

PLAIN = Look()


def folder(part: HandPart) -> str:
    """Where the pictures of one hand go."""
    return f"pictures/hand-{part.hand.lower()}"


def write(pattern: Pattern) -> Written:
    """One file for every drawing of every sheet, a folder for each hand."""
    files: list[File] = []
    for part in pattern.hands:
        for sheet in SHEETS.values():
            for drawing in sheet.draw(part.subject, PLAIN):
                files.append((f"{folder(part)}/{drawing.name}.svg", render(drawing).encode("utf-8", "replace")))
    return Written(files=tuple(files))


FORMAT = Format(
    name="svg",
    title="Drawing the pictures",
    note="Every picture, to scale: they stay sharp at any size.",
    weight=0.15,
    write=write,
)
