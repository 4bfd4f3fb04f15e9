"""supplies: what to buy and what to cut."""

from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Annotated

import typer

from braidwright.cli.command import Command
from braidwright.cli.opening import opened
from braidwright.cli.show import progress, say, say_csv, say_json, say_table
from braidwright.cli.tightening import tell_why_not, tightening
from braidwright.cli.types import CatalogueFiles, DesignFile, Json, Solve, TwistWish, as_percent, as_whole

if TYPE_CHECKING:
    from collections.abc import Iterator

    from braidwright.domain.supplies import Supplies

CSV_HEADS = (
    "what", "key", "name", "item", "colour", "count", "grams", "buy_count", "buy_grams", "cut_mm", "total_mm", "cost",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """Lengths of one colour of cord to cut.

    Attributes:
        kind: Catalogue name of the cord.
        name: What the pattern calls the colour, or "".
        colour: "#rrggbb".
        count: Lengths to cut.
        cut_mm: Each of them, or None when nothing tells.
        total_mm: All of them.
        folded: Whether each is folded in half and makes two cords.
        cost: What they cost, or None without a price.
    """

    kind: str
    name: str
    colour: str
    count: int
    cut_mm: float | None
    total_mm: float | None
    folded: bool
    cost: float | None


def supplies(  # noqa: PLR0913  (options of a command, one line each)
    design: DesignFile,
    pieces: Annotated[
        int,
        typer.Option("--pieces", metavar="N", parser=as_whole("Pieces", 1, 10_000), help="For how many pieces."),
    ] = 1,
    spare: Annotated[
        float | None,
        typer.Option(
            "--spare",
            metavar="PERCENT",
            parser=as_percent("Spare", 500.0),
            help="How many more beads to buy; else what the design says, or 5 % (10 % for accents).",
        ),
    ] = None,
    folded: Annotated[
        bool,
        typer.Option(
            "--folded", metavar="", help="Cut cords twice as long and fold them in half: each makes two working cords."
        ),
    ] = False,
    solve: Solve = False,
    twist: TwistWish = None,
    json: Json = False,
    csv: Annotated[bool, typer.Option("--csv", metavar="", help="Answer as a table for a spreadsheet (CSV).")] = False,
    catalogue: CatalogueFiles = None,
) -> None:
    """Tell what to buy and what to cut: beads by count and weight, cords, end caps and clasp.

    Counts are exact, what to buy is rounded up. A cord is never cut shorter than the braid takes up, with the start
    knot and an end to hold. Where a design gives prices (a gram of a bead, a metre of cord, the findings of one piece),
    it tells the cost too. A core cord is listed, and wide and heavy ropes without one are told to want it.
    """
    from braidwright.app.predictors import predictor_for
    from braidwright.app.shopping import supplies as shop
    from braidwright.domain.errors import RequestError

    if json and csv:
        raise RequestError("Both --json and --csv are given; ask for one of them.")
    read = opened(design, catalogue, twist=twist)
    with progress(is_wanted=not (json or csv)) as doing, tightening(read, doing, wanted=solve) as watch:
        found = shop(
            read.reading.design,
            read.catalogue,
            pieces=pieces,
            spare_percent=spare,
            predictor=predictor_for(solve=solve, watch=watch),
        )
        tell_why_not(read, watch)
    cuts = tuple(_folded(found) if folded else _single(found))
    if json:
        say_json(_plain(found, cuts))
    elif csv:
        say_csv(CSV_HEADS, _lines(found, cuts))
    else:
        _say(read.reading.design.title, found, cuts)


def _single(found: "Supplies") -> "Iterator[Cut]":
    for need in found.cord:
        yield Cut(
            kind=need.kind,
            name=need.name,
            colour=need.colour,
            count=need.count,
            cut_mm=need.cut_mm,
            total_mm=need.total_mm,
            folded=False,
            cost=need.cost,
        )


def _folded(found: "Supplies") -> "Iterator[Cut]":
    """Pairs of one colour as one length folded in half, and those without a partner singly."""
    for need in found.cord:
        for count, cut, is_folded in (
            (need.doubled_count, need.doubled_mm, True),
            (need.single_count, need.cut_mm, False),
        ):
            if count:
                share = count * (2 if is_folded else 1) / need.count
                yield Cut(
                    kind=need.kind,
                    name=need.name,
                    colour=need.colour,
                    count=count,
                    cut_mm=cut,
                    total_mm=None if cut is None else cut * count,
                    folded=is_folded,
                    cost=None if need.cost is None else need.cost * share,
                )


def _plain(found: "Supplies", cuts: tuple[Cut, ...]) -> dict[str, object]:
    return {
        "pieces": found.pieces,
        "beads": [asdict(need) for need in found.beads],
        "cord": [asdict(cut) for cut in cuts],
        "cut_basis": found.cut_basis,
        "findings": [asdict(need) for need in found.findings],
        "core": None if found.core is None else asdict(found.core),
        "cost": None if found.cost is None else asdict(found.cost),
        "notes": list(found.notes),
    }


def _lines(found: "Supplies", cuts: tuple[Cut, ...]) -> "Iterator[tuple[object, ...]]":
    for need in found.beads:
        yield (
            "bead", need.key, need.name, need.bead, need.colour, need.count, need.grams, need.buy_count, need.buy_grams,
            None, None, need.cost,
        )  # fmt: skip
    for cut in cuts:
        what = "cord, folded in half" if cut.folded else "cord"
        numbers = (cut.count, None, None, None, cut.cut_mm, cut.total_mm, cut.cost)
        yield (what, None, cut.name, cut.kind, cut.colour, *numbers)
    for finding in found.findings:
        yield (finding.what, None, finding.name, None, None, finding.count, *(None,) * 6)
    if found.core is not None:
        core = found.core
        yield ("core cord", None, core.thickness, core.kind, None, core.count, *(None,) * 3, core.cut_mm, None, None)


def _say(title: str, found: "Supplies", cuts: tuple[Cut, ...]) -> None:
    from braidwright.domain.units import print_both, print_length

    say(f"{title}: supplies for {'1 piece' if found.pieces == 1 else f'{found.pieces} pieces'}")
    say_table(
        ("Bead", "Kind", "Colour", "Needed", "Grams", "Spare", "Buy", "Grams"),
        [
            (
                need.name, need.bead, need.colour, need.count, f"{need.grams:.1f}", f"{need.spare_percent:g} %",
                need.buy_count, f"{need.buy_grams:.1f}",
            )
            for need in found.beads
        ],
    )  # fmt: skip
    for cut in cuts:
        name = f"{cut.name} ({cut.colour})" if cut.name else cut.colour
        how = "" if not cut.folded else ", folded in half"
        if cut.cut_mm is None or cut.total_mm is None:
            say(f"Cord {cut.kind}, {name}: {cut.count} lengths{how}; how long is not known yet")
        else:
            say(
                f"Cord {cut.kind}, {name}: {cut.count} x {print_both(cut.cut_mm)}{how}, "
                f"{print_length(cut.total_mm, 'm')} in all"
            )
    say(f"  {found.cut_basis}")
    for sentence in found.notes:
        say(f"  {sentence}")
    for finding in found.findings:
        say(f"{finding.count} x {finding.name}")
    _say_core_and_cost(found)


def _say_core_and_cost(found: "Supplies") -> None:
    from braidwright.domain.units import print_both

    if found.core is not None:
        length = "" if found.core.cut_mm is None else f" Cut {found.core.count} x {print_both(found.core.cut_mm)}."
        say(f"{found.core.why}{length}")
    if found.cost is not None:
        missing = f" (without a price: {', '.join(found.cost.missing)})" if found.cost.missing else ""
        say(f"Cost: {found.cost.total:.2f}{missing}")


COMMAND = Command(
    run=supplies,
    panel="Make and share",
    examples=(
        "braidwright supplies my-rope.json --pieces 30 --spare 10",
        "braidwright supplies my-rope.json --folded --csv > shopping.csv",
    ),
)
