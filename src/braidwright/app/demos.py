"""Demos: designs to begin with, that come with the program."""

from dataclasses import dataclass

from braidwright.app.designs import decoded
from braidwright.catalogue.demos import demo_files
from braidwright.catalogue.shelf import Catalogue
from braidwright.domain.document import read_design
from braidwright.domain.errors import RequestError


@dataclass(frozen=True, slots=True, kw_only=True)
class Demo:
    """One demo design.

    Attributes:
        name: Short name.
        title: Its title.
        story: Its story, or "".
    """

    name: str
    title: str
    story: str


def demos(catalogue: Catalogue) -> tuple[Demo, ...]:
    """All demo designs."""
    designs = {
        name: read_design(decoded(content, "The demo"), catalogue.braid).design
        for name, content in demo_files().items()
    }
    return tuple(Demo(name=name, title=each.title, story=each.story or "") for name, each in designs.items())


def demo_file(name: str) -> bytes:
    """The design file of a demo.

    Raises:
        RequestError: There is none of this name.
    """
    files = demo_files()
    if name not in files:
        raise RequestError(f"There is no demo {name!r}; use one of {', '.join(files)}.")
    return files[name]
