"""strings: the beads of every cord in stringing order."""

from braidwright.cli.command import Command
from braidwright.cli.opening import opened
from braidwright.cli.show import say, say_json
from braidwright.cli.types import CatalogueFiles, DesignFile, Json


def strings(design: DesignFile, json: Json = False, catalogue: CatalogueFiles = None) -> None:
    """Tell which beads go on which cord, in the order you string them.

    The first bead of a list is strung first and falls first: when braiding begins it is the one nearest the middle of
    the disk. Cords are called by the slot they start in. Equal beads are counted together, and a stack, which falls in
    one drop, is told bead by bead. In JSON, "beads" is the list to string and "drops" is what falls at each move of
    that cord, "." for nothing.
    """
    from braidwright.domain.strings import in_words, strings_of

    read = opened(design, catalogue).reading.design
    found = strings_of(read)
    if json:
        cords = [
            {"slot": string.slot, "beads": list(string.beads(read.tray)), "drops": list(string.drops)}
            for string in found
        ]
        say_json({"cords": cords})
        return
    say(f"{read.title}: string each cord in this order; the first bead is the first to fall.")
    for string in found:
        beads = string.beads(read.tray)
        say(f"Slot {string.slot}, {len(beads)} beads: {in_words(beads, read.tray.name_of)}")


COMMAND = Command(
    run=strings,
    panel="Make and share",
    examples=("braidwright strings my-rope.json", "braidwright strings my-rope.json --json"),
)
