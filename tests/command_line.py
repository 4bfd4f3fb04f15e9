"""How the tests of the command line speak to it: in this process, as `main` does."""

import io
import json
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from braidwright.cli.main import run

DESIGN: dict[str, Any] = {
    "braidwright": 1,
    "title": "Hedge",
    "braid": "kongoh-8",
    "hand": "S",
    "cords": {"kind": "tex-210", "colours": ["#2f2a26"], "price": 0.3},
    "tray": {
        "a": {"bead": "round-8/0", "colour": "#1b6e5a", "name": "Moss", "price": 0.2},
        "b": {"bead": "magatama-4", "colour": "#f0e6c8", "name": "Pearl"},
        "k": {"stack": ["a", "b"], "name": "Knot"},
    },
    "rows": ["aaaa", "ab.a", "akaa", "aaaa"] * 6,
    "front": {"deg": 30},
    "motifs": [{"name": "dot", "lines": ["b"], "anchors": [[2, 2]]}],
    "findings": {"clasp": "toggle", "clasp_mm": 20, "end_cap": "cap-7", "price": 2},
    "swatch": {"rows": 20, "length_mm": 46, "diameter_mm": 8, "cord_used_mm": 70},
}


READERS = ("check", "strings", "steps", "size", "supplies")
WRITERS = ("mirror", "resize", "publish")


def typed(command: str, design: str, output: str) -> tuple[str, ...]:
    """A command line for a design."""
    extra = {
        "mirror": ("-o", output),
        "resize": ("-o", output, "--rows", "30"),
        "publish": ("-o", output),
        "steps": ("--to", "9"),
    }
    return (command, design, *extra.get(command, ()))


@dataclass(frozen=True, slots=True, kw_only=True)
class Spoken:
    """What a command answered.

    Attributes:
        code: The exit code.
        out: What came to standard output.
        err: What came to standard error.
    """

    code: int
    out: str
    err: str

    @property
    def answer(self) -> Any:
        """The answer, which must be JSON and nothing else."""
        return json.loads(self.out)

    def is_one_sentence(self) -> bool:
        """Whether it was refused as the house refuses: 2, one line, nothing of the program's insides."""
        inside = ("Traceback", "fault of the program", "Error:", "  File ")
        return (
            self.code == 2
            and self.err.endswith("\n")
            and self.err.count("\n") == 1
            and len(self.err) > 20
            and not any(word in self.err for word in inside)
        )


def speak(*arguments: str, stdin: bytes = b"") -> Spoken:
    """Type a command."""
    out, err, fed = io.TextIOWrapper(io.BytesIO()), io.TextIOWrapper(io.BytesIO()), io.TextIOWrapper(io.BytesIO(stdin))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(sys, "stdout", out)
        patch.setattr(sys, "stderr", err)
        patch.setattr(sys, "stdin", fed)
        code = run(arguments)
    return Spoken(code=code, out=_written(out), err=_written(err))


def _written(stream: io.TextIOWrapper) -> str:
    stream.flush()
    stream.seek(0)
    buffer = stream.detach()
    assert isinstance(buffer, io.BytesIO)
    return buffer.getvalue().decode("utf-8")


def write_design(folder: Path, **changes: object) -> str:
    """A design file with some fields changed, and its name."""
    path = folder / "hedge.json"
    path.write_text(json.dumps({**DESIGN, **changes}), encoding="utf-8")
    return str(path)
