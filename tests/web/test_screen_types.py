"""The screen's types are those of the server's own document: `make client` writes them."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from asking import asker

ROOT = Path(__file__).resolve().parents[2]
TOOL = ROOT / "frontend" / "node_modules" / "openapi-typescript" / "bin" / "cli.js"
GENERATED = ROOT / "frontend" / "src" / "lib" / "contract" / "openapi.gen.ts"


@pytest.mark.skipif(not TOOL.exists(), reason="the packages of the screen are not installed; make test installs them")
def test_the_types_of_the_screen_are_up_to_date(tmp_path: Path) -> None:
    document, made = tmp_path / "openapi.json", tmp_path / "made.ts"
    document.write_text(json.dumps(asker().app.openapi(), indent=1, sort_keys=True), encoding="utf-8")
    tool = ROOT / "tools" / "hatch_screen.py"
    words = ["node_modules/openapi-typescript/bin/cli.js", str(document), "-o", str(made)]
    subprocess.run([sys.executable, str(tool), *words], check=True, capture_output=True, timeout=120)
    assert made.read_text(encoding="utf-8") == GENERATED.read_text(encoding="utf-8"), "Run make client."
