"""braid_table: a braid from the fields of a file, and back.

The fields are the same in a braid file (TOML) and in a design that carries its braid (JSON).
"""

from braidwright.domain.braid import FEWEST_SLOTS, MOST_SLOTS, Braid, Hand, Move, find_shift
from braidwright.domain.errors import BraidError
from braidwright.domain.fields import Fields

MOST_MOVES = 4096
WORDS: tuple[str, ...] = ("japanese", "source", "sure", "notes")


def braid_from_table(
    table: object, *, name: str, where: str, unstated_hand: Hand | None = None
) -> tuple[Braid, tuple[str, ...]]:
    """The braid that a table of fields describes.

    Args:
        table: The fields, as a TOML or JSON reader gives them.
        name: The name to use when the table states none.
        where: What messages begin with: the file, or the place in it.
        unstated_hand: The hand of a braid that does not state one; None to read it from the turn of the
            pattern: clockwise S, anticlockwise Z, as in kongoh gumi, and Z when it does not turn.

    Returns:
        The braid, and a warning for each field that is not known.

    Raises:
        BraidError: A field is missing or wrong, or the braid cannot be worked.
    """
    fields = Fields(table, where, BraidError)
    called = fields.line("name") if fields.has("name") else name
    slots = fields.whole("slots", FEWEST_SLOTS, MOST_SLOTS)
    start = tuple(fields.check_whole("start", slot, 1, slots) for slot in fields.listing("start", MOST_SLOTS))
    listed = fields.listing("moves", MOST_MOVES)
    moves = tuple(_move(fields, number, move, slots) for number, move in enumerate(listed, 1))
    words = {word: fields.text(word) for word in WORDS if fields.has(word)}
    english = fields.line("english") if fields.has("english") else called
    try:
        shift = _stated_shift(fields, slots) if fields.has("shift") else _shift(called, slots, start, moves)
        hand = _hand(fields, unstated_hand, shift)
        braid = Braid(
            name=called,
            english=english,
            slots=slots,
            start=start,
            moves=moves,
            shift=shift,
            hand=hand,
            **words,
        )
    except BraidError as error:
        raise BraidError(fields.placed(error)) from error
    return braid, fields.strangers()


def braid_to_table(braid: Braid) -> dict[str, object]:
    """The fields of a braid, complete: reading them gives the same braid back."""
    table: dict[str, object] = {"name": braid.name}
    if braid.english != braid.name:
        table["english"] = braid.english
    words = {word: getattr(braid, word) for word in WORDS}
    table.update({word: text for word, text in words.items() if text})
    moves = [[move.take, move.put] + ([] if move.is_stitch else ["re-space"]) for move in braid.moves]
    return table | {
        "slots": braid.slots,
        "start": list(braid.start),
        "moves": moves,
        "shift": braid.shift,
        "hand": braid.hand,
    }


def _move(fields: Fields, number: int, value: object, slots: int) -> Move:
    where = f"move {number}"
    parts = value if isinstance(value, list) else []
    if len(parts) not in (2, 3):
        raise fields.fail(where, "it is not two slots", 'write [take, put], or [take, put, "re-space"]')
    take, put = (fields.check_whole(where, part, 1, slots) for part in parts[:2])
    if len(parts) == 2 or parts[2] == "move":
        return Move(take=take, put=put)
    if parts[2] != "re-space":
        raise fields.fail(where, "its third part is not known", 'leave it out, or write "re-space"')
    return Move(take=take, put=put, kind="re-space")


def _stated_shift(fields: Fields, slots: int) -> int:
    shift = fields.whole("shift", -slots, slots)
    if abs(shift) * 2 > slots:
        short = shift - slots if shift > 0 else shift + slots
        raise fields.fail("shift", f"{shift} of {slots} slots is more than half a turn", f"write {short}")
    return shift


def _shift(name: str, slots: int, start: tuple[int, ...], moves: tuple[Move, ...]) -> int:
    try:
        return find_shift(name, slots, start, moves)
    except BraidError:
        # When a single move is impossible, say that first: it is why the repeat does not come back. A repeat
        # that is worked and then undone always comes back, so only an impossible move can be refused here.
        undo = tuple(Move(take=move.put, put=move.take) for move in reversed(moves))
        Braid(name=name, english=name, slots=slots, start=start, moves=moves + undo, shift=0, hand="S")
        raise


def _hand(fields: Fields, unstated: Hand | None, shift: int) -> Hand:
    if fields.has("hand"):
        return "S" if fields.choice("hand", ("S", "Z")) == "S" else "Z"
    return unstated or ("S" if shift > 0 else "Z")
