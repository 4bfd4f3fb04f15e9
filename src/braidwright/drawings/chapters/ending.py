"""ending: finishing, cautions, the designer's notes, and what this print is."""

from braidwright.drawings.chapters.cover import paragraphs
from braidwright.drawings.chapters.figures import sentence
from braidwright.drawings.manuscript import Block, Chapter, Heading, Paragraph, Steps, Warned
from braidwright.drawings.pattern import Pattern
from braidwright.drawings.words import CAUTIONS, DEFER, finishing_steps


def finishing(pattern: Pattern) -> Chapter:
    """From the last row to the clasp."""
    design = pattern.design
    cap = "" if pattern.end_cap is None else f"the {pattern.end_cap.english}"
    clasp = (design.findings.clasp if design.findings is not None else None) or ""
    glue, flame = (next(c for c in CAUTIONS if c.title == title) for title in ("Glue", "Flame"))
    blocks: tuple[Block, ...] = (
        Steps(items=finishing_steps(design, end_cap=cap, clasp=f"the {clasp}" if clasp else "")),
        Paragraph(text=_cap_rule(pattern), kind="note"),
        Warned(title=glue.title, text=glue.text),
        Warned(title=flame.title, text=flame.text),
    )
    return Chapter(key="finishing", title="Finish the ends", blocks=blocks)


def _cap_rule(pattern: Pattern) -> str:
    """Source: trade-facts 4.3 (beaded: about the outside diameter; bare: between sizes the smaller)."""
    if pattern.is_beaded:
        return (
            "End caps for a beaded rope are about as wide inside as the rope is thick; no beads go into them, and glue "
            "holds without filling the bore. Measure your rope across before you buy."
        )
    return "Binding makes a bare braid thinner: between two sizes of cap take the smaller one. Measure before you buy."


def cautions() -> Chapter:
    """All of them on one page, deferring to labels and local rules."""
    blocks: tuple[Block, ...] = (
        Paragraph(text=DEFER, kind="lead"),
        *(Warned(title=caution.title, text=caution.text) for caution in CAUTIONS),
    )
    return Chapter(key="cautions", title="Cautions", blocks=blocks)


def about(pattern: Pattern) -> Chapter:
    """Notes, licence, source of the braid, and the edition."""
    design, braid = pattern.design, pattern.design.braid
    blocks: list[Block] = []
    if design.notes:
        blocks += [
            Heading(text="Notes of the designer"),
            *(Paragraph(text=t, kind="maker") for t in paragraphs(design.notes)),
        ]
    if design.licence:
        blocks += [
            Heading(text="What you may do with it"),
            *(Paragraph(text=t, kind="maker") for t in paragraphs(design.licence)),
        ]
    named = f"{braid.english} ({braid.japanese})" if braid.japanese else braid.english
    items = [f"Braid: {named}, {braid.cord_count} cords on {braid.slots} slots."]
    if braid.source:
        sure = f" How sure: {braid.sure}." if braid.sure else ""
        items.append(f"Where the moves were learned: {sentence(' '.join(braid.source.split()))}{sure}")
    items += [
        f"Edition {pattern.edition}: two prints that carry the same mark are the same pattern.",
        f"Set by Braidwright {pattern.version} from the design file that comes with this pattern.",
    ]
    blocks += [Heading(text="About this pattern"), Steps(items=tuple(items), numbered=False)]
    return Chapter(key="about", title="Notes", blocks=tuple(blocks))
