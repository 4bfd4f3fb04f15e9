"""Only this machine, only under our own name, only from our own page, and not too much.

What DNS rebinding and cross-site requests look like: the OWASP cheat sheets on both, and the Fetch standard for what
browsers send (Origin with every POST; Sec-Fetch-Site; form types), from memory.
"""

import asyncio
from typing import Any

import pytest
from fastapi import APIRouter

from asking import HERE, PORT, Asker, asker, demo, sentence_of
from braidwright.web.guard import HEADERS, MOST_BYTES, Guard

SERVER = asker()
CATALOGUE = "/api/catalogue"


@pytest.mark.parametrize("host", [HERE, f"localhost:{PORT}", f"LOCALHOST:{PORT}", f"[::1]:{PORT}"])
def test_our_own_names_are_answered(host: str) -> None:
    assert SERVER.ask("GET", CATALOGUE, headers={"host": host}).status_code == 200


@pytest.mark.parametrize(
    "host",
    [
        "evil.example",
        f"evil.example:{PORT}",
        "127.0.0.1",
        "127.0.0.1:80",
        f"127.0.0.1.evil.example:{PORT}",
        f"localhost.:{PORT}",
        f"localhost:{PORT}@evil.example",
        f"0.0.0.0:{PORT}",
        "",
    ],
)
def test_a_foreign_host_is_refused(host: str) -> None:
    """A name that was made to point at this machine still says so in the Host header."""
    assert "another name" in sentence_of(SERVER.ask("GET", CATALOGUE, headers={"host": host}), 403)


def test_two_hosts_are_refused() -> None:
    answer = SERVER.ask("GET", CATALOGUE, headers=[("host", HERE), ("host", "evil.example")])
    assert "another name" in sentence_of(answer, 403)


@pytest.mark.parametrize("client", ["192.168.1.20", "10.0.0.1", "2001:db8::1", "testclient"])
def test_another_machine_is_refused(client: str) -> None:
    assert "this machine" in sentence_of(Asker(app=SERVER.app, client=client).ask("GET", CATALOGUE), 403)


@pytest.mark.parametrize("client", ["127.0.0.1", "127.8.8.8", "::1"])
def test_this_machine_is_answered(client: str) -> None:
    assert Asker(app=SERVER.app, client=client).ask("GET", CATALOGUE).status_code == 200


@pytest.mark.parametrize("method", ["GET", "POST", "DELETE"])
@pytest.mark.parametrize(
    "origin",
    [
        "https://evil.example",
        "null",
        f"https://{HERE}",
        "http://127.0.0.1",
        f"http://localhost:{PORT}",
        f"http://{HERE}/",
        "",
    ],
)
def test_a_foreign_origin_is_refused(method: str, origin: str) -> None:
    answer = SERVER.ask(method, CATALOGUE, headers={"origin": origin})
    assert "other sites" in sentence_of(answer, 403)


def test_our_own_origin_is_answered() -> None:
    answer = SERVER.ask("POST", "/api/read", json={"design": demo()}, headers={"origin": f"http://{HERE}"})
    assert answer.status_code == 200


@pytest.mark.parametrize(
    ("site", "status"), [("same-origin", 200), ("none", 200), ("cross-site", 403), ("same-site", 403)]
)
def test_what_the_browser_says_of_the_page_counts(site: str, status: int) -> None:
    assert SERVER.ask("GET", CATALOGUE, headers={"sec-fetch-site": site}).status_code == status


