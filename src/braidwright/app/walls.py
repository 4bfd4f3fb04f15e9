"""walls: all arrangements of cord colours that look different, to choose one from."""

from dataclasses import dataclass

from braidwright.domain.arrangements import count_arrangements, list_arrangements, rounds
from braidwright.domain.braid import Braid
from braidwright.domain.errors import RequestError

MOST_SHOWN = 2_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """Arrangements to choose from.

    Attributes:
        arrangements: For each look, the colour of every cord in the order of the braid's start.
        count: How many there are with exactly these numbers of cords.
        all_looks: How many there are with at most so many colours, however many cords each takes.
        all_turned: The same with a look and the one turned end for end counted once; None where that is not known.
        all_swapped: The same with looks that differ by exchanging two colours counted once; None for other than two.
    """

    arrangements: tuple[tuple[str, ...], ...]
    count: int
    all_looks: int
    all_turned: int | None
    all_swapped: int | None


def wall(braid: Braid, counts: dict[str, int], *, turned: bool = False, swapped: bool = False) -> Wall:
    """All looks with so many cords of each colour.

    Args:
        braid: The braid.
        counts: Cords of each colour.
        turned: Count a look and the one of the same rope turned end for end once.
        swapped: Count two looks once that differ by exchanging two colours.

    Raises:
        RequestError: Counts that do not add up to the cords, more looks than can be shown, or a wish that this braid
            or these colours cannot have.
    """
    found = list_arrangements(braid, counts)
    if turned or swapped:
        found = _once(braid, found, tuple(counts), turned=turned, swapped=swapped)
    if len(found) > MOST_SHOWN:
        raise RequestError(
            f"There are {len(found):,} looks with these colours, more than the {MOST_SHOWN:,} that can be shown; "
            f"use fewer colours, or give one of them more cords."
        )
    many = len(counts)
    return Wall(
        arrangements=found,
        count=len(found),
        all_looks=count_arrangements(braid, many),
        all_turned=_or_none(braid, many, reversal=True),
        all_swapped=_or_none(braid, many, swap=True) if many == 2 else None,
    )


def _once(
    braid: Braid, found: tuple[tuple[str, ...], ...], colours: tuple[str, ...], *, turned: bool, swapped: bool
) -> tuple[tuple[str, ...], ...]:
    """One of each class: the round of the cords is read from any place, backward too when turned, exchanged too."""
    along = rounds(braid)
    if len(along) != 1:
        raise RequestError(
            "In this braid the cords go round in several rounds, so looks cannot be paired; leave that out."
        )
    if swapped and len(colours) != 2:
        raise RequestError("Only two colours can be exchanged; choose two, or leave that out.")
    exchange = dict(zip(colours, reversed(colours), strict=True))
    kept: dict[tuple[str, ...], tuple[str, ...]] = {}
    for look in found:
        word = tuple(look[place] for place in along[0])
        words = [word, word[::-1]] if turned else [word]
        if swapped:
            words += [tuple(exchange[colour] for colour in each) for each in words]
        kept.setdefault(min(each[at:] + each[:at] for each in words for at in range(len(each))), look)
    return tuple(kept.values())


def _or_none(braid: Braid, many: int, *, reversal: bool = False, swap: bool = False) -> int | None:
    try:
        return count_arrangements(braid, many, reversal=reversal, swap=swap)
    except RequestError:
        return None
