"""The alphabets: every drawing is sound, no two are alike, and accents come on top by composition."""

from unicodedata import normalize

import pytest

from braidwright.domain.errors import RequestError
from braidwright.domain.letters import ALPHABETS

# Letters with accents of languages written in Latin. Source: their alphabets, from memory.
ACCENTED = (
    "ÀÁÂÃÄÅàáâãäåÇçÈÉÊËèéêëÌÍÎÏìíîïÑñÒÓÔÕÖòóôõöÙÚÛÜùúûüÝýÿĀāĂăĄąĆćČčĎďĒēĖėĘ"
    "ęĚěĞğĢģĪīĮįİĶķĻļŃńŅņŇňŌōŐőŔŕŘřŚśŞşŠšȘșŤťŢţȚțŪūŮůŰűŲųŹźŻżŽž"
)
PLAIN = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789.,:;!?'\"-+&/()*="
HEIGHTS = sorted(ALPHABETS)


@pytest.mark.parametrize("height", HEIGHTS)
def test_every_drawing_is_a_rectangle_as_high_as_its_alphabet_or_lower(height: int) -> None:
    for sign, drawing in ALPHABETS[height].drawings:
        lines = drawing.split("/")
        assert len({len(line) for line in lines}) == 1, sign
        assert height <= len(lines) <= height + 2, sign
        assert {*drawing} <= {"#", ".", "/"}, sign
        assert len(sign) == 1


@pytest.mark.parametrize("height", HEIGHTS)
def test_capitals_and_digits_have_the_full_height(height: int) -> None:
    for sign in PLAIN[:26] + "0123456789":
        ups = {y for _, y in ALPHABETS[height].dots(sign)}
        assert (min(ups), max(ups)) == (0, height - 1), sign


@pytest.mark.parametrize("height", HEIGHTS)
def test_no_two_drawings_are_alike(height: int) -> None:
    alphabet = ALPHABETS[height]
    assert len({alphabet.dots(sign) for sign in alphabet.characters}) == len(alphabet.characters)
    assert len({sign for sign, _ in alphabet.drawings}) == len(alphabet.drawings)


@pytest.mark.parametrize("height", HEIGHTS)
def test_the_usual_letters_are_all_there(height: int) -> None:
    for sign in PLAIN + ACCENTED + "ßæÆœŒøØłŁ":
        assert ALPHABETS[height].dots(sign), sign
    assert ALPHABETS[height].dots(" ") == frozenset()


@pytest.mark.parametrize("height", HEIGHTS)
@pytest.mark.parametrize("sign", ACCENTED)
def test_an_accent_adds_to_its_letter_and_keeps_clear_of_it(height: int, sign: str) -> None:
    alphabet = ALPHABETS[height]
    base = normalize("NFD", sign)[0]
    whole = alphabet.dots(sign)
    dotless = {"i": "\u0131", "j": "\u0237"} if sign != "\u012f" else {}  # an ogonek leaves the dot
    letter = alphabet.dots(dotless.get(base, base))
    assert letter < whole
    accent = whole - letter
    assert {y for _, y in accent}.isdisjoint({y for _, y in letter})
    high = [y for _, y in accent if y > max(up for _, up in letter)]
    assert not high or min(high) == max(up for _, up in letter) + 2


@pytest.mark.parametrize("height", HEIGHTS)
def test_every_accent_on_a_letter_is_another(height: int) -> None:
    vowels = "aàáâãäåāăąạȧ"
    assert len({ALPHABETS[height].dots(sign) for sign in vowels}) == len(vowels)


def test_letters_put_together_either_way_are_one() -> None:
    for sign in ACCENTED:
        assert ALPHABETS[7].dots(sign) == ALPHABETS[7].dots(normalize("NFD", sign))


@pytest.mark.parametrize("sign", ["Ж", "漢", "😀", "\u0301", "ð", "\n", "\ud800", "a\u0489"])
def test_what_is_not_drawn_is_named(sign: str) -> None:
    with pytest.raises(RequestError, match="not in the alphabet 5 beads high") as refusal:
        ALPHABETS[5].dots(sign)
    assert repr(sign) in str(refusal.value)
