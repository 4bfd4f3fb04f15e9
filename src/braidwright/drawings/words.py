"""words: the pattern said in plain English, for print, for screen readers and for text files."""

from dataclasses import dataclass

from braidwright.domain.braid import Braid, Move, turn
from braidwright.domain.chart import WINDS_8
from braidwright.domain.design import Design
from braidwright.domain.strings import String, in_words, runs
from braidwright.domain.tray import BARE, TrayStack
from braidwright.domain.twist import HANGING
from braidwright.domain.walk import walk
from braidwright.drawings.sheet import Subject

WIND_WORDS = {
    "N": "north", "NE": "north-east", "E": "east", "SE": "south-east",
    "S": "south", "SW": "south-west", "W": "west", "NW": "north-west",
}  # fmt: skip
SHAPE_WORDS = {
    "long-magatama": "long magatama", "pressed-round": "pressed round", "fire-polished": "fire-polished round",
}  # fmt: skip

LEFT_AND_RIGHT = (
    "Left and right are as you see them with the named side of the disk turned to the top; "
    "seen that way, right of a slot is always the next higher number."
)

FAR_SLOTS = 3  # a neighbour farther away than this is no help in finding a slot


def listed(words: tuple[str, ...]) -> str:
    """Words as a list: "a", "a and b", "a, b and c"."""
    if len(words) < 2:
        return "".join(words)
    return ", ".join(words[:-1]) + " and " + words[-1]


