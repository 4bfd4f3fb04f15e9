"""cord_table: a cord or an end cap from the fields of a file, and back."""

from braidwright.domain.bead_table import read_sources
from braidwright.domain.cord import Cord, EndCap
from braidwright.domain.errors import CatalogueError
from braidwright.domain.fields import Fields


def cord_from_table(table: object, *, name: str, where: str) -> Cord:
    """The cord that a table of fields describes; fields that are not known are left alone.

    Args:
        table: The fields, as a TOML or JSON reader gives them; `tex` may be left out.
        name: The name to use when the table states none.
        where: What messages begin with: the file, or the place in it.

    Raises:
        CatalogueError: A field is missing or wrong.
    """
    return read_cord(Fields(table, where, CatalogueError), name)


def read_cord(fields: Fields, name: str) -> Cord:
    """The same from fields that are being read, so that the caller can ask what nobody knew."""
    called = fields.line("name") if fields.has("name") else name
    diameter_mm = fields.number("diameter_mm", 0.05, 10.0)
    tex = fields.number("tex", 0.1, 20000.0) if fields.has("tex") else None
    english = fields.line("english") if fields.has("english") else called
    sure = fields.text("sure") if fields.has("sure") else ""
    sources = read_sources(fields)
    try:
        return Cord(
            name=called, english=english, diameter_mm=diameter_mm, tex=tex, sources=sources, sure=sure
        )
    except CatalogueError as error:
        raise CatalogueError(fields.placed(error)) from error


def end_cap_from_table(table: object, *, name: str, where: str) -> EndCap:
    """The end cap that a table of fields describes; arguments and errors as in `cord_from_table`."""
    return read_end_cap(Fields(table, where, CatalogueError), name)


def read_end_cap(fields: Fields, name: str) -> EndCap:
    """The same from fields that are being read, so that the caller can ask what nobody knew."""
    called = fields.line("name") if fields.has("name") else name
    inside_mm = fields.number("inside_mm", 0.5, 40.0)
    adds_mm = fields.number("adds_mm", 0.0, 60.0)
    english = fields.line("english") if fields.has("english") else called
    sure = fields.text("sure") if fields.has("sure") else ""
    sources = read_sources(fields)
    try:
        return EndCap(
            name=called, english=english, inside_mm=inside_mm, adds_mm=adds_mm, sources=sources, sure=sure
        )
    except CatalogueError as error:
        raise CatalogueError(fields.placed(error)) from error


def cord_to_table(cord: Cord) -> dict[str, object]:
    """The fields of a cord, complete: reading them gives the same cord back."""
    sizes: dict[str, object] = {"diameter_mm": cord.diameter_mm}
    if cord.tex is not None:
        sizes["tex"] = cord.tex
    return _table(cord, sizes)


def end_cap_to_table(cap: EndCap) -> dict[str, object]:
    """The fields of an end cap, complete: reading them gives the same end cap back."""
    return _table(cap, {"inside_mm": cap.inside_mm, "adds_mm": cap.adds_mm})


def _table(thing: Cord | EndCap, sizes: dict[str, object]) -> dict[str, object]:
    table: dict[str, object] = {"name": thing.name}
    if thing.english != thing.name:
        table["english"] = thing.english
    table |= sizes
    if thing.sources:
        table["sources"] = dict(thing.sources)
    if thing.sure:
        table["sure"] = thing.sure
    return table
