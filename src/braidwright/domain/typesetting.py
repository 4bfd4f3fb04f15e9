"""typesetting: letters put together into words: beads to the right of the left end and up from the foot."""

from typing import Literal, get_args
from unicodedata import combining, normalize

from braidwright.domain.letters import Alphabet, Dots

Way = Literal["along", "stacked", "round"]
WAYS: tuple[str, ...] = get_args(Way)
SPACE = 2  # beads left free for a space, beside the gaps of one between letters


def typeset(alphabet: Alphabet, text: str, way: Way) -> tuple[Dots, Dots]:
    """The beads of a word, and those of the ground round it: one more on every side, and all between.

    Args:
        alphabet: The drawings.
        text: The word, spaces allowed, with at least one letter.
        way: "stacked" sets letters one under the other, each in the middle; any other side by side on one line.

    Raises:
        RequestError: A letter that is not drawn.
    """
    drawn = [alphabet.dots(sign) for sign in _signs(text)]
    ink = _stacked(drawn) if way == "stacked" else _in_line(drawn)
    left, right = min(x for x, _ in ink), max(x for x, _ in ink)
    foot, top = min(y for _, y in ink), max(y for _, y in ink)
    box = frozenset((x, y) for x in range(left - 1, right + 2) for y in range(foot - 1, top + 2))
    return ink, box - ink


def _signs(text: str) -> list[str]:
    """Each letter with the accents that come after it."""
    found: list[str] = []
    for sign in normalize("NFC", text.strip()):
        if found and combining(sign):
            found[-1] += sign
        else:
            found.append(sign)
    return found


def _in_line(drawn: list[Dots]) -> Dots:
    ink: set[tuple[int, int]] = set()
    left = 0
    for dots in drawn:
        first = min((x for x, _ in dots), default=0)
        ink |= {(x - first + left, y) for x, y in dots}
        left += max((x - first + 1 for x, _ in dots), default=SPACE) + 1
    return frozenset(ink)


def _stacked(drawn: list[Dots]) -> Dots:
    ink: set[tuple[int, int]] = set()
    foot = 0
    for dots in drawn:
        low = min((y for _, y in dots), default=0)
        first = min((x for x, _ in dots), default=0)
        width = max((x - first + 1 for x, _ in dots), default=1)
        foot -= max((y - low + 1 for _, y in dots), default=SPACE) + 1
        ink |= {(x - first - (width - 1) // 2, y - low + foot) for x, y in dots}
    return frozenset(ink)
