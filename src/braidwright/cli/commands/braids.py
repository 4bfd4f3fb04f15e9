"""braids: the braids we know, and what the moves of one of them tell."""

from typing import TYPE_CHECKING, Annotated

import typer

from braidwright.cli.command import Command
from braidwright.cli.show import say, say_facts, say_json, say_table, tell
from braidwright.cli.types import CatalogueFiles, Hand, Json

if TYPE_CHECKING:
    from braidwright.app.braids import BraidFacts
    from braidwright.domain.braid import Braid


def braids(
    name: Annotated[
        str | None,
        typer.Argument(metavar="[NAME|FILE]", help="A braid by its name, or a braid file of your own (.toml)."),
    ] = None,
    hand: Hand = None,
    json: Json = False,
    catalogue: CatalogueFiles = None,
) -> None:
    """List the braids of the catalogue, or tell everything about one of them.

    For one braid it tells where the cords start, every move of the repeat, how far the pattern turns (the shift), which
    cord takes whose place, after how many repeats every cord is home, where each stitch lies, whether the braid holds
    together, and where the moves were learned. Slots are numbered clockwise from the first one right of north. A braid
    of your own is a small TOML file with slots, start and moves, read from any place.
    """
    from braidwright.app.braids import facts_of, find_braid
    from braidwright.app.designs import open_catalogue
    from braidwright.domain.braid import in_hand

    shelf = open_catalogue(tuple(catalogue or ()))
    if name is None:
        every = tuple(in_hand(braid, "S" if hand == "S" else "Z") if hand else braid for braid in shelf.braids)
        _list(every, json=json)
        return
    found = find_braid(name, shelf)
    tell((*shelf.warnings, *found.warnings), "Warning")
    facts = facts_of(in_hand(found.braid, "S" if hand == "S" else "Z") if hand else found.braid)
    if json:
        say_json(_plain(facts))
    else:
        _say(facts)


def _list(every: "tuple[Braid, ...]", *, json: bool) -> None:
    if json:
        keys = ("name", "english", "japanese", "hand", "slots", "shift", "sure")
        say_json([{key: getattr(braid, key) for key in keys} | {"cords": braid.cord_count} for braid in every])
        return
    say_table(
        ("Name", "Cords", "Hand", "What it is", "Japanese", "How sure"),
        [(braid.name, braid.cord_count, braid.hand, braid.english, braid.japanese, braid.sure) for braid in every],
    )
    say("Every braid is there in both hands: add --hand S or --hand Z.")


def _plain(facts: "BraidFacts") -> dict[str, object]:
    braid = facts.braid
    return {
        "name": braid.name,
        "english": braid.english,
        "japanese": braid.japanese,
        "hand": braid.hand,
        "slots": braid.slots,
        "start": list(braid.start),
        "moves": [{"from": move.take, "to": move.put, "kind": move.kind} for move in braid.moves],
        "shift": braid.shift,
        "repeats_home": facts.repeats_home,
        "repeats_same_slots": facts.repeats_same_slots,
        "permutation": list(facts.permutation),
        "stations": [
            {"stitch": at.stitch + 1, "station": at.name, "slot": at.slot, "column": at.column + 1, "step": at.step}
            for at in facts.stations
        ],
        "one_piece": facts.pieces.is_one,
        "pieces": [list(piece) for piece in facts.pieces.pieces],
        "certain": facts.pieces.certain,
        "word": list(facts.word),
        "kongoh_gumi": facts.is_kongoh,
        "source": braid.source,
        "sure": braid.sure,
        "notes": braid.notes,
    }


def _say(facts: "BraidFacts") -> None:
    braid = facts.braid
    say(f"{braid.english}" + (f", {braid.japanese}" if braid.japanese else ""))
    whole = "one piece" if facts.pieces.is_one else f"falls into {len(facts.pieces.pieces)} pieces"
    say_facts(
        (
            ("Name", braid.name),
            ("Hand", braid.hand),
            ("Disk", f"{braid.slots} slots"),
            ("Start", ", ".join(map(str, braid.start))),
            ("Then in the place of", ", ".join(map(str, facts.permutation))),
            ("Shift", f"{braid.shift:+d} slots a repeat" if braid.shift else "none"),
            ("Every cord home", f"after {facts.repeats_home} repeats"),
            ("In the same slots", f"after {facts.repeats_same_slots} repeats"),
            ("Holds together", whole if facts.pieces.certain else f"{whole} (not proved)"),
            ("Source", braid.source or None),
            ("How sure", braid.sure or None),
            ("Notes", " ".join(braid.notes.split()) or None),
        )
    )
    places = iter(facts.stations)
    say_table(
        ("Move", "From", "To", "What", "Station"),
        [
            (number, move.take, move.put, move.kind, next(places).name if move.is_stitch else "")
            for number, move in enumerate(braid.moves, 1)
        ],
    )


COMMAND = Command(
    run=braids,
    panel="Look",
    examples=(
        "braidwright braids",
        "braidwright braids kongoh-8 --hand Z",
        "braidwright braids my-braid.toml --json",
    ),
)
