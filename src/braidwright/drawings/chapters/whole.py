"""whole: the manuscript of a pattern, chapter after chapter."""

from braidwright.drawings.chapters.beginning import before_you_begin
from braidwright.drawings.chapters.cover import cover
from braidwright.drawings.chapters.ending import about, cautions, finishing
from braidwright.drawings.chapters.mending import longer_or_shorter, when_something_is_wrong
from braidwright.drawings.chapters.needs import what_you_need
from braidwright.drawings.chapters.working import one_hand
from braidwright.drawings.manuscript import Manuscript
from braidwright.drawings.pattern import Pattern


def manuscript(pattern: Pattern) -> Manuscript:
    """The pattern written out, in the order of print."""
    design, braid = pattern.design, pattern.design.braid
    named = f"{braid.english}, {braid.japanese}" if braid.japanese else braid.english
    return Manuscript(
        title=design.title,
        author=design.author or "",
        subtitle=named[:1].upper() + named[1:],
        language=design.language or "en",
        chapters=(
            cover(pattern),
            before_you_begin(pattern),
            what_you_need(pattern),
            *(one_hand(pattern, part) for part in pattern.hands),
            when_something_is_wrong(pattern),
            longer_or_shorter(pattern),
            finishing(pattern),
            cautions(),
            about(pattern),
        ),
    )
