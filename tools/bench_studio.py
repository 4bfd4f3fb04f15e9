"""Measure the studio in Chromium: python tools/bench_studio.py. Prints each figure beside its promise.

Needs what `make test` installs. Medians of several tries; without a graphics card unless the machine has one.
"""

import argparse
import gzip
import os
import platform
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import httpx
from playwright.sync_api import Page, sync_playwright

ROOT = Path(__file__).resolve().parent.parent
SCREEN = ROOT / "src" / "braidwright" / "web" / "screen"
PORT = 8769
ADDRESS = f"http://127.0.0.1:{PORT}/"
FLAGS = ("--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader", "--disable-background-networking")
TRIES = 7
# From a press to the next frame, told by the page itself.
PRESS = """([x, y]) => new Promise(done => {
  const canvas = document.querySelector('.chart canvas'), box = canvas.getBoundingClientRect();
  const at = {clientX: box.left + x, clientY: box.top + y, bubbles: true, button: 0, pointerId: 1,
    pointerType: 'mouse'};
  canvas.setPointerCapture = () => {};
  const begun = performance.now();
  canvas.dispatchEvent(new PointerEvent('pointermove', at));
  canvas.dispatchEvent(new PointerEvent('pointerdown', at));
  canvas.dispatchEvent(new PointerEvent('pointerup', at));
  queueMicrotask(() => { const worked = performance.now() - begun;
    requestAnimationFrame(() => setTimeout(() => done([worked, performance.now() - begun]), 0)); });
})"""


def main() -> None:
    """Start a studio on a library of its own, measure, stop it."""
    argparse.ArgumentParser(description=__doc__).parse_args()
    print(f"{platform.processor() or platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}")
    scripts = sum(len(gzip.compress(path.read_bytes(), 9)) for path in (SCREEN / "assets").glob("*.js"))
    told("all scripts of the screen, gzip", scripts / 1000, "kB", 250)
    with tempfile.TemporaryDirectory() as folder:
        process, up = started(folder)
        try:
            told("studio up: from the command to the first answer", up, "s", 2)
            measure()
        finally:
            process.terminate()
            process.wait(30)


def started(folder: str) -> tuple["subprocess.Popen[bytes]", float]:
    """A studio, and how long it took to answer."""
    code = "from braidwright.cli.main import main; main()"
    words = ["studio", "--no-browser", "--port", str(PORT), "--library", folder]
    begun = time.perf_counter()
    process = subprocess.Popen([sys.executable, "-c", code, *words], stdout=subprocess.DEVNULL)
    for _ in range(600):
        try:
            httpx.get(ADDRESS)
            break
        except httpx.TransportError:
            time.sleep(0.02)
    return process, time.perf_counter() - begun


def measure() -> None:
    """The figures that need a browser."""
    path = next(filter(None, map(shutil.which, (os.environ.get("BRAIDWRIGHT_CHROMIUM", ""), "chromium"))), None)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=list(FLAGS))
        page = browser.new_page(viewport={"width": 1280, "height": 900})
        begun = time.perf_counter()
        page.goto(ADDRESS)
        page.get_by_role("link", name="Begin a rope").wait_for()
        told("first useful screen", time.perf_counter() - begun, "s", 1.5)
        for rows, lit, sized in ((85, 16, 50), (1250, 16, 150)):
            rope(page, rows, lit, sized)
        browser.close()


def rope(page: Page, rows: int, lit: float, sized: float) -> None:
    """A rope of eight cords: how fast a press is lit, and how fast its sizes are there."""
    made = httpx.post(f"{ADDRESS}api/new", json={"title": "bench", "rows": rows}).json()
    number = httpx.post(f"{ADDRESS}api/library", json={"design": made["text"]}).json()["design"]
    page.goto(f"{ADDRESS}#/rope/{number}")
    page.locator("[role=gridcell]").first.wait_for(state="attached")
    page.locator("canvas[role=img]").wait_for()
    page.wait_for_timeout(4000)
    page.keyboard.press("0")
    works, frames, answers = [], [], []
    for at in range(TRIES):
        with page.expect_response(lambda answer: answer.url.endswith("/api/read")) as read:
            begun = time.perf_counter()
            worked, frame = page.evaluate(PRESS, [300 + 30 * at, 60])
        read.value.finished()
        answers.append((time.perf_counter() - begun) * 1000)
        works.append(worked)
        frames.append(frame)
        page.wait_for_timeout(500)
    told(f"{4 * rows} stitches: press, work of the script", statistics.median(works), "ms", lit)
    told(f"{4 * rows} stitches: press, until the frame is on the page", statistics.median(frames), "ms", 100)
    told(f"{4 * rows} stitches: press, until sizes and strings are here", statistics.median(answers), "ms", sized)


def told(what: str, value: float, unit: str, promise: float) -> None:
    """One line."""
    print(f"{what:64} {value:8.2f} {unit:3} promise {promise:g} {'' if value <= promise else 'NOT KEPT'}")


if __name__ == "__main__":
    main()
