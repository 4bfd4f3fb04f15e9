"""arrangements: which cord colours in which slots give the same look.

Working on turns every arrangement of colours into another one, a step later in the same braid: the cords have
changed places, and the pattern is where it was. So two arrangements look alike, up to where one begins, exactly when
a number of steps turns one into the other. In kongoh gumi a step is one pair of opposite moves and a single round of
all cords: the arrangements are necklaces. In other braids a step is a repeat.
Source for the counting: the lemma of Cauchy, Frobenius and Burnside; OEIS A000031 (necklaces) and A000029 (bracelets)
give the numbers for a single round; trade-facts, section 7.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations
from math import comb, gcd, lcm

from braidwright.domain.braid import Braid
from braidwright.domain.errors import RequestError
from braidwright.domain.kongoh import kongoh_of
from braidwright.domain.walk import cycles, walk

MOST_LISTED = 200_000


def step_of(braid: Braid) -> tuple[int, ...]:
    """The permutation of the places that one step makes: the smallest one after which the braid goes on alike.

    Returns:
        For each place of `Braid.start` the place its cord comes to.
    """
    found = kongoh_of(braid)
    return found.pair_step if found else walk(braid).permutation


def rounds(braid: Braid) -> tuple[tuple[int, ...], ...]:
    """The places in the order cords pass through them, step by step: one round for each cycle of the step."""
    return cycles(step_of(braid))


def same_look(braid: Braid, one: Sequence[str], two: Sequence[str]) -> bool:
    """Whether two arrangements of colours give the same braid, begun at another step.

    Args:
        braid: The braid.
        one: The colours of the cords, in the order of `Braid.start`.
        two: The same for the other arrangement.

    Raises:
        RequestError: A number of colours other than the number of cords.
    """
    _check_count(braid, len(one))
    _check_count(braid, len(two))
    found: list[tuple[int, int]] = []
    for cycle in rounds(braid):
        first, second = [one[place] for place in cycle], [two[place] for place in cycle]
        steps = _steps_between(first, second)
        if steps is None:
            return False
        found.append((steps, _period(first)))
    # the same number of steps must serve every round: pairwise agreement is enough (Chinese remainder theorem)
    return all((a - b) % gcd(p, q) == 0 for (a, p), (b, q) in combinations(found, 2))


def count_arrangements(braid: Braid, colours: int, *, reversal: bool = False, swap: bool = False) -> int:
    """How many looks there are with at most so many colours.

    Args:
        braid: The braid.
        colours: Number of colours.
        reversal: Count a look and the one of the same rope turned end for end once.
        swap: Count two looks once that differ by exchanging the two colours.

    Raises:
        RequestError: Reversal of a braid whose step is not a single round, swapping other than two colours.
    """
    if colours < 1:
        raise RequestError(f"An arrangement of {colours} colours cannot be made; ask for at least one.")
    if swap and colours != 2:
        raise RequestError(f"Only two colours can be swapped, not {colours}; ask for two, or without swapping.")
    kept = _fixed_by_steps(braid, colours, swapped=False)
    if swap:
        kept = (kept + _fixed_by_steps(braid, 2, swapped=True)) // 2
    if not reversal:
        return kept
    turned = _fixed_by_reversal(braid, colours, swapped=False)
    if swap:
        return (2 * kept + turned + _fixed_by_reversal(braid, 2, swapped=True)) // 4
    return (kept + turned) // 2


def list_arrangements(braid: Braid, counts: dict[str, int]) -> tuple[tuple[str, ...], ...]:
    """One arrangement of every look that uses these colours so many times each.

    Args:
        braid: The braid.
        counts: How many cords of each colour.

    Returns:
        The colours of the cords in the order of `Braid.start`, for every look; read along the rounds they are the
        first of their class in the order the colours are given.

    Raises:
        RequestError: Counts that do not add up to the cords, or more layouts than can be listed.
    """
    _check_count(braid, sum(counts.values()))
    layouts, left = 1, braid.cord_count
    for count in counts.values():
        layouts, left = layouts * comb(left, count), left - count
    if layouts > MOST_LISTED:
        raise RequestError(
            f"There are {layouts} layouts of these colours, more than the {MOST_LISTED} that can be listed; "
            f"ask for their number instead, or use fewer colours."
        )
    along = rounds(braid)
    seen: set[tuple[str, ...]] = set()
    found = []
    for word in _words(dict(counts), braid.cord_count):
        if word not in seen:
            found.append(_at_places(word, along))
            seen.update(_turns(word, along))
    return tuple(found)


def _check_count(braid: Braid, count: int) -> None:
    if count != braid.cord_count:
        raise RequestError(
            f"{count} colours were given for the {braid.cord_count} cords of {braid.name}; give one for each cord."
        )


def _words(counts: dict[str, int], length: int) -> Iterator[tuple[str, ...]]:
    """Every word with these letters, in order."""
    if length == 0:
        yield ()
        return
    for letter, count in counts.items():
        if count:
            for rest in _words({**counts, letter: count - 1}, length - 1):
                yield (letter, *rest)


def _at_places(word: tuple[str, ...], along: tuple[tuple[int, ...], ...]) -> tuple[str, ...]:
    """A word read along the rounds, dealt to the places."""
    places = [place for cycle in along for place in cycle]
    return tuple(colour for _, colour in sorted(zip(places, word, strict=True)))


def _turns(word: tuple[str, ...], along: tuple[tuple[int, ...], ...]) -> Iterator[tuple[str, ...]]:
    """The word after every number of steps: all rounds turn together."""
    first: tuple[str, ...] | None = None
    while word != first:
        first = first or word
        yield word
        turned: list[str] = []
        start = 0
        for cycle in along:
            part = word[start : start + len(cycle)]
            turned += [part[-1], *part[:-1]]
            start += len(cycle)
        word = tuple(turned)


def _period(word: Sequence[str]) -> int:
    """The fewest steps that turn a round of colours into itself."""
    return next(by for by in range(1, len(word) + 1) if _later(word, by) == list(word))


def _steps_between(first: Sequence[str], second: Sequence[str]) -> int | None:
    """The fewest steps that turn one round of colours into another, or None."""
    return next((by for by in range(len(first)) if _later(first, by) == list(second)), None)


def _later(word: Sequence[str], by: int) -> list[str]:
    """A round of colours so many steps later."""
    cut = len(word) - by
    return [*word[cut:], *word[:cut]]


def _fixed_by_steps(braid: Braid, colours: int, *, swapped: bool) -> int:
    """The mean number of arrangements a number of steps leaves as they are (with the two colours exchanged)."""
    lengths = [len(cycle) for cycle in rounds(braid)]
    order = lcm(*lengths)
    total = 0
    for share in (by for by in range(1, order + 1) if order % by == 0):
        total += _totient(order // share) * _fixed_by(lengths, share, colours, swapped=swapped)
    return total // order


def _fixed_by(lengths: list[int], steps: int, colours: int, *, swapped: bool) -> int:
    """The arrangements that so many steps leave as they are: one free colour for each cycle they make."""
    fixed = 1
    for length in lengths:
        made = gcd(length, steps)
        if swapped and (length // made) % 2:
            return 0
        fixed *= colours**made
    return fixed


def _fixed_by_reversal(braid: Braid, colours: int, *, swapped: bool) -> int:
    """The mean number of arrangements left as they are by turning end for end and then any number of steps."""
    found = rounds(braid)
    if len(found) > 1:
        raise RequestError(
            f"For {braid.name} it is not known what turning the rope end for end does to the colours; "
            f"ask without reversal."
        )
    length = len(found[0])
    # mirror images of a ring: through two gaps or two cords when even, through one cord when odd
    kinds = [(0, length // 2), (2, length // 2 - 1)] if length % 2 == 0 else [(1, length // 2)] * 2
    return sum(0 if swapped and single else colours ** (single + pairs) for single, pairs in kinds) // 2


def _totient(number: int) -> int:
    """How many of 1 .. number share no factor with it."""
    found, factor, left = number, 2, number
    while factor * factor <= left:
        if left % factor == 0:
            found -= found // factor
            while left % factor == 0:
                left //= factor
        factor += 1
    return found - found // left if left > 1 else found
