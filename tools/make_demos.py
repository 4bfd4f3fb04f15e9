"""Make the demo designs in designs/ anew: `python tools/make_demos.py`.

Four pieces from a moor of our own invention, Tarnlow: its gorse, its two becks, its ridge at dusk, its bracken. Names,
colours and stories are ours and made up. The files are made with the program's own editing verbs, so that they follow
the catalogue and the front line; a test holds the files in designs/ to what this makes.
"""

from collections.abc import Callable
from math import cos, pi, sin
from pathlib import Path

from braidwright.app.sizes import predict
from braidwright.catalogue.shelf import standard
from braidwright.domain.braid import in_hand
from braidwright.domain.chart import stations
from braidwright.domain.design import CordChoice, Design, Findings, Front, PlacedMotif
from braidwright.domain.document import write_design
from braidwright.domain.motif import Course, along_the_front, from_front
from braidwright.domain.tray import Tray, TrayBead

LICENCE = (
    "You may make this piece for yourself and as gifts, teach it, and sell what you braid from it. "
    "Please do not sell the pattern itself."
)
AUTHOR = "the Braidwright demo bench"
INVENTED = "Tarnlow and everything on it are invented for this demo."


def bead(key: str, kind: str, colour: str, finish: str, name: str) -> TrayBead:
    """One bead of a tray."""
    return TrayBead(key=key, bead=kind, colour=colour, finish=finish, name=name)  # type: ignore[arg-type]


def course_of(design: Design) -> Course:
    """How the columns of a design run, as predicted."""
    prediction = predict(design, standard())
    assert prediction.rise_mm is not None
    assert prediction.diameter_mm is not None
    return Course(
        rise_mm=prediction.rise_mm, drift_deg=prediction.drift_deg, radius_mm=prediction.diameter_mm / 2 - 1.0
    )


def rows_where(design: Design, rows: int, key_at: Callable[[int, int], str]) -> Design:
    """The design with a key chosen for each row and stitch (both from 0)."""
    return design.with_rows(
        tuple("".join(key_at(row, stitch) for stitch in range(design.width)) for row in range(rows))
    )


def hill_gorse() -> Design:
    """A bracelet with accents along the front and a smooth back."""
    ground = Design(
        title="Hill Gorse",
        author=AUTHOR,
        licence=LICENCE,
        language="en",
        skill="a first beaded rope",
        story=(
            "On the south side of Tarnlow the gorse flowers even in a bad winter, one spark to every few steps of "
            "path. "
            "The sparks run along the top of the wrist; the side against the skin stays smooth. " + INVENTED
        ),
        braid=in_hand(standard().braid("kongoh-8"), "S"),
        braid_name="kongoh-8",
        cords=CordChoice(kind="tex-210", colours=("#23433a",), names=("Deep green",)),
        tray=Tray(
            entries=(
                bead("m", "round-8/0", "#1f6b58", "opaque", "Moss"),
                bead("b", "round-8/0", "#ece3cf", "pearl", "Barley"),
                bead("g", "teardrop-3.4", "#d99a1c", "transparent", "Gorse"),
            )
        ),
        rows=("mmmm",) * 68,
        lead_in_mm=15,
        lead_out_mm=15,
        front=Front(deg=0, comfort_arc_deg=120),
        findings=Findings(clasp="toggle clasp", clasp_mm=18),
    )
    flower = PlacedMotif(name="flower", lines=("b", "g", "b"))
    return along_the_front(ground, flower, course_of(ground), 11.5)


def two_becks() -> Design:
    """A spiral: four waters, each a column on from row to row."""
    plain = Design(
        title="Two Becks",
        author=AUTHOR,
        licence=LICENCE,
        language="en",
        skill="a first beaded rope",
        story=(
            "Two becks come down off Tarnlow and wind round each other all the way to the ford: peat-dark, then green, "
            "then bright over the stones. " + INVENTED
        ),
        braid=in_hand(standard().braid("kongoh-8"), "Z"),
        braid_name="kongoh-8",
        cords=CordChoice(kind="tex-210", colours=("#27384a",), names=("Slate blue",)),
        tray=Tray(
            entries=(
                bead("d", "round-8/0", "#17324f", "transparent", "Peat water"),
                bead("f", "round-8/0", "#2f7f8c", "matte", "Pool"),
                bead("l", "round-8/0", "#9fcfd0", "silver-lined", "Riffle"),
                bead("w", "round-8/0", "#f2efe6", "pearl", "Foam"),
            )
        ),
        rows=("dddd",),
        lead_in_mm=15,
        lead_out_mm=15,
        findings=Findings(clasp="magnetic clasp", clasp_mm=16),
    )
    places = stations(plain.braid)
    period = "ddflwllf"
    return rows_where(plain, 190, lambda row, stitch: period[(2 * places[stitch].column + row) % len(period)])


