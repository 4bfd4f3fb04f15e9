"""legend: every entry of the tray with its mark, its name, what it is and how many there are."""

from functools import partial

from braidwright.domain.strings import bead_counts
from braidwright.domain.tray import BARE, TrayStack
from braidwright.drawings.bead_mark import Box, draw_cord_mark, draw_mark
from braidwright.drawings.pen import Drawing, Pen
from braidwright.drawings.sheet import Look, Sheet, Subject
from braidwright.drawings.style import HAIR, LARGE_TYPE, SMALL_TYPE, SOFT_INK, drawn, type_
from braidwright.drawings.words import bead_words, counted

LINE = 10.5


def entries(subject: Subject) -> tuple[tuple[str, str, str, str], ...]:
    """What the legend lists: key, name, kind and count in words, in tray order, bare stitches last."""
    design, beads = subject.design, bead_counts(subject.design)
    drops = design.drop_counts()
    found = []
    for entry in design.tray.entries:
        if isinstance(entry, TrayStack):
            count = counted(drops.get(entry.key, 0), "drop")
        else:
            count = counted(beads[entry.key], "bead")
        found.append((entry.key, design.tray.name_of(entry.key), bead_words(subject, entry.key), count))
    if BARE in drops:
        found.append((BARE, "bare", "no bead falls, the cord shows", counted(drops[BARE], "stitch", "stitches")))
    return tuple(found)


def draw(subject: Subject, look: Look) -> tuple[Drawing, ...]:
    """The legend, as one drawing."""
    listed = entries(subject)
    words = [
        f"{name}: symbol {'a dash of cord' if key == BARE else subject.design.tray.symbol_of(key)}, {kind}, {count}."
        for key, name, kind, count in listed
    ]
    return (
        Drawing(
            name="legend",
            width_mm=look.width_mm,
            height_mm=max(1, len(listed)) * LINE * look.text_scale + 0.6,
            title=f"The tray of {subject.design.title}",
            description="The tray. " + " ".join(words),
            paint=partial(_paint, subject, look),
        ),
    )


def _paint(subject: Subject, look: Look, pen: Pen) -> None:
    scale = look.text_scale
    for index, entry in enumerate(entries(subject)):
        key, name, kind, count = entry
        y = index * LINE * scale + 0.3
        box = Box(centre=(4.5 * scale, y + LINE * scale / 2.0), width=5.6 * scale, height=7.4 * scale)
        if key == BARE:
            draw_cord_mark(pen, subject.design.cords.colours[0], box, "tray-bare")
        else:
            draw_mark(pen, subject, key, box, f"tray-{index + 1}")
        middle = y + LINE * scale / 2.0
        pen.text((12.0 * scale, middle - 0.4 * scale), name, type_(LARGE_TYPE * scale, bold=True))
        pen.text((12.0 * scale, middle + 3.6 * scale), kind, type_(SMALL_TYPE * scale, colour=SOFT_INK))
        pen.text((look.width_mm, middle + 1.3 * scale), count, type_(LARGE_TYPE * scale, anchor="end"))
        if index:
            pen.line((0.0, y), (look.width_mm, y), drawn(HAIR, 0.15))


SHEET = Sheet(name="legend", title="The tray", draw=draw)
