"""bead_table: a bead from the fields of a file, and back."""

from typing import cast

from braidwright.domain.bead import OFF_CENTRE, SHAPES, Bead, Shape
from braidwright.domain.errors import CatalogueError
from braidwright.domain.fields import Fields

FIGURES: tuple[str, ...] = ("diameter_mm", "length_mm", "hole_mm", "grams")
MOST_SOURCES = 40


def bead_from_table(table: object, *, name: str, where: str) -> Bead:
    """The bead that a table of fields describes; fields that are not known are left alone.

    Args:
        table: The fields, as a TOML or JSON reader gives them. `reach_mm` may be left out for a bead whose hole
            is in its middle: it is then half the diameter. `sources` is a table: figure, and where it is from.
        name: The name to use when the table states none.
        where: What messages begin with: the file, or the place in it.

    Raises:
        CatalogueError: A field is missing or wrong.
    """
    return read_bead(Fields(table, where, CatalogueError), name)


def read_bead(fields: Fields, name: str) -> Bead:
    """The same from fields that are being read, so that the caller can ask what nobody knew."""
    called = fields.line("name") if fields.has("name") else name
    shape = cast(Shape, fields.choice("shape", SHAPES))
    size = {figure: fields.number(figure, 0.0, 100.0) for figure in FIGURES}
    if shape in OFF_CENTRE or fields.has("reach_mm"):
        size["reach_mm"] = fields.number("reach_mm", 0.0, 100.0)
    else:
        size["reach_mm"] = size["diameter_mm"] / 2
    english = fields.line("english") if fields.has("english") else called
    sure = fields.text("sure") if fields.has("sure") else ""
    try:
        return Bead(
            name=called, english=english, shape=shape, sources=read_sources(fields), sure=sure, **size
        )
    except CatalogueError as error:
        raise CatalogueError(fields.placed(error)) from error


def read_sources(fields: Fields) -> tuple[tuple[str, str], ...]:
    """The `sources` of a bead, cord or end cap: figure and source, in the order of the file."""
    if not fields.has("sources"):
        return ()
    inner = Fields(fields.raw("sources"), f"{fields.where}, sources", fields.error)
    if len(inner.table) > MOST_SOURCES:
        raise fields.fail("sources", f"it has {len(inner.table)} entries", f"use at most {MOST_SOURCES}")
    return tuple((figure, inner.text(figure)) for figure in inner.table)


def bead_to_table(bead: Bead) -> dict[str, object]:
    """The fields of a bead, complete: reading them gives the same bead back."""
    table: dict[str, object] = {"name": bead.name}
    if bead.english != bead.name:
        table["english"] = bead.english
    table["shape"] = bead.shape
    table.update({figure: getattr(bead, figure) for figure in FIGURES})
    if bead.stands_out or bead.reach_mm != bead.diameter_mm / 2:
        table["reach_mm"] = bead.reach_mm
    if bead.sources:
        table["sources"] = dict(bead.sources)
    if bead.sure:
        table["sure"] = bead.sure
    return table
