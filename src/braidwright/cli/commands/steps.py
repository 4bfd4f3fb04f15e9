"""steps: the working written out, move by move."""

from collections.abc import Iterable
from itertools import islice
from typing import TYPE_CHECKING, Annotated

import typer

from braidwright.cli.command import Command
from braidwright.cli.opening import opened
from braidwright.cli.show import say, say_json_list
from braidwright.cli.types import CatalogueFiles, DesignFile, Json, as_whole

if TYPE_CHECKING:
    from braidwright.domain.design import Design
    from braidwright.domain.steps import Step

MOST_STEPS = 1_000_000_000


def steps(
    design: DesignFile,
    first: Annotated[
        int,
        typer.Option("--from", metavar="N", parser=as_whole("From", 1, MOST_STEPS), help="The first move to tell."),
    ] = 1,
    last: Annotated[
        int | None,
        typer.Option("--to", metavar="N", parser=as_whole("To", 1, MOST_STEPS), help="The last move to tell."),
    ] = None,
    json: Json = False,
    catalogue: CatalogueFiles = None,
) -> None:
    """Write the working out, move by move: which cord, from which slot to which, and what falls.

    Moves are numbered from 1, re-spaces counted. A cord is called by the slot it started in. The slots are those of the
    disk as it is then, the turn of the pattern counted in, so you can lay the list beside the disk and find your place
    again: --from 40 --to 60 tells a part of it.
    """
    from braidwright.domain.errors import RequestError

    read = opened(design, catalogue).reading.design
    total = len(read.rows) * len(read.braid.moves)
    if first > total:
        raise RequestError(f"From: the working has {total} moves, so there is no move {first}; give 1 to {total}.")
    if last is not None and last < first:
        raise RequestError(f"To: move {last} comes before move {first}; give a number from {first} to {total}.")
    told = _steps(read, first, last)
    if json:
        say_json_list(_plain(step) for step in told)
    else:
        _say(read, told)


def _steps(design: "Design", first: int, last: int | None) -> "Iterable[Step]":
    from braidwright.domain.steps import steps_of

    return islice(steps_of(design), first - 1, last)


def _plain(step: "Step") -> dict[str, object]:
    return {
        "n": step.number,
        "cord": step.cord,
        "from": step.take,
        "to": step.put,
        "station": step.station,
        "column": step.column,
        "row": step.row,
        "drop": list(step.drop),
        "kind": step.kind,
        "stitch": step.stitch,
    }


def _say(design: "Design", told: "Iterable[Step]") -> None:
    names = {key: design.tray.name_of(key) for key in design.tray.keys}
    row = 0
    for step in told:
        if step.row != row:
            row = step.row
            say(f"Row {row}")
        what = f"cord {step.cord} from slot {step.take} to {step.put}"
        if step.station is None:
            say(f"  {step.number}. {what}: slide it along the rim, no bead")
        else:
            say(
                f"  {step.number}. {what}, at {step.station}: {', '.join(names[key] for key in step.drop) or 'no bead'}"
            )


COMMAND = Command(
    run=steps,
    panel="Make and share",
    examples=("braidwright steps my-rope.json --to 8", "braidwright steps my-rope.json --from 41 --to 60 --json"),
)
