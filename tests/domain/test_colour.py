"""Colour difference against the published pairs and a colour library, and sights against the same library."""

import pytest
from coloraide import Color
from coloraide.filters.cvd import Deutan, Protan, Tritan
from hypothesis import given
from hypothesis import strategies as st

from braidwright.domain.colour import SIGHTS, TOO_ALIKE, Lab, ciede2000, difference, lab_of
from braidwright.domain.errors import DesignError

BLUE: Lab = (50.0, 0.0, -82.7485)
GREY: Lab = (50.0, 2.5, 0.0)

# Source: G. Sharma, W. Wu, E. N. Dalal, The CIEDE2000 Color-Difference Formula (2005), table 1: all 34 pairs, written
# down from memory and each compared with coloraide below.
SHARMA_PAIRS: tuple[tuple[Lab, Lab, float], ...] = (
    ((50.0, 2.6772, -79.7751), BLUE, 2.0425),
    ((50.0, 3.1571, -77.2803), BLUE, 2.8615),
    ((50.0, 2.8361, -74.0200), BLUE, 3.4412),
    ((50.0, -1.3802, -84.2814), BLUE, 1.0000),
    ((50.0, -1.1848, -84.8006), BLUE, 1.0000),
    ((50.0, -0.9009, -85.5211), BLUE, 1.0000),
    ((50.0, 0.0, 0.0), (50.0, -1.0, 2.0), 2.3669),
    ((50.0, -1.0, 2.0), (50.0, 0.0, 0.0), 2.3669),
    ((50.0, 2.4900, -0.0010), (50.0, -2.4900, 0.0009), 7.1792),
    ((50.0, 2.4900, -0.0010), (50.0, -2.4900, 0.0010), 7.1792),
    ((50.0, 2.4900, -0.0010), (50.0, -2.4900, 0.0011), 7.2195),
    ((50.0, 2.4900, -0.0010), (50.0, -2.4900, 0.0012), 7.2195),
    ((50.0, -0.0010, 2.4900), (50.0, 0.0009, -2.4900), 4.8045),
    ((50.0, -0.0010, 2.4900), (50.0, 0.0010, -2.4900), 4.8045),
    ((50.0, -0.0010, 2.4900), (50.0, 0.0011, -2.4900), 4.7461),
    (GREY, (50.0, 0.0, -2.5), 4.3065),
    (GREY, (73.0, 25.0, -18.0), 27.1492),
    (GREY, (61.0, -5.0, 29.0), 22.8977),
    (GREY, (56.0, -27.0, -3.0), 31.9030),
    (GREY, (58.0, 24.0, 15.0), 19.4535),
    (GREY, (50.0, 3.1736, 0.5854), 1.0000),
    (GREY, (50.0, 3.2972, 0.0), 1.0000),
    (GREY, (50.0, 1.8634, 0.5757), 1.0000),
    (GREY, (50.0, 3.2592, 0.3350), 1.0000),
    ((60.2574, -34.0099, 36.2677), (60.4626, -34.1751, 39.4387), 1.2644),
    ((63.0109, -31.0961, -5.8663), (62.8187, -29.7946, -4.0864), 1.2630),
    ((61.2901, 3.7196, -5.3901), (61.4292, 2.2480, -4.9620), 1.8731),
    ((35.0831, -44.1164, 3.7933), (35.0232, -40.0716, 1.5901), 1.8645),
    ((22.7233, 20.0904, -46.6940), (23.0331, 14.9730, -42.5619), 2.0373),
    ((36.4612, 47.8580, 18.3852), (36.2715, 50.5065, 21.2231), 1.4146),
    ((90.8027, -2.0831, 1.4410), (91.1528, -1.6435, 0.0447), 1.4441),
    ((90.9257, -0.5406, -0.9208), (88.6381, -0.8985, -0.7239), 1.5381),
    ((6.7747, -0.2908, -2.4247), (5.8714, -0.0985, -2.2286), 0.6377),
    ((2.0776, 0.0795, -1.1350), (0.9033, -0.0636, -0.5514), 0.9082),
)

colours = st.integers(0, 0xFFFFFF).map(lambda number: f"#{number:06x}")


@pytest.mark.parametrize(("one", "other", "published"), SHARMA_PAIRS)
def test_ciede2000_gives_the_published_figures(one: Lab, other: Lab, published: float) -> None:
    assert ciede2000(one, other) == pytest.approx(published, abs=5e-5)
    assert ciede2000(other, one) == pytest.approx(published, abs=5e-5)


@pytest.mark.parametrize(("one", "other", "published"), SHARMA_PAIRS)
def test_the_pairs_are_those_that_a_colour_library_confirms(one: Lab, other: Lab, published: float) -> None:
    """The library's plain "lab" has white D50, which gives other figures; the pairs are for D65."""
    found = Color("lab-d65", one).delta_e(Color("lab-d65", other), method="2000")
    assert found == pytest.approx(published, abs=5e-5)


@given(one=colours, other=colours)
def test_difference_of_screen_colours_is_the_librarys(one: str, other: str) -> None:
    assert difference(one, other) == pytest.approx(Color(one).delta_e(Color(other), method="2000"), abs=0.02)


@given(colour=colours)
def test_lab_is_the_librarys(colour: str) -> None:
    assert lab_of(colour) == pytest.approx(tuple(Color(colour).convert("lab-d65")[:3]), abs=0.02)


@given(colour=colours, which=st.integers(0, 2))
def test_sights_are_the_librarys(colour: str, which: int) -> None:
    """Machado, Oliveira and Fernandes (2009), as coloraide has them; we clip what a screen lacks."""
    kind = (Protan, Deutan, Tritan)[which]
    seen = Color(colour).convert("srgb-linear")
    kind().filter(seen, 1.0, method="machado")
    seen.clip()
    assert lab_of(colour, SIGHTS[which]) == pytest.approx(tuple(seen.convert("lab-d65")[:3]), abs=0.05)


def test_red_and_green_of_one_lightness_part_for_the_usual_sight_only() -> None:
    """The best known pair of all that some makers cannot tell apart. Common knowledge, no source."""
    red, green = "#b8533a", "#7d7a2e"
    assert difference(red, green) > 2 * TOO_ALIKE
    assert difference(red, green, SIGHTS[1]) < TOO_ALIKE


@pytest.mark.parametrize("text", ["", "#12345", "#1234567", "123456#", "#12345g", "#+1+2+3"])
def test_what_is_no_colour_is_refused(text: str) -> None:
    with pytest.raises(DesignError, match="#rrggbb"):
        lab_of(text)
