"""Pictures on the chart: laws over any design, and places worked out by hand."""

from dataclasses import replace
from math import pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from braidwright.catalogue.shelf import standard
from braidwright.domain.design import CordChoice, Design
from braidwright.domain.dither import MIXINGS
from braidwright.domain.errors import RequestError
from braidwright.domain.mirror import mirror_everything
from braidwright.domain.motif import Course, from_front
from braidwright.domain.picture import FITS, TURNS, Placing, lay_picture
from braidwright.domain.raster import Pixels, Raster, raster_of
from braidwright.domain.tray import BARE, Tray, TrayBead, TrayStack
from strategies import designs

COURSE = Course(rise_mm=2.3, drift_deg=11.25, radius_mm=3.6)
RED, GREEN, BLUE = (255, 0, 0, 255), (0, 255, 0, 255), (0, 0, 255, 255)
PRIMARIES = Tray(
    entries=tuple(
        TrayBead(key=key, bead="round-8/0", colour=colour)
        for key, colour in (("r", "#ff0000"), ("g", "#00ff00"), ("b", "#0000ff"), ("w", "#ffffff"))
    )
)

placings = st.builds(
    Placing,
    arc_deg=st.floats(60.0, 360.0),
    centre_deg=st.floats(-180.0, 180.0),
    turn=st.sampled_from(TURNS),
    fit=st.sampled_from(FITS),
    mixing=st.sampled_from(MIXINGS),
)


def rope(name: str = "kongoh-16", rows: int = 40, tray: Tray = PRIMARIES) -> Design:
    braid = standard().braid(name)
    return Design(
        title="Rope",
        braid=braid,
        braid_name=name,
        cords=CordChoice(kind="tex-210", colours=("#000000",)),
        tray=tray,
        rows=("w" * braid.stitches_per_row,) * rows,
    )


def picture(*lines: tuple[tuple[int, int, int, int], ...]) -> Raster:
    """A small picture, pixel by pixel."""
    return raster_of(np.array(lines, dtype=np.uint8))


def noise(seed: int, height: int = 9, width: int = 14) -> Pixels:
    pixels = np.random.default_rng(seed).integers(0, 256, (height, width, 4), dtype=np.uint8)
    pixels[..., 3] = np.where(pixels[..., 3] < 40, 0, 255)
    return pixels


def laid_or_none(design: Design, course: Course, raster: Raster, placing: Placing) -> tuple[str, ...] | None:
    """The rows, or None where the picture is smaller than a stitch."""
    try:
        return lay_picture(design, course, raster, placing).rows
    except RequestError as error:
        if "no stitch" in str(error):
            return None
        raise


@given(design=designs(rows=(1, 12)), seed=st.integers(0, 999), placing=placings)
def test_rows_keep_their_shape_and_the_tray_its_keys(design: Design, seed: int, placing: Placing) -> None:
    rows = laid_or_none(design, COURSE, raster_of(noise(seed)), placing)
    if rows is not None:
        assert [len(text) for text in rows] == [len(text) for text in design.rows]
        singles = {entry.key for entry in design.tray.beads}
        for old, new in zip("".join(design.rows), "".join(rows), strict=True):
            assert new == old or new in singles


@given(which=st.integers(0, 3), placing=placings, rows=st.integers(4, 30))
def test_a_picture_of_one_tray_colour_is_that_bead_everywhere(which: int, placing: Placing, rows: int) -> None:
    entry = PRIMARIES.beads[which]
    colour = (*bytes.fromhex(entry.colour[1:]), 255)
    found = lay_picture(rope(rows=rows), COURSE, picture((colour, colour)), replace(placing, fit="fill"))
    assert found.counts == ((entry.key, found.stitches),)
    assert found.resemblance.near == pytest.approx(0.0, abs=1e-3)
    assert found.resemblance.afar == pytest.approx(0.0, abs=1e-3)


