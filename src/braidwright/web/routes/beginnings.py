"""beginnings: the demo designs, to look at and to begin with."""

from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Annotated

from fastapi import APIRouter, Path, Response

from braidwright.app.demos import Demo, demo_file, demos
from braidwright.app.studio import Studio
from braidwright.web.answers import EntryAnswer, answer, entry_answer
from braidwright.web.route import Route


@dataclass(frozen=True, slots=True, kw_only=True)
class DemosAnswer:
    """The demo designs."""

    demos: tuple[Demo, ...]


def add(router: APIRouter, studio: Studio) -> None:
    """The addresses."""

    @router.get("/demos", response_model=DemosAnswer)
    def listed() -> Response:
        """The demo designs that come with the program."""
        return answer(DemosAnswer(demos=demos(studio.catalogue)))

    @router.post("/demos/{name}", response_model=EntryAnswer, status_code=201)
    def begin(name: Annotated[str, Path(max_length=100)]) -> Response:
        """A demo design as a new design of the library."""
        taken = studio.open_library().take_in(demo_file(name), datetime.now(UTC), "begun from a demo")
        return answer(entry_answer(taken), 201)


ROUTE = Route(add=add)
