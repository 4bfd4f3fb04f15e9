"""working: one hand from the first bead strung to the last row: strings, set-up, moves, chart, keeping the place."""

from dataclasses import replace

from braidwright.domain.chart import columns
from braidwright.domain.strings import String, strings_of
from braidwright.domain.walk import walk
from braidwright.drawings.chapters.beginning import hand_title
from braidwright.drawings.chapters.figures import capital
from braidwright.drawings.chapters.needs import cord_of, tray_table
from braidwright.drawings.chapters.places import in_row_words, pausing, row_check
from braidwright.drawings.manuscript import (
    Block,
    Chapter,
    CordString,
    Heading,
    MoveList,
    Paragraph,
    Picture,
    RowWords,
    Steps,
    StringList,
)
from braidwright.drawings.pattern import HandPart, Pattern
from braidwright.drawings.prints import Print, prints
from braidwright.drawings.sheet import Look
from braidwright.drawings.words import (
    LEFT_AND_RIGHT,
    counted,
    listed,
    move_sentences,
    set_up_sentences,
    side,
    string_words,
    turn_sentence,
)

STRINGS_SCALE = 0.92  # so that the strings of eight cords share a page with their table
STRINGS_TALL = 1.12  # a page of strings has no heading
FEW_MOVES = 2  # so few need no page of their own
MOVE_SCALE = 0.8  # pictures of moves are a little smaller, so that four of them share a page


def one_hand(pattern: Pattern, part: HandPart) -> Chapter:
    """Everything for a reader of this hand."""
    blocks = (
        Paragraph(text=_opening(part), kind="lead"),
        *_strings(pattern, part),
        *_set_up(pattern, part),
        *_moves(pattern, part),
        *_chart(pattern, part),
        *_place(pattern, part),
        *_views(pattern, part),
    )
    return Chapter(key=f"hand-{part.hand.lower()}", title=hand_title(part), blocks=blocks, hand=part.hand)


def _opening(part: HandPart) -> str:
    braid = part.design.braid
    lean = "from top left to bottom right" if part.hand == "S" else "from top right to bottom left"
    turn = "does not turn"
    if braid.shift:
        turn = f"turns {'clockwise' if braid.shift > 0 else 'anticlockwise'} as the rope grows"
    return f"{capital(braid.english)}. The stitch line leans {lean}, and the pattern on the disk {turn}."


# --- strings -------------------------------------------------------------------------------------------


def _strings(pattern: Pattern, part: HandPart) -> tuple[Block, ...]:
    if not pattern.is_beaded:
        return (Heading(text="Cut the cords"), _cord_places(pattern, part))
    return (
        Heading(text="String the cords"),
        Paragraph(
            text="Thread each cord from its free end, in the order listed: the first bead strung is the first to "
            "fall, so it "
            "slides down to the start of the braid. Then put on a stop bead and wind the cord on its bobbin. Count "
            "each cord "
            "against the last column before you go on; label the bobbin with its slot."
        ),
        string_list(pattern, part),
        *(Picture(drawing=each) for each in prints("strings", part.subject, _string_look(pattern))),
    )


def _string_look(pattern: Pattern) -> Look:
    look = pattern.page.look(height_share=STRINGS_TALL)
    return replace(look, text_scale=STRINGS_SCALE * look.text_scale)


def _cord_places(pattern: Pattern, part: HandPart) -> StringList:
    return StringList(title=f"The cords of hand {part.hand}", cords=string_list(pattern, part).cords)


def string_list(pattern: Pattern, part: HandPart) -> StringList:
    """What every cord carries, and where it starts."""
    cords = tuple(cord_string(pattern, part, string) for string in strings_of(part.design))
    return StringList(title=f"The strings of hand {part.hand}, first strung first", cords=cords)


def cord_string(pattern: Pattern, part: HandPart, string: String) -> CordString:
    """The string of one cord in words."""
    design = part.design
    return CordString(
        slot=string.slot,
        where=side(design.braid, string.slot),
        cord=cord_of(pattern, string.cord),
        words=string_words(design, string),
        beads=len(string.beads(design.tray)),
    )


# --- set-up and moves ------------------------------------------------------------------------------------


def _set_up(pattern: Pattern, part: HandPart) -> tuple[Block, ...]:
    look = pattern.page.look(share=0.92, height_share=0.8)
    drawings = prints("setup-disk", part.subject, look)
    return (
        Heading(text="Set up the disk", fresh=pattern.is_beaded),
        Steps(items=set_up_sentences(part.design)),
        *(
            Picture(drawing=each, caption=f"The start, hand {part.hand}, seen from above", centred=True)
            for each in drawings
        ),
    )


