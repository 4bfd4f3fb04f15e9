"""problems: errors as one sentence: which status, in which shape, and without a path of this machine."""

import json
from collections.abc import Callable
from dataclasses import dataclass

from fastapi import Request, Response
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException

from braidwright.domain.errors import (
    BraidError,
    BraidwrightError,
    CatalogueError,
    DesignError,
    DocumentError,
    LibraryError,
    RequestError,
    StaleError,
)

OUR_FAULT = "This is a fault of the program, not yours; please report it, with what you did."
TOO_DEEP = "This is larger or deeper than this machine can hold; give a smaller design."

# The first that fits counts. A library that cannot be read is no fault of the request.
KINDS: tuple[tuple[type[BraidwrightError], int, str], ...] = (
    (StaleError, 409, "stale"),
    (LibraryError, 503, "library"),
    (DocumentError, 422, "document"),
    (DesignError, 422, "design"),
    (BraidError, 422, "braid"),
    (CatalogueError, 422, "catalogue"),
    (RequestError, 422, "request"),
)
OF_HTTP = {
    404: "There is nothing at this address; check it.",
    405: "This address cannot be asked in that way; check the method.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """Why a request was not met.

    Attributes:
        kind: A word for programs: "stale", "library", "document", "design", "braid", "catalogue", "request", "fault".
        sentence: One sentence for the maker: what, where, what to do.
        newest: Of a stale change: the name of the state that is the newest now.
    """

    kind: str
    sentence: str
    newest: str | None = None


class TooLargeError(RequestError):
    """More bytes than this address takes."""


def problem_of(error: BraidwrightError, say: Callable[[str], str]) -> Response:
    """The answer to an error of our own tree; `say` makes its sentence fit to be told."""
    status, kind = next(((code, word) for type_, code, word in KINDS if isinstance(error, type_)), (422, "request"))
    newest = error.newest if isinstance(error, StaleError) else None
    status = 413 if isinstance(error, TooLargeError) else status
    return answered(Problem(kind=kind, sentence=say(str(error)), newest=newest), status)


def answered(problem: Problem, status: int) -> Response:
    """A problem as an answer."""
    content = {"kind": problem.kind, "sentence": problem.sentence, "newest": problem.newest}
    return Response(json.dumps(content), status_code=status, media_type="application/json")


def refused(status: int, sentence: str) -> Response:
    """A request that was refused before any use case was called."""
    return answered(Problem(kind="request", sentence=sentence), status)


async def of_validation(request: Request, error: Exception) -> Response:
    """A request of the wrong shape. What was sent is not sent back."""
    del request
    found = error.errors() if isinstance(error, RequestValidationError) else []
    if not found or found[0].get("type") == "json_invalid":
        return refused(422, "The request is no JSON; check what was sent.")
    where = ", ".join(str(part)[:60] for part in found[0]["loc"] if part != "body") or "body"
    said = str(found[0]["msg"]).rstrip(".")
    return refused(422, f"Request, {where}: {said[:1].lower()}{said[1:]}; correct it and ask again.")


async def of_http(request: Request, error: Exception) -> Response:
    """What the framework refuses."""
    del request
    status = error.status_code if isinstance(error, HTTPException) else 400
    answer = refused(status, OF_HTTP.get(status, "The request cannot be read; check what was sent."))
    if isinstance(error, HTTPException) and error.headers:
        answer.headers.update(error.headers)
    return answer
