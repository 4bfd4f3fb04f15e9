"""Hypothesis strategies: legal braids, trays and designs over them.

A braid is made legal by construction: random legal moves, then the moves that bring the pattern back to its start
turned by a shift. Chance comes from one drawn seed, so that generation stays quick.
"""

from dataclasses import dataclass, field

import numpy as np
from hypothesis import strategies as st

from braidwright.domain.braid import Braid, Move, turn
from braidwright.domain.design import CordChoice, Design
from braidwright.domain.tray import BARE, Tray, TrayBead, TrayStack

KEYS = "abcxyzäß漢😀"


@dataclass
class Disk:
    """A disk being worked: which slots hold a cord, and what was done."""

    slots: int
    held: set[int]
    chance: np.random.Generator
    moves: list[Move] = field(default_factory=list)

    def do(self, take: int, put: int, kind: str = "move") -> None:
        """Work one move that is known to be legal."""
        self.held = (self.held - {take}) | {put}
        self.moves.append(Move(take=take, put=put, kind="re-space" if kind == "re-space" else "move"))

    def gap(self, take: int) -> list[int]:
        """The empty slots a cord can slide to along the rim, both ways."""
        found: list[int] = []
        for way in (1, -1):
            by = way
            while turn(take, by, self.slots) not in self.held:
                found.append(turn(take, by, self.slots))
                by += way
        return found

    def random_move(self) -> None:
        """Move any cord to any empty slot."""
        empty = sorted({*range(1, self.slots + 1)} - self.held)
        self.do(self.pick(sorted(self.held)), self.pick(empty))

    def random_slide(self) -> None:
        """Re-space any cord that has room beside it."""
        take = self.pick(sorted(self.held))
        room = self.gap(take)
        if room:
            self.do(take, self.pick(room), "re-space")

    def come_back(self, target: set[int]) -> None:
        """The moves, or re-spaces where the rim is free, that end in the wanted slots."""
        for put in self.shuffled(target - self.held):
            take = self.pick(sorted(self.held - target))
            self.do(take, put, "re-space" if put in self.gap(take) and self.chance.random() < 0.5 else "move")

    def pick(self, options: list[int]) -> int:
        """One of them."""
        return int(self.chance.choice(options))

    def shuffled(self, slots: set[int]) -> list[int]:
        """All of them, in any order."""
        return [int(slot) for slot in self.chance.permutation(sorted(slots))]


@st.composite
def braids(
    draw: st.DrawFn, *, slots: tuple[int, int] = (8, 64), cords: tuple[int, int] = (2, 63), moves: int = 12
) -> Braid:
    """Legal braids: `moves` bounds the random moves, before those that bring the pattern back."""
    disk = draw(st.integers(*slots))
    count = draw(st.integers(cords[0], min(cords[1], disk - 1)))
    shift = draw(st.integers(-(disk // 2), disk // 2))
    chance = np.random.default_rng(draw(st.integers(0, 2**32 - 1)))
    start = tuple(int(slot) for slot in chance.permutation(np.arange(1, disk + 1))[:count])
    work = Disk(slots=disk, held=set(start), chance=chance)
    work.random_move()
    for _ in range(draw(st.integers(0, moves - 1))):
        if chance.random() < 0.3:
            work.random_slide()
        else:
            work.random_move()
    work.come_back({turn(slot, shift, disk) for slot in start})
    return Braid(
        name="any",
        english="any braid",
        slots=disk,
        start=start,
        moves=tuple(work.moves),
        shift=shift,
        hand=draw(st.sampled_from(("S", "Z"))),
    )


@st.composite
def trays(draw: st.DrawFn) -> Tray:
    """One to five kinds of bead, and up to two stacks of them."""
    keys = draw(st.permutations(KEYS))
    beads = draw(st.integers(1, 5))
    stacks = draw(st.integers(0, 2))
    singles = tuple(TrayBead(key=key, bead="round-8/0", colour="#336699") for key in keys[:beads])
    piles = tuple(
        TrayStack(key=key, stack=tuple(draw(st.lists(st.sampled_from(keys[:beads]), min_size=1, max_size=4))))
        for key in keys[beads : beads + stacks]
    )
    return Tray(entries=(*singles, *piles))


@st.composite
def designs(draw: st.DrawFn, *, of: st.SearchStrategy[Braid] | None = None, rows: tuple[int, int] = (1, 20)) -> Design:
    """Designs over legal braids, with stacks and bare stitches anywhere."""
    braid = draw(of if of is not None else braids())
    tray = draw(trays())
    count = draw(st.integers(*rows))
    keys = [*tray.keys, BARE]
    chance = np.random.default_rng(draw(st.integers(0, 2**32 - 1)))
    picks = chance.integers(0, len(keys), (count, braid.stitches_per_row))
    return Design(
        title="Any design",
        braid=braid,
        braid_name=None,
        cords=CordChoice(kind="tex-210", colours=("#884422",)),
        tray=tray,
        rows=tuple("".join(keys[pick] for pick in row) for row in picks),
    )
