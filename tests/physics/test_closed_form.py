"""The closed form against the contact solver's table and against what the trade reports."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.domain.errors import RequestError
from braidwright.physics.closed_form import bare, beaded

DISK = 11.25  # degrees: one slot of 32 a repeat

# The contact solver's table, physics.md section 4: cord 0.5 mm, drift 11.25 degrees.
# columns, bead diameter, bead length, rise, outside diameter (lowest, highest), take-up
SOLVED = [
    pytest.param(4, 2.1, 1.45, 1.63, (4.84, 4.90), 1.56, id="8 cords 11/0"),
    pytest.param(4, 3.0, 2.1, 2.30, (6.88, 6.88), 1.49, id="8 cords 8/0"),
    pytest.param(4, 4.0, 2.9, 3.10, (9.08, 9.08), 1.47, id="8 cords 6/0"),
    pytest.param(6, 3.0, 2.1, 2.31, (8.35, 8.45), 1.77, id="12 cords 8/0"),
    pytest.param(8, 3.0, 2.1, 2.30, (10.25, 10.35), 2.15, id="16 cords 8/0"),
]


@pytest.mark.parametrize(("columns", "wide", "long", "rise", "across", "take_up"), SOLVED)
def test_the_solver_s_table_within_the_stated_tolerances(
    columns: int, wide: float, long: float, rise: float, across: tuple[float, float], take_up: float
) -> None:
    """Tolerances: diameter -0.6 to +2.3 %, rise 3 %, take-up -6 to +3 % (physics.md, section 1)."""
    found = beaded(columns, 0.5, wide, long, DISK)
    assert found.take_up is not None
    assert found.rise_mm == pytest.approx(rise, rel=0.03)
    assert across[0] * 0.994 <= found.diameter_mm <= across[1] * 1.023
    assert take_up * 0.94 <= found.take_up <= take_up * 1.03


@pytest.mark.parametrize(
    ("wide", "long", "least", "most"),
    [
        # Beads per inch of braid, 8-cord kongoh: trade-facts 4.1, from the 1:2 rule [DAA] and beads per inch strung
        # [EB], with the 15 % that rule leaves open (finished : strung 2.0 there, 2.14 to 2.25 by the solver).
        pytest.param(2.1, 1.45, 68 * 0.85, 68, id="11/0"),
        pytest.param(3.0, 2.1, 44, 48, id="8/0"),
        pytest.param(4.0, 2.9, 32, 36, id="6/0"),
    ],
)
def test_beads_per_inch_of_braid_are_what_the_trade_counts(wide: float, long: float, least: float, most: float) -> None:
    assert least <= 4 * 25.4 / beaded(4, 0.5, wide, long, DISK).rise_mm <= most


def test_35_to_40_beads_on_each_cord_make_a_bracelet() -> None:
    """Check 17: 35 to 40 beads per cord [DBM]. A cord drops a bead every other row."""
    rise = beaded(4, 0.5, 3.0, 2.1, DISK).rise_mm
    assert 6.25 <= 35 * 2 * rise / 25.4 <= 40 * 2 * rise / 25.4 <= 7.5


@pytest.mark.parametrize(("wide", "long"), [(1.5, 1.1), (2.1, 1.45), (3.0, 2.1), (4.0, 2.9), (4.0, 4.0)])
def test_the_diameter_lies_in_the_window_of_recollections(wide: float, long: float) -> None:
    """trade-facts 4.1: 2.1 to 2.6 times the bead, from memory, until someone measures."""
    cord = min(0.5, wide * 0.2)
    assert 2.1 <= beaded(4, cord, wide, long, DISK).diameter_mm / wide <= 2.6


def test_a_full_turn_takes_about_74_mm_with_8_0_on_the_disk() -> None:
    """physics.md, section 5: one slot a repeat, 74 mm a turn for 8/0."""
    assert 360 / DISK * beaded(4, 0.5, 3.0, 2.1, DISK).rise_mm == pytest.approx(74, abs=1)


def test_bare_cord_as_solved() -> None:
    """physics.md, section 4: h 1.97 d, 4.7 to 4.8 d, take-up 1.53 to 1.60; 12: 6.0 to 6.2 d; 16: 7.2 to 7.4 d."""
    eight = bare(4, 1.0)
    assert eight.take_up is not None
    assert eight.rise_mm == pytest.approx(1.97, rel=0.03)
    assert 4.7 <= eight.diameter_mm <= 4.8
    assert 1.53 <= eight.take_up <= 1.60
    assert 6.0 <= bare(6, 1.0).diameter_mm <= 6.2
    assert 7.2 <= bare(8, 1.0).diameter_mm <= 7.4


def test_bare_braid_of_bead_cord_is_about_as_thin_as_measured() -> None:
    """A bare tail of 16 bead cords was measured at 1.5 mm [RS]: cord of about 0.2 mm; thicker cord is thicker."""
    assert bare(8, 1.5 / 7.3).diameter_mm == pytest.approx(1.5)


@given(st.floats(min_value=0.05, max_value=5.0), st.sampled_from([4, 6, 8]))
def test_bare_braid_has_no_scale_of_its_own(cord_mm: float, columns: int) -> None:
    one, many = bare(columns, 1.0), bare(columns, cord_mm)
    assert many.rise_mm == pytest.approx(one.rise_mm * cord_mm)
    assert many.diameter_mm == pytest.approx(one.diameter_mm * cord_mm)
    assert many.take_up == one.take_up


@given(
    st.sampled_from([4, 6, 8]),
    st.floats(min_value=1.0, max_value=8.0),
    st.floats(min_value=0.5, max_value=1.0),
    st.floats(min_value=0.05, max_value=0.3),
    st.floats(min_value=-16.0, max_value=16.0),
)
def test_what_no_formula_may_say(columns: int, wide: float, slender: float, share: float, drift: float) -> None:
    """No source: a cord is longer than its braid, a braid is wider than two beads, both hands come out alike."""
    found = beaded(columns, share * wide, wide, slender * wide, drift)
    assert found.take_up is not None
    assert found.take_up > 1.0
    assert found.diameter_mm >= 2.0 * wide * (1.0 - 1e-9)
    assert found.rise_mm > slender * wide
    assert found == beaded(columns, share * wide, wide, slender * wide, -drift)
    twice = beaded(columns, 2 * share * wide, 2 * wide, 2 * slender * wide, drift)
    assert twice.rise_mm == pytest.approx(2 * found.rise_mm)
    assert twice.diameter_mm == pytest.approx(2 * found.diameter_mm)


@pytest.mark.parametrize(
    ("columns", "cord", "wide", "long", "drift", "word"),
    [
        (12, 0.5, 3.0, 2.1, DISK, "24"),
        (2, 0.5, 3.0, 2.1, DISK, "not of 4"),
        (4, 0.5, 3.0, 2.1, 31.0, "drift"),
        (8, 0.5, 3.0, 2.1, 17.0, "drift"),
        (4, 0.5, 2.0, 6.0, DISK, "longer"),
        (4, 0.3, 6.0, 1.5, DISK, "flat"),
        (4, 1.5, 3.0, 2.1, DISK, "thick"),
    ],
)
def test_outside_its_limits_the_formula_is_silent(
    columns: int, cord: float, wide: float, long: float, drift: float, word: str
) -> None:
    with pytest.raises(RequestError, match=word):
        beaded(columns, cord, wide, long, drift)


def test_bare_braid_of_24_cords_was_not_asked_about() -> None:
    with pytest.raises(RequestError, match="24"):
        bare(12, 1.0)
