"""reduction: whether a braid word is the trivial braid, decided exactly by handle reduction.

A handle is a stretch such as i ... -i whose middle uses neither i nor i - 1. It is undone by dropping its two ends and
lifting every i + 1 of the middle over the strand. Doing this as long as there is a handle always ends, and it ends
with the empty word exactly when the word is the trivial braid.
Source: P. Dehornoy, A fast method for comparing braids, Advances in Mathematics 125 (1997).
"""

MOST_STEPS = 400_000


def is_trivial(word: tuple[int, ...], most_steps: int = MOST_STEPS) -> bool | None:
    """Whether a word in the generators +-1, +-2, .. is the trivial braid.

    Args:
        word: The generators.
        most_steps: Letters to read before giving up.

    Returns:
        True or False, or None when the answer was not found within so many steps.
    """
    done = _HandleFree()
    ahead = list(reversed(word))
    while ahead:
        most_steps -= 1
        if most_steps < 0:
            return None
        letter = ahead.pop()
        handle = done.handle_closed_by(letter)
        if handle is None:
            done.push(letter)
        else:
            ahead += reversed(_undone(done.cut(handle), letter))
    return not done.letters


def freely_reduced(word: tuple[int, ...]) -> tuple[int, ...]:
    """The word without any generator beside its own inverse."""
    found: list[int] = []
    for letter in word:
        if found and found[-1] == -letter:
            found.pop()
        else:
            found.append(letter)
    return tuple(found)


def full_twists(strands: int, turns: int) -> tuple[int, ...]:
    """The word of `turns` full turns of all strands, right-handed when positive."""
    once = tuple(range(1, strands))
    return once * (strands * turns) if turns >= 0 else tuple(-at for at in reversed(once)) * (strands * -turns)


def _undone(handle: list[int], last: int) -> list[int]:
    """What a handle becomes: `handle` holds its first letter and its middle, `last` its last letter."""
    low, way = abs(last), 1 if handle[0] > 0 else -1
    found: list[int] = []
    for letter in handle[1:]:
        if abs(letter) == low + 1:
            found += [-way * (low + 1), low if letter > 0 else -low, way * (low + 1)]
        else:
            found.append(letter)
    return found


class _HandleFree:
    """A word without handles, and where each generator stands in it."""

    def __init__(self) -> None:
        self.letters: list[int] = []
        self.places: dict[int, list[int]] = {}

    def push(self, letter: int) -> None:
        """Write one more letter."""
        self.places.setdefault(abs(letter), []).append(len(self.letters))
        self.letters.append(letter)

    def handle_closed_by(self, letter: int) -> int | None:
        """Where the handle begins that this letter would close, or None when it closes none."""
        same = self.places.get(abs(letter))
        if not same or self.letters[same[-1]] == letter:
            return None
        below = self.places.get(abs(letter) - 1)
        return same[-1] if not below or below[-1] < same[-1] else None

    def cut(self, start: int) -> list[int]:
        """Take off everything from `start` on."""
        taken = self.letters[start:]
        del self.letters[start:]
        for letter in taken:
            self.places[abs(letter)].pop()
        return taken
