"""studio: what one run of the studio works with: a catalogue, the solves, and the library when one is open."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

from braidwright.app.designs import open_catalogue
from braidwright.app.library import Library
from braidwright.app.library_opening import open_usual_library
from braidwright.app.packing import Packs
from braidwright.app.solving import Solves
from braidwright.catalogue.shelf import Catalogue
from braidwright.domain.errors import RequestError
from braidwright.store.library.place import usual_library_folder


@dataclass(frozen=True, slots=True, kw_only=True)
class Studio:
    """What one run works with.

    Attributes:
        catalogue: What designs are read with.
        solves: What is solved in the background.
        packs: What is published in the background.
        library: The maker's designs, or None when none is open.
        notes: What had to be said when the library was opened.
        hidden: The folder of the library, which no answer may name, or "".
    """

    catalogue: Catalogue = field(default_factory=open_catalogue)
    solves: Solves = field(default_factory=Solves)
    packs: Packs = field(default_factory=Packs)
    library: Library | None = None
    notes: tuple[str, ...] = ()
    hidden: str = ""

    def open_library(self) -> Library:
        """The library.

        Raises:
            RequestError: None is open.
        """
        if self.library is None:
            raise RequestError("No library is open; start the studio with one.")
        return self.library

    def said(self, sentence: str) -> str:
        """A sentence on one line, without the folder of the library: where that lies is no page's business."""
        flat = " ".join(sentence.split())
        if not self.hidden:
            return flat
        return flat.replace(f"{self.hidden}{os.sep}", "").replace(self.hidden, "the library")


def library_folder() -> Path:
    """Where the library of this user lies, unless another folder is given."""
    return usual_library_folder()


@contextmanager
def open_studio(folder: Path, at: datetime) -> Iterator[Studio]:
    """The studio on the library in a folder, until the block ends.

    Args:
        folder: Where the library lies; it is begun when there is none.
        at: Now.

    Raises:
        LibraryError: It cannot be opened, and was not touched.
    """
    catalogue = open_catalogue()
    opened = open_usual_library(catalogue, at, folder)
    studio = Studio(catalogue=catalogue, library=opened.library, notes=opened.notes, hidden=str(folder))
    try:
        yield studio
    finally:
        studio.packs.close()
        studio.solves.close()
        opened.library.store.close()
