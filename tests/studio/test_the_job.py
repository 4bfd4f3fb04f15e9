"""The whole job in a real browser, from an empty library to a published pack: by mouse, by keyboard, by touch."""

import io
import json
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

from playwright.sync_api import Locator, Page, expect

from browsing import Running, Seen

WINDS = {"N": "north", "E": "east", "S": "south", "W": "west"}


def rows_of(studio: Running, number: int) -> list[str]:
    return list(json.loads(studio.ask(f"/library/{number}")["design"]["text"])["rows"])


def kept(page: Page) -> None:
    expect(page.get_by_text("every change kept")).to_be_visible()


def cell(page: Page, row: int, station: str) -> Locator:
    return page.locator(f'[role="gridcell"][aria-label^="row {row}, {WINDS[station]},"]')


def middle(place: Locator) -> tuple[float, float]:
    box = place.bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def press(page: Page, row: int, station: str) -> None:
    page.mouse.click(*middle(cell(page, row, station)))


def test_from_an_empty_library_to_a_published_pack(look: Callable[..., Seen], studio: Running, tmp_path: Path) -> None:
    page = look().open()
    page.get_by_role("link", name="Begin a rope").click()
    page.get_by_label("What is it called").fill("Sparks")
    page.get_by_role("button", name="Begin").click()
    page.get_by_role("heading", name="Sparks").wait_for()
    page.get_by_role("button", name="Add a bead").click()
    page.get_by_label("Name in the pattern").fill("Spark")
    page.locator("dialog select").first.select_option("teardrop-3.4")
    page.get_by_role("button", name="Put it in the tray").click()
    kept(page)
    page.get_by_text("Motifs", exact=True).click()
    page.get_by_label("One every (mm)").fill("12")
    page.get_by_role("button", name="Place along the front").click()
    expect(page.get_by_text("placed 1", exact=False)).to_be_visible()
    kept(page)
    text = "".join(rows_of(studio, 1))
    assert len(set(text)) == 2
    assert studio.ask("/library/1")["design"]["pressing"] == []  # along the front, none lies against the skin
    page.get_by_role("link", name="Publish").click()
    for name in ("drawings (SVG)", "pictures (PNG)", "PDF to print"):
        page.get_by_label(name).uncheck()
    page.get_by_label("Pictures and sizes from the solved shape").uncheck()
    page.get_by_role("button", name="Make the pack").click()
    page.get_by_role("heading", name="The pack is ready").wait_for()
    with page.expect_download() as coming:
        page.get_by_role("link", name="Take the whole pack home").click()
    with zipfile.ZipFile(io.BytesIO(Path(coming.value.path()).read_bytes())) as archive:
        pattern = archive.read("pattern.txt").decode()
    assert "Sparks" in pattern
    assert "Spark" in pattern


def test_laying_by_mouse_is_kept_and_can_be_taken_back_to_the_beginning(
    look: Callable[..., Seen], studio: Running
) -> None:
    number = studio.begin()
    before = rows_of(studio, number)
    page = look().open(f"#/rope/{number}")
    page.locator('[role="gridcell"]').first.wait_for(state="attached")
    page.get_by_role("radio", name="Gorse").check(force=True)
    press(page, 4, "N")
    press(page, 5, "E")
    start, end = middle(cell(page, 4, "S")), middle(cell(page, 7, "S"))
    page.mouse.move(*start)
    page.mouse.down()
    page.mouse.move(*end)  # one jump: the stroke must leave no gap
    page.mouse.up()
    kept(page)
    rows = rows_of(studio, number)
    assert [rows[3][0], rows[4][3]] != [before[3][0], before[4][3]] or rows != before
    changed = sum(a != b for one, two in zip(before, rows, strict=True) for a, b in zip(one, two, strict=True))
    assert changed == 6
    page.reload()
    page.locator('[role="gridcell"]').first.wait_for(state="attached")
    assert rows_of(studio, number) == rows
    undo = page.get_by_role("button", name="Undo")
    for _ in range(3):
        expect(undo).to_be_enabled()
        undo.click()
        page.wait_for_timeout(400)
    expect(undo).to_be_disabled()
    assert rows_of(studio, number) == before
    page.keyboard.press("Control+Shift+z")
    page.wait_for_timeout(600)
    assert rows_of(studio, number) != before


def test_laying_by_keyboard_alone(look: Callable[..., Seen], studio: Running) -> None:
    number = studio.begin()
    before = rows_of(studio, number)
    page = look().open(f"#/rope/{number}")
    grid = page.get_by_role("grid")
    grid.locator('[tabindex="0"]').focus()
    page.keyboard.press("3")  # the third kind of the tray: Gorse
    for key in ("ArrowRight", "ArrowRight", "ArrowRight", "ArrowUp", "Enter"):
        page.keyboard.press(key)
    kept(page)
    assert page.evaluate("document.activeElement.getAttribute('aria-label')").startswith("row 4, east, Gorse")
    rows = rows_of(studio, number)
    assert [row for row, (one, two) in enumerate(zip(before, rows, strict=True)) if one != two] == [3]
    assert rows[3].count("g") == before[3].count("g") + 1
    page.keyboard.press("Control+z")
    page.wait_for_timeout(600)
    assert rows_of(studio, number) == before


