"""Braid: one repeat of moves on a slotted disk, proved workable when it is made.

A `Braid` that exists can be worked: every move takes from a full slot and puts into an empty one, every
re-space crosses nothing, and after the last move the cords stand where they started, turned by the shift.
Slots are numbered clockwise from the first one right of north; see docs/conventions.md.
"""

from dataclasses import dataclass, replace
from typing import Literal

from braidwright.domain.errors import BraidError

Hand = Literal["S", "Z"]
MoveKind = Literal["move", "re-space"]

FEWEST_SLOTS = 8
MOST_SLOTS = 64


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """One cord lifted from a slot and laid into another.

    Attributes:
        take: The slot it is lifted from.
        put: The slot it is laid into.
        kind: "move" passes over every cord between, through the inside of the circle of slots, and makes a
            stitch; "re-space" slides along the rim, crosses nothing and makes no stitch.
    """

    take: int
    put: int
    kind: MoveKind = "move"

    @property
    def is_stitch(self) -> bool:
        """Whether this move leaves a stitch on the braid."""
        return self.kind == "move"


@dataclass(frozen=True, slots=True, kw_only=True)
class Braid:
    """One repeat of moves on a slotted disk.

    Attributes:
        name: Short name, as used in design files.
        english: The name makers use.
        japanese: The Japanese name in Latin letters, or "" when none is settled.
        source: Where the moves were learned.
        sure: How sure that is: "two sources", "one source", "from memory", "entered by its maker".
        hand: S or Z, the lean of the stitch line.
        slots: Number of slots on the disk, 8 to 64.
        start: The slots that hold a cord at the start; cord i starts in start[i].
        moves: The smallest list after which the occupied slots are the starting ones, turned by `shift`.
        shift: How many slots, clockwise, the pattern has turned after one repeat.
        notes: What a maker should know about this braid.

    Raises:
        BraidError: The braid cannot be worked; the message names the move, the slot and the reason.
    """

    name: str
    english: str
    slots: int
    start: tuple[int, ...]
    moves: tuple[Move, ...]
    shift: int
    hand: Hand
    japanese: str = ""
    source: str = ""
    sure: str = ""
    notes: str = ""

    def __post_init__(self) -> None:
        """Work the repeat once and refuse what cannot be worked."""
        check_disk(self)
        held = work_repeat(self)
        wanted = {turn(slot, self.shift, self.slots) for slot in self.start}
        if held != wanted:
            raise BraidError(
                f"Braid {self.name}: with a shift of {self.shift} the repeat should end with cords in slots "
                f"{_listed(wanted)}, but it ends in {_listed(held)}; correct the shift or the moves."
            )

    @property
    def cord_count(self) -> int:
        """How many cords hang from the disk."""
        return len(self.start)

    @property
    def stitch_moves(self) -> tuple[Move, ...]:
        """The moves of one repeat that make a stitch, in working order: one row."""
        return tuple(move for move in self.moves if move.is_stitch)

    @property
    def stitches_per_row(self) -> int:
        """How many stitches one repeat makes."""
        return sum(move.is_stitch for move in self.moves)

    def angle(self, slot: int) -> float:
        """Where a slot stands, in degrees clockwise from north seen from above."""
        return (slot - 0.5) * 360.0 / self.slots


def turn(slot: int, by: int, slots: int) -> int:
    """The slot reached from `slot` by going `by` slots clockwise."""
    return (slot - 1 + by) % slots + 1


