"""Every page of the studio in a real browser: nothing fetched from elsewhere, no complaint, no violation of axe."""

from collections.abc import Callable
from typing import Any

import pytest

from browsing import Running, Seen

PAGES = ("", "/set-up", "/supplies", "/publish", "/arrangements", "/earlier")
PHONE = {"viewport": {"width": 360, "height": 740}, "has_touch": True, "is_mobile": True}


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("size", [{}, PHONE], ids=["desk", "phone"])
def test_every_page_stands_without_a_violation(
    theme: str, size: dict[str, Any], look: Callable[..., Seen], studio: Running
) -> None:
    number = studio.begin()
    seen = look(color_scheme=theme, **size)
    found = []
    for address in ("#/", "#/new", "#/braid", *(f"#/rope/{number}{page}" for page in PAGES)):
        page = seen.open(address)
        page.wait_for_timeout(700)
        found += [f"{address} {violation}" for violation in seen.violations()]
        wide = page.evaluate("document.documentElement.scrollWidth - innerWidth")
        found += [f"{address} is {wide} px too wide"] if wide > 0 else []
    assert found == []


def test_the_rope_page_with_everything_open_has_no_violation(look: Callable[..., Seen], studio: Running) -> None:
    seen = look()
    page = seen.open(f"#/rope/{studio.begin()}")
    page.get_by_role("button", name="Add a bead").wait_for()
    for closed in page.locator("details > summary").all():
        closed.click()
    page.get_by_role("button", name="As worn").click()
    page.wait_for_timeout(500)
    assert seen.violations() == []
    page.get_by_role("button", name="Change Gorse").click()
    assert seen.violations() == []


def test_at_double_zoom_nothing_is_cut_off(look: Callable[..., Seen], studio: Running) -> None:
    """200 % of 1280 px is what 640 px show; WCAG 2.2, 1.4.4."""
    seen = look(viewport={"width": 640, "height": 450}, device_scale_factor=2)
    page = seen.open(f"#/rope/{studio.begin()}")
    page.get_by_role("button", name="Add a bead").wait_for()
    assert page.evaluate("document.documentElement.scrollWidth") <= 640


def test_names_with_markup_show_as_text(look: Callable[..., Seen], studio: Running) -> None:
    number = studio.begin()
    name = "<img src=x onerror=alert(1)><b>bold</b>"
    page = look().open(f"#/rope/{number}")
    page.get_by_text("About", exact=True).click()
    page.get_by_label("Title").fill(name)
    page.get_by_label("Title").press("Tab")
    page.get_by_role("heading", name="bold").wait_for()
    assert page.locator("h1 b, h1 img").count() == 0
    assert page.locator("h1").inner_text() == name
    page.goto(f"{studio.address}#/")
    page.get_by_role("heading", name="bold").wait_for()
    assert page.locator("article h2 b").count() == 0


def test_nothing_moves_for_who_wants_it_still(look: Callable[..., Seen]) -> None:
    page = look(reduced_motion="reduce").open("#/new")
    page.get_by_role("img").first.wait_for()
    before = page.locator("svg").first.inner_html()
    page.wait_for_timeout(2_500)
    assert page.locator("svg").first.inner_html() == before
