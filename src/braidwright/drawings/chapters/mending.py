"""mending: longer or shorter, and what to do when something is wrong."""

import numpy as np

from braidwright.domain.braid import Braid, turn
from braidwright.domain.chart import step_levels
from braidwright.domain.design import Design
from braidwright.domain.resize import ground_of, smallest_period
from braidwright.domain.tray import BARE
from braidwright.domain.walk import stitch_cords, walk
from braidwright.drawings.chapters.figures import length
from braidwright.drawings.manuscript import Block, Chapter, Grid, Heading, Paragraph, Steps, Warned
from braidwright.drawings.pattern import Pattern
from braidwright.drawings.words import CAUTIONS, counted

LONGEST_LISTED_ROUND = 60  # rows; a longer round of the cords is no step for a maker


def longer_or_shorter(pattern: Pattern) -> Chapter:
    """The same number of beads at both ends of every cord. Source: common practice, no source."""
    design, rise = pattern.design, pattern.size.rise_mm
    rows, each = even_round(design.braid)
    items = [f"A row more or less changes the length by {_tenths(rise)}." if rise else _UNKNOWN]
    if pattern.is_beaded:
        items += _by_beads(design, rows, each, rise)
    else:
        items.append(
            f"Add or leave out rows at both ends alike; {counted(rows, 'row')} bring every cord back to its place."
        )
    items.append(
        "Change both ends alike, so that what lies in the middle stays there. Ask for beads for the longer piece, "
        "and cut the cords "
        "longer by three times what the rope gains."
    )
    blocks: tuple[Block, ...] = (
        Paragraph(
            text="Measure the wrist or neckline first; a rope of beads does not stretch afterwards.", kind="lead"
        ),
        Steps(items=tuple(items), numbered=False),
    )
    return Chapter(key="longer", title="Longer or shorter", blocks=blocks)


_UNKNOWN = (
    "The length of a row is not predicted yet for this design: braid 20 rows, measure them, and divide. "
    "Then add or leave out rows as the measure tells."
)


def _tenths(mm: float) -> str:
    return f"{mm:.1f} mm"


def _by_beads(design: Design, rows: int, each: int, rise: float | None) -> list[str]:
    gained = f", which is {length(2 * rows * rise)}" if rise else ""
    what = _ground_words(design)
    items = [
        f"String {counted(each, 'more bead')} at both ends of every cord: "
        f"{what}. That makes {counted(2 * rows, 'row')} more{gained}.",
        "Shorter: leave out the same number at both ends of every cord"
        + (
            f"; {counted(_plain_ends(design), 'row')} at each end can go before the figure is touched."
            if _plain_ends(design)
            else "."
        ),
    ]
    if is_half_turn(design.braid, rows):
        items.append(
            "The picture then sits half a turn further round the rope; turn the rope before you glue the second end."
        )
    return items


def _ground_words(design: Design) -> str:
    ground = ground_of(design)
    period = smallest_period(design.rows)
    if period is not None and period > 1:
        return f"carry the pattern on, which repeats every {period} rows"
    if len(set(ground)) == 1 and ground[0] != BARE:
        return f"{design.tray.name_of(ground[0])}, the ground of this rope"
    return "beads of the ground beside them"


def _plain_ends(design: Design) -> int:
    """Rows of plain ground at the shorter of the two ends."""
    ground = ground_of(design)
    plain = [text == ground for text in design.rows]
    if all(plain):
        return 0
    return min(plain.index(False), plain[::-1].index(False))


def even_round(braid: Braid) -> tuple[int, int]:
    """The fewest rows that let every cord make equally many stitches and leave the picture as it is, and how many.

    Either every cord is home, or all have gone half way round a braid that looks the same from there.
    """
    home = walk(braid).repeats_home
    made = stitch_cords(braid, home)
    for rows in range(1, home + 1):
        counts = np.bincount(made[:rows].ravel(), minlength=braid.cord_count)
        if counts.min() == counts.max() and (rows == home or is_half_turn(braid, rows)):
            return rows, int(counts[0])
    return home, int(np.bincount(made.ravel(), minlength=braid.cord_count).max())


