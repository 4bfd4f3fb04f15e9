"""What the tests in a browser share: a studio in a process of its own, and a page that is looked at."""

import signal
import subprocess
import sys
import time
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import httpx
import pytest
from playwright.sync_api import Page

ROOT = Path(__file__).resolve().parents[1]
AXE = ROOT / "frontend" / "node_modules" / "axe-core" / "axe.min.js"
NAMES = ("chromium", "chromium-browser", "google-chrome")
FLAGS = (
    "--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--use-angle=swiftshader", "--enable-unsafe-swiftshader",
)  # fmt: skip
# Standards of accessibility: WCAG 2.2, levels A and AA, and the advice of axe itself.
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
PATIENCE_S = 60


@dataclass(slots=True)
class Running:
    """A studio that runs.

    Attributes:
        folder: Where its library lies.
        port: Where it listens.
    """

    folder: Path
    port: int
    process: "subprocess.Popen[bytes] | None" = None

    @property
    def address(self) -> str:
        """Where the browser finds it."""
        return f"http://127.0.0.1:{self.port}/"

    def start(self) -> None:
        """Start it, and wait until it answers."""
        words = ["studio", "--no-browser", "--port", str(self.port), "--library", str(self.folder)]
        code = "from braidwright.cli.main import main; main()"
        self.process = subprocess.Popen([sys.executable, "-c", code, *words], stdout=subprocess.DEVNULL)
        for _ in range(PATIENCE_S * 10):
            try:
                httpx.get(self.address, timeout=5)
                return
            except httpx.TransportError:
                assert self.process.poll() is None, "the studio ended"
                time.sleep(0.1)
        pytest.fail("the studio never answered")

    def kill(self) -> None:
        """Kill it as a power cut would."""
        assert self.process is not None
        self.process.kill()
        self.process.wait(PATIENCE_S)

    def stop(self) -> int:
        """End it as Ctrl-C does; its exit code."""
        assert self.process is not None
        self.process.send_signal(signal.SIGINT)
        return self.process.wait(PATIENCE_S)

    def ask(self, path: str) -> Any:
        """What an address answers."""
        return httpx.get(f"{self.address}api{path}", timeout=PATIENCE_S).raise_for_status().json()

    def begin(self, demo: str = "hill-gorse") -> int:
        """A demo in the library; its number."""
        answer = httpx.post(f"{self.address}api/demos/{demo}", timeout=PATIENCE_S).raise_for_status()
        return int(answer.json()["design"])


@dataclass(slots=True)
class Seen:
    """A page that is looked at, and what went wrong on it.

    Attributes:
        page: The page.
        studio: Whose page it is.
        wrong: What the browser complained of, and requests to other places.
    """

    page: Page
    studio: Running
    wrong: list[str] = field(default_factory=list)

    def open(self, hash_: str = "#/") -> Page:
        """Go to a page of the studio, and wait until it stands."""
        self.page.goto(f"{self.studio.address}{hash_}")
        self.page.locator("h1").first.wait_for()
        return self.page

    def violations(self) -> list[str]:
        """What axe finds on the page as it is now."""
        session = self.page.context.new_cdp_session(self.page)
        session.send("Runtime.evaluate", {"expression": AXE.read_text(encoding="utf-8")})
        found = self.page.evaluate("rules => axe.run(document, {runOnly: rules})", RULES)
        return [f"{each['id']}: {each['nodes'][0]['html'][:200]}" for each in found["violations"]]
