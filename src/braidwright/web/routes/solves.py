"""solves: the solved shape of a design, worked out in the background: asked for, asked after, stopped."""

from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Path, Response

from braidwright.app.seeing import opened_text
from braidwright.app.solving import Progress, Stage
from braidwright.app.studio import Studio
from braidwright.web.answers import DesignAnswer, answer, design_answer
from braidwright.web.route import Route
from braidwright.web.wishes import DesignWish

Solve = Annotated[int, Path(ge=1, le=2**53)]


@dataclass(frozen=True, slots=True, kw_only=True)
class SolveAnswer:
    """How far a solve is; see `app.solving.Progress`."""

    solve: int
    stage: Stage
    share: float
    sentences: tuple[str, ...]
    design: DesignAnswer | None


def add(router: APIRouter, studio: Studio) -> None:
    """The addresses."""

    @router.post("/solves", response_model=SolveAnswer, status_code=202)
    def ask(wish: DesignWish) -> Response:
        """Have the shape of a design solved."""
        return _answer(studio.solves.ask(opened_text(wish.design, studio.catalogue)), 202)

    @router.get("/solves/{solve}", response_model=SolveAnswer)
    def look(solve: Solve) -> Response:
        """How far it is, and the design once it is done."""
        return _answer(studio.solves.look(solve))

    @router.delete("/solves/{solve}", response_model=SolveAnswer)
    def stop(solve: Solve) -> Response:
        """Stop it."""
        return _answer(studio.solves.stop(solve))


def _answer(told: Progress, status: int = 200) -> Response:
    found = None if told.result is None else design_answer(told.result)
    return answer(
        SolveAnswer(solve=told.solve, stage=told.stage, share=told.share, sentences=told.sentences, design=found),
        status,
    )


ROUTE = Route(add=add)