def _moves(pattern: Pattern, part: HandPart) -> tuple[Block, ...]:
    design = part.design
    rows = counted(len(design.rows), "row")
    again = walk(design.braid).repeats_home
    hold = (
        " Let each bead slide right down to the braid and hold it there with a finger until the cord crossing over "
        "it locks it."
        if pattern.is_beaded
        else " Lay every cord with the same pull."
    )
    blocks: list[Block] = [
        Heading(text="The moves of one repeat", fresh=len(design.braid.moves) > FEW_MOVES),
        Paragraph(text=f"{LEFT_AND_RIGHT}{hold}"),
        MoveList(sentences=move_sentences(design), drawings=_move_pictures(pattern, part)),
        Paragraph(text=turn_sentence(design.braid)),
        Paragraph(
            text=f"Work {rows} in all: {counted(len(design.rows), 'repeat')}. "
            f"After every {counted(again, 'repeat')} each cord hangs in its own place of the pattern again, "
            f"so that is a good moment to check."
            if again > 1
            else f"Work {rows} in all: {counted(len(design.rows), 'repeat')}."
        ),
    ]
    if part.notes:
        blocks.append(Paragraph(text=" ".join(part.notes.split())))
    return tuple(blocks)


def _move_pictures(pattern: Pattern, part: HandPart) -> tuple[Print, ...]:
    look = pattern.page.look()
    drawings = prints("each-move", part.subject, replace(look, text_scale=MOVE_SCALE * look.text_scale))
    return drawings if len(drawings) == len(part.design.braid.moves) else ()


# --- chart and place -------------------------------------------------------------------------------------


def _chart(pattern: Pattern, part: HandPart) -> tuple[Block, ...]:
    drawings = prints("flat-chart", part.subject, pattern.page.look())
    return (
        Heading(text="The chart", fresh=True),
        *(Paragraph(text=text) for text in _how_to_read(pattern, part)),
        tray_table(pattern),
        *(Picture(drawing=each, caption=_chart_caption(each, part)) for each in drawings),
        RowWords(lines=in_row_words(part.design)),
    )


def _chart_caption(picture: Print, part: HandPart) -> str:
    return f"{picture.drawing.title}, hand {part.hand}"


def _how_to_read(pattern: Pattern, part: HandPart) -> tuple[str, ...]:
    names = listed(tuple(column.name.split(" ")[0] for column in columns(part.design.braid)))
    lanes = (
        f"one lane for each side of the disk ({names}), clockwise from the foot up"
        if part.design.width > 1
        else "one lane"
    )
    said = [
        f"The chart is the skin of the rope, cut open along its length and laid flat: {lanes}. Row 1, the first one "
        f"braided, is at the "
        "left, as on the table; row numbers stand above. Each mark is one stitch, in the colour and with the symbol "
        "of the tray.",
        "You do not need the chart to braid: the strings put every bead in its place. Use it to check what you see.",
    ]
    if part.design.front is not None:
        said.append(
            "The front line runs where the side worn outward lies. Lanes of a real rope turn as it grows, so the "
            "front crosses them."
        )
    return tuple(said)


def _views(pattern: Pattern, part: HandPart) -> tuple[Block, ...]:
    """The rope from the front and the back, when its measures are known; of a long one, how it begins."""
    look = pattern.page.look()
    views = [prints(name, part.subject, look) for name in ("rope-front", "rope-back")]
    if not views[0]:
        return ()
    blocks: list[Block] = [Heading(text="The rope")]
    blocks += [Picture(drawing=view[0], caption=f"{view[0].drawing.title}, hand {part.hand}") for view in views if view]
    if len(views[0]) > 1:
        blocks.append(Paragraph(text="The rest of the rope is in the folder of pictures.", kind="note"))
    return tuple(blocks)


def _place(pattern: Pattern, part: HandPart) -> tuple[Block, ...]:
    blocks: list[Block] = [
        Heading(text="Keep your place"),
        Steps(items=pausing(part.design, is_beaded=pattern.is_beaded), numbered=False),
    ]
    if pattern.is_beaded:
        blocks.append(
            Paragraph(
                text="Row check: stop after these rows and compare. When the beads left on a cord differ, the "
                "mistake lies "
                "between this check and the one before. Slots are counted from where the cords stood when the first "
                "bead fell."
            )
        )
    blocks.append(row_check(pattern, part))
    return tuple(blocks)
