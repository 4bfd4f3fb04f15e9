"""Colours too alike, for the usual sight and for others, against a colour library."""

import pytest
from coloraide import Color
from coloraide.filters.cvd import Deutan, Protan, Tritan
from hypothesis import given
from hypothesis import strategies as st

from braidwright.domain.colour import TOO_ALIKE
from braidwright.domain.likeness import FINISH_ADDS, alike, alike_beads
from braidwright.domain.tray import Finish, TrayBead

colours = st.integers(0, 0xFFFFFF).map(lambda number: f"#{number:06x}")
KINDS = (("protan", Protan), ("deuteran", Deutan), ("tritan", Tritan))


def bead(key: str, colour: str, finish: Finish | None = None, kind: str = "round-8/0") -> TrayBead:
    return TrayBead(key=key, bead=kind, colour=colour, finish=finish)


def seen(colour: str, kind: type[Protan] | type[Deutan] | type[Tritan]) -> Color:
    """Source: Machado, Oliveira and Fernandes (2009), as coloraide has them."""
    found = Color(colour).convert("srgb-linear")
    kind().filter(found, 1.0, method="machado")
    return found.clip()


@given(one=colours, other=colours)
def test_pairs_are_those_a_colour_library_finds(one: str, other: str) -> None:
    apart = Color(one).delta_e(Color(other), method="2000")
    blind = [seen(one, kind).delta_e(seen(other, kind), method="2000") for _, kind in KINDS]
    if min(abs(value - TOO_ALIKE) for value in (apart, *blind)) < 0.05:
        return  # on the line; the two round differently
    found = alike(("a", one), ("b", other))
    if apart < TOO_ALIKE:
        assert found is not None
        assert found.sights == ()
        assert found.apart == pytest.approx(apart, abs=0.02)
        return
    told = () if found is None else tuple(sight.name for sight in found.sights)
    expected = [word for (word, _), value in zip(KINDS, blind, strict=True) if value < TOO_ALIKE]
    assert [word for word, _ in KINDS if any(word in name for name in told)] == expected


def test_reds_and_greens_of_one_lightness_are_told_for_red_and_green_blind_makers() -> None:
    """The best known pair of all. Common knowledge, no source."""
    (pair,) = alike_beads([bead("a", "#b8533a"), bead("b", "#7d7a2e")])
    assert "green-blindness" in pair.sentence("Tray: rust and olive")
    assert pair.sentence("Tray: rust and olive").startswith("Tray: rust and olive look alike to makers with ")


def test_blue_and_green_of_one_lightness_are_told_for_blue_blind_makers() -> None:
    """Tritan vision confuses blue with green. Common knowledge, no source."""
    (pair,) = alike_beads([bead("a", "#00a5c8"), bead("b", "#00ab9a")])
    assert [sight.name for sight in pair.sights] == ["blue-blindness (tritanopia)"]


def test_a_finish_counts_a_little() -> None:
    """One colour, matte and shiny, is still told; colours just too alike are parted by it."""
    same = alike_beads([bead("a", "#1b3e5a"), bead("b", "#1b3e5a", "matte")])
    assert [pair.apart for pair in same] == [FINISH_ADDS]
    near = ("#808080", "#949494")
    assert alike_beads([bead("a", near[0]), bead("b", near[1], "opaque")])
    assert not alike_beads([bead("a", near[0]), bead("b", near[1], "matte")])


def test_beads_of_other_shape_tell_themselves_apart() -> None:
    assert alike_beads([bead("a", "#1b3e5a"), bead("b", "#1b3e5a", kind="teardrop-3.4")]) == ()


def test_every_two_are_compared_once() -> None:
    found = alike_beads([bead(key, "#336699") for key in "abc"])
    assert [(pair.one, pair.other) for pair in found] == [("a", "b"), ("a", "c"), ("b", "c")]
