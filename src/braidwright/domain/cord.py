"""Cord: what a braiding cord measures."""

from dataclasses import dataclass

from braidwright.domain.errors import CatalogueError


@dataclass(frozen=True, slots=True, kw_only=True)
class Cord:
    """One kind of cord.

    Attributes:
        name: Short name, unique in the catalogue, such as "tex-210".
        english: What a shop would call it.
        diameter_mm: Working diameter, unloaded; a calculated figure where calipers do not serve.
        tex: Grams per 1,000 m (ISO 1144), or None for cord sold by its width.
        sources: Pairs (figure, source or "from memory").
        sure: How sure, in words.
    """

    name: str
    english: str
    diameter_mm: float
    tex: float | None = None
    sources: tuple[tuple[str, str], ...] = ()
    sure: str = ""

    def __post_init__(self) -> None:
        """Refuse impossible figures."""
        if not 0.05 <= self.diameter_mm <= 10.0:
            raise CatalogueError(
                f"Cord {self.name}: a diameter of {self.diameter_mm} mm is not a braiding cord; give 0.05 to 10 mm."
            )
        if self.tex is not None and not 0.0 < self.tex < 20000.0:
            raise CatalogueError(f"Cord {self.name}: {self.tex} Tex is not a braiding cord; give 1 to 20000.")


@dataclass(frozen=True, slots=True, kw_only=True)
class EndCap:
    """One size of end cap.

    Attributes:
        name: Short name, unique in the catalogue, such as "cap-7".
        english: What a shop would call it.
        inside_mm: Inside diameter.
        adds_mm: Length one cap adds to the piece.
        sources: Pairs (figure, source or "from memory").
        sure: How sure, in words.
    """

    name: str
    english: str
    inside_mm: float
    adds_mm: float
    sources: tuple[tuple[str, str], ...] = ()
    sure: str = ""

    def __post_init__(self) -> None:
        """Refuse impossible figures."""
        if not 0.5 <= self.inside_mm <= 40.0:
            raise CatalogueError(
                f"End cap {self.name}: an inside of {self.inside_mm} mm is not one; give 0.5 to 40 mm."
            )
        if not 0.0 <= self.adds_mm <= 60.0:
            raise CatalogueError(f"End cap {self.name}: adding {self.adds_mm} mm is not one; give 0 to 60 mm.")


def tex_to_denier(tex: float) -> float:
    """Denier (g per 9,000 m) from Tex (g per 1,000 m). Source: ISO 1144, the definition of the Tex system."""
    return 9.0 * tex
