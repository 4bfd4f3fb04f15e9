"""letters: two small alphabets of our own, drawn for beads, and accents put together with letters.

A drawing is lines from the top of the capitals down, "#" a bead of the letter, lines divided by "/"; what goes on
below the height of the alphabet hangs below the line the letters stand on.
"""

from dataclasses import dataclass
from unicodedata import name, normalize

from braidwright.domain.errors import RequestError

Dots = frozenset[tuple[int, int]]  # right of the left edge, and up from the line the letters stand on

_FIVE = """
A .#./#.#/###/#.#/#.#      B ##./#.#/##./#.#/##.      C .##/#../#../#../.##      D ##./#.#/#.#/#.#/##.
E ###/#../##./#../###      F ###/#../##./#../#..      G .##/#../#.#/#.#/.##      H #.#/#.#/###/#.#/#.#
I ###/.#./.#./.#./###      J ..#/..#/..#/#.#/.#.      K #.#/#.#/##./#.#/#.#      L #../#../#../#../###
M #...#/##.##/#.#.#/#...#/#...#   N #..#/##.#/#.##/#..#/#..#   O .#./#.#/#.#/#.#/.#.   P ##./#.#/##./#../#..
Q .#./#.#/#.#/.#./..#      R ##./#.#/##./#.#/#.#      S .##/#../.#./..#/##.      T ###/.#./.#./.#./.#.
U #.#/#.#/#.#/#.#/###      V #.#/#.#/#.#/#.#/.#.      W #...#/#...#/#.#.#/##.##/#...#
X #.#/#.#/.#./#.#/#.#      Y #.#/#.#/.#./.#./.#.      Z ###/..#/.#./#../###
a .../.##/#.#/#.#/.##      b #../##./#.#/#.#/##.      c .../.##/#../#../.##      d ..#/.##/#.#/#.#/.##
e .../.#./###/#../.##      f .##/#../##./#../#..      g .../.##/#.#/.##/..#/##.  h #../##./#.#/#.#/#.#
i #/./#/#/#                j .#/../.#/.#/.#/#.        k #../#.#/##./#.#/#.#      l #./#./#./#./.#
m ...../####./#.#.#/#.#.#/#.#.#   n .../##./#.#/#.#/#.#   o .../.#./#.#/#.#/.#.   p .../##./#.#/##./#../#..
q .../.##/#.#/.##/..#/..#  r .../#.#/##./#../#..      s .../.##/##./.##/##.      t .#./###/.#./.#./..#
u .../#.#/#.#/#.#/.##      v .../#.#/#.#/#.#/.#.      w ...../#...#/#.#.#/#.#.#/.#.#.
x .../#.#/.#./.#./#.#      y .../#.#/#.#/.##/..#/##.  z .../###/.#./#../###
0 ###/#.#/#.#/#.#/###      1 .#./##./.#./.#./###      2 ##./..#/.#./#../###      3 ##./..#/.#./..#/##.
4 #.#/#.#/###/..#/..#      5 ###/#../##./..#/##.      6 .##/#../##./#.#/.#.      7 ###/..#/.#./.#./.#.
8 ###/#.#/###/#.#/###      9 .#./#.#/.##/..#/##.
. ././././#                , ../../../.#/.#/#.         : ./#/././#                ; ../.#/../../.#/#.
! #/#/#/./#                ? ##./..#/.#./.../.#.      ' #/#/././.                " #.#/#.#/.../.../...
- .../.../###/.../...      + .../.#./###/.#./...      & .#./#.#/.#./#.#/.##      / ..#/..#/.#./#../#..
( .#/#./#./#./.#           ) #./.#/.#/.#/#.           * .../#.#/.#./#.#/...      = .../###/.../###/...
ß ##./#.#/##./#.#/##./#..  æ ...../##.#./.####/##.../.####   Æ .####/#.#../#####/#.#../#.###
œ ...../.#.#./#.###/#.#../.#.##   Œ .####/#.#../#.##./#.#../.####   ø ..../.#.#/#.#./#.#./#.#.
Ø .#.#/#.#./#.#./#.#./#.#.   ł .#./.##/.#./##./.#.   Ł .#../.#../.##./##../.###   ı ./#/#/#/#   ȷ ../.#/.#/.#/.#/#.
♥ ...../.#.#./#####/.###./..#..   ★ ..#../#####/.###./.###./#...#
"""  # noqa: RUF001  (the i without a dot is meant)
_SEVEN = """
A .##./#..#/#..#/####/#..#/#..#/#..#   B ###./#..#/#..#/###./#..#/#..#/###.   C .##./#..#/#.../#.../#.../#..#/.##.
D ###./#..#/#..#/#..#/#..#/#..#/###.   E ####/#.../#.../###./#.../#.../####   F ####/#.../#.../###./#.../#.../#...
G .##./#..#/#.../#.##/#..#/#..#/.##.   H #..#/#..#/#..#/####/#..#/#..#/#..#   I ###/.#./.#./.#./.#./.#./###
J ...#/...#/...#/...#/...#/#..#/.##.   K #..#/#..#/#.#./##../#.#./#..#/#..#   L #.../#.../#.../#.../#.../#.../####
M #...#/##.##/#.#.#/#.#.#/#...#/#...#/#...#   N #...#/##..#/##..#/#.#.#/#..##/#..##/#...#
O .##./#..#/#..#/#..#/#..#/#..#/.##.   P ###./#..#/#..#/###./#.../#.../#...   Q .##./#..#/#..#/#..#/#..#/#.#./.#.#
R ###./#..#/#..#/###./#.#./#..#/#..#   S .###/#.../#.../.##./...#/...#/###.
T #####/..#../..#../..#../..#../..#../..#..
U #..#/#..#/#..#/#..#/#..#/#..#/.##.   V #...#/#...#/#...#/.#.#./.#.#./.#.#./..#..
W #...#/#...#/#...#/#.#.#/#.#.#/##.##/#...#   X #...#/#...#/.#.#./..#../.#.#./#...#/#...#
Y #...#/#...#/.#.#./..#../..#../..#../..#..   Z ####/...#/..#./..#./.#../#.../####
a ..../..../.##./...#/.###/#..#/.###   b #.../#.../###./#..#/#..#/#..#/###.   c ..../..../.###/#.../#.../#.../.###
d ...#/...#/.###/#..#/#..#/#..#/.###   e ..../..../.##./#..#/####/#.../.###   f ..#/.#./###/.#./.#./.#./.#.
g ..../..../.###/#..#/#..#/#..#/.###/...#/###.   h #.../#.../###./#..#/#..#/#..#/#..#   i #/./#/#/#/#/#
j .#/../.#/.#/.#/.#/.#/.#/#.   k #.../#.../#..#/#.#./##../#.#./#..#   l #./#./#./#./#./#./.#
m ...../...../####./#.#.#/#.#.#/#.#.#/#.#.#   n ..../..../###./#..#/#..#/#..#/#..#
o ..../..../.##./#..#/#..#/#..#/.##.   p ..../..../###./#..#/#..#/#..#/###./#.../#...
q ..../..../.###/#..#/#..#/#..#/.###/...#/...#   r ..../..../#.##/##../#.../#.../#...
s ..../..../.###/#.../.##./...#/###.   t .#./.#./###/.#./.#./.#./..#   u ..../..../#..#/#..#/#..#/#..#/.###
v ...../...../#...#/#...#/.#.#./.#.#./..#..   w ...../...../#...#/#.#.#/#.#.#/#.#.#/.#.#.
x ..../..../#..#/#..#/.##./#..#/#..#   y ..../..../#..#/#..#/#..#/#..#/.###/...#/###.
z ..../..../####/..#./.#../#.../####
0 .##./#..#/#.##/##.#/#..#/#..#/.##.   1 .#./##./.#./.#./.#./.#./###   2 .##./#..#/...#/..#./.#../#.../####
3 ###./...#/...#/.##./...#/...#/###.   4 ...#/..##/.#.#/#..#/####/...#/...#   5 ####/#.../###./...#/...#/#..#/.##.
6 .##./#.../#.../###./#..#/#..#/.##.   7 ####/...#/..#./..#./.#../.#../.#..   8 .##./#..#/#..#/.##./#..#/#..#/.##.
9 .##./#..#/#..#/.###/...#/...#/.##.
. ././././././#   , ../../../../../.#/.#/#.   : ././#/./././#   ; ../../.#/../../.#/.#/#.   ! #/#/#/#/#/./#
? .##./#..#/...#/..#./.#../..../.#..   ' #/#/././././.   " #.#/#.#/.../.../.../.../...
- .../.../.../###/.../.../...   + ...../...../..#../#####/..#../...../.....   & .#../#.#./#.#./.#../#.##/#.#./.#.#
/ ...#/...#/..#./..#./.#../.#../#...   ( .#/#./#./#./#./#./.#   ) #./.#/.#/.#/.#/.#/#.
* .../.../#.#/.#./#.#/.../...   = ..../..../####/..../####/..../....
ß .##./#..#/#..#/#.#./#..#/#..#/#.#./#...   æ ...../...../##.#./..#.#/.####/#.#../.####
Æ .####/#.#../#.#../#####/#.#../#.#../#.###   œ ...../...../.#.#./#.#.#/#.###/#.#../.#.##
Œ .####/#.#../#.#../#.##./#.#../#.#../.####   ø ...../...../.##.#/#..#./#.##./##.#./.##..
Ø .##.#/#..#./#.##./#.##./##.#./#..#./.##..   ł .#./.#./.##/.#./##./.#./.#.
Ł .#.../.#.../.##../##.../.#.../.#.../.####   ı ././#/#/#/#/#   ȷ ../../.#/.#/.#/.#/.#/.#/#.
♥ ...../.#.#./#####/#####/.###./..#../.....   ★ ...../..#../#####/.###./.###./#...#/.....
"""  # noqa: RUF001  (the i without a dot is meant)
# Accents over and under a letter, by their combining characters.
_ABOVE = {
    "\u0300": "#./.#", "\u0301": ".#/#.", "\u0302": ".#./#.#", "\u0303": ".#.#/#.#.", "\u0304": "###",
    "\u0306": "#..#/.##.", "\u0307": "#", "\u0308": "#.#", "\u030a": ".#./#.#/.#.", "\u030b": ".#.#/#.#.",
    "\u030c": "#.#/.#.",
}  # fmt: skip
_BELOW = {"\u0326": ".#/#.", "\u0327": ".#/#.", "\u0328": "#./.#", "\u0323": "#"}
_DOTLESS = {"i": "ı", "j": "ȷ"}  # noqa: RUF001  (it is meant)
_SAME = str.maketrans(
    {"\u2018": "'", "\u2019": "'", "\u201c": '"', "\u201d": '"', "\u2013": "-", "\u2014": "-", "\u00a0": " "}
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Alphabet:
    """One alphabet.

    Attributes:
        height: Lines of its capitals, which is how many stations or rows they are high.
        drawings: Pairs (character, its lines).
    """

    height: int
    drawings: tuple[tuple[str, str], ...]

    @property
    def characters(self) -> str:
        """Every character that is drawn as it is; accents come on top."""
        return "".join(character for character, _ in self.drawings if character not in _DOTLESS.values())

    def dots(self, text: str) -> Dots:
        """The beads of one character, with its accents.

        Args:
            text: A character, whole or as a letter with combining accents; a space has no beads.

        Raises:
            RequestError: It is not drawn; the sentence names it.
        """
        whole = normalize("NFD", text.translate(_SAME))
        base, marks = whole[:1], whole[1:]
        if base == " " and not marks:
            return frozenset()
        drawn = dict(self.drawings)
        above = any(mark in _ABOVE for mark in marks)
        lines = drawn.get(_DOTLESS.get(base, base) if above else base)
        if lines is None or any(mark not in _ABOVE and mark not in _BELOW for mark in marks):
            raise RequestError(_refusal(text, self))
        found = _read(lines, self.height - 1)
        for mark in marks:
            found |= _accent(mark, found)
        return frozenset(found)


def _refusal(text: str, alphabet: Alphabet) -> str:
    called = name(text, "").lower() if len(text) == 1 else ""
    shown = f"{text!r} ({called})" if called else repr(text)
    return (
        f"Lettering: {shown} is not in the alphabet {alphabet.height} beads high; use Latin letters with the usual "
        f"accents, digits and {' '.join(sign for sign in alphabet.characters if not sign.isalnum())}."
    )


def _read(lines: str, top: int) -> set[tuple[int, int]]:
    """The beads of a drawing whose first line lies at the height `top`."""
    return {(x, top - down) for down, line in enumerate(lines.split("/")) for x, sign in enumerate(line) if sign == "#"}


def _accent(mark: str, letter: set[tuple[int, int]]) -> set[tuple[int, int]]:
    """The beads of an accent, a line clear of what it stands over or hangs under, in the middle of the letter."""
    lines = _ABOVE.get(mark) or _BELOW[mark]
    right = max(x for x, _ in letter) - max(map(len, lines.split("/"))) + 1
    left = (right + min(x for x, _ in letter) + (mark == "\u0301")) // 2  # an acute leans to the right
    if mark in _ABOVE:
        top = max(y for _, y in letter) + 1 + len(lines.split("/"))
    else:
        top = min(y for _, y in letter) - (mark == "\u0323") - 1
    return {(x + left, y) for x, y in _read(lines, top)}


def _alphabet(height: int, text: str) -> Alphabet:
    words = text.split()
    return Alphabet(height=height, drawings=tuple(zip(words[::2], words[1::2], strict=True)))


ALPHABETS: dict[int, Alphabet] = {5: _alphabet(5, _FIVE), 7: _alphabet(7, _SEVEN)}
