"""cover: the facts of the first page say how much to give or take."""

from dataclasses import replace

from braidwright.drawings.chapters.cover import cover
from braidwright.drawings.manuscript import Facts
from braidwright.drawings.pattern import Pattern
from packs import pattern


def told(subject: Pattern) -> dict[str, str]:
    (facts,) = (block for block in cover(subject).blocks if isinstance(block, Facts))
    return {fact.name: fact.value.replace("\u00a0", " ") for fact in facts.facts}


def test_the_facts_give_or_take() -> None:
    subject = pattern()
    sure = replace(subject.size, length_mm=160.0, length_error_mm=4.2, diameter_mm=7.0, diameter_error_mm=0.3)
    facts = told(replace(subject, size=replace(sure, across_accents_mm=7.0)))
    assert facts["Length of the rows"].endswith("), give or take 4 mm")
    assert facts["Thickness"] == "7.0 mm, give or take 0.3 mm"
    facts = told(replace(subject, size=replace(sure, across_accents_mm=9.0)))
    assert facts["Thickness"] == "7.0 mm, give or take 0.3 mm; 9.0 mm at the accents"


def test_where_it_is_not_known_nothing_is_given_or_taken() -> None:
    subject = pattern()
    unsure = replace(subject.size, length_error_mm=None, diameter_error_mm=None)
    assert "give or take" not in " ".join(told(replace(subject, size=unsure)).values())
