"""screen: the built screen, read once into memory: a request can name only what was built, never a path."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from fastapi import FastAPI, Response

BUILT = Path(__file__).parent / "screen"
TYPES = {
    ".css": "text/css; charset=utf-8",
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".svg": "image/svg+xml",
    ".woff2": "font/woff2",
}
NOT_BUILT = (
    "<!doctype html><html lang=en><title>Braidwright</title><p>The screen is not built yet: "
    "type <code>make run</code> in the folder of Braidwright, then open this page again."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """One file of the screen."""

    content: bytes
    type: str


def built_files(folder: Path = BUILT) -> dict[str, Built]:
    """Every file of the built screen, by its address."""
    files = {
        f"/{path.relative_to(folder).as_posix()}": Built(content=path.read_bytes(), type=TYPES[path.suffix])
        for path in sorted(folder.rglob("*"))
        if path.suffix in TYPES
    }
    page = files.pop("/index.html", Built(content=NOT_BUILT.encode(), type=TYPES[".html"]))
    return {**files, "/": page}


def add_screen(app: FastAPI, files: dict[str, Built]) -> None:
    """Give each file its address."""
    for address, file in files.items():
        app.add_api_route(address, _giver(file), methods=["GET", "HEAD"], include_in_schema=False)


def _giver(file: Built) -> Callable[[], Response]:
    def give() -> Response:
        return Response(file.content, media_type=file.type)

    return give
