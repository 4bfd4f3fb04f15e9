"""Tray: the kinds of bead chosen for a design, each with a one-character key, a colour and a symbol."""

from dataclasses import dataclass
from typing import Literal, get_args

from braidwright.domain.bead import Bead
from braidwright.domain.errors import DesignError

Finish = Literal["opaque", "transparent", "silver-lined", "matte", "metallic", "rainbow", "pearl"]
FINISHES: tuple[str, ...] = get_args(Finish)
BARE = "."

# A symbol set of our own: each name says what is drawn, so the words can be read aloud.
SYMBOLS: tuple[str, ...] = (
    "dot", "ring", "triangle", "star", "diamond", "bar", "cross", "square", "half moon", "wave", "plus", "wedge",
    "target", "twin bars", "hourglass", "leaf", "arrow", "zigzag", "steps", "corner",
)  # fmt: skip

Extra = tuple[tuple[str, str], ...]  # name and JSON text of fields this program does not know


@dataclass(frozen=True, slots=True, kw_only=True)
class TrayBead:
    """One kind of bead in the tray.

    Attributes:
        key: One character, used in the rows.
        bead: Catalogue name, or the bead itself written into the design.
        colour: "#rrggbb".
        finish: One of FINISHES, or None for opaque.
        name: What the pattern calls it, or None to use the key.
        symbol: One of SYMBOLS, or None to take the next free one.
        price: Price of one gram, or None.
        bead_text: A bead written into the design, as JSON text, so that it is written back as it was read.
        extra: Fields of the file this program does not know, kept as JSON text.
    """

    key: str
    bead: str | Bead
    colour: str
    finish: Finish | None = None
    name: str | None = None
    symbol: str | None = None
    price: float | None = None
    bead_text: str | None = None
    extra: Extra = ()

    @property
    def bead_name(self) -> str:
        """The catalogue name of the bead, or the name it carries in the design."""
        return self.bead if isinstance(self.bead, str) else self.bead.name


@dataclass(frozen=True, slots=True, kw_only=True)
class TrayStack:
    """Several beads let fall in one drop.

    Attributes:
        key: One character, used in the rows.
        stack: Keys of the beads, in the order they are strung: the first falls first and lies nearest the braid.
        name: What the pattern calls it, or None.
        symbol: One of SYMBOLS, or None to take the next free one.
        extra: Fields of the file this program does not know, kept.
    """

    key: str
    stack: tuple[str, ...]
    name: str | None = None
    symbol: str | None = None
    extra: Extra = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Tray:
    """The kinds of bead chosen for a design, in the order the pattern lists them.

    Raises:
        DesignError: A key used twice, a stack of unknown or of further stacks, an unknown symbol.
    """

    entries: tuple[TrayBead | TrayStack, ...]

    def __post_init__(self) -> None:
        """Refuse a tray that contradicts itself."""
        keys = [entry.key for entry in self.entries]
        for entry in self.entries:
            if keys.count(entry.key) > 1:
                raise DesignError(
                    f"Tray: the key {entry.key!r} is used twice; give each kind of bead its own character."
                )
            if len(entry.key) != 1 or entry.key == BARE or not entry.key.isprintable() or entry.key.isspace():
                raise DesignError(
                    f"Tray: the key {entry.key!r} cannot be used in rows; use one visible character other than '.'."
                )
            if entry.symbol is not None and entry.symbol not in SYMBOLS:
                raise DesignError(
                    f"Tray, {entry.key!r}: the symbol {entry.symbol!r} is not known; use one of {', '.join(SYMBOLS)}."
                )
            if isinstance(entry, TrayStack):
                self._check_stack(entry)

    def _check_stack(self, entry: TrayStack) -> None:
        beads = {other.key for other in self.entries if isinstance(other, TrayBead)}
        if not entry.stack:
            raise DesignError(
                f"Tray, {entry.key!r}: the stack is empty; list at least one bead, or use '.' in the rows."
            )
        for key in entry.stack:
            if key not in beads:
                raise DesignError(
                    f"Tray, {entry.key!r}: the stack names {key!r}, which is not a bead of the tray; "
                    f"add that bead or correct the key (a stack cannot hold a stack)."
                )

    @property
    def keys(self) -> tuple[str, ...]:
        """Every key, beads and stacks."""
        return tuple(entry.key for entry in self.entries)

    @property
    def beads(self) -> tuple[TrayBead, ...]:
        """The single beads, in order."""
        return tuple(entry for entry in self.entries if isinstance(entry, TrayBead))

    def get(self, key: str) -> TrayBead | TrayStack:
        """The entry with this key.

        Raises:
            DesignError: No such key.
        """
        for entry in self.entries:
            if entry.key == key:
                return entry
        raise DesignError(f"The tray has no {key!r}; it has {', '.join(self.keys) or 'nothing yet'}.")

    def beads_of(self, key: str) -> tuple[str, ...]:
        """The keys of the single beads one drop lets fall: none for a bare stitch, several for a stack."""
        if key == BARE:
            return ()
        entry = self.get(key)
        return entry.stack if isinstance(entry, TrayStack) else (key,)

    def name_of(self, key: str) -> str:
        """What words and lists call this entry."""
        if key == BARE:
            return "bare"
        entry = self.get(key)
        if entry.name:
            return entry.name
        if isinstance(entry, TrayStack):
            return "stack of " + ", ".join(self.name_of(bead) for bead in entry.stack)
        return entry.key

    def symbol_of(self, key: str) -> str:
        """The symbol of this entry: its own, or the first free one in tray order."""
        taken = {entry.symbol for entry in self.entries if entry.symbol}
        free = iter([symbol for symbol in SYMBOLS if symbol not in taken])
        for entry in self.entries:
            symbol = entry.symbol or next(free, SYMBOLS[-1])
            if entry.key == key:
                return symbol
        raise DesignError(f"The tray has no {key!r}; it has {', '.join(self.keys)}.")
