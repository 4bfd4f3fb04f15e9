"""outcome: how a solve ended, in a word and a sentence. Not settling is an answer, not an accident."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal, get_args

Ending = Literal["settled", "out of steps", "blew up", "topology changed", "fell flat", "stopped"]
ENDINGS: tuple[str, ...] = get_args(Ending)

Watch = Callable[[float], bool]  # share of the work that is done, 0 to 1 -> whether to go on

_SENTENCES: dict[str, str] = {
    "settled": "The braid settled: every pull is balanced.",
    "out of steps": "The braid was still moving when the steps allowed for it ran out, so its shape is not told.",
    "blew up": "The reckoning of the braid's shape ran away to impossible numbers, so its shape is not told.",
    "topology changed": "A cord slipped through another while the braid was tightened, so its shape is not told.",
    "fell flat": "The tube is hollow and fell flat while it was tightened, so its shape is not told; give it a core.",
    "stopped": "The tightening was stopped before the braid had settled, so its shape is not told.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """How a solve ended.

    Attributes:
        ending: The word.
        steps: Steps taken.
        energy: Energy at the end.
        largest_force: Largest component of a force left over, in pulls of one cord.
    """

    ending: Ending
    steps: int
    energy: float
    largest_force: float

    @property
    def sentence(self) -> str:
        """What happened, for the maker."""
        return _SENTENCES[self.ending]

    @property
    def is_settled(self) -> bool:
        """Whether the shape may be shown."""
        return self.ending == "settled"
