"""opening: open what a command was given, and save what it made; what is worth a remark goes to standard error."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from braidwright.cli.show import tell

if TYPE_CHECKING:
    from braidwright.app.designs import Opened
    from braidwright.domain.design import Design
    from braidwright.domain.twist import Twist

STANDARD_OUTPUT = "-"


def opened(design: str, files: list[Path] | None, *, quiet: bool = False, twist: "Twist | None" = None) -> "Opened":
    """The design and the catalogue; warnings of both are told unless `quiet`; with a twist that is tried instead."""
    from braidwright.app.designs import open_catalogue, open_design, twisted

    catalogue = open_catalogue(tuple(files or ()))
    found = open_design(design, catalogue, None if sys.stdin is None else sys.stdin.buffer)
    if not quiet:
        tell((*catalogue.warnings, *found.reading.warnings), "Warning")
    return found if twist is None else twisted(found, twist)


def saved(design: "Design", output: str) -> None:
    """The design in a file, or on standard output for "-"."""
    from braidwright.app.designs import save_design
    from braidwright.domain.document import write_design

    text = write_design(design)
    if output == STANDARD_OUTPUT:
        sys.stdout.write(text.encode("utf-8", "backslashreplace").decode("utf-8"))
    else:
        save_design(text, Path(output))
