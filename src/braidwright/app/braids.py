"""Braids: find one by name or in a file, and everything the moves alone tell about it."""

from dataclasses import dataclass
from os.path import isfile  # unlike Path.is_file it has an answer for names no system can hold
from pathlib import Path

from braidwright.catalogue.shelf import Catalogue, read_braid_file
from braidwright.domain.braid import Braid
from braidwright.domain.chart import Station, stations
from braidwright.domain.errors import CatalogueError
from braidwright.domain.kongoh import kongoh_columns
from braidwright.domain.pieces import Pieces, pieces_of
from braidwright.domain.topology import braid_word
from braidwright.domain.walk import walk


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundBraid:
    """A braid that was asked for.

    Attributes:
        braid: The braid, in the hand of its file.
        name: Its name in the catalogue, or None for one from a file.
        warnings: Sentences about the file.
    """

    braid: Braid
    name: str | None
    warnings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class BraidFacts:
    """What the moves alone tell about a braid.

    Attributes:
        braid: The braid.
        permutation: For each cord, in start order, the start slot whose place it has reached after one repeat, the
            turn of the pattern undone.
        repeats_home: Repeats until every cord is back in its place of the (turned) pattern.
        repeats_same_slots: Repeats until every cord is in the very same slot.
        stations: Where each stitch of the repeat lies.
        pieces: Whether it holds together.
        word: The braid word of one repeat.
        is_kongoh: Whether the moves are those of kongoh gumi, whatever the name.
    """

    braid: Braid
    permutation: tuple[int, ...]
    repeats_home: int
    repeats_same_slots: int
    stations: tuple[Station, ...]
    pieces: Pieces
    word: tuple[int, ...]
    is_kongoh: bool


def find_braid(name: str, catalogue: Catalogue) -> FoundBraid:
    """A braid by its catalogue name, or from a braid file at any path.

    Raises:
        CatalogueError: Neither a name of the catalogue nor a file.
        BraidError: The braid in the file cannot be worked.
    """
    if not looks_like_a_path(name):
        try:
            return FoundBraid(braid=catalogue.braid(name), name=name)
        except CatalogueError:
            if not isfile(name):
                raise
    braid, warnings = read_braid_file(Path(name))
    return FoundBraid(braid=braid, name=None, warnings=warnings)


def looks_like_a_path(name: str) -> bool:
    """Whether a maker means a file and not a name: it ends in .toml or has a folder in it."""
    return name.lower().endswith(".toml") or "/" in name or "\\" in name


def facts_of(braid: Braid) -> BraidFacts:
    """What the moves alone tell about a braid."""
    walked = walk(braid)
    return BraidFacts(
        braid=braid,
        permutation=tuple(braid.start[place] for place in walked.permutation),
        repeats_home=walked.repeats_home,
        repeats_same_slots=walked.repeats_same_slots,
        stations=stations(braid),
        pieces=pieces_of(braid),
        word=braid_word(braid),
        is_kongoh=kongoh_columns(braid) is not None,
    )
