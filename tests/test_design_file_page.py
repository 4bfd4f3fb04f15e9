"""docs/design-file.md: its example is a design, its own braid and bead are read, and it names every field there is."""

import json
import re
from pathlib import Path

from braidwright.catalogue.shelf import standard
from braidwright.domain.bead_table import bead_from_table
from braidwright.domain.braid_table import braid_from_table
from braidwright.domain.design_reader import DESIGN_FIELDS, SWATCHES_FIELDS
from braidwright.domain.document import read_design, write_design

TEXT = (Path(__file__).resolve().parent.parent / "docs" / "design-file.md").read_text("utf-8")
EXAMPLES = re.findall(r"```json\n(.*?)```", TEXT, re.DOTALL)


def test_the_example_is_a_design_and_comes_back_unchanged() -> None:
    reading = read_design(EXAMPLES[0], standard().braid)
    assert reading.warnings == ()
    assert json.loads(write_design(reading.design)) == json.loads(EXAMPLES[0])


def test_the_braid_and_the_bead_of_ones_own_are_read() -> None:
    braid, _ = braid_from_table(json.loads("{" + EXAMPLES[1] + "}")["braid"], name="x", where="page")
    assert braid.moves == standard().braid("kongoh-8").moves
    assert bead_from_table(json.loads("{" + EXAMPLES[2] + "}")["bead"], name="x", where="page").diameter_mm == 3.0


def test_the_swatches_are_read_and_come_back_unchanged() -> None:
    document = {**json.loads(EXAMPLES[0]), **json.loads("{" + EXAMPLES[3] + "}")}
    reading = read_design(json.dumps(document), standard().braid)
    assert reading.warnings == ()
    assert [swatch.used_mm for swatch in reading.design.swatches] == [138, None]
    assert json.loads(write_design(reading.design)) == document


def test_every_field_is_named() -> None:
    assert [field for field in (*DESIGN_FIELDS, *SWATCHES_FIELDS) if f"`{field}`" not in TEXT] == []
