"""publish: the pattern pack."""

from pathlib import Path
from typing import Annotated, Literal, cast

import typer

from braidwright.cli.command import Command
from braidwright.cli.opening import opened
from braidwright.cli.show import progress, say, tell
from braidwright.cli.tightening import tell_why_not, tightening
from braidwright.cli.types import CatalogueFiles, DesignFile, Solve, TwistWish, as_percent, as_whole, as_word


def publish(  # noqa: PLR0913  (options of a command, one line each)
    design: DesignFile,
    output: Annotated[
        Path,
        typer.Option(
            "--output", "-o", metavar="FOLDER", help="The folder for the pack; it is made when it is not there."
        ),
    ],
    paper: Annotated[
        str,
        typer.Option(
            "--paper", metavar="a4|letter", parser=as_word("Paper", ("a4", "letter")), help="Paper to print on."
        ),
    ] = "a4",
    large_print: Annotated[
        bool, typer.Option("--large-print", metavar="", help="Large type and large drawings.")
    ] = False,
    other_hand: Annotated[
        str,
        typer.Option(
            "--other-hand",
            metavar="mirror|same-picture|none",
            parser=as_word("Other hand", ("mirror", "same-picture", "none")),
            help="How the other way of working is told: everything mirrored, the same picture with other strings, or "
            "not at all.",
        ),
    ] = "mirror",
    pieces: Annotated[
        int,
        typer.Option(
            "--pieces", metavar="N", parser=as_whole("Pieces", 1, 10_000), help="Supplies for how many pieces."
        ),
    ] = 1,
    spare: Annotated[
        float | None,
        typer.Option("--spare", metavar="PERCENT", parser=as_percent("Spare", 500.0), help="Extra beads to buy."),
    ] = None,
    solve: Solve = False,
    twist: TwistWish = None,
    catalogue: CatalogueFiles = None,
) -> None:
    """Make the pattern pack: everything a stranger needs to braid this design.

    It holds a PDF to print (tagged for screen readers), the pictures, the strings and the supplies as tables, the
    design file itself and the whole pattern as plain text, for both ways of working. The same design makes the same
    files, byte for byte. Other files in the folder stay as they are.
    """
    from braidwright.app.output import write_pack
    from braidwright.app.publish import Wishes
    from braidwright.app.publish import publish as make_pack

    read = opened(design, catalogue, twist=twist)
    wishes = Wishes(
        paper=cast(Literal["a4", "letter"], paper),
        large_print=large_print,
        other_hand=cast(Literal["mirror", "same-picture", "none"], other_hand),
        spare_percent=spare,
        pieces=pieces,
        solve=solve,
    )
    with progress() as doing:
        with tightening(read, doing, wanted=solve) as watch:
            pack = make_pack(read.reading.design, read.catalogue, wishes, progress=doing, watch=watch)
            tell_why_not(read, watch)
        doing("Writing the files", 1.0)
        written = write_pack(pack.files, output)
    tell(pack.warnings, "Warning")
    say(f"The pattern pack is in {output}: {len(written)} files. Open {_first(written)} first.")


def _first(written: tuple[Path, ...]) -> Path:
    """What to open first: the PDF, or else the text, or else anything."""
    for suffix in (".pdf", ".txt"):
        for path in written:
            if path.suffix == suffix:
                return path
    return written[0]


COMMAND = Command(
    run=publish,
    panel="Make and share",
    examples=(
        "braidwright publish my-rope.json -o my-rope-pattern",
        "braidwright publish my-rope.json -o large --paper letter --large-print --other-hand same-picture",
    ),
)
