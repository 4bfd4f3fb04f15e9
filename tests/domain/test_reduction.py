"""Trivial words: the defining relations (E. Artin, Theory of braids, 1947), full turns, and the Burau matrices.

A word whose Burau matrix is not the identity is not trivial (W. Burau 1935), for any number of strands; for three
strands the converse holds too (W. Magnus and A. Peluso 1969).
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.domain.reduction import full_twists, is_trivial

PRIME = 1_000_003
AT = 5  # the variable of the Burau matrices


def burau(word: tuple[int, ...], strands: int) -> np.ndarray:
    """The unreduced Burau matrix at t = 5, modulo a prime."""
    inverse = pow(AT, -1, PRIME)
    product = np.eye(strands, dtype=np.int64)
    for letter in word:
        at = abs(letter) - 1
        step = np.eye(strands, dtype=np.int64)
        step[at : at + 2, at : at + 2] = [[1 - AT, AT], [1, 0]] if letter > 0 else [[0, 1], [inverse, 1 - inverse]]
        product = product @ step % PRIME
    return product


def words(strands: int, most: int = 25) -> st.SearchStrategy[tuple[int, ...]]:
    letters = st.integers(1, strands - 1).flatmap(lambda at: st.sampled_from((at, -at)))
    return st.lists(letters, max_size=most).map(tuple)


def back(word: tuple[int, ...]) -> tuple[int, ...]:
    return tuple(-letter for letter in reversed(word))


@given(words(6))
def test_a_word_and_its_way_back_is_nothing(word: tuple[int, ...]) -> None:
    assert is_trivial(word + back(word)) is True


@given(words(5), st.integers(-2, 2))
def test_a_full_turn_of_all_strands_commutes_with_every_word(word: tuple[int, ...], turns: int) -> None:
    turned = full_twists(5, turns)
    assert is_trivial(turned + word + full_twists(5, -turns) + back(word)) is True
    assert is_trivial(turned) is (turns == 0)


@pytest.mark.parametrize(
    "relation",
    [(1, 2, 1, -2, -1, -2), (2, 3, 2, -3, -2, -3), (1, 3, -1, -3), (1, 4, -1, -4), (-1, -2, -1, 2, 1, 2), ()],
)
def test_the_defining_relations_are_trivial(relation: tuple[int, ...]) -> None:
    assert is_trivial(relation) is True


@pytest.mark.parametrize("word", [(1,), (1, 1), (1, 2, -1, -2), (1, -2) * 3, (1, 2, 1, 2, -1, -1)])
def test_what_is_braided_is_not_trivial(word: tuple[int, ...]) -> None:
    assert is_trivial(word) is False


@given(words(3, 40))
def test_with_three_strands_trivial_is_what_the_burau_matrix_says(word: tuple[int, ...]) -> None:
    same = bool((burau(word, 3) == np.eye(3, dtype=np.int64)).all())
    assert is_trivial(word) is same


@given(words(5, 12), words(5, 12))
def test_with_five_strands_what_the_burau_matrix_tells_apart_is_told_apart(
    one: tuple[int, ...], two: tuple[int, ...]
) -> None:
    commutator = one + two + back(one) + back(two)
    if (burau(commutator, 5) != np.eye(5, dtype=np.int64)).any():
        assert is_trivial(commutator) is False


def test_too_much_work_is_admitted() -> None:
    assert is_trivial((1, 2) * 30 + (-1, -2) * 30, most_steps=10) is None
