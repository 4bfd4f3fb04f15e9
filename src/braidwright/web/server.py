"""server: the web door, put together: the guard, the routes, and the screen, and errors as sentences."""

from contextlib import asynccontextmanager
from typing import TYPE_CHECKING

from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException

from braidwright import __version__
from braidwright.app.studio import Studio
from braidwright.domain.errors import BraidwrightError
from braidwright.web.guard import Guard
from braidwright.web.problems import of_http, of_validation, problem_of
from braidwright.web.route import router
from braidwright.web.routes import ROUTES
from braidwright.web.screen import add_screen, built_files

if TYPE_CHECKING:
    from collections.abc import AsyncIterator


def create_app(studio: Studio, *, port: int) -> FastAPI:
    """The server for a studio.

    Args:
        studio: What the routes work with.
        port: The port it will listen on, on the loopback address only: Host and Origin must name it.
    """

    @asynccontextmanager
    async def lifespan(app: FastAPI) -> "AsyncIterator[None]":
        del app
        yield
        studio.packs.close()
        studio.solves.close()

    async def of_ours(request: Request, error: Exception) -> Response:
        del request
        if not isinstance(error, BraidwrightError):
            raise error
        return problem_of(error, studio.said)

    # No pages of documentation: they fetch scripts from elsewhere. The OpenAPI document is asked of the app.
    app = FastAPI(
        title="Braidwright", version=__version__, lifespan=lifespan, docs_url=None, redoc_url=None, openapi_url=None,
        redirect_slashes=False,
    )  # fmt: skip
    for route in ROUTES.values():
        app.include_router(router(route, studio))
    add_screen(app, built_files())
    app.add_exception_handler(BraidwrightError, of_ours)
    app.add_exception_handler(RequestValidationError, of_validation)
    app.add_exception_handler(HTTPException, of_http)
    app.add_middleware(Guard, port=port)
    return app
