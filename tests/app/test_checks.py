"""What a check tells: each trouble is told once, and a design without it is left in peace."""

from pathlib import Path
from typing import Any

import pytest

from braidwright.app.checks import Report, check
from braidwright.app.designs import open_catalogue, open_design
from command_line import DESIGN, write_design

CALM: dict[str, Any] = {
    "tray": {
        "a": {"bead": "round-8/0", "colour": "#1b3e5a", "name": "Dusk"},
        "b": {"bead": "round-8/0", "colour": "#f0e6c8", "name": "Pearl"},
    },
    "rows": ["aaaa", "abaa"] * 10,
    "motifs": [],
    "swatch": {"rows": 20, "length_mm": 46, "diameter_mm": 7},
}
# Two plaits of three side by side: in each an outer cord passes over the middle one, from the right, from the left.
TWO_PLAITS = {
    "slots": 32,
    "start": [1, 5, 9, 17, 21, 25],
    "moves": [
        *([9, 3], [1, 4], [5, 9, "re-space"], [4, 5, "re-space"], [3, 1, "re-space"]),
        *([25, 19], [17, 20], [21, 25, "re-space"], [20, 21, "re-space"], [19, 17, "re-space"]),
    ],
}


def report(folder: Path, **changes: object) -> Report:
    return check(open_design(write_design(folder, **{**CALM, **changes}), open_catalogue()))


def about(remarks: Any) -> list[str]:
    return [remark.about for remark in remarks]


def test_a_calm_design_gives_no_warning(tmp_path: Path) -> None:
    found = report(tmp_path)
    assert found.can_be_braided
    assert found.warnings == ()
    assert found.pieces.is_one
    assert found.beads == 80


def tray(**colours: str) -> dict[str, Any]:
    return {key: {"bead": "round-8/0", "colour": colour, "name": key * 3} for key, colour in colours.items()}


@pytest.mark.parametrize(
    ("changes", "kind", "words"),
    [
        ({"lid": 1}, "file", "'lid'"),
        ({"tray": tray(a="#1b3e5a", b="#1f4460")}, "colour", "aaa ('a') and bbb ('b')"),
        ({"tray": tray(a="#b8533a", b="#7d7a2e")}, "colour", "deuteranopia"),
        ({"cords": {"kind": "tex-210", "colours": ["#101010", "#111111"] * 4}}, "colour", "slot 32"),
        ({"tray": {**CALM["tray"], "c": {"bead": "round-8/0", "colour": "#ff0000"}}}, "tray", "'c'"),
        ({"cords": {"kind": "tex-45", "colours": ["#101010"]}}, "cord", "thin"),
        ({"cords": {"kind": "satin-2", "colours": ["#101010"]}}, "cord", "too thick to thread"),
        ({"braid": TWO_PLAITS, "hand": "S", "rows": ["aaba"] * 9}, "braid", "1, 5, 9; 17, 21, 25"),
        ({"swatch": {"rows": 20, "length_mm": 1.8}}, "size", "inches"),
    ],
)
def test_a_trouble_is_told_once(changes: dict[str, Any], kind: str, words: str, tmp_path: Path) -> None:
    found = report(tmp_path, **changes)
    assert found.can_be_braided
    told = [remark for remark in found.warnings if words in remark.sentence]
    assert about(told) == [kind], found.warnings


def test_beads_that_press_on_the_skin_are_told(tmp_path: Path) -> None:
    """Magatamas at every stitch stand out all round, so some lie on the back whichever side is the front."""
    spiky = {"a": {"bead": "magatama-4", "colour": "#1b3e5a", "name": "Scale"}}
    found = report(tmp_path, tray=spiky, rows=["aaaa"] * 20, front={"deg": 0})
    assert "comfort" in about(found.warnings)
    smooth = report(tmp_path, rows=["aaaa"] * 20, front={"deg": 0})
    assert "comfort" not in about(smooth.warnings)


def test_names_nobody_knows_are_faults_and_all_are_told(tmp_path: Path) -> None:
    found = report(
        tmp_path,
        tray={"a": {"bead": "round-8", "colour": "#1b3e5a"}, "b": {"bead": "gravel", "colour": "#f0e6c8"}},
        cords={"kind": "tex-211", "colours": ["#101010"]},
        findings={"end_cap": "cap-99"},
    )
    assert not found.can_be_braided
    assert about(found.faults) == ["cord", "bead", "bead", "findings"]
    assert "round-8/0" in found.faults[1].sentence  # a near name is told


def test_colours_of_different_beads_are_not_compared(tmp_path: Path) -> None:
    """A seed bead and a teardrop are told apart by their shape; a matte bead of one colour from a shiny one hardly."""
    same = {"colour": "#1b3e5a"}
    for other, told in (({"bead": "teardrop-3.4"}, False), ({"bead": "round-8/0", "finish": "matte"}, True)):
        both = {"a": {"bead": "round-8/0", **same}, "b": {**other, **same}}
        assert ("colour" in about(report(tmp_path, tray=both).warnings)) is told
    assert DESIGN["tray"]["a"]["colour"] != DESIGN["tray"]["b"]["colour"]
