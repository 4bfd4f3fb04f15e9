"""beginning: which hand to follow, and what the words mean."""

from braidwright.drawings.manuscript import Block, Chapter, Heading, Paragraph, Steps
from braidwright.drawings.pattern import HandPart, Pattern
from braidwright.drawings.words import DEFER, counted

HAND_TITLES = {
    "own": "the rope as pictured",
    "mirror": "its mirror image",
    "same-picture": "the same picture, worked the other way",
}


def hand_title(part: HandPart) -> str:
    """The title of one hand's chapter."""
    return f"Hand {part.hand}: {HAND_TITLES[part.kind]}"


def before_you_begin(pattern: Pattern) -> Chapter:
    """Choose a hand; learn the words."""
    blocks: list[Block] = []
    if len(pattern.hands) > 1:
        blocks += [Heading(text="Choose your hand"), *_choice(pattern)]
    blocks += [
        Heading(text="The words used here"),
        Steps(items=_words(pattern), numbered=False),
        Heading(text="How to use this pattern"),
        Steps(
            items=(
                "Read everything for your hand once before you cut the first cord.",
                "Get the supplies, cut and string the cords, set up the disk, and only then begin to braid.",
                "Braid a few centimetres as a swatch when a figure here says estimated: your hand and your tension "
                "decide the length.",
                f"Mind the cautions where they stand and on their own page. {DEFER}",
            )
        ),
        *_rests(pattern),
    ]
    return Chapter(key="beginning", title="Before you begin", blocks=tuple(blocks))


def _choice(pattern: Pattern) -> tuple[Block, ...]:
    own, other = pattern.hands[0], pattern.hands[1]
    second = {
        "mirror": f"Hand {other.hand} is its mirror image: every move goes the other way round, and so does the "
        "finished rope. "
        f"Its strings are the same, in other slots.",
        "same-picture": f"Hand {other.hand} shows the same picture, worked the other way round: it has strings of "
        "its own, "
        f"and only the lean of the stitches differs.",
    }
    return (
        Paragraph(
            text=f"The pattern is written out twice. Hand {own.hand} makes the rope as pictured. {second[other.kind]}"
        ),
        Paragraph(
            text="S and Z are the two ways the stitch line can lean on a rope held upright: like the middle bar of "
            "the letter. "
            "Many people who lead with the other hand find the other version easier. Follow one of the two from "
            "beginning "
            "to end, and never mix them; print only the pages you need."
        ),
    )


def _words(pattern: Pattern) -> tuple[str, ...]:
    design = pattern.design
    braid = design.braid
    row = counted(design.width, "stitch", "stitches")
    words = [
        f"Disk and slots: the disk has {braid.slots} slots, numbered clockwise as seen from above. Slot 1 is the "
        f"first one right of "
        f"north, slot {braid.slots} the first one left of it. Write the numbers on your disk if it has others.",
        "Cord: one working length. It keeps the name of the slot it starts in, wherever it hangs later.",
        "Move: one cord is lifted from its slot and laid into another, over all the cords between.",
        f"Repeat and row: the moves listed for your hand are one repeat. Each repeat makes one row of {row}.",
    ]
    if pattern.is_beaded:
        words += [
            "Drop: what a cord lets fall just before it is laid across: one bead, none, or a stack of several.",
            "String: the beads of one cord, in the order they go on. The first strung is the first to fall.",
        ]
    if design.front is not None:
        words.append("Front and back: the side worn outward, and the side against the skin.")
    return tuple(words)


def _rests(pattern: Pattern) -> tuple[Block, ...]:
    """What the figures rest on, and what is unusual."""
    said = tuple(dict.fromkeys((*pattern.size.warnings, *pattern.size.notes)))
    return (Heading(text="What the figures rest on"), Steps(items=said, numbered=False)) if said else ()
