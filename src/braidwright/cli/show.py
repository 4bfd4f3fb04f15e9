"""show: answers on the terminal: JSON, tables, lines; remarks to standard error."""

import json
import os
import sys
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rich.console import Console

DIGITS = 4  # of a millimetre, a gram or a degree: nothing here is known better
WIDTH_OF_A_PIPE = 160
USUAL_WIDTH = 80
LEAST_SECONDS_TO_TELL = 1.0

_waiting: list[str] = []


def say(text: str = "") -> None:
    """One line of an answer."""
    sys.stdout.write(printable(text) + "\n")


def say_json(answer: object) -> None:
    """The whole answer as JSON, and nothing else."""
    sys.stdout.write(as_json(answer) + "\n")


def say_json_list(items: Iterable[object]) -> None:
    """The same for a long list, written as it is made."""
    write = sys.stdout.write
    write("[")
    for number, item in enumerate(items):
        write((", " if number else "") + as_json(item))
    write("]\n")


def as_json(answer: object) -> str:
    """JSON with lone halves of surrogate pairs as escapes, so that it is always UTF-8."""
    text = json.dumps(rounded(answer), ensure_ascii=False)
    return text.encode("utf-8", "backslashreplace").decode("utf-8")


def rounded(answer: object) -> object:
    """The same answer with numbers no finer than they are known."""
    if isinstance(answer, float):
        return round(answer, DIGITS)
    if isinstance(answer, dict):
        return {key: rounded(value) for key, value in answer.items()}
    if isinstance(answer, list | tuple):
        return [rounded(value) for value in answer]
    return answer


def say_table(heads: Sequence[str], lines: Iterable[Sequence[object]], title: str | None = None) -> None:
    """A table with a head."""
    from rich.box import SIMPLE_HEAD
    from rich.table import Table

    table = Table(*heads, title=title, title_justify="left", title_style="bold", box=SIMPLE_HEAD, pad_edge=False)
    for line in lines:
        table.add_row(*(printable(str(cell)) for cell in line))
    _console().print(table)


def say_csv(heads: Sequence[str], lines: Iterable[Sequence[object]]) -> None:
    """A table for a spreadsheet (RFC 4180 but for its line ends, which are the machine's own)."""
    from csv import writer

    table = writer(sys.stdout, lineterminator="\n")
    table.writerow(heads)
    for line in lines:
        table.writerow("" if cell is None else rounded(cell) for cell in line)


def say_facts(facts: Iterable[tuple[str, object]]) -> None:
    """Names and values, a line each; what is None is left out."""
    from rich.table import Table

    table = Table.grid(padding=(0, 2))
    for name, value in facts:
        if value is not None:
            table.add_row(name, printable(str(value)))
    _console().print(table)


def tell(sentences: Iterable[str], what: str = "Note") -> None:
    """Remarks that are not the answer. They wait, so that what is refused is refused with one sentence alone."""
    _waiting.extend(f"{what}: {printable(sentence)}\n" for sentence in sentences)


def tell_what_waits() -> None:
    """The remarks made so far: to standard error, a line each."""
    sys.stderr.write("".join(_waiting))
    _waiting.clear()


def forget_what_waits() -> None:
    """No remarks: another command begins."""
    _waiting.clear()


def printable(text: str) -> str:
    """The text on one line, with nothing in it that moves the cursor of a terminal."""
    if text.isprintable():
        return text
    return "".join(sign if sign.isprintable() else ascii(sign)[1:-1] for sign in text)


@contextmanager
def progress(*, is_wanted: bool = True) -> Iterator["Progress"]:
    """Progress on standard error, when a person sees it and it takes more than a second."""
    shown = Progress(is_wanted=is_wanted)
    try:
        yield shown
    finally:
        shown.clear()


class Progress:
    """One line that tells what is being done; call it with a sentence and the share done, 0 to 1."""

    def __init__(self, *, is_wanted: bool = True) -> None:
        from time import monotonic

        self._clock = monotonic
        self._since = monotonic()
        self._seen = is_wanted and sys.stderr.isatty()
        self._written = 0

    def __call__(self, doing: str, share: float) -> None:
        """Tell what is being done, once it has taken a while."""
        if self._clock() - self._since >= LEAST_SECONDS_TO_TELL:
            self.now(doing, share)

    def now(self, doing: str, share: float) -> None:
        """Tell what is being done, at once."""
        if not self._seen:
            return
        line = f"{share:4.0%}  {printable(doing)}"[: _width_of_errors() - 1]  # a line that wraps cannot be taken away
        sys.stderr.write("\r" + line.ljust(self._written))
        sys.stderr.flush()
        self._written = len(line)

    def clear(self) -> None:
        """Take the line away."""
        if self._written:
            sys.stderr.write("\r" + " " * self._written + "\r")
            sys.stderr.flush()
            self._written = 0


def _width_of_errors() -> int:
    """Signs in a line of the terminal that standard error is."""
    try:
        return os.get_terminal_size(sys.stderr.fileno()).columns or USUAL_WIDTH
    except (OSError, ValueError):
        return USUAL_WIDTH


def _console() -> "Console":
    from rich.console import Console

    width = None if sys.stdout.isatty() else WIDTH_OF_A_PIPE
    return Console(file=sys.stdout, markup=False, highlight=False, emoji=False, width=width)
