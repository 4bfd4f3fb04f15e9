"""seeing: everything a screen shows of a design, worked out together, by the formula or from its solved shape."""

from dataclasses import dataclass, replace

from braidwright.app.checks import Report, check
from braidwright.app.designs import Opened, decoded
from braidwright.app.pipeline import Worked, work_out
from braidwright.app.ports import Predictor
from braidwright.app.sizes import QUICK
from braidwright.catalogue.shelf import Catalogue
from braidwright.domain.design import Design
from braidwright.domain.document import read_design, write_design
from braidwright.domain.errors import RequestError

MOST_STITCHES = 100_000  # five metres of a rope of 24 cords: beyond that no screen could follow


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """A design as a screen shows it.

    Attributes:
        opened: The design and the catalogue it was read with.
        report: What a maker should know about it.
        worked: All that follows from it, or None while something in it is not known (see the faults of the report).
    """

    opened: Opened
    report: Report
    worked: Worked | None


def opened_text(text: str, catalogue: Catalogue) -> Opened:
    """A design from its text.

    Raises:
        BraidwrightError: It is no design: what is wrong, where, and what to do.
    """
    content = decoded(text.encode("utf-8", "backslashreplace"), "The design")
    return Opened(reading=read_design(content, catalogue.braid), catalogue=catalogue)


def written(opened: Opened) -> str:
    """The text of a design, as it would be saved."""
    # A lone half of a surrogate pair, in a field this program does not know, becomes the JSON escape it came from.
    return write_design(opened.reading.design).encode("utf-8", "backslashreplace").decode()


def written_with(opened: Opened, design: Design) -> str:
    """The text of another design that came of this one."""
    return written(replace(opened, reading=replace(opened.reading, design=design)))


def seen(opened: Opened, predictor: Predictor = QUICK) -> Seen:
    """Everything a screen shows of a design.

    Raises:
        RequestError: More stitches than a screen can follow.
    """
    check_extent(opened)
    report = check(opened, predictor)
    if not report.can_be_braided:
        return Seen(opened=opened, report=report, worked=None)
    return Seen(opened=opened, report=report, worked=work_out(opened.reading.design, opened.catalogue, predictor))


def check_extent(opened: Opened) -> None:
    """Refuse what no screen could follow.

    Raises:
        RequestError: Says how many stitches there are, and how many there may be.
    """
    design = opened.reading.design
    count = len(design.rows) * design.width
    if count > MOST_STITCHES:
        raise RequestError(
            f"The design has {count:,} stitches, and the studio shows at most {MOST_STITCHES:,}; "
            f"make it shorter, or use the command line."
        )
