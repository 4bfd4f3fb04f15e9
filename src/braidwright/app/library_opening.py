"""library_opening: the maker's library, opened in its usual place."""

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from braidwright.app.library import Library
from braidwright.catalogue.shelf import Catalogue
from braidwright.store.library.opening import open_library
from braidwright.store.library.place import usual_library_folder


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenedLibrary:
    """The library, open.

    Attributes:
        library: The library; its store has to be closed in the end.
        notes: Sentences for the maker about what had to be done to open it; usually none.
    """

    library: Library
    notes: tuple[str, ...]


def open_usual_library(catalogue: Catalogue, at: datetime, folder: Path | None = None) -> OpenedLibrary:
    """Open the library of this user, or the one in a folder; it is begun when there is none.

    Args:
        catalogue: What braids and beads are looked up in.
        at: Now, to date a damaged file that is put aside.
        folder: Where it lies; None asks the environment, then the system.

    Raises:
        LibraryError: It cannot be opened, and was not touched.
    """
    opened = open_library(usual_library_folder() if folder is None else folder, at)
    return OpenedLibrary(library=Library(store=opened.library, catalogue=catalogue), notes=opened.notes)