def counted(count: int, one: str, many: str = "") -> str:
    """A number with its noun: "1 row", "2 rows"."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def side(braid: Braid, slot: int) -> str:
    """The side of the disk a slot stands at: "north", "north-east" and so on."""
    return WIND_WORDS[WINDS_8[round(braid.angle(slot) / 45.0) % 8]]


# --- the moves ---------------------------------------------------------------------------------------


def move_sentences(design: Design) -> tuple[str, ...]:
    """One sentence for each move of the first repeat, in working order, without numbers in front."""
    braid = design.braid
    is_beaded = any(key != BARE for key in design.drop_counts())
    held = set(braid.start)
    sentences = []
    for move in braid.moves:
        sentences.append(_sentence(braid, move, frozenset(held), is_beaded))
        held.remove(move.take)
        held.add(move.put)
    return tuple(sentences)


def _sentence(braid: Braid, move: Move, held: frozenset[int], is_beaded: bool) -> str:
    rest = held - {move.take}
    if not move.is_stitch:
        return (
            f"Tidy: slide {_which(braid, move.take, held)} along the rim to slot {move.put}; "
            f"it crosses nothing{' and no bead falls' if is_beaded else ''}."
        )
    falls = "let its next bead fall, " if is_beaded else ""
    return (
        f"{side(braid, move.take).capitalize()}: lift {_which(braid, move.take, held)}, {falls}"
        f"carry it {_way(braid, move, rest)} and lay it in slot {move.put} at the {side(braid, move.put)}, "
        f"{landing(braid, move.put, rest)}."
    )


def _which(braid: Braid, slot: int, held: frozenset[int]) -> str:
    """The cord in a slot, by its place among close neighbours where it has them."""
    before, after = _neighbours(braid, slot, held, -1), _neighbours(braid, slot, held, 1)
    places = {
        (0, 1): "left cord of the pair", (1, 0): "right cord of the pair",
        (0, 2): "left cord of the three", (1, 1): "middle cord of the three", (2, 0): "right cord of the three",
    }  # fmt: skip
    if (before, after) in places:
        return f"the {places[before, after]} (slot {slot})"
    return f"the cord in slot {slot}"


def _neighbours(braid: Braid, slot: int, held: frozenset[int], way: int) -> int:
    """How many cords follow without a gap, going one way from a slot."""
    count = 0
    while count < braid.slots and turn(slot, way * (count + 1), braid.slots) in held:
        count += 1
    return count


def _way(braid: Braid, move: Move, rest: frozenset[int]) -> str:
    """How it travels: over the one or two cords between, or across the middle over them all."""
    ahead = (move.put - move.take) % braid.slots
    span = min(ahead, braid.slots - ahead)
    if 4 * span > braid.slots:
        return "across the middle"
    step = 1 if ahead == span else -1
    between = tuple(slot for n in range(1, span) if (slot := turn(move.take, step * n, braid.slots)) in rest)
    way = "clockwise" if step == 1 else "anticlockwise"
    if not between:
        return f"{way} inside the rim"
    noun = "cord in slot" if len(between) == 1 else "cords in slots"
    return f"{way} over the {noun} {listed(tuple(str(slot) for slot in between))}"


def landing(braid: Braid, slot: int, held: frozenset[int]) -> str:
    """Where a slot is, told by the cords beside it."""
    left, right = (turn(slot, by, braid.slots) for by in (-1, 1))
    if left in held and right in held:
        return f"between the cords in slots {left} and {right}"
    if left in held:
        return f"just right of the cord in slot {left}"
    if right in held:
        return f"just left of the cord in slot {right}"
    for far in range(2, FAR_SLOTS + 1):
        for by, word in ((-far, "right"), (far, "left")):
            if turn(slot, by, braid.slots) in held:
                return f"{far} slots {word} of the cord in slot {turn(slot, by, braid.slots)}"
    return "with no other cord beside it"


def turn_sentence(braid: Braid) -> str:
    """What has changed after one repeat, so that the same sentences serve for the next."""
    again = walk(braid).repeats_same_slots
    whole = f"After {counted(again, 'repeat')} every cord is back in the slot it started from"
    if braid.shift == 0:
        same = "begin again with the same numbers" if again > 1 else "begin again"
        return f"After this repeat the cords lie in the same slots as at the start: {same}. {whole}."
    by, slots = abs(braid.shift), braid.slots
    if braid.shift > 0:
        change = (
            f"add {by} to every number; where that gives more than {slots}, take away {slots} ({slots + 1} means 1)"
        )
        way = "clockwise"
    else:
        change = f"take {by} from every number; where that gives less than 1, add {slots} (0 means {slots})"
        way = "anticlockwise"
    turned = f"After this repeat the pattern has turned by {counted(by, 'slot')} {way}."
    return f"{turned} For the next repeat, {change}. {whole}."


# --- setting up --------------------------------------------------------------------------------------


def set_up_sentences(design: Design) -> tuple[str, ...]:
    """How to put the strung cords on the disk, one sentence each."""
    braid = design.braid
    start = listed(tuple(str(slot) for slot in sorted(braid.start, key=lambda slot: braid.angle(slot))))
    sentences = [
        f"Hold the disk with north at the top; the slots are numbered clockwise from the first one right of north, "
        f"1 to {braid.slots}.",
        f"Knot the {braid.cord_count} cords together, put the knot through the middle, "
        f"and lay the cords in slots {start}.",
    ]
    if design.cords.core is not None:  # common practice, no source
        sentences.append(
            "Tie the core cord into the knot and keep its free end standing up in the middle of the disk, "
            "so that every cord is laid round it."
        )
    if any(key != BARE for key in design.drop_counts()):
        sentences.append(
            "Give each slot the string listed for it; the first bead listed is the first to fall, "
            "so it hangs nearest the disk."
        )
    if design.lead_in > 0:
        sentences.append(lead_in_sentence(design))
    sentences.append("Hang a weight from the knot and keep it the same to the end.")
    if design.twist == HANGING:
        sentences.append("Let the braid hang free, so that it may turn while it grows.")
    return tuple(sentences)


def lead_in_sentence(design: Design) -> str:
    """How to braid the bare beginning so that every cord is back in its own place when the first row begins."""
    braid = design.braid
    home = walk(braid).repeats_home
    first = "the first bead falls" if any(key != BARE for key in design.drop_counts()) else "row 1 begins"
    turned = braid.shift * home % braid.slots
    if turned > braid.slots / 2:
        turned -= braid.slots
    by, way = counted(abs(turned), "slot"), "clockwise" if turned > 0 else "anticlockwise"
    change = f"add {turned} to" if turned > 0 else f"take {-turned} from"
    then = (
        f"; only the pattern has turned, {by} {way} for each group, so {change} every number for each" if turned else ""
    )
    groups = "whole repeat" if home == 1 else f"whole group of {home} repeats"
    return (
        f"Before {first}, braid about {design.lead_in:.0f} mm of bare cord with the same moves. "
        f"Stop at the end of a {groups}: then every cord stands in its own place again{then}."
    )


# --- strings and tray --------------------------------------------------------------------------------


def string_words(design: Design, string: String) -> str:
    """The beads of one cord in stringing order: equal neighbours counted together, repeated groups said once."""
    beaded = tuple(key for key in string.drops if key != BARE)
    return in_words(beaded, lambda key: _drop_name(design, key))


def _drop_name(design: Design, key: str) -> str:
    entry = design.tray.get(key)
    if not isinstance(entry, TrayStack):
        return design.tray.name_of(key)
    inside = ", ".join(f"{count} {design.tray.name_of(bead)}" for count, bead in runs(entry.stack))
    return f"stack ({inside})"


def bead_words(subject: Subject, key: str) -> str:
    """What kind of bead an entry of the tray is: shape, measures, finish; for a stack, what falls together."""
    entry = subject.design.tray.get(key)
    if isinstance(entry, TrayStack):
        inside = listed(tuple(f"{count} {subject.design.tray.name_of(one)}" for count, one in runs(entry.stack)))
        return f"falls together: {inside}, in this order"
    bead = subject.bead(key)
    finish = f", {entry.finish}" if entry.finish else ""
    if bead is None:
        return f"{entry.bead_name}{finish}"
    size = f"{bead.diameter_mm:.1f} mm across, {bead.length_mm:.1f} mm along the hole"
    return f"{bead.english or SHAPE_WORDS.get(bead.shape, bead.shape)}, {size}{finish}"


# --- finishing and cautions -----------------------------------------------------------------------------


def finishing_steps(design: Design, *, end_cap: str = "", clasp: str = "") -> tuple[str, ...]:
    """How to close the piece, one step to a sentence. Common practice, no source.

    Args:
        design: The design.
        end_cap: What the pattern calls the end cap, or "" for "the end cap".
        clasp: What the pattern calls the clasp, or "" for "the clasp".
    """
    cap, closing = end_cap or "the end cap", clasp or "the clasp"
    last = "last bead" if any(key != BARE for key in design.drop_counts()) else "last row"
    steps = [
        f"Braid {design.lead_out:.0f} mm of bare cord after the {last}, with the same moves.",
        "Lift the cords from the disk together and knot them loosely, so that the braid cannot open.",
        f"Bind the bare braid tightly with thread close to the {last}, knot the thread, "
        "and put a little glue on the binding.",
        "When the glue is dry, trim the ends so that the bare braid fits the depth of the cap; "
        "do the same at the beginning.",
        f"Try {cap} dry: it should cover the binding and meet the rope without a gap.",
        "Mix the glue as its label says, put a little inside the cap, push the end in with a turn, "
        "and wipe off what comes out.",
        f"Let it cure as long as the label says before you pull on it or wear it; then fit {closing}.",
        "Measure and weigh the piece, and write both on the pattern beside the prediction.",
    ]
    return tuple(steps)


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """One thing that can hurt.

    Attributes:
        title: What it is about.
        text: What to do.
    """

    title: str
    text: str


# Source: product.md, Cautions; trade-facts, 6 (breaking a bead [P9]) and 8 (magnets: keep 15 cm away, A; glass: A; the
# rest from memory).
CAUTIONS: tuple[Caution, ...] = (
    Caution(
        title="Broken glass",
        text="Break a bead off only as a last resort: wear eye protection, cover it with a cloth, press an awl into "
        "its hole so that it bursts outward, and never squeeze it over the cord. Sweep up every splinter, and check "
        "that the broken edge has not cut the cord.",
    ),
    Caution(
        title="Glue",
        text="Work with fresh air, wear gloves, keep glue off the skin, and do what its label says about curing.",
    ),
    Caution(
        title="Flame",
        text="Seal only nylon ends with a flame, never rayon; work away from your face, hair and sleeves, "
        "with water at hand.",
    ),
    Caution(
        title="Magnets",
        text="Keep a magnetic clasp at least 15 cm from a pacemaker or other implanted device, and never use one on "
        "a piece for a child: swallowed magnets injure.",
    ),
    Caution(title="Small parts", text="Beads and findings are small parts: not for children under 3 years."),
    Caution(title="Necklaces for children", text="Use a clasp that breaks away under a pull."),
    Caution(
        title="Nickel",
        text="Clasps and end caps lie against the skin for hours: choose findings sold as meeting the nickel limits "
        "of your country.",
    ),
)

DEFER = "The labels of the products you use and the rules of your country come before anything written here."
