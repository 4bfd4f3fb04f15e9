"""needs: everything to buy, cut and lay ready."""

from dataclasses import replace
from functools import partial

from braidwright.domain.strings import bead_counts
from braidwright.domain.supplies import CordNeed
from braidwright.domain.tray import BARE
from braidwright.drawings.bead_mark import Box, draw_mark
from braidwright.drawings.chapters.figures import NOT_YET, capital, cut_length, grams, sentence
from braidwright.drawings.manuscript import Block, Chapter, Fact, Facts, Grid, Heading, Marked, Paragraph, Steps, Warned
from braidwright.drawings.pattern import Pattern
from braidwright.drawings.pen import Drawing, Paint, Pen, Point
from braidwright.drawings.prints import Print, printed
from braidwright.drawings.style import THIN, edge_of
from braidwright.drawings.words import CAUTIONS, bead_words, counted

MARK_MM = 5.2


def what_you_need(pattern: Pattern) -> Chapter:
    """Beads, cords, findings, tools."""
    blocks: list[Block] = []
    if pattern.supplies.pieces > 1:
        blocks.append(Paragraph(text=f"All amounts are for {pattern.supplies.pieces} pieces.", kind="lead"))
    if pattern.supplies.beads:
        blocks += [Heading(text="Beads"), bead_table(pattern), *_bead_notes(pattern)]
    blocks += [Heading(text="Cords"), *_cords(pattern)]
    blocks += [Heading(text="Findings"), *_findings(pattern)]
    blocks += [Heading(text="Tools"), Steps(items=_tools(pattern), numbered=False)]
    return Chapter(key="needs", title="What you need", blocks=tuple(blocks))


def mark(pattern: Pattern, key: str) -> Print:
    """An entry of the tray as a small mark: its colour and its symbol."""
    size = MARK_MM * pattern.page.look().text_scale
    box = Box(centre=(size / 2.0, size / 2.0), width=0.86 * size, height=0.94 * size)
    drawing = Drawing(
        name=f"mark-{ord(key)}",
        width_mm=size,
        height_mm=size,
        title=pattern.design.tray.name_of(key),
        description="a dash of cord" if key == BARE else f"symbol: {pattern.design.tray.symbol_of(key)}",
        paint=partial(_paint_mark, pattern, key, box),
    )
    return printed(drawing)


def _paint_mark(pattern: Pattern, key: str, box: Box, pen: Pen) -> None:
    draw_mark(pen, pattern.own.subject, key, box)


def bead_table(pattern: Pattern) -> Grid:
    """The beads to buy."""
    return Grid(
        title="Beads to buy",
        head=("Bead", "In the piece", "Buy, with spare"),
        rows=tuple(
            (
                Marked(mark=mark(pattern, need.key), text=f"{need.name}: {bead_words(pattern.own.subject, need.key)}"),
                f"{need.count}",
                f"{need.buy_count}, {grams(need.buy_grams)}",
            )
            for need in pattern.supplies.beads
        ),
        widths=(1.0, 0.0, 0.0),
        figures=(1, 2),
        titled=False,
    )


def tray_table(pattern: Pattern) -> Grid:
    """The legend: every entry of the tray, bare stitches, and cords of several colours, with how many there are."""
    design = pattern.design
    drops, beads = design.drop_counts(), bead_counts(design)
    rows = [
        (
            Marked(mark=mark(pattern, key), text=f"{design.tray.name_of(key)}: {bead_words(pattern.own.subject, key)}"),
            counted(beads[key], "bead") if key in beads else counted(drops.get(key, 0), "drop"),
        )
        for key in design.tray.keys
    ]
    if BARE in drops and pattern.is_beaded:
        bare = Marked(mark=mark(pattern, BARE), text="bare: no bead falls, the cord shows")
        rows.append((bare, counted(drops[BARE], "stitch", "stitches")))
    if not pattern.is_beaded or len(pattern.supplies.cord) > 1:
        rows += [
            (_chip(pattern, need), counted(_in_one_piece(pattern, need), "cord")) for need in pattern.supplies.cord
        ]
    return Grid(
        title="The tray", head=("What it is", "In the piece"), rows=tuple(rows), widths=(1.0, 0.0), figures=(1,)
    )


def _in_one_piece(pattern: Pattern, need: CordNeed) -> int:
    return need.count // pattern.supplies.pieces


def _bead_notes(pattern: Pattern) -> tuple[Block, ...]:
    needs = pattern.supplies.beads
    used, bought = sum(need.grams for need in needs), sum(need.buy_grams for need in needs)
    spares = sorted({need.spare_percent for need in needs})
    said = " or ".join(f"{spare:g}" for spare in spares)
    return (
        Paragraph(
            text=f"The piece holds {counted(sum(need.count for need in needs), 'bead')}, {grams(used)}. "
            f"The amounts to buy have {said} % spare and weigh {grams(bought)}. Leave out beads that are chipped, "
            f"thin, or that do not pass the cord.",
            kind="note",
        ),
        *_stacks(pattern),
    )


