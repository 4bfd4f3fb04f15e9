"""Longer and shorter: equally at both ends, motifs centred, up then down is nothing."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.domain.design import Anchor, Design, PlacedMotif
from braidwright.domain.errors import RequestError
from braidwright.domain.motif import place
from braidwright.domain.resize import resize, smallest_period
from braidwright.domain.strings import strings_of
from strategies import designs


@given(designs(rows=(1, 20)), st.integers(0, 60))
def test_longer_then_shorter_is_nothing(design: Design, more: int) -> None:
    longer = resize(design, len(design.rows) + more)
    assert len(longer.rows) == len(design.rows) + more
    assert resize(longer, len(design.rows)) == design


def test_the_same_number_at_both_ends(two_kinds: Design) -> None:
    marked = replace(two_kinds, rows=("gaaa", "aaaa", "aaga"), motifs=())
    assert resize(marked, 7, ground="aaaa").rows == ("aaaa",) * 2 + marked.rows + ("aaaa",) * 2
    assert resize(marked, 6, ground="aaaa").rows == ("aaaa",) + marked.rows + ("aaaa",) * 2
    assert resize(marked, 1).rows == ("aaaa",)


def test_every_cord_gets_as_many_beads_at_both_ends(two_kinds: Design) -> None:
    # Trade-facts, check 35 (common practice, no source): a braid is made longer by the same number of beads at both
    # ends of every cord.
    marked = place(two_kinds, PlacedMotif(name="spot", lines=("g",), anchors=(Anchor(row=4, stitch=2),)))
    longer = resize(marked, 16, ground="aaaa")
    for before, after in zip(strings_of(marked), strings_of(longer), strict=True):
        assert after.drops == "aa" + before.drops + "aa"


def test_motifs_stay_centred(two_kinds: Design) -> None:
    anchors = (Anchor(row=4, stitch=1), Anchor(row=5, stitch=3))
    placed = place(two_kinds, PlacedMotif(name="spot", lines=("g",), anchors=anchors))
    longer = resize(placed, 28, ground="aaaa")
    for anchor in longer.motifs[-1].anchors:
        assert longer.rows[anchor.row - 1][anchor.stitch - 1] == "g"
    rows = [anchor.row for anchor in longer.motifs[-1].anchors]
    assert rows[0] - 1 == len(longer.rows) - rows[1]


def test_a_pattern_that_repeats_is_carried_on(two_kinds: Design) -> None:
    spiral = two_kinds.with_rows(("gaaa", "aaga", "agaa") * 4)
    longer = resize(spiral, 17)
    assert longer.rows[2:14] == spiral.rows
    assert smallest_period(longer.rows) == 3


def test_motifs_that_fall_off_an_end_are_forgotten(two_kinds: Design) -> None:
    placed = place(
        two_kinds, PlacedMotif(name="spot", lines=("g",), anchors=(Anchor(row=1, stitch=1), Anchor(row=4, stitch=1)))
    )
    shorter = resize(placed, 4)
    assert shorter.motifs[-1].anchors == (Anchor(row=2, stitch=1),)


@pytest.mark.parametrize(("rows", "ground"), [(0, None), (-3, None), (10**9, None), (9, "aaa"), (9, "aazz")])
def test_resize_refuses(two_kinds: Design, rows: int, ground: str | None) -> None:
    with pytest.raises(RequestError):
        resize(two_kinds, rows, ground)
