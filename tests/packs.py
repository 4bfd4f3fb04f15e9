"""Designs to publish, and their packs, made once for all tests.

The scenario (lit windows across a fen) and its colours are our own.
"""

import json
from functools import cache

from braidwright.app.publish import Pack, Wishes, gather, publish
from braidwright.catalogue.shelf import standard
from braidwright.domain.design import Design
from braidwright.domain.document import read_design
from braidwright.drawings.pattern import Pattern

SHELF = standard()

HOSTILE = '# $x$ *b* _e_ <t> @ref "q" \\ `r` & #panic() 漢字 😀 שלום'
HOSTILE_NAME = "#panic() <b> =1+1"
LANTERNS: dict[str, object] = {
    "braidwright": 1,
    "title": "Fen Lanterns",
    "author": "A. Maker",
    "braid": "kongoh-8",
    "hand": "S",
    "cords": {
        "kind": "tex-210",
        "colours": ["#2b4a3c", "#2b4a3c", "#c9b37e", "#c9b37e"] * 2,
        "names": ["Reed", "Reed", "Straw", "Straw"] * 2,
    },
    "tray": {
        "m": {"bead": "round-8/0", "colour": "#1b6e5a", "finish": "opaque", "name": "Moss"},
        "g": {"bead": "teardrop-3.4", "colour": "#b8862b", "name": "Lantern"},
        "b": {"bead": "round-8/0", "colour": "#efe6d2", "finish": "pearl", "name": "Barley", "price": 0.5},
        "k": {"stack": ["b", "m"], "name": "Nest"},
    },
    "rows": ["mmmm"] * 6 + ["gmmm", "bmmm", "gmmm", "mmmm", "mmgm", "mmbm", "mmgm", "mmmm"] * 3 + ["mmmm"] * 6,
    "front": {"deg": 0},
    "story": "Late in the year the fen goes quiet.\n\nThe lanterns run along the front of the wrist.",
    "skill": "second beaded piece",
    "findings": {"clasp": "toggle clasp", "clasp_mm": 18},
    "notes": "I braid this with 60 g.",
    "licence": "You may sell what you make by hand.",
    "language": "en-GB",
}


def made(document: dict[str, object]) -> Design:
    """The design of a document."""
    return read_design(json.dumps(document), SHELF.braid).design


def changed(**fields: object) -> Design:
    """Fen Lanterns with other fields."""
    return made({**LANTERNS, **fields})


def in_tray(**fields: dict[str, object]) -> dict[str, object]:
    """The tray of Fen Lanterns, with other fields for its beads: m={"name": ...}."""
    tray = LANTERNS["tray"]
    assert isinstance(tray, dict)
    return {key: {**entry, **fields.get(key, {})} for key, entry in tray.items()}


LANTERN_ROPE = made(LANTERNS)
STACKED = changed(title="Nests", rows=["mkm.", "kmmm", "mmmm", "gm.b"] * 4)
PLAIN: Design = made(
    {
        "braidwright": 1,
        "title": "Two Fields",
        "braid": "kongoh-16",
        "hand": "Z",
        "cords": {"kind": "satin-2", "colours": ["#7a3b2e", "#d9c7a0"] * 8, "names": ["Clay", "Chalk"] * 8},
        "tray": {},
        "rows": ["........"] * 40,
    }
)
SEVEN: Design = made(
    {
        "braidwright": 1,
        "title": "Seven by the River",
        "braid": "seven-cord",
        "hand": "S",
        "cords": {"kind": "satin-1.5", "colours": ["#7a3b2e"]},
        "tray": {},
        "rows": ["."] * 63,
    }
)
WIDE: Design = made(
    {
        "braidwright": 1,
        "title": "Wide Tide",
        "braid": "kongoh-24",
        "hand": "S",
        "cords": {"kind": "tex-210", "colours": ["#223344"]},
        "tray": {"a": {"bead": "round-8/0", "colour": "#224466", "name": "Deep"}},
        "rows": ["a" * 12, "a" * 11 + "."] * 10,
    }
)
STRANGE = changed(
    title=HOSTILE,
    author=HOSTILE,
    story=HOSTILE,
    notes="```raw``` // comment /* x */\n\n" + HOSTILE,
    licence=HOSTILE,
    tray=in_tray(m={"name": HOSTILE_NAME}, g={"name": "=1+1"}, b={"name": "שלום"}),
    language="he",
)

EVERY: dict[str, Design] = {
    "lanterns": LANTERN_ROPE,
    "stacked": STACKED,
    "plain": PLAIN,
    "seven": SEVEN,
    "wide": WIDE,
    "strange": STRANGE,
}


@cache
def pack(name: str = "lanterns", wishes: Wishes | None = None) -> Pack:
    """The pack of one of the designs."""
    return publish(EVERY[name], SHELF, wishes)


def files(name: str = "lanterns", wishes: Wishes | None = None) -> dict[str, bytes]:
    """Its files by path."""
    return dict(pack(name, wishes).files)


def pattern(name: str = "lanterns", wishes: Wishes | None = None) -> Pattern:
    """What one of the designs is published from."""
    return gather(EVERY[name], SHELF, wishes or Wishes())[0]
