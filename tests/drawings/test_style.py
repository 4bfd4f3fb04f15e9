"""Colours are told apart by more than colour, and everything written can be read."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.drawings.style import (
    ACCENT,
    BLACK,
    INK,
    PAPER,
    READABLE,
    SAND,
    SOFT_INK,
    WHITE,
    contrast,
    ink_on,
    luminance,
)

COLOURS = st.tuples(*[st.integers(0, 255)] * 3).map(lambda rgb: "#{:02x}{:02x}{:02x}".format(*rgb))


@given(COLOURS)
def test_a_symbol_can_be_read_on_every_bead(colour: str) -> None:
    """WCAG 2.2, success criterion 1.4.3 (W3C): text needs a contrast of 4.5."""
    assert contrast(ink_on(colour), colour) >= READABLE


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [(BLACK, WHITE, 21.0), (WHITE, WHITE, 1.0), ("#777777", WHITE, 4.48), ("#767676", WHITE, 4.54)],
)
def test_contrast_as_published(one: str, other: str, ratio: float) -> None:
    """21 and 1 are the bounds of the definition (W3C, WCAG 2.2); the two greys are common knowledge, from memory."""
    assert contrast(one, other) == pytest.approx(ratio, abs=0.005)
    assert contrast(other, one) == contrast(one, other)


def test_luminance_of_the_primaries() -> None:
    """The weights of the definition of relative luminance (W3C, WCAG 2.2)."""
    found = [luminance(colour) for colour in ("#ff0000", "#00ff00", "#0000ff")]
    assert found == pytest.approx([0.2126, 0.7152, 0.0722])


@pytest.mark.parametrize("ground", [PAPER, SAND])
@pytest.mark.parametrize("ink", [INK, SOFT_INK, ACCENT])
def test_house_inks_can_be_read_on_house_papers(ink: str, ground: str) -> None:
    assert contrast(ink, ground) >= READABLE