@given(seed=st.integers(0, 999), placing=placings, name=st.sampled_from(["kongoh-8", "kongoh-16", "maru-yotsu"]))
def test_a_mirrored_picture_on_the_mirrored_rope_is_the_mirrored_result(seed: int, placing: Placing, name: str) -> None:
    """A design mirrored whole has the same rows, letter for letter (docs/conventions.md, hands)."""
    design, pixels = rope(name, rows=14), noise(seed)
    there = replace(COURSE, drift_deg=-COURSE.drift_deg)
    flipped = pixels[::-1] if placing.turn in (0, 180) else pixels[:, ::-1]
    across = replace(placing, centre_deg=-placing.centre_deg)
    here = laid_or_none(design, COURSE, raster_of(pixels), placing)
    assert here == laid_or_none(mirror_everything(design), there, raster_of(flipped), across)


def sides(placing: Placing, raster: Raster) -> dict[str, list[tuple[float, float]]]:
    """Where each colour lies: (row, degrees clockwise from the front)."""
    design = rope()
    rows = lay_picture(design, COURSE, raster, placing).rows
    found: dict[str, list[tuple[float, float]]] = {}
    for row, text in enumerate(rows):
        for stitch, key in enumerate(text):
            found.setdefault(key, []).append((row, from_front(design, COURSE.drift_deg, row, stitch)))
    return found


@pytest.mark.parametrize(("turn", "row_sign", "turn_sign"), [(0, 0, 1), (90, -1, 0), (180, 0, -1), (270, 1, 0)])
def test_the_top_of_a_picture_lies_where_it_should(turn: int, row_sign: int, turn_sign: int) -> None:
    """On the table, row 1 at the left, up is clockwise; turned on anticlockwise, up is toward row 1, and so on."""
    two = picture((RED, RED, RED), (RED, RED, RED), (BLUE, BLUE, BLUE), (BLUE, BLUE, BLUE))
    found = sides(Placing(turn=turn, fit="fill", arc_deg=180.0), two)  # type: ignore[arg-type]
    red, blue = (np.mean(found[key], axis=0) for key in "rb")
    if row_sign:
        assert np.sign(red[0] - blue[0]) == row_sign
    if turn_sign:
        assert np.sign(red[1] - blue[1]) == turn_sign
        assert all(turn_sign * degrees > -23.0 for _, degrees in found["r"])


def test_the_left_of_a_picture_lies_nearer_to_row_1() -> None:
    found = sides(Placing(fit="fill"), picture((RED, RED, BLUE, BLUE)))
    assert max(row for row, _ in found["r"]) <= min(row for row, _ in found["b"])


def test_a_whole_picture_keeps_its_proportions() -> None:
    """A disc as high as half the rope is round: as many mm along as it has round the rope, give or take a stitch."""
    y, x = np.mgrid[-50:50, -50:50] + 0.5
    disc = np.zeros((100, 100, 4), dtype=np.uint8)
    disc[x * x + y * y < 2500] = RED
    found = sides(Placing(arc_deg=300.0), raster_of(disc))["r"]
    along = COURSE.rise_mm * np.ptp([row for row, _ in found])
    round_it = pi * COURSE.radius_mm / 180.0 * np.ptp([degrees for _, degrees in found])
    assert along == pytest.approx(round_it, abs=COURSE.rise_mm + 2.9)
    # its area in stitches: pi/4 of the square of its height, by the area of a stitch
    size = 300.0 * pi / 180.0 * COURSE.radius_mm
    cell = COURSE.rise_mm * 2.0 * pi * COURSE.radius_mm / 8.0
    assert len(found) == pytest.approx(pi / 4.0 * size**2 / cell, rel=0.12)


def test_the_middle_of_a_whole_picture_is_on_the_front_line() -> None:
    found = sides(Placing(arc_deg=120.0), picture((RED, RED)))["r"]
    row, degrees = np.mean(found, axis=0)
    assert row == pytest.approx(19.5, abs=0.6)
    assert degrees == pytest.approx(0.0, abs=12.0)


def test_clear_parts_leave_what_is_there() -> None:
    design = rope()
    clear = (0, 0, 0, 0)
    found = lay_picture(design, COURSE, picture((RED, clear)), Placing(fit="fill", arc_deg=360.0))
    assert {*"".join(found.rows[:18])} == {"r"}
    assert {*"".join(found.rows[22:])} == {"w"}


