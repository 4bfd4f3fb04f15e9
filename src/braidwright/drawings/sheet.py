"""sheet: what every sheet is given, and what it hands back."""

from collections.abc import Callable
from dataclasses import dataclass

from braidwright.domain.bead import Bead
from braidwright.domain.design import Design
from braidwright.domain.geometry import Geometry
from braidwright.domain.prediction import Prediction
from braidwright.domain.tray import BARE, TrayStack
from braidwright.drawings.pen import Drawing

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True, kw_only=True)
class Subject:
    """What is drawn: a design, with what others found out about it.

    Attributes:
        design: The design.
        beads: Pairs (tray key, bead) for every single bead of the tray; () when the measures are not known.
        cord_mm: Diameter of the cord.
        prediction: Measures of the rope, or None.
        geometry: Where every bead and cord lies, or None while it is not predicted.
        findings_mm: What caps and clasp add to the length of the closed piece, or None when nobody asked.
    """

    design: Design
    beads: tuple[tuple[str, Bead], ...] = ()
    cord_mm: float = 0.5
    prediction: Prediction | None = None
    geometry: Geometry | None = None
    findings_mm: float | None = None

    def bead(self, key: str) -> Bead | None:
        """The bead with this tray key, when its measures are known."""
        return dict(self.beads).get(key)

    def colour(self, key: str) -> str:
        """The colour of an entry of the tray; of a stack, that of its first bead."""
        entry = self.design.tray.get(key)
        return self.colour(entry.stack[0]) if isinstance(entry, TrayStack) else entry.colour

    def finish(self, key: str) -> str:
        """The finish of a single bead."""
        entry = self.design.tray.get(key)
        return "opaque" if isinstance(entry, TrayStack) else entry.finish or "opaque"

    def cord_letter(self, cord: int) -> str:
        """A letter for the colour of a cord, so that it is not told by colour only; "" while all cords are alike."""
        distinct = tuple(dict.fromkeys(self.design.cords.colours))
        if len(distinct) == 1:
            return ""
        index = distinct.index(self.design.cords.colour(cord))
        return LETTERS[index % len(LETTERS)] + ("" if index < len(LETTERS) else str(index // len(LETTERS) + 1))

    @property
    def drift_deg(self) -> float | None:
        """Turn of a column per row, when it is known."""
        return None if self.prediction is None else self.prediction.drift_deg

    @property
    def is_beaded(self) -> bool:
        """Whether any stitch drops a bead."""
        return any(key != BARE for key in self.design.drop_counts())


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """How much room there is.

    Attributes:
        width_mm: Width of the type area.
        height_mm: Most height of one drawing; what is longer goes on in a further drawing.
        text_scale: 1 for ordinary print, 1.5 for large print: text and symbols grow with it.
    """

    width_mm: float = 174.0
    height_mm: float = 235.0
    text_scale: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A member of the family of sheets.

    Attributes:
        name: Short name, as in file names.
        title: What it is, for headings and lists.
        draw: The drawings, in order; () when there is nothing true to draw (a rope that is not predicted yet).
    """

    name: str
    title: str
    draw: Callable[[Subject, Look], tuple[Drawing, ...]]
