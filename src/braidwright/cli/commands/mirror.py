"""mirror: the design for the other hand."""

from typing import Annotated

import typer

from braidwright.cli.command import Command
from braidwright.cli.opening import opened, saved
from braidwright.cli.show import say
from braidwright.cli.types import CatalogueFiles, DesignFile, OutFile


def mirror(
    design: DesignFile,
    output: OutFile,
    same_picture: Annotated[
        bool,
        typer.Option(
            "--same-picture",
            metavar="",
            help="Keep the picture as drawn: other strings, so that the other hand braids it.",
        ),
    ] = False,
    catalogue: CatalogueFiles = None,
) -> None:
    """Make the design for the other way of working: S becomes Z, Z becomes S.

    There are two wishes, and both are met. Without an option everything is mirrored: slots, moves and picture, and the
    strings of beads stay the same, each on the mirrored slot. With --same-picture the hand changes and the picture does
    not, so the strings are new. Mirroring twice gives the first design back.
    """
    from braidwright.app.sizes import predict
    from braidwright.domain.mirror import mirror_everything
    from braidwright.domain.mirror import same_picture as keep_picture

    read = opened(design, catalogue)
    before = read.reading.design
    if same_picture:
        after = keep_picture(before, predict(before, read.catalogue).drift_deg)
    else:
        after = mirror_everything(before)
    saved(after, output)
    if output != "-":
        kept = "the same picture" if same_picture else "everything mirrored"
        say(f"{output}: {after.title}, hand {before.hand} made {after.hand}, {kept}.")


COMMAND = Command(
    run=mirror,
    panel="Begin and change",
    examples=(
        "braidwright mirror my-rope.json -o other-hand.json",
        "braidwright mirror my-rope.json -o same-picture.json --same-picture",
    ),
)
