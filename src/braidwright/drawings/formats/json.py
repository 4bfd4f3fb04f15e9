"""json: the design file itself, so that a pattern can be opened, changed and published again."""

from braidwright.drawings.format import Format, Written
from braidwright.drawings.pattern import Pattern


def write(pattern: Pattern) -> Written:
    """The design file as its maker saved it."""
    return Written(files=(("design.json", pattern.document.encode("utf-8", "surrogatepass")),))


FORMAT = Format(
    name="json",
    title="Saving the design",
    note="The design itself, to open, change and publish again.",
    weight=0.01,
    write=write,
)
