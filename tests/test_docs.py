"""The docs tell the truth about the tree: their paths exist, their words for make are words, their examples work."""

import re
import tomllib
from pathlib import Path

import pytest

from braidwright.domain.bead_table import bead_from_table, bead_warnings
from braidwright.domain.braid_table import braid_from_table

ROOT = Path(__file__).resolve().parent.parent
PAGES = sorted([*ROOT.glob("*.md"), *(ROOT / "docs").glob("*.md")])
SOURCE = ROOT / "src" / "braidwright"


def page_names() -> list[str]:
    return [path.relative_to(ROOT).as_posix() for path in PAGES]


@pytest.mark.parametrize("page", page_names())
def test_links_lead_somewhere(page: str) -> None:
    text = (ROOT / page).read_text(encoding="utf-8")
    targets = [target.partition("#")[0] for target in re.findall(r"\]\(([^)\s]+)\)", text)]
    local = [target for target in targets if target and "://" not in target]
    assert [target for target in local if not ((ROOT / page).parent / target).exists()] == []


@pytest.mark.parametrize("page", page_names())
def test_paths_in_code_type_exist(page: str) -> None:
    """`domain/walk.py`, `tests/...`, `docs/...`: named from the root, the package or the page."""
    text = (ROOT / page).read_text(encoding="utf-8")
    named = [name for name in re.findall(r"`([\w./-]+/(?:[\w-]*\.\w+)?)`", text) if not name.startswith("out/")]
    places = (ROOT, SOURCE, (ROOT / page).parent)
    assert [name for name in named if not any((place / name).exists() for place in places)] == []


def make_words() -> set[str]:
    return set(re.findall(r"^([a-z]+):.*## ", (ROOT / "Makefile").read_text(encoding="utf-8"), re.MULTILINE))


@pytest.mark.parametrize("page", page_names())
def test_words_for_make_are_words(page: str) -> None:
    text = (ROOT / page).read_text(encoding="utf-8")
    said = set(re.findall(r"(?:`|^    )make ([a-z]+)", text, re.MULTILINE))
    assert said <= make_words()


def test_contributing_tells_of_every_word_a_contributor_types() -> None:
    text = (ROOT / "CONTRIBUTING.md").read_text(encoding="utf-8")
    steps_of_check = {"help", "format", "lint", "types", "imports"}
    assert [word for word in sorted(make_words() - steps_of_check) if f"`make {word}" not in text] == []


def toml_examples() -> list[dict[str, object]]:
    text = (ROOT / "docs" / "adding.md").read_text(encoding="utf-8")
    blocks = re.findall(r"^ *```toml\n(.*?)^ *```", text, re.MULTILINE | re.DOTALL)
    return [tomllib.loads(block) for block in blocks]


def test_the_braid_in_adding_is_a_braid() -> None:
    """Maru yotsu: slots and permutation (N S)(E W) as in trade-facts 1.3 [EE2][ROB4][JP4]."""
    table = next(example for example in toml_examples() if "moves" in example)
    braid, warnings = braid_from_table(table, name="example", where="docs/adding.md")
    assert (braid.cord_count, braid.shift, braid.stitches_per_row, warnings) == (4, 0, 4, ())


def test_the_bead_in_adding_is_a_bead() -> None:
    table = next(example for example in toml_examples() if "shape" in example)
    bead = bead_from_table(table, name="example", where="docs/adding.md")
    assert bead.shape == "round"
    assert bead_warnings(table, where="docs/adding.md") == ()


def folders_of_things() -> list[str]:
    """Every family folder, of data or of code: one whose files are members."""
    data = {path.parent for path in (SOURCE / "catalogue").glob("*/*.toml")}
    code = {
        path.parent
        for path in SOURCE.rglob("__init__.py")
        if "from braidwright.registry import" in path.read_text(encoding="utf-8")
    }
    return sorted(path.relative_to(SOURCE).as_posix() for path in data | code)


def test_adding_tells_of_every_family() -> None:
    text = (ROOT / "docs" / "adding.md").read_text(encoding="utf-8")
    assert [folder for folder in folders_of_things() if f"{folder}/<" not in text] == []
