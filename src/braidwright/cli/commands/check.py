"""check: everything to know about a design before stringing a bead."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from braidwright.cli.command import Command
from braidwright.cli.show import say, say_json
from braidwright.cli.types import CatalogueFiles, Json
from braidwright.domain.errors import BraidwrightError

if TYPE_CHECKING:
    from braidwright.app.checks import Report


def check(
    design: Annotated[
        str,
        typer.Argument(
            metavar="DESIGN", help="The design file, - for a design sent to standard input, or a braid file (.toml)."
        ),
    ],
    json: Json = False,
    catalogue: CatalogueFiles = None,
) -> None:
    """Look over a design before you string a bead, and tell everything worth knowing.

    It tells of fields and names nobody knows, of cords that do not suit the holes of the beads, of beads that would
    press on the skin, of colours too alike to tell apart (also to colour-blind makers), whether the braid holds
    together as one, and of sizes that makers do not see. Warnings are for you to judge: the answer is 0 when the design
    can be braided as it is, and 2 when something must be mended first.
    """
    if Path(design).suffix.lower() == ".toml":
        _check_braid(design, json=json, catalogue=catalogue)
    else:
        _check_design(design, json=json, catalogue=catalogue)


def _check_design(design: str, *, json: bool, catalogue: list[Path] | None) -> None:
    from braidwright.app.checks import check as look_over
    from braidwright.cli.opening import opened

    try:
        report = look_over(opened(design, catalogue, quiet=True))
    except BraidwrightError as error:
        if json:
            say_json({"can_be_braided": False, "faults": [{"about": "file", "sentence": str(error)}]})
        raise
    if json:
        say_json(_plain(report))
    else:
        _say(report)
    if not report.can_be_braided:
        first = report.faults[0].sentence
        more = f" (and {len(report.faults) - 1} more, told above)" if len(report.faults) > 1 else ""
        raise BraidwrightError(f"{design}: {first}{more}")


def _plain(report: "Report") -> dict[str, object]:
    design, measured = report.design, report.size
    told = {
        name: [{"about": each.about, "sentence": each.sentence} for each in remarks]
        for name, remarks in (("faults", report.faults), ("warnings", report.warnings), ("notes", report.notes))
    }
    return {
        "can_be_braided": report.can_be_braided,
        "title": design.title,
        "braid": design.braid.name,
        "hand": design.hand,
        "cords": design.braid.cord_count,
        "rows": len(design.rows),
        "stitches": len(design.rows) * design.width,
        "beads": report.beads,
        "one_piece": report.pieces.is_one,
        "pieces": [list(piece) for piece in report.pieces.pieces],
        "length_mm": None if measured is None else measured.length_mm,
        "diameter_mm": None if measured is None else measured.diameter_mm,
        "basis": None if measured is None else measured.basis,
        **told,
    }


def _say(report: "Report") -> None:
    design = report.design
    say(
        f"{design.title}: {design.braid.english}, hand {design.hand}, {design.braid.cord_count} cords, "
        f"{len(design.rows)} rows, {report.beads} beads."
    )
    for word, remarks in (("Mend", report.faults), ("Look", report.warnings), ("Know", report.notes)):
        for remark in remarks:
            say(f"  {word} ({remark.about}): {remark.sentence}")
    if report.can_be_braided:
        say(
            "It can be braided."
            if not report.warnings
            else f"It can be braided; {_many(len(report.warnings))} to look at."
        )
    else:
        say("It cannot be braided as it is.")


def _many(count: int) -> str:
    return "1 thing" if count == 1 else f"{count} things"


def _check_braid(file: str, *, json: bool, catalogue: list[Path] | None) -> None:
    from braidwright.app.braids import facts_of, find_braid
    from braidwright.app.designs import open_catalogue

    found = find_braid(file, open_catalogue(tuple(catalogue or ())))
    facts = facts_of(found.braid)
    if json:
        say_json(
            {
                "can_be_braided": True,
                "title": found.braid.english,
                "braid": found.braid.name,
                "hand": found.braid.hand,
                "cords": found.braid.cord_count,
                "one_piece": facts.pieces.is_one,
                "pieces": [list(piece) for piece in facts.pieces.pieces],
                "faults": [],
                "warnings": [{"about": "file", "sentence": sentence} for sentence in found.warnings],
            }
        )
        return
    say(f"{found.braid.english}: {found.braid.cord_count} cords, hand {found.braid.hand}, shift {found.braid.shift}.")
    for sentence in found.warnings:
        say(f"  Look (file): {sentence}")
    if not facts.pieces.is_one:
        say(f"  Look (braid): it falls into {len(facts.pieces.pieces)} separate braids.")
    say(f"It can be braided; every cord is home after {facts.repeats_home} repeats.")


COMMAND = Command(
    run=check,
    panel="Look",
    examples=("braidwright check my-rope.json", "braidwright check my-rope.json --catalogue my-beads.toml --json"),
)
