"""mending: what the pattern tells about longer and shorter is true of the braid."""

import pytest

from braidwright.catalogue.shelf import standard
from braidwright.domain.braid import Braid, mirrored, turn
from braidwright.domain.chart import stations
from braidwright.domain.design import CordChoice, Design
from braidwright.domain.strings import String, rows_of, strings_of
from braidwright.domain.tray import Tray, TrayBead
from braidwright.drawings.chapters.mending import even_round, is_half_turn
from braidwright.drawings.chapters.whole import manuscript
from braidwright.drawings.manuscript import Grid, Steps
from packs import EVERY, pattern

BRAIDS = {f"{braid.name}-{braid.hand}": braid for one in standard().braids for braid in (one, mirrored(one))}
KEYS = "abcdefghijklmnopqrstuvwxyz0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def speckled(braid: Braid, rows: int) -> Design:
    """A design in which hardly two neighbours are alike, with plain ends."""
    width = braid.stitches_per_row
    every = "".join(KEYS[(7 * n + n * n // 5) % len(KEYS)] for n in range(rows * width))
    return Design(
        title="Speckled",
        braid=braid,
        braid_name=None,
        cords=CordChoice(kind="tex-210", colours=("#222222",)),
        tray=Tray(entries=tuple(TrayBead(key=key, bead="round-8/0", colour="#336699") for key in KEYS)),
        rows=tuple(every[n : n + width] for n in range(0, rows * width, width)),
    )


@pytest.mark.parametrize("name", BRAIDS)
def test_as_many_beads_at_both_ends_of_every_cord_leave_the_picture_as_it_is(name: str) -> None:
    """Longer by equal numbers at both ends: common practice, no source; here it is braided out, bead by bead."""
    braid = BRAIDS[name]
    rows, each = even_round(braid)
    before = speckled(braid, 3 * rows + 1)
    longer = tuple(
        String(cord=string.cord, slot=string.slot, drops="z" * each + string.drops + "z" * each)
        for string in strings_of(before)
    )
    after = rows_of(braid, longer, len(before.rows) + 2 * rows)
    width = braid.stitches_per_row
    same = list(range(width))
    if is_half_turn(braid, rows):
        takes = [station.slot for station in stations(braid)]
        same = [takes.index(turn(slot, braid.slots // 2, braid.slots)) for slot in takes]
    assert after[:rows] == after[-rows:] == ("z" * width,) * rows
    middle = after[rows:-rows]
    assert middle == tuple("".join(text[n] for n in same) for text in before.rows)


def test_one_bead_more_at_both_ends_is_four_rows_of_kongoh_gumi() -> None:
    """A round in which every cord moves once is two half rounds (trade-facts, 1.1); so one bead a cord is two rows."""
    assert even_round(BRAIDS["kongoh-8-S"]) == (2, 1)
    assert even_round(BRAIDS["kongoh-16-Z"]) == (2, 1)


def test_the_seven_cord_braid_comes_round_after_seven_moves() -> None:
    """Trade-facts, section 10, check 7: the cyclic order returns after 7 moves."""
    assert even_round(BRAIDS["seven-cord-S"]) == (7, 1)


@pytest.mark.parametrize("name", EVERY)
def test_every_list_and_table_is_filled(name: str) -> None:
    for chapter in manuscript(pattern(name)).chapters:
        for block in chapter.blocks:
            if isinstance(block, Steps):
                assert all(item.strip() and item.rstrip()[-1] in ".!?" for item in block.items), block
            if isinstance(block, Grid):
                assert all(len(row) == len(block.head) == len(block.widths) for row in block.rows)