def check_disk(braid: Braid) -> None:
    """Refuse slot counts, starts and moves that no disk has.

    Raises:
        BraidError: Too few or many slots, a slot that is not on the disk, two cords in one slot, no stitch.
    """
    if not FEWEST_SLOTS <= braid.slots <= MOST_SLOTS:
        raise BraidError(
            f"Braid {braid.name}: a disk of {braid.slots} slots is outside what this program knows; "
            f"use {FEWEST_SLOTS} to {MOST_SLOTS} slots."
        )
    named = [("start", slot) for slot in braid.start]
    named += [(f"move {n}", slot) for n, move in enumerate(braid.moves, 1) for slot in (move.take, move.put)]
    for where, slot in named:
        if not 1 <= slot <= braid.slots:
            raise BraidError(
                f"Braid {braid.name}, {where}: there is no slot {slot} on a disk of {braid.slots} slots; "
                f"use 1 to {braid.slots}."
            )
    twice = [slot for n, slot in enumerate(braid.start) if slot in braid.start[:n]]
    if twice:
        raise BraidError(
            f"Braid {braid.name}, start: slot {twice[0]} is listed twice; a slot holds one cord, list it once."
        )
    if not 2 <= len(braid.start) < braid.slots:
        raise BraidError(
            f"Braid {braid.name}, start: {len(braid.start)} cords on {braid.slots} slots cannot be braided; "
            f"give at least 2 cords and leave at least one slot empty."
        )
    if braid.stitches_per_row == 0:
        raise BraidError(
            f"Braid {braid.name}: no move passes over anything, so nothing is braided; "
            f"give at least one move that is not a re-space."
        )


def work_repeat(braid: Braid) -> set[int]:
    """The occupied slots after one repeat.

    Raises:
        BraidError: A move takes from an empty slot, fills a full one, or a re-space would cross a cord.
    """
    held = set(braid.start)
    for number, move in enumerate(braid.moves, 1):
        where = f"Braid {braid.name}, move {number} ({move.take} to {move.put})"
        if move.take not in held:
            raise BraidError(f"{where}: slot {move.take} is empty; name a slot that holds a cord.")
        if move.put in held:
            what = "is where the cord already is" if move.put == move.take else "already holds a cord"
            raise BraidError(f"{where}: slot {move.put} {what}; name an empty slot.")
        if move.kind == "re-space" and not _rim_is_free(move, held, braid.slots):
            raise BraidError(
                f"{where}: this re-space would cross a cord both ways round the rim; "
                f"make it a move, or tidy the other cords first."
            )
        held.remove(move.take)
        held.add(move.put)
    return held


def _rim_is_free(move: Move, held: set[int], slots: int) -> bool:
    """Whether one of the two ways along the rim passes no cord."""
    ahead = (move.put - move.take) % slots
    clockwise = {turn(move.take, by, slots) for by in range(1, ahead)}
    other = {turn(move.put, by, slots) for by in range(1, slots - ahead)}
    return not (clockwise & held) or not (other & held)


def find_shift(name: str, slots: int, start: tuple[int, ...], moves: tuple[Move, ...]) -> int:
    """The smallest turn of the start that the moves of one repeat lead to; clockwise when two are equal.

    Raises:
        BraidError: The occupied slots never become the starting ones, however they are turned.
    """
    draft = {*start}
    for move in moves:
        draft = (draft - {move.take}) | {move.put}
    for size in range(slots // 2 + 1):
        for shift in (size, -size):
            if draft == {turn(slot, shift, slots) for slot in start}:
                return shift
    raise BraidError(
        f"Braid {name}: after the last move the cords are in slots {_listed(draft)}, which is not the start "
        f"{_listed(set(start))} turned by any amount; add the moves that bring the pattern back."
    )


def mirrored(braid: Braid) -> Braid:
    """The same braid for the other hand: slot k becomes slots + 1 - k, move for move.

    The order of the start and of the moves is kept, so rows, colours and strings need no change.
    Source: trade-facts, section 9 (reflection in the north-south line; found by simulation).
    """
    over = braid.slots + 1
    return replace(
        braid,
        start=tuple(over - slot for slot in braid.start),
        moves=tuple(replace(move, take=over - move.take, put=over - move.put) for move in braid.moves),
        shift=-braid.shift,
        hand="Z" if braid.hand == "S" else "S",
    )


def in_hand(braid: Braid, hand: Hand) -> Braid:
    """The braid worked in the hand asked for."""
    return braid if braid.hand == hand else mirrored(braid)


def _listed(slots: set[int]) -> str:
    return ", ".join(str(slot) for slot in sorted(slots))
