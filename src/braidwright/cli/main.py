"""main: the app of all commands, and the one place where errors become a line and an exit code."""

import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from typing import Annotated

import typer

from braidwright import __version__
from braidwright.cli.command import Panel
from braidwright.cli.commands import COMMANDS
from braidwright.cli.show import forget_what_waits, printable, say, tell_what_waits
from braidwright.cli.types import CatalogueFiles
from braidwright.domain.errors import BraidwrightError

WELL, REFUSED, STOPPED, OUR_FAULT = 0, 2, 130, 70
PANELS: tuple[Panel, ...] = ("Begin and change", "Look", "Make and share")
NAME = "braidwright"
ASK_FOR_TRACES = "BRAIDWRIGHT_TRACE"
WHAT_IT_IS = (
    "Braidwright takes a piece of beaded kumihimo from a design to beads on cords.\n\n"
    "A design file says which braid, which cords, which beads, and what falls at every stitch. From it come the string "
    "of beads for every cord, the size, the shopping list and the printed pattern. Start one with `new`, look at it "
    "with `check` and `size`, and make the pattern pack with `publish`. Every command tells more: `braidwright new "
    "--help`."
)


def build_app() -> typer.Typer:
    """The app with every command of the family."""
    app = typer.Typer(add_completion=False, pretty_exceptions_enable=False, rich_markup_mode="rich")
    app.callback(invoke_without_command=True, help=WHAT_IT_IS)(start)
    for panel in PANELS:
        for name, command in COMMANDS.items():
            if command.panel == panel:
                epilog = "\n\n".join(("[bold]Examples[/bold]", *(f"  {line}" for line in command.examples)))
                app.command(name, help="\n\n".join(command.paragraphs), rich_help_panel=panel, epilog=epilog)(
                    command.run
                )
    return app


def start(
    context: typer.Context,
    catalogue: CatalogueFiles = None,
    version: Annotated[bool, typer.Option("--version", metavar="", help="Tell the version and stop.")] = False,
) -> None:
    """What comes before a command."""
    del catalogue  # kept in the context for the command that follows
    if version:
        say(f"{NAME} {__version__}")
        raise typer.Exit
    if context.invoked_subcommand is None:
        say(context.get_help())


def run(arguments: Sequence[str]) -> int:
    """Do what the arguments say.

    Returns:
        0 when it was done, 2 when it was refused with one sentence on standard error, 130 when it was stopped.
    """
    try:
        _speak_utf8()
        forget_what_waits()
        code = build_app()(args=list(arguments), prog_name=NAME, standalone_mode=False)
        sys.stdout.flush()
        tell_what_waits()
    except (KeyboardInterrupt, typer.Abort):
        return STOPPED
    except (BrokenPipeError, SystemExit):  # whoever read the answer has seen enough
        _leave_the_pipe()
        return WELL
    except Exception as error:
        if os.environ.get(ASK_FOR_TRACES):
            raise
        return _told(error, arguments)
    return code if isinstance(code, int) else WELL


def _told(error: Exception, arguments: Sequence[str]) -> int:
    """Say in one sentence what went wrong.

    Returns:
        2, or 70 when it is the program that is wrong.
    """
    match error:
        case BraidwrightError():
            sentence = str(error)
        case typer.TyperException():
            sentence = _usage(error, arguments)
        case OSError():
            _leave_the_pipe()
            reason = error.strerror or "no reason given"
            sentence = f"The answer cannot be written ({reason}); make room, or write elsewhere."
        case RecursionError() | MemoryError():
            sentence = "This is larger or deeper than this machine can hold; give a smaller design."
        case _:
            _write_line(
                f"This is a fault of the program, not yours ({type(error).__name__}: {error}); "
                f"please report it, with the command and the file."
            )
            return OUR_FAULT
    _write_line(sentence)
    return REFUSED


def _write_line(sentence: str) -> None:
    with suppress(OSError):  # when even standard error is closed, the exit code must do
        sys.stderr.write(printable(" ".join(sentence.split())) + "\n")


def _usage(error: typer.TyperException, arguments: Sequence[str]) -> str:
    """What was wrong with the words typed, in one sentence."""
    said = error.format_message().rstrip(". ")
    said = said.replace(". Did you mean", "; did you mean").replace(". Possibilities:", "; there are")
    command = next((word for word in arguments if word in COMMANDS), "")
    return f"{said}{'' if said.endswith('?') else ';'} see {' '.join((NAME, command)).strip()} --help."


def _speak_utf8() -> None:
    """Answers are UTF-8 wherever they go, so that a file made from one can be read anywhere."""
    for name in ("stdout", "stderr"):
        if getattr(sys, name) is None:  # the stream was closed before we began: what is written goes nowhere
            setattr(sys, name, open(os.devnull, "w", encoding="utf-8"))  # noqa: SIM115
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(encoding="utf-8", errors="backslashreplace")


def _leave_the_pipe() -> None:
    """Nothing more can be written: keep Python from trying once more when it ends, which would change the exit code."""
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def main() -> None:
    """The command `braidwright`."""
    sys.exit(run(sys.argv[1:]))


if __name__ == "__main__":
    main()
