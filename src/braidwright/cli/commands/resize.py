"""resize: the design longer or shorter."""

from typing import TYPE_CHECKING

from braidwright.cli.command import Command
from braidwright.cli.opening import opened, saved
from braidwright.cli.show import say, tell
from braidwright.cli.types import (
    CatalogueFiles,
    DesignFile,
    EaseWord,
    FindingsLength,
    Length,
    Neckline,
    OutFile,
    Rows,
    Wrist,
)

if TYPE_CHECKING:
    from braidwright.app.fitting import Resized


def resize(  # noqa: PLR0913  (options of a command, one line each)
    design: DesignFile,
    output: OutFile,
    rows: Rows = None,
    length: Length = None,
    wrist: Wrist = None,
    ease: EaseWord = "comfort",
    neckline: Neckline = None,
    findings: FindingsLength = None,
    catalogue: CatalogueFiles = None,
) -> None:
    """Make the design longer or shorter, by the same number of rows at both ends.

    Say how long in one way: in rows, as a length of rope, for a wrist, or for a neckline. A pattern that repeats goes
    on; otherwise the plain ground grows, and motifs stay centred. For a wrist the length is wrist, ease and 3.14 times
    the thickness of the rope, less caps and clasp.
    """
    from braidwright.app.fitting import LengthWish, resized

    wish = LengthWish(rows=rows, length_mm=length, wrist_mm=wrist, neckline=neckline, ease=ease, findings_mm=findings)
    read = opened(design, catalogue)
    changed = resized(read.reading.design, read.catalogue, wish)
    saved(changed.design, output)
    tell(_notes(changed))
    if output != "-":
        say(f"{output}: {changed.design.title}, {changed.before} rows made {len(changed.design.rows)}.")


def _notes(changed: "Resized") -> tuple[str, ...]:
    notes = () if changed.fit is None else changed.fit.notes
    if changed.lost:
        notes += (f"Motifs: {changed.lost} of their places fell off an end.",)
    return notes


COMMAND = Command(
    run=resize,
    panel="Begin and change",
    examples=(
        "braidwright resize my-rope.json -o for-her.json --wrist 160mm --ease snug",
        "braidwright resize my-rope.json -o necklace.json --neckline princess --findings 25mm",
        "braidwright resize my-rope.json -o longer.json --rows 96",
    ),
)
