"""The tools begin: what they are made of has not moved away from under them."""

import subprocess
import sys
from pathlib import Path

import pytest

TOOLS = sorted((Path(__file__).resolve().parents[1] / "tools").glob("bench*.py"))


@pytest.mark.parametrize("tool", TOOLS, ids=lambda path: path.name)
def test_a_bench_begins(tool: Path) -> None:
    done = subprocess.run([sys.executable, str(tool), "--help"], capture_output=True, timeout=120, check=False)
    assert done.returncode == 0, done.stderr.decode()
    assert b"usage" in done.stdout
