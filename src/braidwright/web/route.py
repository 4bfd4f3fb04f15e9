"""route: what a file of routes defines."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Final

from fastapi import APIRouter

from braidwright.app.studio import Studio
from braidwright.web.problems import Problem

PROBLEMS: Final[Mapping[int | str, dict[str, Any]]] = {
    "4XX": {"model": Problem, "description": "Why it was refused, in one sentence."},
    "503": {"model": Problem, "description": "The library cannot be read or written now."},
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """Some addresses of the server.

    Attributes:
        add: Adds them to a router, to work with a studio.
    """

    add: Callable[[APIRouter, Studio], None]


def router(route: Route, studio: Studio) -> APIRouter:
    """The router with the addresses of one file, and with what all may answer."""
    made = APIRouter(prefix="/api", responses=dict(PROBLEMS))
    route.add(made, studio)
    return made
