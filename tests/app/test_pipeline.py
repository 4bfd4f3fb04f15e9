"""The story from a design to its drawings, told once for every demo design."""

from pathlib import Path

import pytest

from braidwright.app.pipeline import draw, work_out
from braidwright.catalogue.shelf import standard
from braidwright.domain.document import read_design
from braidwright.domain.strings import rows_of
from braidwright.drawings.sheet import Look
from braidwright.drawings.sheets import SHEETS

DESIGNS = sorted((Path(__file__).resolve().parents[2] / "designs").glob("*.json"))


@pytest.mark.parametrize("file", DESIGNS, ids=lambda file: file.stem)
def test_the_whole_story(file: Path) -> None:
    design = read_design(file.read_text("utf-8"), standard().braid).design
    worked = work_out(design, standard())
    assert rows_of(design.braid, worked.strings, len(design.rows)) == design.rows
    assert sum(bead.count for bead in worked.supplies.beads) == sum(
        len(string.beads(design.tray)) for string in worked.strings
    )
    assert worked.size.length_mm == pytest.approx(len(design.rows) * (worked.prediction.rise_mm or 0.0))
    assert sum(len(column.stitches) for column in worked.columns) == design.width
    for sheet in SHEETS:
        assert draw(worked, sheet, Look()) or sheet in {"legend", "each-string", "strings", "rope-worn"}, sheet
