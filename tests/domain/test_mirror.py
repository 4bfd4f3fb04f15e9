"""The other hand: two wishes, each undone by doing it twice."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.domain.braid import Braid, Move
from braidwright.domain.chart import columns, surface_angle
from braidwright.domain.design import Anchor, Design, PlacedMotif
from braidwright.domain.errors import RequestError
from braidwright.domain.mirror import mirror_everything, row_turns, same_picture
from braidwright.domain.motif import Course, along_the_front, from_front
from braidwright.domain.patch import patch_stitches
from braidwright.domain.strings import bead_counts, strings_of
from strategies import designs

COURSE = Course(rise_mm=2.3, drift_deg=11.25, radius_mm=1.95)


@given(designs(rows=(1, 10)))
def test_mirrored_twice_is_the_same_design(design: Design) -> None:
    assert mirror_everything(mirror_everything(design)) == design


@given(designs(rows=(1, 10)))
def test_mirrored_strings_only_change_their_slots(design: Design) -> None:
    # Source: trade-facts, section 9: slot k becomes 33 - k; each cord's bead list goes to the mirrored slot.
    other = mirror_everything(design)
    for here, there in zip(strings_of(design), strings_of(other), strict=True):
        assert there.drops == here.drops
        assert there.slot == design.braid.slots + 1 - here.slot


def test_set_up_for_the_other_hand_swaps_the_pairs(two_kinds: Design) -> None:
    # Trade-facts, check 34 (common practice, no source): the two cords of the north pair swap, those of the south
    # pair swap, the upper cords of the side pairs swap across the disk and so do the lower ones.
    swapped = dict(zip(two_kinds.braid.start, mirror_everything(two_kinds).braid.start, strict=True))
    assert swapped == {32: 1, 1: 32, 16: 17, 17: 16, 25: 8, 8: 25, 24: 9, 9: 24}


@given(designs(rows=(1, 30)), st.floats(-40, 40))
def test_same_picture_twice_is_the_same_design(design: Design, drift: float) -> None:
    try:
        other = same_picture(design, drift)
    except RequestError as error:
        assert "mirror everything" in str(error)  # noqa: PT017  (a braid whose columns are unequal is refused)
        return
    assert same_picture(other, -drift) == design
    assert bead_counts(other) == bead_counts(design)


@given(st.integers(1, 400), st.integers(1, 24), st.floats(-60, 60))
def test_row_turns_of_the_two_hands_are_opposite(rows: int, columns: int, drift: float) -> None:
    there, back = row_turns(rows, columns, drift), row_turns(rows, columns, -drift)
    assert all((one + other) % columns == 0 for one, other in zip(there, back, strict=True))


def test_accents_on_the_front_stay_on_the_front_in_the_other_hand(two_kinds: Design) -> None:
    long = two_kinds.with_rows(("aaaa",) * 66)
    placed = along_the_front(long, PlacedMotif(name="dot", lines=("g",)), COURSE, 12.0)
    other = same_picture(placed, COURSE.drift_deg)
    for row, text in enumerate(other.rows):
        for stitch, key in enumerate(text):
            if key == "g":
                assert abs(from_front(other, -COURSE.drift_deg, row, stitch)) <= 45.0 + 22.5
    assert [anchor.row for anchor in other.motifs[-1].anchors] == [anchor.row for anchor in placed.motifs[-1].anchors]


def test_motifs_stay_whole_in_the_other_hand(two_kinds: Design) -> None:
    long = two_kinds.with_rows(("aaaa",) * 66)
    bud = PlacedMotif(name="bud", lines=(" g ", "ggg", " g "))
    placed = along_the_front(long, bud, COURSE, 14.0)
    other = same_picture(placed, COURSE.drift_deg)
    for anchor in other.motifs[-1].anchors:
        for at, key in patch_stitches(other, bud.lines, anchor):
            assert other.rows[at.row - 1][at.stitch - 1] == key
    assert bead_counts(other) == bead_counts(placed)
    assert same_picture(other, -COURSE.drift_deg) == placed


@given(designs(rows=(2, 14)), st.floats(-40, 40), st.data())
def test_same_picture_twice_is_nothing_with_motifs_anywhere(design: Design, drift: float, data: st.DataObject) -> None:
    rows, width = len(design.rows), design.width
    anchors = st.builds(Anchor, row=st.integers(1, rows), stitch=st.integers(1, width))
    wide = min(2, len(columns(design.braid)))
    motifs = tuple(
        PlacedMotif(name=name, lines=(key * wide, key), anchors=tuple(data.draw(st.lists(anchors, max_size=4))))
        for name, key in (("one", design.tray.keys[0]), ("two", "."))
    )
    marked = replace(design, motifs=motifs)
    try:
        other = same_picture(marked, drift)
    except RequestError:
        return
    assert same_picture(other, -drift) == marked
    assert bead_counts(other) == bead_counts(marked)


def test_same_picture_puts_every_drop_where_it_was_seen(two_kinds: Design) -> None:
    # Independent of the mapping: compare where the drops lie round the rope. Four columns stand 90 degrees apart, so
    # the nearest stitch of the other hand is at most half of that away.
    marks = two_kinds.with_rows(tuple("gaaa" if row % 3 else "aaga" for row in range(40)))
    other = same_picture(marks, 11.25)
    for row, (here, there) in enumerate(zip(marks.rows, other.rows, strict=True)):
        height = row - (len(marks.rows) - 1) / 2
        one = surface_angle(marks.braid, here.index("g"), height, 11.25)
        two = surface_angle(other.braid, there.index("g"), height, -11.25)
        apart = abs((one - two + 180) % 360 - 180)
        assert apart <= 45 + 11.25 + 11.25  # half a column, the half-steps, and one slot between the two starts


def test_mirroring_turns_the_front_line_over(two_kinds: Design) -> None:
    fronted = replace(two_kinds, front=replace(two_kinds.front_line, deg=30.0))
    assert mirror_everything(fronted).front_line.deg == -30.0
    assert same_picture(fronted).front_line.deg == 30.0


def test_unequal_columns_cannot_stand_in_for_each_other(two_kinds: Design) -> None:
    moves = ((1, 4), (4, 7), (7, 1), (3, 4), (1, 7), (4, 1), (7, 3))
    lopsided = Braid(
        name="lopsided",
        english="lopsided",
        slots=8,
        start=(1, 3),
        moves=tuple(Move(take=take, put=put) for take, put in moves),
        shift=0,
        hand="S",
    )
    design = replace(two_kinds, braid=lopsided, rows=("a" * lopsided.stitches_per_row,), motifs=())
    with pytest.raises(RequestError, match="mirror everything"):
        same_picture(design)
