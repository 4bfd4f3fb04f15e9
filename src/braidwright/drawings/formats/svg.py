"""svg: every picture of the pattern, to scale, for print at any size."""

from braidwright.drawings.format import File, Format, Written
from braidwright.drawings.pattern import HandPart, Pattern
from braidwright.drawings.prints import prints
from braidwright.drawings.sheets import SHEETS


def folder(part: HandPart) -> str:
    """Where the pictures of one hand go."""
    return f"pictures/hand-{part.hand.lower()}"


def write(pattern: Pattern) -> Written:
    """One file for every drawing of every sheet, a folder for each hand."""
    files: list[File] = [
        (f"{folder(part)}/{made.drawing.name}.svg", made.svg.encode("utf-8", "replace"))
        for part in pattern.hands
        for name in SHEETS
        for made in prints(name, part.subject, pattern.page.look())
    ]
    return Written(files=tuple(files))


FORMAT = Format(
    name="svg",
    title="Drawing the pictures",
    note="Every picture, to scale: they stay sharp at any size.",
    weight=0.15,
    write=write,
)
