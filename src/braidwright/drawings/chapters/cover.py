"""cover: what the piece is, at a glance."""

from braidwright.domain.fit import BRACELET_WRISTS_MM
from braidwright.domain.strings import bead_counts
from braidwright.domain.units import give_or_take
from braidwright.drawings.chapters.figures import NOT_YET, RESTS_ON, grams, length, lengths_between, unbroken
from braidwright.drawings.manuscript import Block, Chapter, Fact, Facts, Paragraph, Picture
from braidwright.drawings.pattern import Pattern
from braidwright.drawings.prints import prints

# Moves a minute for practised hands (trade-facts, 4.7, derived from published project times); learners take double.
LONGEST_WHOLE_MM = 300.0  # a longer rope is too thin to be seen when it is fitted to the page
WORN_SHARE, WORN_SHARE_LARGE = 0.4, 0.5  # of the height of the page: picture, story and facts share it
SLOW_MOVES, QUICK_MOVES = 10.0, 15.0


def cover(pattern: Pattern) -> Chapter:
    """The first page: picture, story, facts."""
    design = pattern.design
    blocks: list[Block] = []
    blocks += _picture(pattern)
    if design.story:
        blocks += [Paragraph(text=text, kind="maker") for text in paragraphs(design.story)]
    blocks.append(Facts(facts=_facts(pattern)))
    return Chapter(key="cover", title=design.title, blocks=tuple(blocks))


def _picture(pattern: Pattern) -> list[Block]:
    """The whole rope, and a bracelet as worn; of a long rope, how it begins; of one not predicted, the chart."""
    subject, page = pattern.own.subject, pattern.page
    if (pattern.size.length_mm or 0.0) > LONGEST_WHOLE_MM:
        begins = prints("rope-front", subject, page.look(height_share=0.2))
        if begins:
            return [Picture(drawing=begins[0], caption="How the rope begins, seen from the front")]
    found = prints("rope-whole", subject, page.look()) or prints("flat-chart", subject, page.look())
    share = WORN_SHARE_LARGE if page.large_print else WORN_SHARE
    worn = prints("rope-worn", subject, page.look(height_share=share))
    return [Picture(drawing=each) for each in (*found[:1], *worn)]


def paragraphs(text: str) -> tuple[str, ...]:
    """The paragraphs of a longer text: an empty line parts them, a single line break does not."""
    parts = text.replace("\r\n", "\n").replace("\r", "\n").split("\n\n")
    return tuple(" ".join(part.split()) for part in parts if part.strip())


def _facts(pattern: Pattern) -> tuple[Fact, ...]:
    design, size = pattern.design, pattern.size
    rests = RESTS_ON[size.basis]
    beads = sum(bead_counts(design).values())
    hands = " and ".join(part.hand for part in pattern.hands)
    facts = [
        Fact(
            name="Length of the rows",
            value=length(size.length_mm) + unbroken(give_or_take(size.length_error_mm)),
            rests_on=rests,
        ),
        Fact(name="Thickness", value=_thickness(pattern), rests_on=rests),
        _worn_by(pattern),
        _weight(pattern),
        Fact(name="Rows", value=f"{len(design.rows)} of {design.width} {'stitches' if design.width > 1 else 'stitch'}"),
        Fact(name="Beads", value=f"{beads:,}".replace(",", "\u202f") if beads else "none: the cords make the pattern"),
        Fact(name="Cords", value=f"{design.braid.cord_count}, {pattern.cord.english}"),
        Fact(name="Hands", value=f"{hands}, each complete" if len(pattern.hands) > 1 else f"{hands} only"),
        Fact(name="For whom", value=design.skill) if design.skill else None,
        Fact(name="Time at the disk", value=_time(pattern), rests_on="for practised hands; learners take double"),
    ]
    return tuple(fact for fact in facts if fact is not None)


def _thickness(pattern: Pattern) -> str:
    size = pattern.size
    wide = size.across_accents_mm
    if size.diameter_mm is None:
        return NOT_YET
    across = f"{size.diameter_mm:.1f} mm{give_or_take(size.diameter_error_mm, 1)}"
    if wide is not None and wide > size.diameter_mm + 0.5:
        return f"{across}; {wide:.1f} mm at the accents"
    return across


def _worn_by(pattern: Pattern) -> Fact | None:
    """For a bracelet's length only: nobody wears a necklace round the wrist."""
    fit = pattern.worn_by
    least, most = BRACELET_WRISTS_MM
    if fit is None or not least <= fit.comfort_mm <= most:
        return None
    return Fact(
        name="Fits a wrist of",
        value=lengths_between(fit.smallest_mm, fit.largest_mm),
        rests_on=f"loose to tight; comfortable at {length(fit.comfort_mm)}",
    )


def _weight(pattern: Pattern) -> Fact | None:
    size = pattern.size
    if size.weight_g is None:
        return None
    without = "findings" if pattern.cord.tex is not None and size.cord_used_mm is not None else "cord and findings"
    return Fact(name="Weight", value=grams(size.weight_g), rests_on=f"without {without}")


def _time(pattern: Pattern) -> str:
    moves = len(pattern.design.rows) * len(pattern.design.braid.moves)
    quick, slow = moves / QUICK_MOVES, moves / SLOW_MOVES
    if slow < 90.0:
        return f"{_fives(quick)} to {max(_fives(slow), _fives(quick) + 5)} minutes"
    return f"{quick / 60.0:.1f} to {slow / 60.0:.1f} hours"


def _fives(minutes: float) -> int:
    return max(5, 5 * round(minutes / 5.0))
