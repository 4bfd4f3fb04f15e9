"""shelf: names are found quickly and helpfully, and a maker's own file goes on top."""

import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.catalogue import family
from braidwright.catalogue.shelf import Catalogue, read_braid_file, standard
from braidwright.catalogue.toml_file import read_toml
from braidwright.domain.braid import Braid
from braidwright.domain.errors import BraidError, BraidwrightError, CatalogueError

OWN = """
[[bead]]
name = "grandmother's glass"
english = "old glass, size unknown"
shape = "round"
diameter_mm = 3.4
length_mm = 2.6
hole_mm = 1.1
grams = 0.04
sources = { diameter_mm = "calipers", length_mm = "calipers" }

[[bead]]
name = "round-8/0"
shape = "round"
diameter_mm = 2.9
length_mm = 2.0
hole_mm = 0.9
grams = 0.025

[[cord]]
name = "waxed linen"
diameter_mm = 0.7

[[end_cap]]
name = "bell"
inside_mm = 9
adds_mm = 14

[[braid]]
name = "my four"
slots = 32
start = [32, 8, 16, 24]
moves = [[32, 17], [16, 32], [17, 16, "re-space"], [8, 23], [24, 8], [23, 24, "re-space"]]
"""
ONE_BRAID = OWN[OWN.index("slots") :]


@pytest.fixture
def own(tmp_path: Path) -> Path:
    path = tmp_path / "mine.toml"
    path.write_text(OWN, encoding="utf-8")
    return path


