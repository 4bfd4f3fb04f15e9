"""guard: what every request passes before any route: from this machine, to us, from our own page, not too large.

A page of another site can reach a server on this machine: by a form, by a script, or under a name of its own that is
made to point here (DNS rebinding). So the Host must be ours, to the letter and the port, and so must the Origin.
"""

import logging
from collections.abc import Iterable
from ipaddress import ip_address

from fastapi import Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from braidwright.web.problems import OUR_FAULT, TOO_DEEP, Problem, answered, refused

MOST_BYTES = 16_000_000
SAFE_METHODS = frozenset({"GET", "HEAD"})
TYPES = frozenset({"application/json", "application/octet-stream"})  # none of them can be sent by a form
STREAMED = frozenset({"/api/library/file"})  # counts what it is sent by itself
HEADERS = {
    "content-security-policy": (
        "default-src 'self'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; "
        "object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
    ),
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), geolocation=(), microphone=()",
    "cache-control": "no-store",
}
RAW_HEADERS = [(name.encode(), value.encode()) for name, value in HEADERS.items()]

log = logging.getLogger(__name__)


class Guard:
    """Stands before the routes.

    Args:
        app: What comes after it.
        port: The port we listen on, which Host and Origin must name.
    """

    def __init__(self, app: ASGIApp, port: int) -> None:
        self._app = app
        names = ("127.0.0.1", "localhost", "[::1]")
        self._hosts = {f"{name}:{port}" for name in names} | (set(names) if port == 80 else set())

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """One request."""
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
            return
        if scope["type"] != "http":
            await send({"type": "websocket.close", "code": 1008})
            return
        guarded = _Answer(send)
        refusal = self._why_not(scope)
        if refusal is not None:
            await refusal(scope, receive, guarded)
            return
        if scope["path"] not in STREAMED:
            body = await _whole_body(receive)
            if body is None:
                await refused(413, _too_large(MOST_BYTES))(scope, receive, guarded)
                return
            receive = _Again(body, receive)
        await self._answer(scope, receive, guarded)

    async def _answer(self, scope: Scope, receive: Receive, send: "_Answer") -> None:
        try:
            await self._app(scope, receive, send)
        except Exception as error:
            if send.has_begun:
                raise
            if isinstance(error, RecursionError | MemoryError):
                await refused(422, TOO_DEEP)(scope, receive, send)
                return
            log.exception("A request failed.")
            await answered(Problem(kind="fault", sentence=OUR_FAULT), 500)(scope, receive, send)

    def _why_not(self, scope: Scope) -> Response | None:
        """The refusal of a request that is not for us, or None."""
        client, headers = scope.get("client"), scope["headers"]
        hosts, origins = _values(headers, b"host"), _values(headers, b"origin")
        if client is None or not _is_here(client[0]):
            return refused(403, "The studio answers this machine only.")
        if len(hosts) != 1 or hosts[0].lower() not in self._hosts:
            return refused(403, "The studio was asked under another name; open it by the address it showed.")
        if origins and origins != [f"http://{hosts[0].lower()}"]:
            return refused(403, "The studio does not answer pages of other sites; open it by the address it showed.")
        if any(site not in ("same-origin", "none") for site in _values(headers, b"sec-fetch-site")):
            return refused(403, "The studio does not answer pages of other sites; open it by the address it showed.")
        if scope["method"] not in SAFE_METHODS and not _has_our_type(headers):
            return refused(415, "What was sent is neither JSON nor a file; send it as application/json.")
        return None


class _Answer:
    """Sends on, with our headers on every answer."""

    def __init__(self, send: Send) -> None:
        self._send = send
        self.has_begun = False

    async def __call__(self, message: Message) -> None:
        if message["type"] == "http.response.start":
            self.has_begun = True
            kept = [pair for pair in message.get("headers", []) if pair[0].decode("latin-1").lower() not in HEADERS]
            message = {**message, "headers": [*kept, *RAW_HEADERS]}
        await self._send(message)


class _Again:
    """Gives a body that was read already, then whatever else comes."""

    def __init__(self, body: bytes, receive: Receive) -> None:
        self._body: bytes | None = body
        self._receive = receive

    async def __call__(self) -> Message:
        if self._body is None:
            return await self._receive()
        body, self._body = self._body, None
        return {"type": "http.request", "body": body, "more_body": False}


async def _whole_body(receive: Receive) -> bytes | None:
    """The body, or None as soon as it is too large; what the request says of its length is not believed."""
    parts, size = [], 0
    while True:
        message = await receive()
        if message["type"] != "http.request":
            return b""
        parts.append(message.get("body", b""))
        size += len(parts[-1])
        if size > MOST_BYTES:
            return None
        if not message.get("more_body", False):
            return b"".join(parts)


def _too_large(most: int) -> str:
    return f"More than {most // 1_000_000} MB were sent, which is more than is taken here; send less."


def _values(headers: Iterable[tuple[bytes, bytes]], name: bytes) -> list[str]:
    return [value.decode("latin-1") for key, value in headers if key.lower() == name]


def _has_our_type(headers: Iterable[tuple[bytes, bytes]]) -> bool:
    """Whether a request without a body, or with one that no form can send."""
    said = _values(headers, b"content-type")
    if not said:
        lengths = _values(headers, b"content-length")
        return not _values(headers, b"transfer-encoding") and all(length == "0" for length in lengths)
    return len(said) == 1 and said[0].partition(";")[0].strip().lower() in TYPES


def _is_here(host: str) -> bool:
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return False