def _stacks(pattern: Pattern) -> tuple[Block, ...]:
    tray, counts = pattern.design.tray, pattern.design.drop_counts()
    stacks = [key for key in tray.keys if len(tray.beads_of(key)) > 1 and counts.get(key)]
    if not stacks:
        return ()
    return (
        Grid(
            title="Stacks: several beads let fall together",
            head=("Stack", "Times"),
            rows=tuple(
                (
                    Marked(
                        mark=mark(pattern, key), text=f"{tray.name_of(key)}: {bead_words(pattern.own.subject, key)}"
                    ),
                    f"{counts[key] * pattern.supplies.pieces}",
                )
                for key in stacks
            ),
            widths=(1.0, 0.0),
            figures=(1,),
        ),
    )


def _cords(pattern: Pattern) -> tuple[Block, ...]:
    needs = pattern.supplies.cord
    kind = pattern.cord
    blocks: list[Block] = [
        Paragraph(text=f"{capital(kind.english)}, about {kind.diameter_mm:.2g} mm thick. Cut:"),
        Grid(
            title="Cords to cut",
            head=("Colour", "Cords", "Each", "Or folded in half"),
            rows=tuple(
                (_chip(pattern, need), f"{need.count}", cut_length(need.cut_mm), _folded(need)) for need in needs
            ),
            widths=(1.0, 0.0, 0.0, 1.2),
            titled=False,
        ),
        Paragraph(text=" ".join((sentence(pattern.supplies.cut_basis), *pattern.supplies.notes)), kind="note"),
    ]
    core = pattern.supplies.core
    if core is not None:
        cut = "" if core.cut_mm is None else f" Cut it at least {cut_length(core.cut_mm)} long."
        blocks.append(Paragraph(text=f"{'Core cord: ' if core.thickness is None else ''}{core.why}{cut}"))
    return tuple(blocks)


def _chip(pattern: Pattern, need: CordNeed) -> Marked:
    cords = pattern.design.cords
    chosen = [(cords.colour(n), cords.colour_name(n)) for n in range(pattern.design.braid.cord_count)]
    told = cord_of(pattern, chosen.index((need.colour, need.name)))
    return told if need.name else replace(told, text=f"{told.text} ({need.colour})")


def cord_of(pattern: Pattern, cord: int) -> Marked:
    """The colour of one cord, by its place in the start: a patch, its letter in the pictures, its name."""
    cords = pattern.design.cords
    letter, name = pattern.own.subject.cord_letter(cord), cords.colour_name(cord)
    text = f"{letter} {name}".strip() or "one colour for all"
    return Marked(mark=cord_patch(pattern, cords.colour(cord), text), text=text)


def cord_patch(pattern: Pattern, colour: str, name: str) -> Print:
    """A round patch of a cord's colour."""
    size = 3.6 * pattern.page.look().text_scale
    centre = (size / 2.0, size / 2.0)
    drawing = Drawing(
        name="cord",
        width_mm=size,
        height_mm=size,
        title=name,
        description=f"a patch of {name}",
        paint=partial(_paint_patch, colour, centre, 0.42 * size),
    )
    return printed(drawing)


def _paint_patch(colour: str, centre: Point, radius: float, pen: Pen) -> None:
    pen.circle(centre, radius, Paint(fill=colour, edge=edge_of(colour), width=THIN))


def _folded(need: CordNeed) -> str:
    if need.doubled_mm is None:
        return NOT_YET
    if not need.doubled_count:
        return "cut singly"
    single = f", and {need.single_count} single" if need.single_count else ""
    return f"{need.doubled_count} of {cut_length(need.doubled_mm)}{single}"


def _findings(pattern: Pattern) -> tuple[Block, ...]:
    facts = [
        Fact(name=need.what.capitalize(), value=f"{need.count} \u00d7 {need.name}")
        for need in pattern.supplies.findings
    ]
    blocks: list[Block] = [Facts(facts=tuple(facts))]
    if pattern.end_cap is None:
        blocks.append(
            Paragraph(
                text="End caps: choose them when a few centimetres are braided; measure the rope across first. "
                "For a beaded rope take caps about as wide inside as the rope; for a bare braid, which binding "
                "presses together, "
                "take the smaller of two sizes.",
                kind="note",
            )
        )
    clasp = (pattern.design.findings.clasp if pattern.design.findings else None) or ""
    blocks += [_as_warned("Nickel"), *([_as_warned("Magnets")] if "magnet" in clasp.lower() else [])]
    return tuple(blocks)


def _as_warned(title: str) -> Warned:
    found = next(caution for caution in CAUTIONS if caution.title == title)
    return Warned(title=found.title, text=found.text)


def _tools(pattern: Pattern) -> tuple[str, ...]:
    cords, slots = pattern.design.braid.cord_count, pattern.design.braid.slots
    tools = [
        f"A braiding disk with {slots} slots, and a mark at north that you can see and feel.",
        f"{cords} bobbins, one for each cord.",
        "A weight to hang from the start of the braid. Makers use about 45 to 85 g for a beaded braid (common "
        "practice); "
        "what matters is that it stays the same.",
        "Scissors, a ruler, strong thread and a needle for binding, and glue that suits metal and cord.",
    ]
    if pattern.is_beaded:
        tools.insert(
            2, f"{cords} stop beads or small clips, one for the free end of each cord, 15 cm (6 in) from the end."
        )
    return tuple(tools)