def test_rows_and_arc_bound_the_picture() -> None:
    design = rope()
    found = lay_picture(
        design, COURSE, picture((RED,)), Placing(rows=(5, 9), arc_deg=90.0, centre_deg=60.0, fit="fill")
    )
    for row, text in enumerate(found.rows):
        for stitch, key in enumerate(text):
            away = (from_front(design, COURSE.drift_deg, row, stitch) - 60.0 + 180.0) % 360.0 - 180.0
            assert (key == "r") is (4 <= row <= 8 and abs(away) <= 45.0)


def test_a_part_of_a_picture_is_that_part() -> None:
    four = picture((RED, GREEN), (BLUE, RED))
    found = lay_picture(rope(), COURSE, four, Placing(fit="fill", crop=(0.5, 0.0, 1.0, 0.5), arc_deg=360.0))
    assert found.counts == (("g", found.stitches),)
    assert found.stitches == 320


def test_a_picture_all_the_way_round_meets_itself_at_the_back() -> None:
    """Stitches cut by the edges of the picture take both edges."""
    found = lay_picture(rope(), COURSE, picture((RED,), (RED,), (RED,)), Placing(fit="fill", arc_deg=360.0))
    assert found.stitches == 320


def test_stacks_and_bare_stitches_are_chosen_only_when_named() -> None:
    tray = Tray(
        entries=(
            *PRIMARIES.beads[:1],
            TrayBead(key="w", bead="round-8/0", colour="#ffffff"),
            TrayStack(key="k", stack=("r", "r")),
        )
    )
    design = rope(tray=tray)
    black = picture(((0, 0, 0, 255),))
    fill = Placing(fit="fill", arc_deg=360.0)
    assert lay_picture(design, COURSE, black, fill).counts[0][0] in "rw"
    assert lay_picture(design, COURSE, black, replace(fill, keys=("w", BARE))).counts == ((BARE, 320),)
    assert lay_picture(design, COURSE, picture((RED,)), replace(fill, keys=("k", "w"))).counts == (("k", 320),)


def test_the_design_is_left_as_it_was_and_changes_are_counted() -> None:
    design = rope()
    found = lay_picture(design, COURSE, picture((RED,)), Placing(rows=(1, 2), arc_deg=360.0, fit="fill"))
    assert design.rows == ("w" * 8,) * 40
    assert found.changed == found.stitches == 16
    again = lay_picture(
        design.with_rows(found.rows), COURSE, picture((RED,)), Placing(rows=(1, 2), arc_deg=360.0, fit="fill")
    )
    assert again.changed == 0


def test_mixing_brings_the_rope_nearer_from_afar() -> None:
    pink = picture(((255, 150, 150, 255),))
    fill = Placing(fit="fill", arc_deg=360.0)
    afar = {
        mix: lay_picture(rope(), COURSE, pink, replace(fill, mixing=mix)).resemblance.afar
        for mix in ("none", "diffused", "ordered")
    }
    assert afar["diffused"] < afar["none"] / 2
    assert afar["ordered"] < afar["none"] / 2


@pytest.mark.parametrize(
    ("placing", "words"),
    [
        (Placing(rows=(0, 3)), "rows 0 to 3"),
        (Placing(rows=(5, 41)), "rows 5 to 41"),
        (Placing(rows=(9, 8)), "rows 9 to 8"),
        (Placing(arc_deg=0.0), "arc"),
        (Placing(arc_deg=361.0), "arc"),
        (Placing(arc_deg=float("nan")), "arc"),
        (Placing(centre_deg=float("nan")), "direction"),
        (Placing(crop=(0.5, 0.0, 0.5, 1.0)), "part"),
        (Placing(crop=(0.0, float("nan"), 1.0, 1.0)), "part"),
        (Placing(keys=()), "no bead"),
        (Placing(keys=("q",)), "'q'"),
        (Placing(arc_deg=1.0), "covers no stitch"),
    ],
)
def test_what_makes_no_sense_is_refused(placing: Placing, words: str) -> None:
    with pytest.raises(RequestError, match=words):
        lay_picture(rope(), COURSE, picture((RED,)), placing)