def ridge_at_dusk() -> Design:
    """A picture bracelet: a skyline with a moon along the front, on a rope of sixteen cords."""
    plain = Design(
        title="Ridge at Dusk",
        author=AUTHOR,
        licence=LICENCE,
        language="en",
        skill="a patient third or fourth rope",
        story=(
            "The long ridge of Tarnlow from the kitchen window, with the light going: heather below, a last warm "
            "line of sky, and one early moon. " + INVENTED
        ),
        braid=in_hand(standard().braid("kongoh-16"), "S"),
        braid_name="kongoh-16",
        cords=CordChoice(kind="tex-135", colours=("#2b2440",), names=("Night",)),
        tray=Tray(
            entries=(
                bead("h", "round-11/0", "#3a2a4d", "matte", "Heather root"),
                bead("v", "round-11/0", "#7d5a8c", "opaque", "Heather"),
                bead("e", "round-11/0", "#e8a15a", "silver-lined", "Ember"),
                bead("s", "round-11/0", "#8fa3c4", "opaque", "Dusk"),
                bead("n", "round-11/0", "#2e4470", "opaque", "Night blue"),
                bead("o", "round-11/0", "#f6f0dc", "pearl", "Moon"),
            )
        ),
        rows=("hhhhhhhh",) * 96,
        lead_in_mm=15,
        lead_out_mm=15,
        front=Front(deg=0, comfort_arc_deg=100),
        findings=Findings(clasp="toggle clasp", clasp_mm=18),
        notes="The rope is a hollow tube: braid it round a core cord, as the supplies say.",
    )
    drift = predict(plain, standard()).drift_deg
    return rows_where(plain, 96, lambda row, stitch: ridge_key(plain, drift, row, stitch))


def ridge_key(design: Design, drift: float, row: int, stitch: int) -> str:
    """The drop of the skyline at one stitch: what is seen there, so many degrees up from the front line."""
    up = from_front(design, drift, row, stitch)
    ridge = -30 + 24 * sin(row * 2 * pi / 47 + 0.6) + 12 * cos(row * 2 * pi / 19 + 1)
    if abs(up) > 130:
        return "h"
    if up < ridge:
        return "h" if up < ridge - 48 else "v"
    if ((row - 70) / 4.6) ** 2 + ((up - 48) / 46) ** 2 < 1:
        return "o"
    sunset = ridge + 60 * cos((row - 27) * pi / 48)
    if up < sunset and abs(row - 27) < 24:
        return "e"
    return "s" if up < ridge + 80 else "n"


def bracken() -> Design:
    """A plain-cord braid: no beads, the figure is in the colours of the cords."""
    rust, straw, fern = "#b5592a", "#e6d3a3", "#2c4a2c"
    return Design(
        title="Bracken Lead",
        author=AUTHOR,
        licence=LICENCE,
        language="en",
        skill="a first braid",
        story=(
            "Bracken turns from fern green through straw to rust in a fortnight, and every frond is a different day "
            "of it. "
            "A plain cord for a key, a whistle or a pair of spectacles. " + INVENTED
        ),
        braid=in_hand(standard().braid("kongoh-8"), "S"),
        braid_name="kongoh-8",
        cords=CordChoice(
            kind="satin-1.5",
            colours=(rust, rust, straw, fern, rust, rust, fern, straw),
            names=("Rust", "Rust", "Straw", "Fern", "Rust", "Rust", "Fern", "Straw"),
        ),
        tray=Tray(entries=()),
        rows=("....",) * 120,
        lead_in_mm=20,
        lead_out_mm=20,
        findings=Findings(clasp="swivel clasp", clasp_mm=30),
    )


DEMOS: dict[str, Callable[[], Design]] = {
    "hill-gorse": hill_gorse,
    "two-becks": two_becks,
    "ridge-at-dusk": ridge_at_dusk,
    "bracken-lead": bracken,
}


def main(folder: Path) -> None:
    """Write every demo design into a folder."""
    for name, make in DEMOS.items():
        (folder / f"{name}.json").write_text(write_design(make()), encoding="utf-8")
        print(f"{name}: {len(make().rows)} rows")


if __name__ == "__main__":
    main(Path(__file__).resolve().parent.parent / "designs")
