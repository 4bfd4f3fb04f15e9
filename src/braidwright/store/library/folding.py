"""folding: letters as they are compared in a search: without case, without accents, without width."""

import unicodedata
from typing import Final

# Letters that Unicode does not take apart into a letter and a mark, and that people type without the stroke.
STROKES: Final = str.maketrans(
    {
        "ø": "o",
        "ł": "l",
        "đ": "d",
        "ð": "d",
        "ħ": "h",
        "ŧ": "t",
        "æ": "ae",
        "œ": "oe",
        "þ": "th",
    }
) | {0x131: "i"}  # fmt: skip (the letter i without its dot)


def folded(text: str) -> str:
    """The text as it is searched: two texts that a maker would call the same fold alike; folding twice changes nothing.

    Marks that carry no meaning of their own go (those with a combining class); vowel signs of Indic scripts stay.
    """
    while (shorter := _once(text)) != text:
        text = shorter
    return text


def _once(text: str) -> str:
    spread = unicodedata.normalize("NFKD", text).casefold().translate(STROKES)
    bare = "".join(letter for letter in unicodedata.normalize("NFKD", spread) if not unicodedata.combining(letter))
    return " ".join("".join(_plain(letter) for letter in bare).split())


def _plain(letter: str) -> str:
    """The letter; a control character, or half of a pair that no file can hold, is a space."""
    return " " if unicodedata.category(letter) in ("Cc", "Cs") else letter
