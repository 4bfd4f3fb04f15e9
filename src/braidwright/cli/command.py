"""Command: one word of the command line. Its name is the name of its file."""

from collections.abc import Callable
from dataclasses import dataclass
from inspect import cleandoc
from typing import Literal

Panel = Literal["Begin and change", "Look", "Make and share"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Command:
    """One command.

    Attributes:
        run: What it does; its docstring is its help and its parameters are its options.
        panel: Under which heading the help lists it.
        examples: Lines a maker can type, told at the end of its help; the tests type them too.
    """

    run: Callable[..., None]
    panel: Panel
    examples: tuple[str, ...]

    @property
    def paragraphs(self) -> tuple[str, ...]:
        """Its help: what it does in a sentence, then what a maker should know."""
        text = cleandoc(self.run.__doc__ or "")
        return tuple(" ".join(paragraph.split()) for paragraph in text.split("\n\n"))
