"""OKLab against its author's reference values and a colour library."""

import numpy as np
import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from braidwright.domain.oklab import nearest, oklab_of

# Source: B. Ottosson, A perceptual color space for image processing (2020), table of example XYZ and OKLab pairs (white
# D65), to three places; written down from memory and compared with coloraide below.
XYZ_PAIRS = (
    ((0.950, 1.000, 1.089), (1.000, 0.000, 0.000)),
    ((1.000, 0.000, 0.000), (0.450, 1.236, -0.019)),
    ((0.000, 1.000, 0.000), (0.922, -0.671, 0.263)),
    ((0.000, 0.000, 1.000), (0.153, -1.415, -0.449)),
)
Triple = tuple[float, float, float]
light = st.tuples(*(st.floats(0.0, 1.0) for _ in range(3)))


@pytest.mark.parametrize(("xyz", "published"), XYZ_PAIRS)
def test_oklab_gives_the_published_figures(xyz: Triple, published: Triple) -> None:
    linear = Color("xyz-d65", xyz).convert("srgb-linear")
    assert oklab_of(np.array([linear[:3]]))[0] == pytest.approx(published, abs=1e-3)


@given(linear=light)
def test_oklab_is_the_librarys(linear: Triple) -> None:
    found = Color("srgb-linear", linear).convert("oklab")[:3]
    assert oklab_of(np.array(linear)) == pytest.approx(tuple(found), abs=1e-3)


@given(colours=st.lists(light, min_size=1, max_size=6), choice=st.lists(light, min_size=1, max_size=5))
def test_the_nearest_is_none_farther_than_any(colours: list[Triple], choice: list[Triple]) -> None:
    """Against the library's own difference, which is of OKLab too."""
    which = nearest(np.array(colours), oklab_of(np.array(choice)))
    for colour, at in zip(colours, which, strict=True):
        away = [
            Color("srgb-linear", colour).delta_e(Color("srgb-linear", other), method="ok", scalar=1) for other in choice
        ]
        assert away[at] <= min(away) + 2e-3


def test_of_equals_the_first_is_taken() -> None:
    assert nearest(np.array([[0.5, 0.5, 0.5]]), oklab_of(np.array([[0.1, 0.1, 0.1], [0.5] * 3, [0.5] * 3])))[0] == 1
