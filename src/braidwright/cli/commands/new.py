"""new: start a design."""

from os.path import exists  # unlike Path.exists it has an answer for names no system can hold
from typing import Annotated

import typer

from braidwright.cli.command import Command
from braidwright.cli.show import say, tell
from braidwright.cli.types import (
    CatalogueFiles,
    EaseWord,
    Hand,
    Length,
    Rows,
    Wrist,
    as_colour,
    as_title,
)


def new(  # noqa: PLR0913  (options of a command, one line each)
    file: Annotated[str, typer.Argument(metavar="FILE", help="The design file to write, such as my-rope.json.")],
    title: Annotated[
        str | None, typer.Option("--title", metavar="TEXT", parser=as_title, help="Its title; else the file's name.")
    ] = None,
    braid: Annotated[
        str,
        typer.Option(
            "--braid", metavar="NAME|FILE", help="A braid of the catalogue (see `braids`), or a braid file of your own."
        ),
    ] = "kongoh-8",
    hand: Hand = None,
    bead: Annotated[
        str, typer.Option("--bead", metavar="NAME", help="The bead at every stitch; none for a braid of cord alone.")
    ] = "round-8/0",
    colour: Annotated[
        str, typer.Option("--colour", metavar="'#RRGGBB'", parser=as_colour, help="Colour of the beads.")
    ] = "#1b6e5a",
    cord: Annotated[
        str | None,
        typer.Option("--cord", metavar="NAME", help="The cord; else the one that suits the hole of the bead."),
    ] = None,
    cord_colour: Annotated[
        str, typer.Option("--cord-colour", metavar="'#RRGGBB'", parser=as_colour, help="Colour of the cords.")
    ] = "#4a3b32",
    rows: Rows = None,
    length: Length = None,
    wrist: Wrist = None,
    ease: EaseWord = "comfort",
    force: Annotated[
        bool, typer.Option("--force", metavar="", help="Write over a file that is already there.")
    ] = False,
    catalogue: CatalogueFiles = None,
) -> None:
    """Start a design: one braid, one kind of bead at every stitch, the length you ask for.

    What it writes is a complete design in a file you can open in any editor: one line of text for each row, one
    character for each stitch, one table for the tray of beads. Change the rows, add beads to the tray, and look at it
    again with `check`. Without a size it fits an average wrist. A file that is there already is left alone.
    """
    from braidwright.app.designs import open_catalogue
    from braidwright.app.starting import Wishes, new_design, title_from
    from braidwright.cli.opening import saved

    _refuse_taken(file, force=force)
    shelf = open_catalogue(tuple(catalogue or ()))
    wishes = Wishes(
        title=title or title_from(file),
        braid=braid,
        hand="S" if hand == "S" else "Z" if hand else None,
        bead=bead,
        colour=colour,
        cord=cord,
        cord_colour=cord_colour,
        rows=rows,
        length_mm=length,
        wrist_mm=wrist,
        ease=ease,
    )
    started = new_design(wishes, shelf)
    saved(started.design, file)
    tell((*shelf.warnings, *started.warnings), "Warning")
    tell(started.notes)
    if file != "-":
        say(f"{file}: {started.design.title}, {len(started.design.rows)} rows of {started.design.braid.english}.")


def _refuse_taken(file: str, *, force: bool) -> None:
    from braidwright.domain.errors import OutputError

    if not force and file != "-" and exists(file):
        raise OutputError(
            f"{file}: there is a file of this name already; choose another, or write over it with --force."
        )


COMMAND = Command(
    run=new,
    panel="Begin and change",
    examples=(
        "braidwright new my-rope.json --title 'My rope' --wrist 170mm",
        "braidwright new lanyard.json --braid kongoh-12 --hand Z --bead none --cord satin-2 --length 45cm",
    ),
)
