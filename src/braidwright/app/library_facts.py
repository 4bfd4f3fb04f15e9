"""library_facts: what a design is found by: its braid, its beads, its notes, in the words makers type."""

from braidwright.catalogue.shelf import Catalogue
from braidwright.domain.bead import Bead
from braidwright.domain.design import Design
from braidwright.domain.errors import CatalogueError
from braidwright.domain.tray import TrayBead

LONGEST_FACT = 20_000  # letters; a story longer than that is found by its beginning


def facts_of(design: Design, catalogue: Catalogue) -> tuple[tuple[str, str], ...]:
    """Pairs (what it is, words) of a design; what is empty is left out."""
    braid = design.braid
    beads = dict.fromkeys(words for bead in design.tray.beads for words in _words_of_bead(bead, catalogue))
    facts = {
        "braid": " ".join(dict.fromkeys((design.braid_name or braid.name, braid.english, braid.japanese, braid.hand))),
        "beads": ", ".join(beads),
        "cord": design.cords.kind_name,
        "notes": design.notes or "",
        "story": design.story or "",
        "author": design.author or "",
    }
    return tuple((name, words.strip()[:LONGEST_FACT]) for name, words in facts.items() if words.strip())


def _words_of_bead(bead: TrayBead, catalogue: Catalogue) -> tuple[str, ...]:
    said = [bead.name or "", bead.bead_name, bead.finish or "", _english(bead.bead, catalogue)]
    return tuple(words for words in said if words)


def _english(bead: str | Bead, catalogue: Catalogue) -> str:
    try:
        return (catalogue.bead(bead) if isinstance(bead, str) else bead).english
    except CatalogueError:  # a bead of a maker's file that is not open now
        return ""
