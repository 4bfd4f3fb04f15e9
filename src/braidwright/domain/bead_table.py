"""bead_table: a bead from the fields of a file, and back."""

from typing import cast

from braidwright.domain.bead import OFF_CENTRE, SHAPES, Bead, Shape
from braidwright.domain.errors import CatalogueError
from braidwright.domain.table import as_table

FIGURES: tuple[str, ...] = ("diameter_mm", "length_mm", "hole_mm", "grams", "reach_mm")
BEAD_FIELDS: tuple[str, ...] = ("name", "english", "shape", *FIGURES, "sources", "sure")


def bead_from_table(table: object, *, name: str, where: str) -> Bead:
    """The bead that a table of fields describes.

    Args:
        table: The fields, as a TOML or JSON reader gives them. `reach_mm` may be left out for a bead whose
            hole is in its middle: it is then half the diameter. `sources` is a table: figure, and whence.
        name: The name to use when the table states none.
        where: What messages begin with: the file, or the place in it.

    Raises:
        CatalogueError: A field is missing or wrong. Unknown fields are left alone; see `bead_warnings`.
    """
    fields = as_table(table, where=where, error=CatalogueError)
    called = fields.line("name", name)
    fields.get("shape", BEAD_FIELDS)
    shape = cast(Shape, fields.choice("shape", SHAPES))
    size = {figure: fields.number(figure, BEAD_FIELDS) for figure in FIGURES[:-1]}
    if shape in OFF_CENTRE or fields.has("reach_mm"):
        size["reach_mm"] = fields.number("reach_mm", BEAD_FIELDS)
    else:
        size["reach_mm"] = size["diameter_mm"] / 2
    try:
        return Bead(
            name=called,
            english=fields.line("english", called),
            shape=shape,
            **size,
            sources=fields.lines("sources"),
            sure=fields.text("sure"),
        )
    except CatalogueError as error:
        raise CatalogueError(fields.placed(error)) from error


def bead_warnings(table: object, *, where: str) -> tuple[str, ...]:
    """A sentence for each field of a bead's table that is not known."""
    return as_table(table, where=where, error=CatalogueError).strangers(BEAD_FIELDS)


def bead_to_table(bead: Bead) -> dict[str, object]:
    """The fields of a bead, complete: reading them gives the same bead back."""
    table: dict[str, object] = {"name": bead.name}
    if bead.english != bead.name:
        table["english"] = bead.english
    table["shape"] = bead.shape
    table.update({figure: getattr(bead, figure) for figure in FIGURES[:-1]})
    if bead.stands_out or bead.reach_mm != bead.diameter_mm / 2:
        table["reach_mm"] = bead.reach_mm
    if bead.sources:
        table["sources"] = dict(bead.sources)
    if bead.sure:
        table["sure"] = bead.sure
    return table
