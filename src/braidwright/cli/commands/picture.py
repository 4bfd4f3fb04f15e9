"""picture: a picture laid on the chart."""

from typing import Annotated

import typer

from braidwright.cli.command import Command
from braidwright.cli.opening import opened, saved
from braidwright.cli.show import say, tell
from braidwright.cli.types import CatalogueFiles, DesignFile, OutFile, as_row_range, as_whole, as_word


def picture(  # noqa: PLR0913  (options of a command, one line each)
    design: DesignFile,
    image: Annotated[str, typer.Argument(metavar="PICTURE", help="A PNG or JPEG file.")],
    output: OutFile,
    rows: Annotated[
        str | None,
        typer.Option("--rows", metavar="FIRST-LAST", help="On which rows it may lie, such as 10-40; else all."),
    ] = None,
    arc: Annotated[
        int,
        typer.Option(
            "--arc",
            metavar="DEGREES",
            parser=as_whole("Arc", 1, 360),
            help="How much of the way round the rope it may take, centred on the front; 360 is all of it.",
        ),
    ] = 180,
    upright: Annotated[
        bool,
        typer.Option(
            "--upright", metavar="", help="Stand it upright on a rope that hangs with row 1 below; else it lies along."
        ),
    ] = False,
    fill: Annotated[
        bool, typer.Option("--fill", metavar="", help="Fill the rows and the arc; what does not fit is cut off.")
    ] = False,
    mix: Annotated[
        str,
        typer.Option(
            "--mix",
            metavar="WORD",
            parser=as_word("Mix", ("none", "diffused", "ordered")),
            help="How colours the tray lacks are mixed from those it has: none, diffused, or ordered in a pattern.",
        ),
    ] = "none",
    keys: Annotated[
        str | None,
        typer.Option("--keys", metavar="KEYS", help="The tray's beads to use, such as abc; else all that lie smooth."),
    ] = None,
    catalogue: CatalogueFiles = None,
) -> None:
    """Lay a picture on the rope, in the beads of the tray.

    The picture keeps its proportions on the rope, leaning columns and half-steps counted, and each stitch takes the
    bead whose colour looks nearest to its part of the picture. Clear parts leave what is there. A rope is a small
    canvas: bold shapes and few colours do best.
    """
    from braidwright.app.designs import read_bytes
    from braidwright.app.pictures import preview_picture, read_picture
    from braidwright.domain.picture import Placing

    read = opened(design, catalogue)
    before = read.reading.design
    placing = Placing(
        rows=None if rows is None else as_row_range(rows),
        arc_deg=arc,
        turn=270 if upright else 0,
        fit="fill" if fill else "whole",
        keys=None if keys is None else tuple(keys),
        mixing="diffused" if mix == "diffused" else "ordered" if mix == "ordered" else "none",
    )
    laid = preview_picture(before, read.catalogue, read_picture(read_bytes(image)), placing)
    saved(before.with_rows(laid.rows), output)
    tell(laid.notes)
    if output != "-":
        width, height = laid.size_mm
        say(f"{output}: {before.title}, a picture of {width:.0f} x {height:.0f} mm on {laid.stitches} stitches.")


COMMAND = Command(
    run=picture,
    panel="Begin and change",
    examples=(
        "braidwright picture my-rope.json my-picture.png -o pictured.json",
        "braidwright picture my-rope.json my-picture.png -o pictured.json --rows 5-20 --arc 360 --fill --mix diffused",
    ),
)
