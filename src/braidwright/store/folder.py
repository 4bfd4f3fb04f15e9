"""folder: where the program keeps what it could work out again; the maker may move it or switch it off."""

import os
from pathlib import Path

import platformdirs

PLACE = "BRAIDWRIGHT_CACHE"  # in the environment: a folder, or "off"
OFF = ("", "off")


def usual_folder() -> Path | None:
    """The folder named in the environment, else the usual one of this system; None when nothing is to be kept."""
    said = os.environ.get(PLACE)
    if said is not None:
        return None if said.strip().lower() in OFF else _named(said)
    place = platformdirs.user_cache_path("braidwright", appauthor=False)
    return (
        place if place.is_absolute() else None
    )  # a user without a home would get a folder named "~" beside the design


def _named(said: str) -> Path | None:
    try:
        return Path(said).expanduser().absolute()
    except (RuntimeError, OSError):  # a home that is not known, a working folder that is gone
        return None
