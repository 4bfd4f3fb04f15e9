"""Designs on disk for the command line."""

from pathlib import Path

import pytest

from command_line import write_design


@pytest.fixture
def design(tmp_path: Path) -> str:
    return write_design(tmp_path)