def is_half_turn(braid: Braid, rows: int) -> bool:
    """Whether so many rows exchange every cord with the opposite one, in a braid that is its own half turn.

    Then a pattern begun so many rows later is the same pattern, turned half round the rope.
    """
    if braid.slots % 2:
        return False
    half = braid.slots // 2
    places = {slot: place for place, slot in enumerate(braid.start)}
    opposite = [places.get(turn(slot, half, braid.slots)) for slot in braid.start]
    if None in opposite or not _turns_into_itself(braid, half):
        return False
    where = list(range(braid.cord_count))
    for _ in range(rows):
        where = [walk(braid).permutation[place] for place in where]
    return where == opposite


def _turns_into_itself(braid: Braid, half: int) -> bool:
    """Whether the half turn only exchanges moves that are worked side by side."""
    if len(braid.stitch_moves) != len(braid.moves):
        return False
    steps: dict[int, set[tuple[int, int]]] = {}
    turned: dict[int, set[tuple[int, int]]] = {}
    for move, level in zip(braid.stitch_moves, step_levels(braid), strict=True):
        steps.setdefault(level, set()).add((move.take, move.put))
        there = (turn(move.take, half, braid.slots), turn(move.put, half, braid.slots))
        turned.setdefault(level, set()).add(there)
    return steps == turned


def when_something_is_wrong(pattern: Pattern) -> Chapter:
    """How to undo, and what each mistake looks like. Source: trade-facts, section 6."""
    undo = (
        "Find the cord that lies on top in the middle: it was moved last.",
        "Lift it, take it back over the others to the slot it came from"
        + (", and slide its bead back up the cord." if pattern.is_beaded else "."),
        "Go on move by move, in the exact reverse order: each goes from where it was laid to where it was taken. "
        + ("At the start of a repeat the numbers change back as well." if pattern.design.braid.shift else ""),
        "Stop one whole repeat before the mistake, check that the cords stand as they should, and braid on.",
    )
    blocks: list[Block] = [
        Paragraph(text="Every braider undoes. A mistake found within the row costs a minute.", kind="lead"),
        Heading(text="Undo"),
        Steps(items=undo),
        Heading(text="What it looks like, and what to do"),
        Grid(
            title="Mistakes and how to mend them",
            head=("What you see", "What happened", "What to do"),
            rows=_mistakes(pattern),
            widths=(1.0, 0.9, 1.25),
            titled=False,
        ),
    ]
    if pattern.is_beaded:
        glass = next(caution for caution in CAUTIONS if caution.title == "Broken glass")
        blocks += [
            Heading(text="When the rope is off the disk"),
            Paragraph(
                text="A missed bead can be sewn in: thread to match the cord, a fine needle, several small stitches "
                "to anchor "
                "the thread and a tug to test it. Pass through the bead as often as it takes to look like cord, "
                "anchor again, and "
                "trim the thread under tension so that its end draws back."
            ),
            Warned(title=glass.title, text=glass.text),
        ]
    return Chapter(key="mending", title="When something is wrong", blocks=tuple(blocks))


def _mistakes(pattern: Pattern) -> tuple[tuple[str, ...], ...]:
    beaded = (
        (
            "A dent, bare cord in one place; that cord keeps one bead too many",
            "A bead was missed",
            "Undo to there; off the disk, sew a bead in",
        ),
        (
            "A lump, its neighbours pushed aside",
            "Two beads fell with one move",
            "Undo to there and push one bead back up",
        ),
        (
            "A bead stands proud and slides",
            "It was not tucked under the crossing cord",
            "Undo one move, pull the bead down and under, lay the cord again",
        ),
    )
    always = (
        (
            "Three cords, or only one, where two should be",
            "A move was left out or made twice",
            "Count the cords at each point, then undo",
        ),
        (
            "The figure runs backwards from one place on",
            "You went on the other way round after a pause",
            "Undo to the pause; check which way the numbers go",
        ),
        (
            "A clean braid, but another figure than the chart",
            "Two cords were exchanged at the set-up",
            "Compare with the set-up picture; begin again or keep it",
        ),
        ("Wide and narrow stretches", "Uneven pull", "Keep the weight the same; do not tug after laying"),
        ("A limp, hollow rope", "The cord is thin for the tube", "Use a heavier cord, or braid around a core cord"),
    )
    return (*beaded, *always) if pattern.is_beaded else always
