"""What the tests of the server share: a server that is asked without a socket."""

import asyncio
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import httpx
from fastapi import FastAPI

from braidwright.app.studio import Studio
from braidwright.web.server import create_app

PORT = 8123
HERE = f"127.0.0.1:{PORT}"
DESIGNS = Path(__file__).resolve().parent.parent / "designs"


@dataclass(frozen=True, slots=True, kw_only=True)
class Asker:
    """Asks an app as a browser on this machine would.

    Attributes:
        app: The app.
        client: Where requests come from.
    """

    app: FastAPI
    client: str = "127.0.0.1"

    def ask(self, method: str, path: str, **what: Any) -> httpx.Response:
        """One request and its answer; what the app raises is raised."""

        async def asked() -> httpx.Response:
            transport = httpx.ASGITransport(self.app, client=(self.client, 40000))
            async with httpx.AsyncClient(transport=transport, base_url=f"http://{HERE}") as client:
                return await client.request(method, path, **what)

        return asyncio.run(asked())

    def get(self, path: str, **what: Any) -> Any:
        """What a good GET answers."""
        return good(self.ask("GET", path, **what))

    def post(self, path: str, wish: object = None) -> Any:
        """What a good POST answers."""
        return good(self.ask("POST", path, json={} if wish is None else wish))

    def refused(self, path: str, wish: object, status: int = 422) -> str:
        """The sentence with which a POST is refused."""
        return sentence_of(self.ask("POST", path, json=wish), status)


def asker(studio: Studio | None = None) -> Asker:
    """A server to ask."""
    return Asker(app=create_app(Studio() if studio is None else studio, port=PORT))


def good(answer: httpx.Response) -> Any:
    """The content of an answer that is one."""
    assert answer.status_code in (200, 201, 202), answer.text
    return answer.json()


def sentence_of(answer: httpx.Response, status: int = 422) -> str:
    """The sentence of a refusal: one shape, one line, an end."""
    assert answer.status_code == status, answer.text
    assert answer.headers["content-type"] == "application/json"
    content = answer.json()
    assert set(content) == {"kind", "sentence", "newest"}
    sentence = str(content["sentence"])
    assert sentence.endswith((".", "?"))
    assert "\n" not in sentence
    return sentence


def demo(name: str = "hill-gorse") -> str:
    """The text of a demo design."""
    return (DESIGNS / f"{name}.json").read_text(encoding="utf-8")
