"""Colour arrangements against OEIS A000031 and A000029, the table of 4 + 4 classes, and classes found by braiding."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sympy import divisors, totient

from braidwright.catalogue.shelf import standard
from braidwright.domain.arrangements import count_arrangements, list_arrangements, rounds, same_look, step_of
from braidwright.domain.braid import Braid
from braidwright.domain.errors import RequestError
from braidwright.domain.walk import stitch_cords, walk
from known_braids import MARU_YOTSU, from_word, kongoh, one_empty_slot, published_kongoh
from strategies import braids


def necklaces(beads: int, colours: int) -> int:
    """OEIS A000031 for two colours: sum over d | n of phi(d) k^(n/d), divided by n."""
    total = sum(int(totient(d)) * colours ** (beads // int(d)) for d in divisors(beads))
    return int(total) // beads


def bracelets(beads: int, colours: int) -> int:
    """OEIS A000029 for two colours: half the necklaces, and half the rings that are their own mirror image."""
    if beads % 2:
        return int(necklaces(beads, colours) + colours ** ((beads + 1) // 2)) // 2
    return necklaces(beads, colours) // 2 + int((colours + 1) * colours ** (beads // 2)) // 4


def single_round(cords: int) -> Braid:
    """A braid whose step is one round of all cords."""
    if cords % 4 == 0 and cords >= 8:
        return standard().braid(f"kongoh-{cords}")
    return one_empty_slot(cords + 1, 3) if cords >= 7 else from_word(tuple(range(1, cords)), cords)


@pytest.mark.parametrize(
    ("cords", "plain", "turned", "swapped"),
    [
        (4, 6, 6, 4),
        (7, 20, 18, 10),
        (8, 36, 30, 20),
        (9, 60, 46, 30),
        (12, 352, 224, 180),
        (16, 4116, 2250, 2068),
        (24, 699252, 352698, 349716),
    ],
)
def test_two_colours(cords: int, plain: int, turned: int, swapped: int) -> None:
    """OEIS A000031 and A000029; trade-facts, section 7.1 and check values 4, 5 and 6.

    With nine cords 30 less the plain one are the 29 of dotclue.org/archives/004508.html.
    """
    one = single_round(cords)
    assert count_arrangements(one, 2) == plain == necklaces(cords, 2)
    assert count_arrangements(one, 2, reversal=True) == turned == bracelets(cords, 2)
    assert count_arrangements(one, 2, swap=True) == swapped


@pytest.mark.parametrize(
    ("cords", "plain", "turned"),
    [(4, 24, 21), (7, 315, 198), (8, 834, 498), (9, 2195, 1219), (12, 44368, 22913), (16, 2690844, 1351983)],
)
def test_three_colours(cords: int, plain: int, turned: int) -> None:
    """Trade-facts, section 7.1; the formulas of A000031 and A000029 with 3 for 2."""
    one = single_round(cords)
    assert count_arrangements(one, 3) == plain == necklaces(cords, 3)
    assert count_arrangements(one, 3, reversal=True) == turned == bracelets(cords, 3)


def test_reversal_and_swap_together_and_four_colours() -> None:
    """Trade-facts, section 7.1: 18 for eight cords, 1,162 for sixteen; four colours 8,230."""
    assert count_arrangements(single_round(8), 2, reversal=True, swap=True) == 18
    assert count_arrangements(single_round(16), 2, reversal=True, swap=True) == 1162
    assert count_arrangements(single_round(8), 4) == 8230


def test_eight_cords_by_the_number_of_one_colour() -> None:
    """Trade-facts, check value 4: 1, 1, 4, 7, 10, 7, 4, 1, 1."""
    one = single_round(8)
    found = [len(list_arrangements(one, {"A": count, "b": 8 - count})) for count in range(9)]
    assert found == [1, 1, 4, 7, 10, 7, 4, 1, 1]


# Trade-facts, section 7.2: the word along the cycle, the slots of colour A, the layouts in the class and the colours
# down the north, east, south and west of the braid in order of laying (by simulation). That table names the side a
# cord is laid to; ours is the side it came from, the opposite one.
CLASSES = [
    ("1 16 17 32", 2, "AAAA bbbb AAAA bbbb"),
    ("1 8 17 24", 4, "AbAb bAbA AbAb bAbA"),
    ("1 8 9 16", 8, "bAAb bbAA AbbA AAbb"),
    ("1 8 16 24", 8, "bAAb bAbA AbbA bAbA"),
    ("1 8 16 25", 8, "bAAb AbbA AbbA bAAb"),
    ("1 8 16 17", 8, "AAAb bbbA AbAA bAbb"),
    ("1 8 9 17", 8, "AbAb bbAA AbAb AAbb"),
    ("1 8 9 25", 8, "bbAb AbAA Abbb AAAb"),
    ("1 8 9 24", 8, "bbAb bAAA Abbb AAbA"),
    ("1 8 24 25", 8, "bbAb AAbA Abbb bAAA"),
]


def colours(one: Braid, slots: str) -> tuple[str, ...]:
    """A for the cords in these slots, b for the others."""
    chosen = {int(slot) for slot in slots.split()}
    return tuple("A" if slot in chosen else "b" for slot in one.start)


def test_the_ten_classes_of_four_and_four() -> None:
    one = published_kongoh(8, "Z")
    layouts = [word for word in product("Ab", repeat=8) if word.count("A") == 4]
    sizes = []
    for slots, size, _ in CLASSES:
        sizes.append(sum(same_look(one, word, colours(one, slots)) for word in layouts))
        assert sizes[-1] == size
    assert sum(sizes) == len(layouts) == 70
    listed = list_arrangements(one, {"A": 4, "b": 4})
    assert [sum(same_look(one, word, colours(one, slots)) for word in listed) for slots, _, _ in CLASSES] == [1] * 10
    assert same_look(one, colours(one, "1 8 17 24"), colours(one, "1 9 17 25"))


@pytest.mark.parametrize(("slots", "columns"), [(slots, columns) for slots, _, columns in CLASSES])
def test_the_sides_of_the_braid_show_the_colours_of_the_table(slots: str, columns: str) -> None:
    one = published_kongoh(8, "Z")
    word = colours(one, slots)
    sides = {"N": "", "E": "", "S": "", "W": ""}
    for cords in stitch_cords(one, 2):
        for move, cord in zip(one.moves, cords, strict=True):
            sides["NESW"[round(one.angle(move.take) / 90) % 4]] += word[cord]
    north, east, south, west = columns.split()
    assert sides == {"S": north, "W": east, "N": south, "E": west}


# --- other braids --------------------------------------------------------------------------------------


def braided(one: Braid, word: tuple[str, ...], rows: int) -> list[tuple[str, ...]]:
    """The colours of the stitches, row by row."""
    return [tuple(word[cord] for cord in row) for row in stitch_cords(one, rows)]


def test_maru_yotsu_has_ten_arrangements_of_two_colours() -> None:
    """Burnside by hand: two exchanges of two leave 2^2 of 2^4 as they are, (16 + 4) / 2."""
    assert count_arrangements(MARU_YOTSU, 2) == 10
    assert rounds(MARU_YOTSU) == ((0, 2), (1, 3))


def orbits(step: tuple[int, ...], words: list[tuple[str, ...]], *, swap: bool) -> int:
    """The number of classes, by making them."""
    left, count = set(words), 0
    other = {"0": "1", "1": "0"}
    while left:
        count += 1
        todo = [left.pop()]
        while todo:
            word = todo.pop()
            moved = [""] * len(word)
            for place, colour in enumerate(word):
                moved[step[place]] = colour
            found = {tuple(moved)} | ({tuple(other[colour] for colour in word)} if swap else set())
            todo += found & left
            left -= found
    return count


@given(braids(slots=(8, 16), cords=(2, 7), moves=6), st.booleans())
def test_counts_are_the_numbers_of_classes(one: Braid, swap: bool) -> None:
    words = list(product("01", repeat=one.cord_count))
    assert count_arrangements(one, 2, swap=swap) == orbits(step_of(one), words, swap=swap)


@given(braids(slots=(8, 16), cords=(2, 7), moves=6), st.integers(0, 7))
def test_the_list_has_every_class_once(one: Braid, first: int) -> None:
    first = min(first, one.cord_count)
    words = [word for word in product("01", repeat=one.cord_count) if word.count("0") == first]
    listed = list_arrangements(one, {"0": first, "1": one.cord_count - first})
    assert len(listed) == orbits(step_of(one), words, swap=False)
    for word in words:
        assert sum(same_look(one, word, found) for found in listed) == 1


@given(braids(slots=(8, 16), cords=(2, 6), moves=6), st.data())
def test_arrangements_look_alike_when_one_is_the_other_some_rows_later(one: Braid, data: st.DataObject) -> None:
    """Only cords that make stitches are seen, so two words that look alike as cords look alike in the rows."""
    word = tuple(data.draw(st.lists(st.sampled_from("ab"), min_size=one.cord_count, max_size=one.cord_count)))
    other = tuple(data.draw(st.permutations(word)))
    home = walk(one).repeats_home
    rows, others = braided(one, word, 2 * home), braided(one, other, home)
    alike = any(rows[by : by + home] == others for by in range(home))
    if len(set(stitch_cords(one, home).ravel())) == one.cord_count:
        assert same_look(one, word, other) == alike
    elif same_look(one, word, other):
        assert alike


@given(st.lists(st.sampled_from("abc"), min_size=8, max_size=8), st.integers(0, 15))
def test_kongoh_begun_some_pairs_later_looks_the_same(word: list[str], pairs: int) -> None:
    one = kongoh(8, 8, "S", first=32)
    step = step_of(one)
    later = list(word)
    for _ in range(pairs):
        moved = [""] * 8
        for place, colour in enumerate(later):
            moved[step[place]] = colour
        later = moved
    assert same_look(one, word, later)
    stitches = [colour for row in braided(one, tuple(word), 16) for colour in row]
    now = [colour for row in braided(one, tuple(later), 8) for colour in row]
    # the two moves of a pair are laid together: compare them as pairs without order
    pair = [tuple(sorted(stitches[at : at + 2])) for at in range(0, len(stitches), 2)]
    wanted = [tuple(sorted(now[at : at + 2])) for at in range(0, len(now), 2)]
    assert pair[pairs : pairs + len(wanted)] == wanted


def test_what_cannot_be_asked_is_said() -> None:
    with pytest.raises(RequestError, match="7 colours were given for the 8 cords"):
        same_look(single_round(8), "a" * 7, "a" * 8)
    with pytest.raises(RequestError, match="turning the rope end for end"):
        count_arrangements(MARU_YOTSU, 2, reversal=True)
    with pytest.raises(RequestError, match="Only two colours can be swapped"):
        count_arrangements(MARU_YOTSU, 3, swap=True)
    with pytest.raises(RequestError, match="2704156 layouts"):
        list_arrangements(single_round(24), {"A": 12, "b": 12})
    with pytest.raises(RequestError, match="0 colours"):
        count_arrangements(MARU_YOTSU, 0)
