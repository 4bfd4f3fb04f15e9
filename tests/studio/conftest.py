"""A studio of its own for each test, in a process on a free port of this machine, and a browser that looks at it."""

import os
import shutil
import socket
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, sync_playwright

from browsing import FLAGS, NAMES, PATIENCE_S, Running, Seen


def free() -> int:
    with socket.socket() as listening:
        listening.bind(("127.0.0.1", 0))
        return int(listening.getsockname()[1])


@pytest.fixture
def studio(tmp_path: Path) -> Iterator[Running]:
    running = Running(folder=tmp_path / "library", port=free())
    running.start()
    yield running
    if running.process is not None and running.process.poll() is None:
        running.kill()


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    """A browser. Its driver keeps an event loop running in this thread, so it must be gone when the module ends."""
    path = next(filter(None, map(shutil.which, (os.environ.get("BRAIDWRIGHT_CHROMIUM", ""), *NAMES))), None)
    assert path, "No Chromium was found; tools/chromium.sh installs one."
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=list(FLAGS))
        yield browser
        browser.close()


@pytest.fixture
def look(chromium: Browser, studio: Running) -> Iterator[Callable[..., Seen]]:
    """Opens a page; size, theme and touch as wished. At the end nothing may have gone wrong on it."""
    contexts: list[BrowserContext] = []
    pages: list[Seen] = []

    def opened(**wishes: Any) -> Seen:
        context = chromium.new_context(**{"viewport": {"width": 1280, "height": 900}, **wishes})
        contexts.append(context)
        seen = Seen(page=context.new_page(), studio=studio)
        seen.page.set_default_timeout(PATIENCE_S * 1000)
        seen.page.on("console", lambda said: seen.wrong.append(said.text) if said.type == "error" else None)
        seen.page.on("pageerror", lambda error: seen.wrong.append(str(error)))
        seen.page.on("request", lambda asked: _stray(seen, asked.url))
        pages.append(seen)
        return seen

    yield opened
    for context in contexts:
        context.close()
    assert [wrong for seen in pages for wrong in seen.wrong] == []


def _stray(seen: Seen, url: str) -> None:
    if not url.startswith((seen.studio.address, "blob:")):
        seen.wrong.append(f"asked elsewhere: {url}")
