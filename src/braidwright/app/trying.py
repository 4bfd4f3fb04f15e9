"""trying: a braid entered move by move: how far it can be worked, what is wrong first, what it does when it closes."""

from dataclasses import dataclass

from braidwright.app.braids import BraidFacts, facts_of
from braidwright.domain.braid import Braid
from braidwright.domain.braid_table import braid_from_table
from braidwright.domain.errors import BraidError

Held = tuple[tuple[int, ...], ...]
EnteredMove = tuple[int, int, bool]  # take from, put in, whether it is only a re-space


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """What an entered braid is so far.

    Attributes:
        held: The slots that hold a cord, at the start and after each move that can be made.
        wrong: Why the next move cannot be made, or ""; it is move number len(held).
        open_because: Why the moves are no repeat yet, or "" when they are.
        facts: What the braid does, once it is a repeat.
    """

    held: tuple[tuple[int, ...], ...]
    wrong: str
    open_because: str
    facts: BraidFacts | None


def try_braid(name: str, slots: int, start: tuple[int, ...], moves: tuple[EnteredMove, ...], hand: str | None) -> Tried:
    """How far a braid can be worked.

    Args:
        name: What it is called.
        slots: Slots of the disk.
        start: The slots that hold a cord.
        moves: What was entered.
        hand: S or Z, or None to read it from the turn of the pattern.
    """
    held, wrong = _worked(slots, start, moves)
    if wrong:
        return Tried(held=held, wrong=wrong, open_because="", facts=None)
    try:
        braid = _braid(name, slots, start, moves, hand)
    except BraidError as error:
        return Tried(held=held, wrong="", open_because=str(error), facts=None)
    return Tried(held=held, wrong="", open_because="", facts=facts_of(braid))


def _braid(name: str, slots: int, start: tuple[int, ...], moves: tuple[EnteredMove, ...], hand: str | None) -> Braid:
    table: dict[str, object] = {
        "name": name,
        "slots": slots,
        "start": list(start),
        "moves": [[take, put, "re-space"] if slides else [take, put] for take, put, slides in moves],
    }
    if hand is not None:
        table["hand"] = hand
    return braid_from_table(table, name=name, where="The braid")[0]


def _worked(slots: int, start: tuple[int, ...], moves: tuple[EnteredMove, ...]) -> tuple[Held, str]:
    now = set(start)
    held = [tuple(sorted(now))]
    for take, put, _ in moves:
        why = _why_not(slots, now, take, put)
        if why:
            return tuple(held), why
        now.remove(take)
        now.add(put)
        held.append(tuple(sorted(now)))
    return tuple(held), ""


def _why_not(slots: int, held: set[int], take: int, put: int) -> str:
    if not (1 <= take <= slots and 1 <= put <= slots):
        return f"The disk has slots 1 to {slots}; move within them."
    if take not in held:
        return f"Slot {take} is empty; lift a cord from a slot that holds one."
    if put in held and put != take:
        return f"Slot {put} holds a cord already; lay the cord into an empty slot."
    if put == take:
        return f"Slot {take} is where the cord is; lay it into another slot."
    return ""
