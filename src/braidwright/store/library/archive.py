"""archive: what a whole library looks like as one file.

A zip. `manifest.json` says that it is one, and for every design the sum of its list of states. For design n there are
`designs/n.json`, its newest state, byte for byte and of use by itself; `designs/n.states.json`, its states; and, when
it has earlier ones, `designs/n.earlier`, their contents one after the other, as long as the states say. Names are made
from the number and never read from the file.
"""

from dataclasses import dataclass
from typing import Final

FORMAT: Final = "braidwright library"
VERSION: Final = 1
MANIFEST: Final = "manifest.json"

MOST_DESIGNS: Final = 20_000
MOST_LIST_BYTES: Final = 64_000_000  # of the manifest, or of the states of one design
MOST_BYTES_UNPACKED: Final = 2**31 - 1
MOST_BYTES_PACKED: Final = 2**31 - 1
MOST_DIRECTORY_BYTES: Final = 16_000_000  # of the zip's own list of files, which is read before anything can be judged


@dataclass(frozen=True, slots=True, kw_only=True)
class Names:
    """The names of the files of one design."""

    newest: str
    states: str
    earlier: str


def names_of(number: int) -> Names:
    """The files of a design.

    Args:
        number: Counts from 1.
    """
    stem = f"designs/{number:05}"
    return Names(newest=f"{stem}.json", states=f"{stem}.states.json", earlier=f"{stem}.earlier")
