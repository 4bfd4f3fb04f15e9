"""What the screen's own tests are held against is what the craft says today."""

import importlib.util
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def test_the_stitches_of_the_screens_tests_are_up_to_date() -> None:
    spec = importlib.util.spec_from_file_location("screen_fixture", ROOT / "tools" / "screen_fixture.py")
    assert spec is not None
    assert spec.loader is not None
    tool = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(tool)
    kept = (ROOT / "frontend" / "tests" / "fixtures" / "stitches.json").read_text(encoding="utf-8")
    assert tool.written() == kept, "Run python tools/screen_fixture.py frontend/tests/fixtures/stitches.json."
