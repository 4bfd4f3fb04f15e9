"""braid_table: a braid from the fields of a file, and back.

The fields are the same in a braid file (TOML) and in a design that carries its braid (JSON).
"""

from braidwright.domain.braid import FEWEST_SLOTS, MOST_SLOTS, Braid, Hand, Move, find_shift
from braidwright.domain.errors import BraidError
from braidwright.domain.table import Table, as_table, shown

BRAID_FIELDS: tuple[str, ...] = (
    "name", "english", "japanese", "source", "sure", "notes", "slots", "start", "moves", "shift", "hand",
)  # fmt: skip
MOST_MOVES = 4096
HOW_A_MOVE_IS_WRITTEN = 'write [take, put], or [take, put, "re-space"]'


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
    fields = as_table(table, where=where, error=BraidError)
    called = fields.line("name", name)
    slots = _slots(fields)
    start = tuple(fields.as_whole("start", slot) for slot in fields.items("start", BRAID_FIELDS, MOST_SLOTS))
    moves = tuple(
        _move(fields, number, move) for number, move in enumerate(fields.items("moves", BRAID_FIELDS, MOST_MOVES), 1)
    )
    try:
        shift = _stated_shift(fields, slots) if fields.has("shift") else _shift(called, slots, start, moves)
        braid = Braid(
            name=called,
            english=fields.line("english", called),
            japanese=fields.text("japanese"),
            source=fields.text("source"),
            sure=fields.text("sure"),
            notes=fields.text("notes"),
            slots=slots,
            start=start,
            moves=moves,
            shift=shift,
            hand=_hand(fields, unstated_hand, shift),
        )
    except BraidError as error:
        raise BraidError(fields.placed(error)) from error
    return braid, fields.strangers(BRAID_FIELDS)


def braid_to_table(braid: Braid) -> dict[str, object]:
    """The fields of a braid, complete: reading them gives the same braid back."""
    table: dict[str, object] = {"name": braid.name}
    if braid.english != braid.name:
        table["english"] = braid.english
    words = {field: getattr(braid, field) for field in ("japanese", "source", "sure", "notes")}
    table.update({field: word for field, word in words.items() if word})
    moves = [[move.take, move.put] + (["re-space"] if not move.is_stitch else []) for move in braid.moves]
    return table | {
        "slots": braid.slots,
        "start": list(braid.start),
        "moves": moves,
        "shift": braid.shift,
        "hand": braid.hand,
    }


def _slots(fields: Table) -> int:
    slots = fields.whole("slots", BRAID_FIELDS)
    if not FEWEST_SLOTS <= slots <= MOST_SLOTS:
        raise fields.fault("slots", f"{slots} was found; use a disk of {FEWEST_SLOTS} to {MOST_SLOTS} slots.")
    return slots


def _move(fields: Table, number: int, value: object) -> Move:
    where = f"move {number}"
    parts = fields.as_items(where, value)
    if len(parts) not in (2, 3):
        raise fields.fault(where, f"it has {len(parts)} parts; {HOW_A_MOVE_IS_WRITTEN}.")
    take, put = (fields.as_whole(where, part) for part in parts[:2])
    if len(parts) == 2 or parts[2] == "move":
        return Move(take=take, put=put)
    if parts[2] != "re-space":
        raise fields.fault(where, f"{shown(parts[2])} was found; {HOW_A_MOVE_IS_WRITTEN}.")
    return Move(take=take, put=put, kind="re-space")


def _stated_shift(fields: Table, slots: int) -> int:
    shift = fields.whole("shift")
    if abs(shift) * 2 > slots:
        short = (shift + slots // 2) % slots - slots // 2
        raise fields.fault(
            "shift", f"{shift} is more than half a turn on {slots} slots; write it the short way, {short}."
        )
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


def _hand(fields: Table, unstated: Hand | None, shift: int) -> Hand:
    if fields.has("hand"):
        return "S" if fields.choice("hand", ("S", "Z")) == "S" else "Z"
    return unstated or ("S" if shift > 0 else "Z")
