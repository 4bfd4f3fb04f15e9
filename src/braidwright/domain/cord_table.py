"""cord_table: a cord or an end cap from the fields of a file, and back."""

from braidwright.domain.cord import Cord, EndCap
from braidwright.domain.errors import CatalogueError
from braidwright.domain.table import as_table

CORD_FIELDS: tuple[str, ...] = ("name", "english", "diameter_mm", "tex", "sources", "sure")
END_CAP_FIELDS: tuple[str, ...] = ("name", "english", "inside_mm", "adds_mm", "sources", "sure")


def cord_from_table(table: object, *, name: str, where: str) -> Cord:
    """The cord that a table of fields describes.

    Args:
        table: The fields, as a TOML or JSON reader gives them; `tex` may be left out.
        name: The name to use when the table states none.
        where: What messages begin with: the file, or the place in it.

    Raises:
        CatalogueError: A field is missing or wrong. Unknown fields are left alone; see `cord_warnings`.
    """
    fields = as_table(table, where=where, error=CatalogueError)
    called = fields.line("name", name)
    diameter_mm = fields.number("diameter_mm", CORD_FIELDS)
    try:
        return Cord(
            name=called,
            english=fields.line("english", called),
            diameter_mm=diameter_mm,
            tex=fields.number("tex") if fields.has("tex") else None,
            sources=fields.lines("sources"),
            sure=fields.text("sure"),
        )
    except CatalogueError as error:
        raise CatalogueError(fields.placed(error)) from error


def end_cap_from_table(table: object, *, name: str, where: str) -> EndCap:
    """The end cap that a table of fields describes; arguments and errors as in `cord_from_table`."""
    fields = as_table(table, where=where, error=CatalogueError)
    called = fields.line("name", name)
    inside_mm = fields.number("inside_mm", END_CAP_FIELDS)
    try:
        return EndCap(
            name=called,
            english=fields.line("english", called),
            inside_mm=inside_mm,
            adds_mm=fields.number("adds_mm", END_CAP_FIELDS),
            sources=fields.lines("sources"),
            sure=fields.text("sure"),
        )
    except CatalogueError as error:
        raise CatalogueError(fields.placed(error)) from error


def cord_warnings(table: object, *, where: str) -> tuple[str, ...]:
    """A sentence for each field of a cord's table that is not known."""
    return as_table(table, where=where, error=CatalogueError).strangers(CORD_FIELDS)


def end_cap_warnings(table: object, *, where: str) -> tuple[str, ...]:
    """A sentence for each field of an end cap's table that is not known."""
    return as_table(table, where=where, error=CatalogueError).strangers(END_CAP_FIELDS)


def cord_to_table(cord: Cord) -> dict[str, object]:
    """The fields of a cord, complete: reading them gives the same cord back."""
    table: dict[str, object] = {"name": cord.name}
    if cord.english != cord.name:
        table["english"] = cord.english
    table["diameter_mm"] = cord.diameter_mm
    if cord.tex is not None:
        table["tex"] = cord.tex
    if cord.sources:
        table["sources"] = dict(cord.sources)
    if cord.sure:
        table["sure"] = cord.sure
    return table


def end_cap_to_table(cap: EndCap) -> dict[str, object]:
    """The fields of an end cap, complete: reading them gives the same end cap back."""
    table: dict[str, object] = {"name": cap.name}
    if cap.english != cap.name:
        table["english"] = cap.english
    table |= {"inside_mm": cap.inside_mm, "adds_mm": cap.adds_mm}
    if cap.sources:
        table["sources"] = dict(cap.sources)
    if cap.sure:
        table["sure"] = cap.sure
    return table
