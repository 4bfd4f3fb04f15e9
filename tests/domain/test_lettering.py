"""Words on the rope: read back from where their beads lie, on kongoh gumi of many sizes and on any braid."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.catalogue.shelf import standard
from braidwright.domain.braid import Hand, mirrored
from braidwright.domain.chart import columns, stations
from braidwright.domain.design import CordChoice, Design, Front
from braidwright.domain.errors import RequestError
from braidwright.domain.lettering import Word, letter
from braidwright.domain.letters import ALPHABETS
from braidwright.domain.mirror import same_picture
from braidwright.domain.motif import from_front, place
from braidwright.domain.resize import resize
from braidwright.domain.tray import Tray, TrayBead
from braidwright.domain.typesetting import WAYS, Way, typeset
from strategies import designs

TRAY = Tray(
    entries=tuple(
        TrayBead(key=key, bead="round-8/0", colour=colour)
        for key, colour in (("a", "#ffffff"), ("b", "#000000"), ("c", "#ff0000"))
    )
)
DRIFT = {"S": 11.25, "Z": -11.25}


def rope(name: str = "kongoh-24", rows: int = 60, hand: Hand = "S", front: float = 0.0) -> Design:
    named = standard().braid(name)
    braid = named if named.hand == hand else mirrored(named)
    return Design(
        title="Rope",
        braid=braid,
        braid_name=name,
        cords=CordChoice(kind="tex-210", colours=("#000000",)),
        tray=TRAY,
        rows=("a" * braid.stitches_per_row,) * rows,
        front=Front(deg=front),
    )


def inked(design: Design, rows: tuple[str, ...], key: str = "b") -> list[tuple[float, float]]:
    """Where a bead lies: height in rows, and columns clockwise from the front line."""
    spacing = 360.0 / len(columns(design.braid))
    return [
        (row + stations(design.braid)[stitch].step, from_front(design, DRIFT[design.hand], row, stitch) / spacing)
        for row, text in enumerate(rows)
        for stitch, found in enumerate(text)
        if found == key
    ]


words = st.text("ABEHILMNORTaeghilnorst139", min_size=1, max_size=7)


@given(text=words, hand=st.sampled_from(("S", "Z")), front=st.floats(-180.0, 180.0), stacked=st.booleans())
def test_every_bead_of_a_letter_lies_within_half_a_stitch_of_its_place(
    text: str, hand: Hand, front: float, stacked: bool
) -> None:
    """The drawing laid on the front by hand: height by rows, columns by the angle between them."""
    design = rope(hand=hand, front=front)
    way = "stacked" if stacked else "along"
    word = Word(text=text, key="b", way="stacked" if stacked else "along")
    found = inked(design, letter(design, DRIFT[hand], word).rows)
    ink, _ = typeset(ALPHABETS[5], text, word.way)
    assert len(found) == len(ink)
    mid_x, mid_y = ((min(part) + max(part)) / 2.0 for part in zip(*ink, strict=True))
    middle = 59 / 2.0 + 5 / 12  # half-way from the first stitch of row 1 to the last of row 60
    wanted = [(x - mid_x, y - mid_y) if way == "along" else (y - mid_y, mid_x - x) for x, y in ink]
    for high, across in wanted:
        near = [(abs(row - middle - high), abs((turn - across + 6.0) % 12.0 - 6.0)) for row, turn in found]
        # a stitch is a row high, and the column turns by 3/16 of a column within half a row
        assert any(up <= 0.5 + 1e-6 and aside <= 0.5 + 0.19 for up, aside in near)


def test_a_word_is_the_same_as_its_motif_placed() -> None:
    design = rope()
    found = letter(design, 11.25, Word(text="Gorse", key="b", ground="c"))
    assert found.motif is not None
    placed = place(design, found.motif)
    assert placed.rows == found.rows
    assert placed.motifs[0].name == "word Gorse"


def test_longer_and_shorter_keep_the_word_in_the_middle() -> None:
    design = rope()
    found = letter(design, 11.25, Word(text="Ann", key="b"))
    assert found.motif is not None
    longer = resize(place(design, found.motif), 80)
    again = letter(rope(rows=80), 11.25, Word(text="Ann", key="b"))
    assert longer.rows == again.rows


def test_the_other_hand_keeps_the_word_whole() -> None:
    design = rope()
    found = letter(design, 11.25, Word(text="Ann", key="b"))
    assert found.motif is not None
    other = same_picture(place(design, found.motif), 11.25)
    assert "".join(other.rows).count("b") == "".join(found.rows).count("b")


def test_the_ground_changes_the_box_round_the_letters_only() -> None:
    design = rope()
    found = letter(design, 11.25, Word(text="Io", key="b", ground="c"))
    bare = letter(design, 11.25, Word(text="Io", key="b"))
    assert [text.replace("c", "a") for text in found.rows] == list(bare.rows)
    _, ground = typeset(ALPHABETS[5], "Io", "along")
    assert "".join(found.rows).count("c") == len(ground)


def test_on_24_cords_five_beads_are_seen_whole_and_on_16_not() -> None:
    """Half of 12 columns are six, half of 8 are four."""
    assert letter(rope(), 11.25, Word(text="BRAID", key="b")).seen >= 0.95
    wide = letter(rope("kongoh-16"), 11.25, Word(text="BRAID", key="b"))
    assert wide.seen < 0.95
    assert "stack the letters" in wide.notes[0]
    stacked = letter(rope("kongoh-16"), 11.25, Word(text="BRAID", key="b", way="stacked"))
    assert (stacked.seen >= 0.95, stacked.notes) == (True, ())


def test_on_8_cords_letters_fit_stacked_only() -> None:
    design = rope("kongoh-8")
    with pytest.raises(RequestError, match=r"'I' needs 5 columns round the rope, which has 4; stack"):
        letter(design, 11.25, Word(text="I", key="b"))
    assert letter(design, 11.25, Word(text="I", key="b", way="stacked")).seen < 0.95
    with pytest.raises(RequestError, match=r"'M' needs 5 columns"):
        letter(design, 11.25, Word(text="M", key="b", way="stacked"))


def test_round_the_rope_a_word_is_read_against_the_clock() -> None:
    """Seen from outside, the rope hanging with row 1 below, clockwise seen from above is to the left."""
    design = rope()
    found = inked(design, letter(design, 11.25, Word(text="LI", key="b", way="round")).rows)
    left, right = max(turn for _, turn in found), min(turn for _, turn in found)
    assert left - right == pytest.approx(6.0, abs=1.01)  # seven beads wide
    low, high = min(row for row, _ in found), max(row for row, _ in found)
    upper = [turn for row, turn in found if row > low + 1.6]
    # above its foot the L is one stroke at the left, and of the I only the bar on top is wider than one
    assert sum(turn > left - 1.2 for turn in upper) in (3, 4)
    assert not any(left - 3.4 < turn < left - 1.4 for turn in upper)
    assert high - low == pytest.approx(4.0, abs=1.0)


@pytest.mark.parametrize(
    ("word", "words"),
    [
        (Word(text=" ", key="b"), "1 to 200"),
        (Word(text="a" * 201, key="b"), "1 to 200"),
        (Word(text="Ann", key="q"), "'q'"),
        (Word(text="Ann", key="b", ground="q"), "'q'"),
        (Word(text="Ann", key="b", ground="b"), "same bead"),
        (Word(text="Ann", key="b", height=6), "5 or 7"),
        (Word(text="Ann", key="b", row=61), "row 61"),
        (Word(text="Ann", key="b", row=2), "farther from the end"),
        (Word(text="A very long sentence", key="b"), "make the piece longer"),
        (Word(text="Ann", key="b", centre_deg=float("nan")), "direction"),
        (Word(text="ROUND", key="b", way="round"), "shorter word"),
        (Word(text="Привет", key="b"), "cyrillic"),
    ],
)
def test_what_cannot_be_written_is_refused(word: Word, words: str) -> None:
    with pytest.raises(RequestError, match=words):
        letter(rope(), 11.25, word)


@given(design=designs(rows=(1, 40)), text=words, way=st.sampled_from(WAYS), drift=st.floats(-30.0, 30.0))
def test_on_any_braid_a_word_has_all_its_beads_or_is_refused(design: Design, text: str, way: Way, drift: float) -> None:
    """Columns may hold one stitch a row or several, at any heights."""
    plain = replace(design, tray=TRAY, rows=("a" * design.width,) * len(design.rows))
    try:
        found = letter(plain, drift, Word(text=text, key="b", way=way))
    except RequestError:
        return
    assert "".join(found.rows).count("b") == len(typeset(ALPHABETS[5], text, way)[0])
    assert [len(row) for row in found.rows] == [len(row) for row in plain.rows]
