"""The braid read back from curves is that of the moves, and a cord that slipped through another is found out.

What moves do is `domain.topology`, with its own outside checks. Words are drawn as curves here, without a disk.
"""

from itertools import combinations

import numpy as np
import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st

from braidwright.catalogue.shelf import standard
from braidwright.domain.braid import Braid, mirrored
from braidwright.physics.proof import BURAU_AT, PRIME, Braided, of_curves, of_word
from braidwright.physics.rope import braided
from braidwright.physics.state import Floats
from braidwright.physics.strung import Strung
from known_braids import MARU_YOTSU, from_word, one_empty_slot, side_by_side
from physics.caged import caged, disk_drift, drawn
from strategies import braids

EVERY = [hand for one in standard().braids for hand in (one, mirrored(one))]
OTHER_DRIFTS = [0.0, 7.0, -20.0, 100.0]  # degrees beyond what the disk turns
NOTHING: tuple[int, ...] = ()

words = st.integers(2, 5).flatmap(
    lambda cords: st.tuples(
        st.just(cords),
        st.lists(st.sampled_from([sign * at for at in range(1, cords) for sign in (1, -1)]), max_size=12).map(tuple),
    )
)


def permuted(word: tuple[int, ...], cords: int) -> tuple[list[tuple[int, int, int]], tuple[int, ...]]:
    """The pairs that cross, with signs, and where each cord ends."""
    order, pairs = list(range(cords)), []
    for letter in word:
        at = abs(letter) - 1
        pairs.append((order[at], order[at + 1], 1 if letter > 0 else -1))
        order[at], order[at + 1] = order[at + 1], order[at]
    return pairs, tuple(order.index(cord) for cord in range(cords))


def of(word: tuple[int, ...], cords: int) -> Braided:
    """What a word does."""
    pairs, then = permuted(word, cords)
    return of_word(word, tuple(pairs), then)


def read(strung: Strung, turn_deg: float, points: Floats | None = None) -> Braided:
    """What curves do."""
    return of_curves(strung.cell, strung.points if points is None else points, strung.cell.tall_mm, turn_deg)


@pytest.mark.parametrize("beyond", OTHER_DRIFTS)
@pytest.mark.parametrize("braid", EVERY, ids=lambda one: f"{one.name} {one.hand}")
def test_the_cage_of_every_braid_reads_as_its_moves(braid: Braid, beyond: float) -> None:
    for rows in (1, 2, 3):
        drift = disk_drift(braid) + beyond
        assert read(caged(braid, rows, drift)[0], drift * rows) == braided(braid, rows)


@given(braids(slots=(8, 40), cords=(2, 12), moves=8), st.integers(1, 3), st.sampled_from(OTHER_DRIFTS))
def test_the_cage_of_any_braid_reads_as_its_moves(braid: Braid, rows: int, beyond: float) -> None:
    drift = disk_drift(braid) + beyond
    assert read(caged(braid, rows, drift)[0], drift * rows) == braided(braid, rows)


@pytest.mark.parametrize(
    "braid",
    [MARU_YOTSU, side_by_side(), one_empty_slot(8, 3), one_empty_slot(8, 5), from_word((1, -2, 1, -2), 3)],
    ids=["re-spaces", "two ropes", "one empty slot", "the other way", "from a word"],
)
def test_cages_of_known_braids_read_as_their_moves(braid: Braid) -> None:
    for rows in (1, 2, 3):
        drift = disk_drift(braid)
        assert read(caged(braid, rows, drift)[0], drift * rows) == braided(braid, rows)


def test_of_a_cord_that_lies_level_only_the_sums_are_told() -> None:
    braid = standard().braid("kongoh-8")
    found = read(caged(braid, 1, 11.25, is_tilted=False)[0], 11.25)
    assert found.polynomial is None
    assert found.sums == braided(braid, 1).sums
    assert found.is_same(braided(braid, 1))


@given(words, st.sampled_from([0.0, 50.0, -200.0]))
def test_curves_drawn_from_a_word_read_as_the_word(case: tuple[int, tuple[int, ...]], twist: float) -> None:
    cords, word = case
    strung, then = drawn(word, cords, twist)
    assert then == permuted(word, cords)[1]
    assert read(strung, twist) == of(word, cords)


@given(words.filter(lambda case: len(case[1]) > 0), st.integers(0, 11))
def test_a_crossing_turned_over_changes_a_sum_by_two(case: tuple[int, tuple[int, ...]], which: int) -> None:
    cords, word = case
    at = which % len(word)
    slipped = (*word[:at], -word[at], *word[at + 1 :])
    one, other = of(word, cords), read(drawn(slipped, cords)[0], 0.0)
    assert sum(abs(a - b) for a, b in zip(one.sums, other.sums, strict=True)) == 2
    assert not one.is_same(other)


