"""page: docs/commands.md, written from the help of the commands: `python -m braidwright.cli.page docs/commands.md`."""

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from typer.main import get_command

from braidwright.cli.commands import COMMANDS
from braidwright.cli.main import NAME, PANELS, WHAT_IT_IS, build_app

OPENING = """# Commands

<!-- Written by `python -m braidwright.cli.page docs/commands.md` from the help: change it there. -->
"""
CLOSING = """## What every command keeps to

- What it answers goes to standard output, remarks and faults to standard error. With `--json` the answer is one JSON
  text and nothing else. Figures are rounded to four places.
- It ends with 0 when it did what was asked, with 2 and one sentence when it could not (what is wrong, where, what to
  do), and with 130 when it was stopped. Nothing is left half-written: files are written beside and then renamed.
- While a braid is tightened (`--solve`), Ctrl-C stops that and keeps the estimate; a second Ctrl-C stops the command.
  What was solved is kept in your cache folder, 64 MB at most, and may be thrown away at any time; the variable
  `BRAIDWRIGHT_CACHE` in the environment names another folder, or is `off`.
- Lengths are written with their unit: `165mm`, `16.5cm`, `'6 1/2 in'`; a bare number is millimetres.
"""


def commands_page() -> str:
    """The whole page."""
    group: Any = get_command(build_app())
    parts = [OPENING, *(f"{paragraph}\n" for paragraph in WHAT_IT_IS.split("\n\n")), _options(group), CLOSING]
    for panel in PANELS:
        parts.append(f"## {panel}\n")
        for name, command in COMMANDS.items():
            if command.panel == panel:
                parts += [f"### {name}\n", _usage(name, group.commands[name])]
                parts += [f"{paragraph}\n" for paragraph in command.paragraphs]
                parts += [_options(group.commands[name]), _examples(command.examples)]
    return "\n".join(parts)


def _usage(name: str, command: Any) -> str:  # noqa: ANN401  (typer does not publish the type of its commands)
    words = [NAME, name]
    for parameter in command.params:
        if parameter.param_type_name == "argument":
            words.append(parameter.metavar.strip("[]") if parameter.required else f"[{parameter.metavar.strip('[]')}]")
        elif parameter.required:
            words.append(f"{parameter.opts[-1]} {parameter.metavar}")
    return f"`{' '.join(words)} [OPTIONS]`\n"


def _options(command: Any) -> str:  # noqa: ANN401
    lines = [f"| {what} | {help_text} |" for what, help_text in _rows(command)]
    return "\n".join(["| write | for |", "|---|---|", *lines, ""])


def _rows(command: Any) -> Iterator[tuple[str, str]]:  # noqa: ANN401
    for parameter in command.params:
        is_argument = parameter.param_type_name == "argument"
        words = [parameter.metavar.strip("[]")] if is_argument else [*parameter.opts]
        if parameter.metavar and not is_argument:
            words[-1] += f" {parameter.metavar}"
        usual = parameter.default
        told = f" Usually `{usual}`." if isinstance(usual, str | int) and not isinstance(usual, bool) else ""
        yield ", ".join(f"`{_in_a_cell(word)}`" for word in words), _in_a_cell(parameter.help or "") + told


def _in_a_cell(text: str) -> str:
    return " ".join(text.split()).replace("|", "\\|")


def _examples(lines: tuple[str, ...]) -> str:
    return "\n".join(["```sh", *lines, "```", ""])


def main() -> None:
    """Write the page where the argument says."""
    Path(sys.argv[1]).write_text(commands_page(), encoding="utf-8")


if __name__ == "__main__":
    main()