def test_laying_on_the_rope_hits_the_stitch_under_the_pointer(look: Callable[..., Seen], studio: Running) -> None:
    number = studio.begin()
    before = rows_of(studio, number)
    page = look().open(f"#/rope/{number}")
    rope = page.locator("canvas[role=img]")
    rope.wait_for()
    page.get_by_text("solved shape", exact=True).wait_for()
    page.wait_for_timeout(500)
    page.get_by_role("radio", name="Gorse").check(force=True)
    box = rope.bounding_box()
    assert box is not None
    pointed = page.locator(".pointed")
    told = ""
    for across in range(300, 900, 7):
        page.mouse.move(box["x"] + across, box["y"] + box["height"] / 2)
        page.wait_for_timeout(60)
        told = pointed.inner_text()
        if told.startswith("Moss"):
            break
    assert told.startswith("Moss")
    row = int(told.split("row ")[1].split(",")[0])
    page.mouse.down()
    page.mouse.up()
    kept(page)
    page.wait_for_timeout(300)
    rows = rows_of(studio, number)
    assert [at + 1 for at, (one, two) in enumerate(zip(before, rows, strict=True)) if one != two] == [row]
    station = told.split(f"row {row}, ")[1].split("\n")[0].strip()
    stitch = {"N": 0, "S": 1, "W": 2, "E": 3}[station]  # kongoh of eight: 32, 16, 24, 8; trade-facts 1.2
    assert (before[row - 1][stitch], rows[row - 1][stitch]) == ("m", "g")


def test_a_tap_lays_a_bead_on_a_phone(look: Callable[..., Seen], studio: Running) -> None:
    number = studio.begin()
    before = rows_of(studio, number)
    page = look(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True).open(f"#/rope/{number}")
    place = cell(page, 4, "N")
    place.wait_for(state="attached")
    page.get_by_role("radio", name="Gorse").check(force=True)
    page.locator(".chart").scroll_into_view_if_needed()
    page.touchscreen.tap(*middle(place))
    kept(page)
    page.wait_for_timeout(400)
    rows = rows_of(studio, number)
    assert sum(a != b for a, b in zip("".join(before), "".join(rows), strict=True)) == 1
    assert rows[3] != before[3]


def test_two_windows_never_overwrite_each_other_unseen(look: Callable[..., Seen], studio: Running) -> None:
    number = studio.begin()
    one, other = look(), look()
    for seen in (one, other):
        seen.open(f"#/rope/{number}")
        cell(seen.page, 4, "N").wait_for(state="attached")
        seen.page.get_by_role("radio", name="Gorse").check(force=True)
    press(one.page, 4, "N")
    kept(one.page)
    one.page.wait_for_timeout(400)
    theirs = rows_of(studio, number)
    press(other.page, 5, "N")
    other.page.get_by_role("alert").wait_for()
    assert rows_of(studio, number) == theirs
    other.wrong.clear()  # the browser notes the 409 as an error of its own
    other.page.get_by_role("button", name="Keep mine as a rope of its own").click()
    other.page.wait_for_timeout(800)
    assert rows_of(studio, number + 1)[4] != theirs[4]
    assert rows_of(studio, number) == theirs


def test_a_killed_studio_has_lost_nothing_it_acknowledged(look: Callable[..., Seen], studio: Running) -> None:
    number = studio.begin()
    seen = look()
    page = seen.open(f"#/rope/{number}")
    cell(page, 4, "N").wait_for(state="attached")
    page.get_by_role("radio", name="Gorse").check(force=True)
    press(page, 4, "N")
    kept(page)
    page.wait_for_timeout(300)
    rows = rows_of(studio, number)
    studio.kill()
    press(page, 5, "N")
    page.get_by_text("not kept yet").wait_for()
    studio.start()
    kept(page)  # what was laid while nobody answered waited, and is kept now
    after = rows_of(studio, number)
    assert (after[:4], after[4] != rows[4]) == (rows[:4], True)
    page.close()
    seen.wrong.clear()  # the browser noted that nobody answered


def test_ctrl_c_ends_it_cleanly(studio: Running) -> None:
    studio.begin()
    assert studio.stop() in (0, 130)


