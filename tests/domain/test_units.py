"""Lengths as makers write them, read and printed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.domain.errors import RequestError
from braidwright.domain.units import check_length, give_or_take, parse_length, print_both, print_length


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("165", 165.0),
        ("165 mm", 165.0),
        ("165MM", 165.0),
        ("16.5 cm", 165.0),
        ("16,5 cm", 165.0),
        (".5 m", 500.0),
        ("6.5in", 165.1),
        ("6 1/2 in", 165.1),
        ("6-1/2 in", 165.1),
        ('6 1/2"', 165.1),
        ("6\u00bd in", 165.1),
        ("1/4 in.", 6.35),
        ("1 ft 4 in", 406.4),
        ("5 ft", 1524.0),
        ("2 yd", 1828.8),  # the international yard is 0.9144 m exactly
        ("2.5 yards", 2286.0),
        ("0", 0.0),
    ],
)
def test_a_length_is_read_with_its_unit(text: str, mm: float) -> None:
    assert parse_length(text) == pytest.approx(mm, abs=1e-9)


@pytest.mark.parametrize(
    "text",
    ["", " ", "mm", "nan", "inf", "-5 mm", "-1", "5 parsecs", "6 in 5", "1/0 in", "1,250 mm", "6..5", "5 mm five",
     "1e400", "200 m", "9" * 400, "9" * 500 + "/7 in", "6 1/2 1/2 in", "\u0000", "\u4e94 mm", "1 2 3",
     "\u0663\u0669/\u0660 in"],
)  # fmt: skip
def test_what_is_no_length_is_refused_in_one_sentence(text: str) -> None:
    with pytest.raises(RequestError) as refused:
        parse_length(text, "wrist")
    assert "wrist" in str(refused.value)
    assert str(refused.value).endswith(".")
    assert "\n" not in str(refused.value)


@given(st.text(max_size=30))
def test_any_text_is_read_or_refused_and_nothing_else(text: str) -> None:
    try:
        mm = parse_length(text)
    except RequestError:
        return
    assert 0.0 <= mm <= 100_000.0


@pytest.mark.parametrize("mm", [float("nan"), float("inf"), -float("inf"), -0.1, 100_001.0])
def test_a_number_that_is_no_length_is_refused(mm: float) -> None:
    with pytest.raises(RequestError):
        check_length(mm)


@pytest.mark.parametrize(
    ("mm", "unit", "text"),
    [
        (165.1, "mm", "165 mm"),
        (6.96, "mm", "7 mm"),
        (2.302, "mm", "2.3 mm"),
        (165.1, "cm", "16.5 cm"),
        (165.1, "in", "6 1/2 in"),
        (177.8, "in", "7 in"),
        (6.35, "in", "1/4 in"),
        (9.5, "in", "3/8 in"),
        (0.5, "in", "under 1/8 in"),
        (0.0, "in", "0 in"),
        (1080.0, "m", "1.08 m"),
        (200.0, "mm", "200 mm"),
    ],
)
def test_a_length_is_printed_as_a_ruler_is_read(mm: float, unit: str, text: str) -> None:
    assert print_length(mm, unit) == text


def test_both_rulers_at_once() -> None:
    assert print_both(165.1) == "165 mm (6 1/2 in)"


def test_an_unknown_unit_is_refused_when_printing() -> None:
    with pytest.raises(RequestError, match="furlong"):
        print_length(1.0, "furlong")


@given(st.floats(min_value=20.0, max_value=5000.0), st.sampled_from([("mm", 0.5), ("cm", 0.5), ("in", 25.4 / 16)]))
def test_what_is_printed_reads_back_to_the_rounding(mm: float, ruler: tuple[str, float]) -> None:
    unit, half_a_mark = ruler
    assert abs(parse_length(print_length(mm, unit)) - mm) <= half_a_mark + 1e-9


@pytest.mark.parametrize(
    ("error", "digits", "unit", "words"),
    [
        (4.2, 0, " mm", ", give or take 4 mm"),
        (0.3, 0, " mm", ", give or take 0.3 mm"),
        (0.04, 2, "", ", give or take 0.04"),
        (0.01, 0, " mm", ""),
        (0.0, 0, " mm", ""),
        (None, 0, " mm", ""),
    ],
)
def test_give_or_take(error: float | None, digits: int, unit: str, words: str) -> None:
    assert give_or_take(error, digits, unit) == words
