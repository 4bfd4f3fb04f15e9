"""Painting changes what was painted and nothing else."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.domain.design import Anchor, Design, PlacedMotif
from braidwright.domain.errors import RequestError
from braidwright.domain.paint import exchange, fill, paint
from braidwright.domain.strings import strings_of
from strategies import designs


@given(designs(rows=(1, 12)), st.data())
def test_painting_one_stitch_changes_one_drop_on_one_cord(design: Design, data: st.DataObject) -> None:
    row = data.draw(st.integers(1, len(design.rows)))
    stitch = data.draw(st.integers(1, design.width))
    key = data.draw(st.sampled_from([*design.tray.keys, "."]))
    painted = paint(design, [Anchor(row=row, stitch=stitch)], key)
    differing = [
        (cord, place)
        for cord, (before, after) in enumerate(zip(strings_of(design), strings_of(painted), strict=True))
        for place, (one, other) in enumerate(zip(before.drops, after.drops, strict=True))
        if one != other
    ]
    was = design.rows[row - 1][stitch - 1]
    assert len(differing) == (was != key)
    assert painted.rows[row - 1][stitch - 1] == key
    assert painted.with_rows(design.rows) == design


def test_fill_covers_the_rows_asked_for(two_kinds: Design) -> None:
    filled = fill(two_kinds, "g", rows=(2, 3))
    assert filled.rows == ("aaaa", "gggg", "gggg", *two_kinds.rows[3:])
    assert set("".join(fill(two_kinds, ".").rows)) == {"."}


def test_exchange_reaches_rows_stacks_and_motifs(two_kinds: Design) -> None:
    changed = exchange(two_kinds, "a", "g")
    assert "a" not in "".join(changed.rows)
    assert changed.tray.beads_of("k") == ("g", "g")
    assert changed.motifs[0].lines == ("g",)


def test_exchange_never_puts_a_stack_or_nothing_into_a_stack(two_kinds: Design) -> None:
    for new in ("k", "."):
        with pytest.raises(RequestError, match="stack"):
            exchange(two_kinds, "a", new)


@pytest.mark.parametrize(
    ("stitch", "key", "told"),
    [
        (Anchor(row=0, stitch=1), "a", "Row 0"),
        (Anchor(row=9, stitch=1), "a", "rows 1 to 8"),
        (Anchor(row=1, stitch=5), "a", "stitches 1 to 4"),
        (Anchor(row=1, stitch=1), "z", "'z'"),
    ],
)
def test_paint_refuses_what_is_not_there(two_kinds: Design, stitch: Anchor, key: str, told: str) -> None:
    with pytest.raises(RequestError, match=told):
        paint(two_kinds, [stitch], key)


def test_fill_refuses_rows_that_are_not_there(two_kinds: Design) -> None:
    with pytest.raises(RequestError, match="rows 1 to 8"):
        fill(two_kinds, "a", rows=(3, 9))


def test_a_motif_is_left_as_it_is_by_painting(two_kinds: Design) -> None:
    assert paint(two_kinds, [], "a").motifs == (
        PlacedMotif(name="dot", lines=("a",), anchors=(Anchor(row=4, stitch=1),)),
    )