def test_a_library_file_goes_home_and_comes_back(
    look: Callable[..., Seen], studio: Running, tmp_path: Path, chromium: Any
) -> None:
    del chromium
    number = studio.begin()
    page = look().open()
    page.get_by_role("heading", name="Hill Gorse", level=2).wait_for()
    with page.expect_download() as coming:
        page.get_by_role("link", name="Save the whole library").click()
    file = tmp_path / "mine.braidwright"
    coming.value.save_as(file)
    page.get_by_label("More for Hill Gorse").click()
    page.get_by_role("button", name="Throw away").click()
    page.get_by_text("Hill Gorse was thrown away.").wait_for()
    page.locator("input[type=file]").set_input_files(file)
    page.get_by_text("One rope came in.").wait_for()
    page.get_by_role("heading", name="Hill Gorse", level=2).wait_for()
    assert {entry["design"] for entry in studio.ask("/library")["entries"]} != {number}


def test_a_braid_of_ones_own_is_entered_on_the_disk(look: Callable[..., Seen], studio: Running) -> None:
    """Kongoh gumi of eight: start and moves of trade-facts 1.2."""
    page = look().open("#/braid")

    def slot(number: int) -> None:
        page.locator(f'[data-slot="{number}"] .touch').click()

    for number in (32, 1, 8, 9, 16, 17, 24, 25):
        slot(number)
    page.get_by_role("button", name="Move cords").click()
    slot(32)
    slot(17)
    page.get_by_text("Move 1: Slot 17 holds a cord").wait_for()
    page.get_by_role("button", name="Take the last move back").click()
    for take, put in ((32, 18), (16, 2), (24, 10), (8, 26)):
        slot(take)
        slot(put)
    page.get_by_text("every cord is home after 4 repeats").wait_for()
    page.get_by_role("button", name="Begin a rope with this braid").click()
    page.get_by_role("heading", name="my braid").wait_for()
    braid = studio.ask("/library/1")["design"]["braid"]
    assert (braid["shift"], braid["hand"], len(braid["moves"])) == (1, "S", 4)


def test_a_patch_is_copied_and_laid_elsewhere(look: Callable[..., Seen], studio: Running) -> None:
    number = studio.begin()
    before = rows_of(studio, number)
    page = look().open(f"#/rope/{number}")
    cell(page, 2, "N").wait_for(state="attached")
    page.get_by_role("button", name="Patch", exact=True).click()
    page.mouse.move(*middle(cell(page, 1, "N")))
    page.mouse.down()
    page.mouse.move(*middle(cell(page, 3, "N")))
    page.mouse.up()
    page.get_by_role("button", name="Copy").click()
    press(page, 3, "E")
    page.get_by_role("button", name="Lay at the marked stitch").click()
    kept(page)
    page.wait_for_timeout(300)
    rows = rows_of(studio, number)
    assert "".join(row[3] for row in rows[2:5]) == "".join(row[0] for row in before[:3]) == "bgb"


def test_an_arrangement_of_cord_colours_is_chosen(look: Callable[..., Seen], studio: Running) -> None:
    """4 and 4 of 8 cords: 10 necklaces (trade-facts, 7)."""
    page = look().open(f"#/rope/{studio.begin()}/arrangements")
    page.get_by_role("button", name="Show them all").click()
    page.get_by_role("heading", name="10 arrangements").wait_for()
    page.locator("ul button").nth(4).click()
    page.get_by_text("The cords have these colours now.").wait_for()
    page.wait_for_timeout(400)
    strings = studio.ask("/library/1")["design"]["strings"]
    assert len({string["colour"] for string in strings}) == 2


def test_from_one_rope_straight_to_another(look: Callable[..., Seen], studio: Running) -> None:
    one, other = studio.begin(), studio.begin("two-becks")
    page = look().open(f"#/rope/{one}")
    page.get_by_role("heading", name="Hill Gorse").wait_for()
    press(page, 4, "N")
    for number, title in ((other, "Two Becks"), (one, "Hill Gorse"), (other, "Two Becks")):
        page.evaluate("hash => { location.hash = hash; }", f"#/rope/{number}")
        page.get_by_role("heading", name=title, level=1).wait_for()
        cell(page, 4, "N").wait_for(state="attached")


def test_a_bead_of_ones_own_and_a_core_are_entered(look: Callable[..., Seen], studio: Running) -> None:
    page = look().open(f"#/rope/{studio.begin()}")
    page.get_by_role("button", name="Add a bead").click()
    page.get_by_label("Name in the pattern").fill("Pebble")
    page.locator("dialog select").first.select_option(label="a bead of my own")
    page.get_by_label("Across, mm").fill("3.4")
    page.get_by_role("button", name="Put it in the tray").click()
    page.get_by_role("radio", name="Pebble").wait_for(state="attached")
    page.get_by_text("Cords", exact=True).click()
    page.get_by_label("Core cord, mm").fill("0.5")
    page.get_by_label("Core cord, mm").press("Tab")
    kept(page)
    page.wait_for_timeout(400)
    design = json.loads(studio.ask("/library/1")["design"]["text"])
    mine = next(entry for entry in design["tray"].values() if entry.get("name") == "Pebble")
    assert (mine["bead"]["shape"], mine["bead"]["diameter_mm"]) == ("round", 3.4)
    assert design["cords"]["core"] == {"mm": 0.5}