def test_one_name_reads_one_file(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every command looks up a braid and a few beads: it must not read the whole catalogue for that."""
    read: list[str] = []

    def noting(path: Path) -> dict[str, object]:
        read.append(path.name)
        return read_toml(path)

    monkeypatch.setattr(family, "read_toml", noting)
    monkeypatch.setattr(family, "_READ", {})
    catalogue = standard()
    assert catalogue.braid("kongoh-8") is catalogue.braid("kongoh-8")
    assert catalogue.bead("round-8/0").name == "round-8/0"
    assert standard().cord("tex-210").tex == 210
    assert read == ["kongoh-8.toml", "round-8-0.toml", "tex-210.toml"]


def test_it_reads_the_same_from_another_folder(tmp_path: Path) -> None:
    """The files are found beside the program, wherever a maker stands."""
    code = "from braidwright.catalogue.shelf import standard; print(len(standard().braids))"
    source = str(Path(family.__file__).parents[2])
    found = subprocess.check_output([sys.executable, "-c", code], cwd=tmp_path, env={"PYTHONPATH": source})
    assert int(found) == len(standard().braids)


def test_lists_go_from_small_to_large() -> None:
    assert [braid.name for braid in standard().braids][:4] == ["kongoh-8", "kongoh-12", "kongoh-16", "kongoh-24"]
    assert [cord.tex for cord in standard().cords if cord.tex] == [45, 70, 135, 210, 400]


@pytest.mark.parametrize(
    ("kind", "name", "said"),
    [
        ("bead", "round-8-0", "The catalogue has no bead called 'round-8-0'; is round-8/0"),
        ("bead", "ROUND-8/0", "is round-8/0"),
        ("bead", "zzzzzz", "no bead called 'zzzzzz'; see the list of the catalogue."),
        ("bead", "", "no bead called ''"),
        ("bead", "../braids/kongoh-8", "no bead called '../braids/kongoh-8'"),
        ("bead", "x" * 5000, "no bead called 'xxxx"),
        ("bead", "\ud800\n\0", "no bead called '\\ud800\\n\\x00'"),
        ("cord", "tex 210", "is tex-210"),
        ("braid", "kongo-8", "is kongoh-8"),
        (
            "braid",
            "zzzzzz",
            "use kongoh-8, kongoh-12, kongoh-16, kongoh-24, maru-yotsu, seven-cord, tubular-8 or ",
        ),
        ("end_cap", "cap-70", "no end cap called 'cap-70'; is cap-7"),
    ],
)
def test_a_name_that_is_not_there_is_told_with_near_ones(kind: str, name: str, said: str) -> None:
    with pytest.raises(CatalogueError) as caught:
        getattr(standard(), kind)(name)
    assert said in str(caught.value)
    assert len(str(caught.value)) < 300
    str(caught.value).encode()


def test_a_makers_file_adds_to_the_catalogue_and_goes_before_it(own: Path) -> None:
    catalogue = standard().with_user_file(own)
    assert catalogue.bead("grandmother's glass").english == "old glass, size unknown"
    assert catalogue.bead("grandmother's glass").reach_mm == 1.7
    assert catalogue.bead("round-8/0").diameter_mm == 2.9
    assert catalogue.cord("waxed linen").tex is None
    assert catalogue.end_cap("bell").inside_mm == 9
    assert catalogue.braid("my four").moves == standard().braid("maru-yotsu").moves
    assert catalogue.bead("round-11/0") == standard().bead("round-11/0")
    assert catalogue.warnings == (f"{own}, bead 2: it takes the place of the bead 'round-8/0' that was there before.",)
    assert len(catalogue.beads) == len(standard().beads) + 1
    assert [bead.name for bead in catalogue.beads].count("round-8/0") == 1
    assert standard().bead("round-8/0").diameter_mm == 3.0, "the standard catalogue is not touched"
    assert standard() == Catalogue()


def test_a_later_file_goes_before_an_earlier_one(own: Path) -> None:
    catalogue = (
        standard()
        .with_user_file(own)
        .with_user_text('[[cord]]\nname = "waxed linen"\ndiameter_mm = 0.9', where="second.toml")
    )
    assert catalogue.cord("waxed linen").diameter_mm == 0.9
    assert [cord.name for cord in catalogue.cords].count("waxed linen") == 1
    assert catalogue.warnings[-1].startswith("second.toml, cord 1: it takes the place of the cord 'waxed linen'")


def test_a_file_of_one_braid_serves_too(tmp_path: Path) -> None:
    path = tmp_path / "garden path.toml"
    path.write_text(ONE_BRAID, encoding="utf-8")
    braid, warnings = read_braid_file(path)
    assert (braid.name, warnings) == ("garden path", ())
    assert standard().with_user_file(path).braid("garden path") == braid


def test_a_file_from_a_windows_editor_serves_too(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_bytes(b"\xef\xbb\xbf" + ONE_BRAID.replace("\n", "\r\n").encode())
    assert read_braid_file(path)[0].cord_count == 4


def test_fields_and_tables_nobody_knows_are_told() -> None:
    text = 'colour = "red"\n[[beads]]\nname = "a"\n[[cord]]\nname = "b"\ndiameter_mm = 1\nweight = 3'
    warnings = standard().with_user_text(text, where="mine.toml").warnings
    assert warnings == (
        "mine.toml: the field 'colour' is not known and is left alone.",
        "mine.toml: the field 'beads' is not known and is left alone (is bead meant?).",
        "mine.toml, cord 1: the field 'weight' is not known and is left alone.",
    )


BEAD = 'shape = "round"\ndiameter_mm = 3\nlength_mm = 2\nhole_mm = 1\ngrams = 0.03\n'
BAD: list[tuple[str, str]] = [
    ("bead", "this is not TOML"),
    ("a = 1\na = 2", "this is not TOML"),
    ("a = " + "[" * 100_000, "nested too deeply"),
    ("a = " + "9" * 5000, "a number is too long to read"),
    ("bead = 3", "mine.toml, bead: 3 was found; give a list"),
    ("[bead]\nname = 'a'", "mine.toml, bead: a table was found; give a list"),
    ("bead = [3]", "mine.toml, bead 1: 3 was found; give a table"),
    (f"[[bead]]\n{BEAD}", "mine.toml, bead 1: the field name is missing"),
    (f"[[bead]]\nname = 5\n{BEAD}", "mine.toml, bead 1, name: 5 was found"),
    (f"[[bead]]\nname = 'a'\n{BEAD}[[bead]]\nname = 'a'\n{BEAD}", "bead 2: the name 'a' is used twice"),
    ("[[bead]]\nname = 'a'\nshape = 'round'", "mine.toml, bead 1: the field diameter_mm is missing"),
    (f"[[bead]]\nname = 'a'\n{BEAD}reach_mm = nan", "mine.toml, bead 1, reach_mm: that is no size"),
    (f"[[bead]]\nname = 'a'\n{BEAD}reach_mm = 1979-05-27", "bead 1, reach_mm: a date was found"),
    ("[[cord]]\nname = 'a'\ndiameter_mm = -1", "mine.toml, cord 1: Cord a: a diameter of -1 mm"),
    ("[[end_cap]]\nname = 'a'\ninside_mm = 1", "mine.toml, end cap 1: the field adds_mm is missing"),
    (
        "[[braid]]\nname = 'a'\nslots = 32\nstart = [1, 2]\nmoves = [[3, 4]]",
        "braid 1: Braid a, move 1 (3 to 4)",
    ),
    ("slots = 32\nmoves = [[3, 4]]", "mine.toml, braid 1: the field start is missing"),
]


@pytest.mark.parametrize(("text", "said"), BAD, ids=[re.sub(r"\W+", "-", said) for _, said in BAD])
def test_a_bad_file_is_refused_in_one_sentence_that_names_it(text: str, said: str) -> None:
    with pytest.raises(BraidwrightError) as caught:
        standard().with_user_text(text, where="mine.toml")
    message = str(caught.value)
    assert message.startswith("mine.toml")
    assert said in message
    assert message.endswith(".")
    assert "\n" not in message
    assert len(message) < 300


def test_a_file_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    (tmp_path / "latin.toml").write_bytes(b'name = "caf\xe9"')
    (tmp_path / "large.toml").write_bytes(b"#" * 4_000_001)
    for name, said in (
        ("missing.toml", "the file cannot be read (No such file or directory)"),
        (".", "the file cannot be read (Is a directory)"),
        ("a\0b", "the file cannot be read (that is no path)"),
        ("latin.toml", "is not text in UTF-8"),
        ("large.toml", "is larger than 4000000 bytes"),
    ):
        for read in (read_braid_file, standard().with_user_file):
            with pytest.raises(CatalogueError, match=re.escape(said)):
                read(tmp_path / name)


def test_a_braid_file_with_an_impossible_move_is_refused_by_name(tmp_path: Path) -> None:
    path = tmp_path / "odd.toml"
    path.write_text(ONE_BRAID.replace("[32, 17]", "[31, 17]"), encoding="utf-8")
    with pytest.raises(BraidError, match=r"odd\.toml: Braid odd, move 1 \(31 to 17\): slot 31 is empty"):
        read_braid_file(path)


WORDS = ["[[bead]]", "[[braid]]", "name", "=", "'a'", "slots", "32", "\n", "[", "]", ",", "moves", "start", "nan"]


@given(st.lists(st.sampled_from(WORDS) | st.text(max_size=4), max_size=25))
def test_any_text_is_a_catalogue_or_one_of_our_errors(words: list[str]) -> None:
    message = None
    try:
        standard().with_user_text(" ".join(words), where="mine.toml")
    except BraidwrightError as error:
        message = str(error)
    assert message is None or message.startswith("mine.toml")


@given(st.binary(max_size=60))
def test_any_bytes_are_a_braid_or_one_of_our_errors(tmp_path_factory: pytest.TempPathFactory, content: bytes) -> None:
    path = tmp_path_factory.getbasetemp() / "any.toml"
    path.write_bytes(content)
    outcome: Any = None
    try:
        outcome = read_braid_file(path)[0]
    except BraidwrightError as error:
        outcome = str(error)
    assert isinstance(outcome, Braid) or outcome.startswith(str(path))
