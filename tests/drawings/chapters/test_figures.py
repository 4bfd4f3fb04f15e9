"""figures: both rulers, and no cord that comes out short."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.drawings.chapters.figures import (
    NO_BREAK,
    capital,
    cut_length,
    grams,
    length,
    lengths_between,
    sentence,
)

MM_PER_INCH = Fraction(254, 10)  # exact since the international yard of 1959


def inches(text: str) -> Fraction:
    """The inches of "300 mm (11 7/8 in)"."""
    inner = text.replace(NO_BREAK, " ").split("(")[1].removesuffix(" in)")
    return sum((Fraction(part) for part in inner.split(" ")), Fraction(0))


@given(st.integers(2, 400))
def test_a_cut_length_in_inches_is_never_shorter_than_in_millimetres(centimetres: int) -> None:
    found = inches(cut_length(10.0 * centimetres)) * MM_PER_INCH
    assert 10 * centimetres <= found <= 10 * centimetres + MM_PER_INCH / 8


def test_an_exact_inch_is_left_alone() -> None:
    assert inches(cut_length(254.0)) == 10


def test_what_is_not_known_is_said() -> None:
    assert cut_length(None) == length(None) == "not predicted yet"


def test_lengths_part_only_before_the_bracket() -> None:
    assert length(111.0).replace(NO_BREAK, "~") == "111~mm (4~3/8~in)"
    assert lengths_between(150.0, 160.0).replace(NO_BREAK, "~") == "150~to~160~mm (5~7/8~to~6~1/4~in)"


@pytest.mark.parametrize(("weight", "said"), [(8.34, "8.3 g"), (99.96, "100.0 g"), (123.4, "123 g")])
def test_grams_have_no_more_digits_than_are_known(weight: float, said: str) -> None:
    assert grams(weight) == said


def test_sentences_begin_and_end() -> None:
    assert sentence("so it is") == sentence("so it is. ") == "so it is."
    assert capital("kongoh gumi of Sixteen") == "Kongoh gumi of Sixteen"