@pytest.mark.parametrize(
    ("word", "slipped", "cords"),
    [
        pytest.param((1, 1, 2, 2, -1, -1, -2, -2), (1, -1, 2, 2, -1, 1, -2, -2), 3, id="one cord to and fro"),
        pytest.param((1, -2, 1, -2, 1, -2), (-1, -2, -1, 2, 1, 2), 3, id="Borromean rings"),
        pytest.param((1, 3, 2, 2, -3, -1, -2, -2), (1, 3, 2, 2, -3, 1, -2, -2, -1, -1), 4, id="four cords"),
    ],
)
def test_two_slips_that_leave_the_sums_as_they_were_are_seen(
    word: tuple[int, ...], slipped: tuple[int, ...], cords: int
) -> None:
    """The first word of three cords is a commutator of full turns, the second closes to the Borromean rings.

    Neither closes to rings that come apart, though no two of the rings are linked. Source: E. Artin, Theory of braids
    (1947), and the usual picture of the rings; both from memory.
    """
    one, other = read(drawn(word, cords)[0], 0.0), read(drawn(slipped, cords)[0], 0.0)
    assert one.sums == other.sums
    assert one.polynomial != other.polynomial
    assert not one.is_same(other)


def beside(strung: Strung, strand: int) -> list[tuple[int, Floats]]:
    """Every other cord that stands on the rim at the height at which a strand crosses: its number, and where."""
    found = []
    for other, (first, last) in enumerate(strung.cell.strands):
        line, height = strung.points[first : last + 1], strung.points[crossing_point(strung, strand), 2]
        if other != strand and line[0, 2] < height < line[-1, 2]:
            there = np.array([np.interp(height, line[:, 2], line[:, axis]) for axis in range(3)])
            if np.hypot(there[0], there[1]) > 2.98:
                found.append((other, there))
    return found


def crossing_point(strung: Strung, strand: int) -> int:
    """The point of a strand that is nearest to the axis: the middle of a chord."""
    first, last = strung.cell.strands[strand]
    return int(first + np.hypot(*strung.points[first : last + 1, :2].T).argmin())


@pytest.mark.parametrize("name", ["kongoh-8", "tubular-8", "maru-yotsu"])
def test_a_cord_of_a_cage_pushed_through_another_is_seen(name: str) -> None:
    """A point of a chord is pulled out just beyond a cord that stands on the rim, or not quite so far."""
    braid = standard().braid(name)
    drift = disk_drift(braid)
    strung, _ = caged(braid, 1, drift)
    right, tried = braided(braid, 1), 0
    for strand in range(braid.cord_count):
        for _, there in beside(strung, strand):
            at = crossing_point(strung, strand)
            for share, is_same in ((0.9, True), (1.1, False)):
                points = strung.points.copy()
                points[at] += share * (there - points[at])
                found = read(strung, drift, points)
                assert found.is_same(right) is is_same
                assert sum(abs(a - b) for a, b in zip(found.sums, right.sums, strict=True)) == (0 if is_same else 2)
            tried += 1
    assert tried >= braid.stitches_per_row


def test_the_ends_of_two_strands_exchanged_are_seen() -> None:
    braid = standard().braid("kongoh-8")
    strung, _ = caged(braid, 2, 11.25)
    follows = strung.cell.follows.copy()
    follows[[0, 1]] = follows[[1, 0]]
    swapped = strung.cell._replace(follows=follows)
    assert not of_curves(swapped, strung.points, strung.cell.tall_mm, 22.5).is_same(braided(braid, 2))


@given(words, words)
def test_the_polynomial_is_alike_for_braids_that_are_conjugate(
    case: tuple[int, tuple[int, ...]], by: tuple[int, tuple[int, ...]]
) -> None:
    cords, word = case
    before = tuple(letter for letter in by[1] if abs(letter) < cords)
    after = tuple(-letter for letter in reversed(before))
    assert of((*before, *word, *after), cords).polynomial == of(word, cords).polynomial


@pytest.mark.parametrize("cords", [3, 4, 6])
def test_the_polynomial_knows_the_relations_of_braids(cords: int) -> None:
    """Far generators commute, near ones slide past each other. Source: E. Artin, Theory of braids (1947)."""
    rest = (1, 2, -1, 2, 2) if cords == 3 else (1, 3, -2, 3, 1)
    for low, high in combinations(range(1, cords), 2):
        is_near = high == low + 1
        one = (low, high, low) if is_near else (low, high)
        other = (high, low, high) if is_near else (high, low)
        assert of((*one, *rest), cords).polynomial == of((*other, *rest), cords).polynomial
    assert of((2, -2, *rest), cords).polynomial == of(rest, cords).polynomial
    assert of((1, 2), cords).polynomial != of((1, -2), cords).polynomial


@given(words)
def test_the_polynomial_is_that_of_the_burau_matrix_reckoned_exactly(case: tuple[int, tuple[int, ...]]) -> None:
    """SymPy's whole numbers, its own characteristic polynomial, and the remainder at the end.

    Source for the matrix: W. Burau, Über Zopfgruppen und gleichsinnig verdrillte Verkettungen (1936).
    """
    cords, word = case
    inverse = pow(BURAU_AT, -1, PRIME)
    matrix = sympy.eye(cords)
    for letter in word:
        one, at = sympy.eye(cords), abs(letter) - 1
        turn = [[1 - BURAU_AT, BURAU_AT], [1, 0]] if letter > 0 else [[0, 1], [inverse, 1 - inverse]]
        one[at : at + 2, at : at + 2] = sympy.Matrix(turn)
        matrix = (matrix * one).applyfunc(lambda entry: entry % PRIME)
    exact = tuple(int(each) % PRIME for each in matrix.charpoly().all_coeffs())
    assert of(word, cords).polynomial == exact
