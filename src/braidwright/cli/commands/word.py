"""word: a word in beads."""

from typing import Annotated

import typer

from braidwright.cli.command import Command
from braidwright.cli.opening import opened, saved
from braidwright.cli.show import say, tell
from braidwright.cli.types import MOST_ROWS, CatalogueFiles, DesignFile, OutFile, as_whole, as_word


def word(  # noqa: PLR0913  (options of a command, one line each)
    design: DesignFile,
    text: Annotated[str, typer.Argument(metavar="TEXT", help="The word: Latin letters, accents, digits, signs.")],
    output: OutFile,
    bead: Annotated[str, typer.Option("--bead", metavar="KEY", help="The tray's bead for the letters.")],
    ground: Annotated[
        str | None, typer.Option("--ground", metavar="KEY", help="The bead round them; else what is there stays.")
    ] = None,
    way: Annotated[
        str,
        typer.Option(
            "--way",
            metavar="WORD",
            parser=as_word("Way", ("along", "stacked", "round")),
            help="along the rope; stacked, letter under letter on a hanging rope; or round it.",
        ),
    ] = "along",
    height: Annotated[
        int,
        typer.Option(
            "--height", metavar="BEADS", parser=as_whole("Height", 5, 7), help="How high capitals are: 5 beads, or 7."
        ),
    ] = 5,
    row: Annotated[
        int | None,
        typer.Option(
            "--row",
            metavar="N",
            parser=as_whole("Row", 1, MOST_ROWS),
            help="In which row its middle lies; else the middle of the piece.",
        ),
    ] = None,
    catalogue: CatalogueFiles = None,
) -> None:
    """Write a word on the front of the rope.

    Letters along the rope are read best on 24 cords or more; on 12 and 16 cords stack them, since letters that lie
    along go round the edges. Round 8 cords there are four columns, room for narrow stacked letters only. The word stays
    a motif of the design, so that longer and shorter keep it whole.
    """
    from braidwright.app.lettering import preview_word, take_word
    from braidwright.domain.lettering import Word

    read = opened(design, catalogue)
    before = read.reading.design
    wish = Word(
        text=text,
        key=bead,
        ground=ground,
        way="stacked" if way == "stacked" else "round" if way == "round" else "along",
        height=height,
        row=row,
    )
    laid = preview_word(before, read.catalogue, wish)
    saved(take_word(before, laid), output)
    tell(laid.notes)
    if output != "-":
        say(f"{output}: {before.title}, with the word {text.strip()!r}.")


COMMAND = Command(
    run=word,
    panel="Begin and change",
    examples=(
        "braidwright word my-rope.json Ann -o named.json --bead b --way stacked",
        "braidwright word my-rope.json 7 -o named.json --bead b --ground a --way stacked --row 10",
    ),
)