@pytest.mark.parametrize("kind", ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data", "", None])
def test_what_a_form_can_send_is_refused(kind: str | None) -> None:
    headers = {} if kind is None else {"content-type": kind}
    assert "JSON" in sentence_of(SERVER.ask("POST", "/api/read", content=b"{}", headers=headers), 415)


def test_no_answer_allows_another_site_to_read_it() -> None:
    answer = SERVER.ask("OPTIONS", "/api/read", headers={"origin": "https://evil.example"})
    assert answer.status_code == 403
    assert not [name for name in answer.headers if name.startswith("access-control")]


@pytest.mark.parametrize(
    ("method", "path", "what"),
    [
        ("GET", CATALOGUE, {}),
        ("GET", "/nowhere", {}),
        ("PUT", CATALOGUE, {}),
        ("POST", "/api/read", {"json": {}}),
        ("GET", CATALOGUE, {"headers": {"host": "evil.example"}}),
    ],
)
def test_strict_headers_are_on_every_answer(method: str, path: str, what: dict[str, Any]) -> None:
    answer = SERVER.ask(method, path, **what)
    assert {name: answer.headers[name] for name in HEADERS} == HEADERS


def test_the_policy_allows_no_script_but_our_own() -> None:
    """Source: Content Security Policy Level 3, W3C: what is not named falls back to default-src."""
    policy = dict(part.strip().split(" ", 1) for part in HEADERS["content-security-policy"].split(";"))
    assert policy["default-src"] == policy["script-src"] == "'self'"
    assert policy["frame-ancestors"] == policy["object-src"] == policy["base-uri"] == "'none'"
    assert "unsafe" not in HEADERS["content-security-policy"]


def test_a_body_over_the_limit_is_refused_whatever_it_says_of_its_length() -> None:
    kind = {"content-type": "application/json"}

    async def parts() -> Any:  # sent in pieces: no content-length at all
        for _ in range(MOST_BYTES // 1_000_000 + 1):
            yield b" " * 1_000_000

    assert "16 MB" in sentence_of(SERVER.ask("POST", "/api/read", content=parts(), headers=kind), 413)
    lying = kind | {"content-length": "2"}
    assert "16 MB" in sentence_of(SERVER.ask("POST", "/api/read", content=b" " * (MOST_BYTES + 1), headers=lying), 413)


def test_a_text_longer_than_any_design_for_the_studio_is_refused() -> None:
    assert "4000000" in SERVER.refused("/api/read", {"design": " " * 4_000_001})


@pytest.mark.parametrize(
    "body",
    [
        b"",
        b"{",
        b"[1]",
        b"null",
        b"\xff\xfe",
        b"[" * 200_000,
        b'{"design": "\\ud800"}',
        b'{"design": NaN}',
        b"9" * 5_000,
    ],
)
def test_what_is_no_wish_is_refused_in_a_sentence(body: bytes) -> None:
    answer = SERVER.ask("POST", "/api/read", content=body, headers={"content-type": "application/json"})
    assert sentence_of(answer, answer.status_code)
    assert answer.status_code in (400, 422)


@pytest.mark.parametrize(
    "path",
    [
        "/index.html",
        "/api",
        "/api/read/",
        "/assets/",
        "/assets/../server.py",
        "/docs",
        "/openapi.json",
        "/api/../etc/passwd",
        "/%00",
        "/api/%2e%2e",
    ],
)
def test_there_is_nothing_else(path: str) -> None:
    sentence_of(SERVER.ask("GET", path), 404)


def test_a_fault_of_ours_tells_nothing_of_the_machine(caplog: pytest.LogCaptureFixture) -> None:
    server = asker()
    broken = APIRouter()

    @broken.get("/broken")
    def fails() -> None:
        raise ZeroDivisionError("secret")

    @broken.get("/deep")
    def deep() -> None:
        raise RecursionError

    server.app.include_router(broken)
    answer = server.ask("GET", "/broken")
    assert "fault of the program" in sentence_of(answer, 500)
    assert "secret" not in answer.text
    assert "secret" in caplog.text  # the developer's side
    assert "deeper" in sentence_of(server.ask("GET", "/deep"), 422)


def test_a_socket_that_stays_open_is_refused() -> None:
    sent = []

    async def send(message: Any) -> None:
        sent.append(message)

    async def receive() -> Any:
        return {"type": "websocket.connect"}

    asyncio.run(Guard(SERVER.app, PORT)({"type": "websocket", "path": "/"}, receive, send))
    assert sent == [{"type": "websocket.close", "code": 1008}]
