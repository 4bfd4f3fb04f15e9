"""What a maker would call the same word is found by it.

Source of the pairs: Unicode's own decompositions and case folding; strokes from common practice, no source.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.store.library.folding import folded


@pytest.mark.parametrize(
    ("text", "same"),
    [
        ("Blå", "bla"),
        ("STRASSE", "straße"),
        ("Ærø", "aero"),
        ("Łódź", "lodz"),
        ("é", "e\N{COMBINING ACUTE ACCENT}"),
        ("\N{LATIN SMALL LIGATURE FI}n", "fin"),
        ("\N{FULLWIDTH LATIN CAPITAL LETTER A}", "a"),
        ("İzmir", "izmir"),
        ("Άλφα", "αλφα"),
        ("Ёлка", "елка"),
        ("a\t\n  b\0c", "a b c"),
        ("カ\N{COMBINING KATAKANA-HIRAGANA VOICED SOUND MARK}", "ガ"),
    ],
)
def test_they_fold_alike(text: str, same: str) -> None:
    assert folded(text) == folded(same)


@pytest.mark.parametrize(("text", "other"), [("a", "b"), ("कि", "क"), ("漢", "字"), ("8/0", "80")])
def test_they_do_not(text: str, other: str) -> None:
    assert folded(text) != folded(other)


@given(st.text(alphabet=st.characters()))
def test_folding_twice_changes_nothing_and_case_never_counts(text: str) -> None:
    assert folded(folded(text)) == folded(text)
    folded(text).encode()  # nothing is left that a file cannot hold
