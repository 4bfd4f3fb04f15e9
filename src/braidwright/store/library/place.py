"""place: the folder in which the library lies; the maker may name another one."""

import os
from pathlib import Path

import platformdirs

from braidwright.domain.errors import LibraryError

PLACE = "BRAIDWRIGHT_LIBRARY"  # in the environment: a folder


def usual_library_folder() -> Path:
    """The folder named in the environment, else the one in which this system keeps a program's data.

    Raises:
        LibraryError: There is none, for a user without a home, or what the environment says is no folder's name.
    """
    said = os.environ.get(PLACE, "").strip()
    try:
        place = Path(said).expanduser().absolute() if said else platformdirs.user_data_path("braidwright", False)
    except (RuntimeError, OSError) as error:  # a home that is not known, a working folder that is gone
        raise LibraryError(f"{PLACE}: {said!r} names no folder; name one that exists or can be made.") from error
    if not place.is_absolute():  # without a home, a folder named "~" would appear beside the program
        raise LibraryError(f"No folder for the library is known, since you have no home folder; name one in {PLACE}.")
    return place
