"""types: what makers write after a command, turned into what the program uses before a command sees it."""

from collections.abc import Callable
from functools import partial
from math import isfinite
from pathlib import Path
from typing import Annotated

import typer

from braidwright.domain.errors import RequestError
from braidwright.domain.twist import WAYS, Twist
from braidwright.domain.units import parse_length

MOST_ROWS = 500_000
OWN_FILES = "braidwright.catalogue"


def as_length(what: str) -> Callable[[str], float]:
    """A reader of lengths such as "165mm" or "6 1/2 in", in mm; `what` is named when it cannot be read."""
    return partial(parse_length, what=what)


def as_whole(what: str, low: int, high: int) -> Callable[[str | int], int]:
    """A reader of whole numbers from low to high; a default comes through it too, as a number."""
    return partial(_whole, what=what, low=low, high=high)


def _whole(text: str | int, what: str, low: int, high: int) -> int:
    digits = str(text).strip().removeprefix("+")
    if not (digits.isascii() and digits.isdigit() and len(digits) <= 12 and low <= int(digits) <= high):
        raise RequestError(f"{what}: {_shown(text)} was found; give a whole number from {low} to {high}.")
    return int(digits)


def as_percent(what: str, high: float) -> Callable[[str], float]:
    """A reader of percentages from 0 to high, with or without the sign."""
    return partial(_percent, what=what, high=high)


def _percent(text: str, what: str, high: float) -> float:
    try:
        value = float(text.strip().removesuffix("%"))
    except ValueError:
        value = float("nan")
    if not (isfinite(value) and 0.0 <= value <= high):
        raise RequestError(f"{what}: {_shown(text)} was found; give a percentage from 0 to {high:g}.")
    return value


def as_word(what: str, words: tuple[str, ...]) -> Callable[[str], str]:
    """A reader of one of a few words, in capitals or not."""
    return partial(_word, what=what, words=words)


def _word(text: str, what: str, words: tuple[str, ...]) -> str:
    for word in words:
        if word.lower() == text.strip().lower():
            return word
    raise RequestError(f"{what}: {_shown(text)} was found; use one of {', '.join(words)}.")


def as_twist(text: str) -> Twist:
    """A way of working by its word, or degrees a row, with or without their sign."""
    word = text.strip().lower()
    for way in WAYS:
        if word == way:
            return Twist(way=way)
    try:
        deg = float(word.removesuffix("deg").removesuffix("\u00b0"))
    except ValueError:
        deg = float("nan")
    if not isfinite(deg):
        raise RequestError(f"Twist: {_shown(text)} was found; give {', '.join(WAYS)} or degrees a row, such as 14.5.")
    return Twist(deg=deg)


def as_colour(text: str) -> str:
    """A colour written #rrggbb; the sign may be left out, since some shells take it for a remark."""
    digits = text.strip().removeprefix("#")
    if len(digits) != 6 or any(sign not in "0123456789abcdefABCDEF" for sign in digits):
        raise RequestError(f"Colour: {_shown(text)} was found; write it as '#rrggbb', such as '#1b6e5a'.")
    return f"#{digits.lower()}"


def as_row_range(text: str) -> tuple[int, int]:
    """Rows from first to last, such as 10-40; one number is that row alone."""
    first, _, last = text.partition("-")
    return _whole(first, "Rows", 1, MOST_ROWS), _whole(last or first, "Rows", 1, MOST_ROWS)


def as_title(text: str) -> str:
    """One line of text."""
    if not text.strip() or len(text) > 200 or not text.isprintable():
        raise RequestError(f"Title: {_shown(text)} was found; give one line of at most 200 plain characters.")
    return text


def _shown(value: str | int) -> str:
    text = str(value)
    return repr(text if len(text) <= 40 else text[:37] + "...")


def remember_files(context: typer.Context, files: list[Path] | None) -> list[Path]:
    """Catalogue files given before the command and after it, together."""
    found: list[Path] = context.meta.setdefault(OWN_FILES, [])
    found.extend(files or [])
    return found


DesignFile = Annotated[
    str, typer.Argument(metavar="DESIGN", help="The design file, or - for a design sent to standard input.")
]
OutFile = Annotated[
    str,
    typer.Option(
        "--output",
        "-o",
        metavar="FILE",
        help="Where to write the new design; - writes it to standard output. A file that is there is replaced, once "
        "the new one is whole.",
    ),
]
Solve = Annotated[
    bool,
    typer.Option(
        "--solve",
        metavar="",
        help="Tighten the braid in the computer for its size and its pictures, whatever its moves and its beads; where "
        "it does not settle the quick formula answers and the reason is told. The very first time takes half a minute; "
        "Ctrl-C stops the tightening and keeps the estimate. What was solved once is kept.",
    ),
]
TwistWish = Annotated[
    Twist | None,
    typer.Option(
        "--twist",
        metavar="held|hanging|DEG",
        parser=as_twist,
        help="Try another twist than the design asks for: that of a disk held still, that of work that hangs free, or "
        "degrees a row, clockwise seen from above. A full turn measured on a swatch decides over all.",
    ),
]
Json = Annotated[bool, typer.Option("--json", metavar="", help="Answer in JSON, for other programs.")]
CatalogueFiles = Annotated[
    list[Path] | None,
    typer.Option(
        "--catalogue",
        "--beads",
        metavar="FILE",
        callback=remember_files,
        help="A catalogue file of your own: beads, cords, end caps or braids in TOML; may be given several times.",
    ),
]
Hand = Annotated[
    str | None,
    typer.Option(
        "--hand",
        metavar="S|Z",
        parser=as_word("Hand", ("S", "Z")),
        help="The hand of the braid: S or Z, the way its stitch line leans, like the middle bar of the letter.",
    ),
]
Rows = Annotated[
    int | None,
    typer.Option(
        "--rows",
        metavar="N",
        parser=as_whole("Rows", 1, MOST_ROWS),
        help="How many rows: repeats of the braid.",
    ),
]
Length = Annotated[
    float | None,
    typer.Option(
        "--length",
        metavar="LENGTH",
        parser=as_length("length"),
        help="How long the rows are to be, end caps and clasp not counted: 165mm, 16.5cm, '6 1/2 in'.",
    ),
]
Wrist = Annotated[
    float | None,
    typer.Option(
        "--wrist",
        metavar="LENGTH",
        parser=as_length("wrist"),
        help="Make it a bracelet for a wrist of this girth; ease, the thickness of the rope, caps and clasp are "
        "reckoned in.",
    ),
]
EaseWord = Annotated[
    str,
    typer.Option(
        "--ease", metavar="WORD", help="With --wrist: tight, snug, comfort or loose, or a length such as 12mm."
    ),
]
Neckline = Annotated[
    str | None,
    typer.Option(
        "--neckline",
        metavar="NAME",
        help="Make it reach a neckline: choker, princess, matinee or opera, or a finished length such as 45cm, "
        "caps and clasp counted.",
    ),
]
FindingsLength = Annotated[
    float | None,
    typer.Option(
        "--findings",
        metavar="LENGTH",
        parser=as_length("findings"),
        help="What end caps and clasp add together when closed; otherwise what the design says, or the usual 25 mm.",
    ),
]
