"""Swatches: those that count for a design, what they tell together, and the prediction corrected by them.

Errors of one reading (common practice, no source): a length is read to 1 mm at both ends, and the tension of one maker
differs by 2 % from piece to piece; a diameter is read to 0.3 mm, a full turn to half a row, the cord used to 10 mm.
All are standard errors: about two readings in three lie within them.
"""

from dataclasses import dataclass, replace
from math import hypot, sqrt
from statistics import median

from braidwright.domain.bead import Bead
from braidwright.domain.combine import Combined, Reading, combine
from braidwright.domain.cord import Cord
from braidwright.domain.design import Design
from braidwright.domain.prediction import Prediction, Spread
from braidwright.domain.strings import bead_counts
from braidwright.domain.swatch import ACROSS_SLIPS, LENGTH_SLIPS, Slips, Swatch, check, slip_of

END_MM = 1.0  # reading of a ruler, at each end
TENSION = 0.02  # of the length: one maker's pieces differ by as much
ACROSS_MM = 0.3
TURN_ROWS = 0.5
CORD_MM = 10.0
TURN_SLIPS: Slips = (
    (1 / 2, "it is about half; follow one column once all the way round"),
    (2.0, "it is about twice; count the rows of one turn only"),
)
CORD_SLIPS: Slips = (
    (1 / 2, "it is about half; a cord folded in the middle counts with both halves"),
    (2.0, "it is about twice; give the length of one cord"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """A swatch that counts for a design.

    Attributes:
        label: What the sentences call it, such as "Swatch 2".
        swatch: What was measured.
    """

    label: str
    swatch: Swatch


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What swatches tell together; None for what no swatch measured.

    Attributes:
        rise_mm: Length per row.
        diameter_mm: Outside diameter.
        turn_rows: Rows in which a column goes once round.
        take_up: Cord used per length of braid, from swatches that measured both.
        used_mm: Cord used per row, where no swatch measured both.
    """

    rise_mm: Combined | None
    diameter_mm: Combined | None
    turn_rows: Combined | None
    take_up: Combined | None
    used_mm: Combined | None


def counted(design: Design) -> tuple[tuple[Counted, ...], tuple[str, ...]]:
    """The swatches that count for a design, and a sentence for each that does not.

    Its own single swatch counts always; of the others, those whose stated braid, cord and bead are the design's. The
    bead of a design is the one it holds most of.
    """
    own = "Swatch" if not design.swatches else "The single swatch"
    found = [] if design.swatch is None else [Counted(label=own, swatch=design.swatch)]
    aside = []
    named = any(swatch.braid or swatch.cord or swatch.bead for swatch in design.swatches)
    names = _names(design) if named else {}
    for number, swatch in enumerate(design.swatches, 1):
        label = f"Swatch {number}"
        other = _differs(swatch, names)
        if other is None:
            found.append(Counted(label=label, swatch=swatch))
        else:
            aside.append(f"{label} does not count here: {other}.")
    return tuple(found), tuple(aside)


def _names(design: Design) -> dict[str, str | None]:
    kind = design.cords.kind
    counts = bead_counts(design)
    most = max(design.tray.beads, key=lambda entry: counts[entry.key], default=None)
    return {
        "braid": design.braid_name or design.braid.name,
        "cord": kind.name if isinstance(kind, Cord) else kind,
        "bead": None if most is None or not counts[most.key] else _bead_name(most.bead),
    }


def _bead_name(bead: str | Bead) -> str:
    return bead.name if isinstance(bead, Bead) else bead


def _differs(swatch: Swatch, names: dict[str, str | None]) -> str | None:
    for what, name in names.items():
        stated: str | None = getattr(swatch, what)
        if stated is not None and stated != name:
            return f"its {what} is {stated}, and this design has {name or 'none'}"
    return None


def told_by(swatches: tuple[Counted, ...]) -> Told:
    """What swatches tell together, each measure a weighted mean; one wrong reading among several is left out."""
    rise = combine(_rises(swatches))
    wrong = frozenset() if rise is None else frozenset(reading.label for reading in rise.left_out)
    sound = tuple(each for each in swatches if each.label not in wrong)  # a slip in the length may be one in the rows
    take_up = combine(_take_ups(sound))
    return Told(
        rise_mm=rise,
        diameter_mm=combine(
            tuple(
                Reading(label=each.label, value=each.swatch.diameter_mm, error=ACROSS_MM)
                for each in swatches
                if each.swatch.diameter_mm is not None
            )
        ),
        turn_rows=combine(
            tuple(
                Reading(label=each.label, value=each.swatch.turn_rows, error=TURN_ROWS)
                for each in swatches
                if each.swatch.turn_rows is not None
            )
        ),
        take_up=take_up,
        used_mm=None if take_up is not None else combine(_used(sound)),
    )


def _rises(swatches: tuple[Counted, ...]) -> tuple[Reading, ...]:
    """Lengths per row; the share of the tension is taken of their median, so that a long reading weighs no less."""
    found = [(each, each.swatch.rise_mm) for each in swatches]
    rises = [(each, rise) for each, rise in found if rise is not None]
    if not rises:
        return ()
    tension = TENSION * median(rise for _, rise in rises)
    return tuple(
        Reading(label=each.label, value=rise, error=hypot(sqrt(2.0) * END_MM / each.swatch.rows, tension))
        for each, rise in rises
    )


def _take_ups(swatches: tuple[Counted, ...]) -> tuple[Reading, ...]:
    found = []
    for each in swatches:
        used, length = each.swatch.used_mm, each.swatch.length_mm
        if used is not None and length is not None:
            share = hypot(CORD_MM / used, sqrt(2.0) * END_MM / length)
            found.append(Reading(label=each.label, value=used / length, error=used / length * share))
    return tuple(found)


def _used(swatches: tuple[Counted, ...]) -> tuple[Reading, ...]:
    return tuple(
        Reading(label=each.label, value=each.swatch.used_mm / each.swatch.rows, error=CORD_MM / each.swatch.rows)
        for each in swatches
        if each.swatch.used_mm is not None
    )


def measured_drift(swatches: tuple[Counted, ...], drift_deg: float, way_round: float = 0.0) -> float:
    """The drift the swatches tell, the way the drift expected turns; that one when no turn was measured.

    Args:
        swatches: The swatches that count.
        drift_deg: The drift expected, degrees clockwise a row.
        way_round: Which way a rope of this braid turns, where the drift expected is 0: negative for anticlockwise.
    """
    turn = told_by(swatches).turn_rows
    return drift_deg if turn is None else _turned(turn.value, drift_deg or way_round)


def _turned(turn_rows: float, drift_deg: float) -> float:
    return (-360.0 if drift_deg < 0.0 else 360.0) / turn_rows


def corrected(prediction: Prediction, swatches: tuple[Counted, ...], *, plain: bool = False) -> Prediction:
    """The prediction with what was measured in its place; what no swatch measured stays predicted.

    Args:
        prediction: What was expected.
        swatches: What was measured.
        plain: Whether this is a braid without beads, whose rows and leads are the same braid.
    """
    if not swatches:
        return prediction
    found = told_by(swatches)
    rise, diameter, turn = found.rise_mm, found.diameter_mm, found.turn_rows
    after = replace(
        prediction,
        rise_mm=prediction.rise_mm if rise is None else rise.value,
        diameter_mm=prediction.diameter_mm if diameter is None else diameter.value,
        drift_deg=prediction.drift_deg if turn is None else _turned(turn.value, prediction.drift_deg),
        spread=_spread(prediction.spread, found),
        notes=(*prediction.notes, *_what_it_rests_on(prediction, swatches, found)),
    )
    after = _with_take_up(after, found)
    if plain:
        same = replace(after.spread, bare_rise_mm=after.spread.rise_mm)
        after = replace(after, bare_rise_mm=after.rise_mm, bare_take_up=after.take_up, spread=same)
    if after.rise_mm is None:
        return replace(after, basis="not predicted yet")
    return after if rise is None and diameter is None else replace(after, basis="corrected by a swatch")


def _spread(before: Spread, found: Told) -> Spread:
    """Of the rise: the error of the mean, and the tension of the piece that is yet to be braided."""
    rise, diameter, turn = found.rise_mm, found.diameter_mm, found.turn_rows
    return replace(
        before,
        rise_mm=before.rise_mm if rise is None else hypot(rise.error, TENSION * rise.value),
        diameter_mm=before.diameter_mm if diameter is None else diameter.error,
        drift_deg=before.drift_deg if turn is None else 360.0 / turn.value**2 * turn.error,
    )


def _with_take_up(prediction: Prediction, found: Told) -> Prediction:
    """From swatches that measured cord and length; else from the cord used a row on the rise there is."""
    value, error = prediction.take_up, prediction.spread.take_up
    if found.take_up is not None:
        value, error = found.take_up.value, found.take_up.error
    elif found.used_mm is not None and prediction.rise_mm is not None:
        value = found.used_mm.value / prediction.rise_mm
        unsure = prediction.spread.rise_mm
        share = found.used_mm.error / found.used_mm.value
        error = None if unsure is None else value * hypot(share, unsure / prediction.rise_mm)
    else:
        return prediction
    return replace(prediction, take_up=max(1.0, value), spread=replace(prediction.spread, take_up=error))


def _what_it_rests_on(prediction: Prediction, swatches: tuple[Counted, ...], told: Told) -> tuple[str, ...]:
    fields = {
        "length": (told.rise_mm, prediction.rise_mm),
        "diameter": (told.diameter_mm, prediction.diameter_mm),
        "twist": (told.turn_rows, prediction.drift_deg),
        "cord used": (told.take_up or told.used_mm, prediction.take_up),
    }
    several = len(swatches) > 1
    measured = [
        f"{name} (on {len(found.kept)})" if several else name
        for name, (found, _) in fields.items()
        if found is not None
    ]
    still = [name for name, (found, expected) in fields.items() if found is None and expected is not None]
    unknown = [name for name, (found, expected) in fields.items() if found is None and expected is None]
    notes = []
    if measured:
        tail = f"; still predicted: {', '.join(still)}" if still else ""
        of = f"{len(swatches)} swatches" if several else f"the swatch of {swatches[0].swatch.rows} rows"
        notes.append(f"Measured on {of}: {', '.join(measured)}{tail}.")
        notes.append("Give or take of what was measured is what reading and tension leave open; two pieces in three "
                     "stay within it.")  # fmt: skip
    if unknown:
        notes.append(f"Neither measured nor predicted: {', '.join(unknown)}; measure it on the swatch.")
    return tuple(notes)


def looked_at(
    swatches: tuple[Counted, ...], prediction: Prediction, bead_length_mm: float | None = None
) -> tuple[str, ...]:
    """What looks wrong in the measurements, each swatch against what is expected and against the others.

    Args:
        swatches: What was measured.
        prediction: What was expected, before any correction.
        bead_length_mm: Length of the usual bead along its hole, to judge by where no rise is predicted.

    Returns:
        A sentence for each measurement to look at again.
    """
    told = told_by(swatches)
    sentences = []
    for each in swatches:
        found = check(_without_left_out(each, told), prediction, bead_length_mm)
        sentences += [f"{each.label}{sentence.removeprefix('Swatch')}" for sentence in found]
    for what, unit, combined, slips in (
        ("length per row", " mm", told.rise_mm, LENGTH_SLIPS),
        ("diameter", " mm", told.diameter_mm, ACROSS_SLIPS),
        ("full turn", " rows", told.turn_rows, TURN_SLIPS),
        ("cord used", " times the length", told.take_up, CORD_SLIPS),
        ("cord used a row", " mm", told.used_mm, CORD_SLIPS),
    ):
        if combined is not None:
            sentences += _among_themselves(what, unit, combined, slips)
    return tuple(sentences)


def _without_left_out(each: Counted, told: Told) -> Swatch:
    """The swatch without the readings the other swatches speak against: those are told once, and better."""
    swatch = each.swatch
    if _left_out(each, told.rise_mm):
        swatch = replace(swatch, length_mm=None, cord_used_mm=None, cord_cut_mm=None, cord_left_mm=None)
    if _left_out(each, told.diameter_mm):
        swatch = replace(swatch, diameter_mm=None)
    if _left_out(each, told.turn_rows):
        swatch = replace(swatch, turn_rows=None)
    if _left_out(each, told.take_up) or _left_out(each, told.used_mm):
        swatch = replace(swatch, cord_used_mm=None, cord_cut_mm=None, cord_left_mm=None)
    return swatch


def _left_out(each: Counted, combined: Combined | None) -> bool:
    return combined is not None and each.label in (reading.label for reading in combined.left_out)


def _among_themselves(what: str, unit: str, combined: Combined, slips: Slips) -> list[str]:
    sentences = []
    for reading in combined.left_out:
        why = slip_of(reading.value / combined.value, slips) or "measure it again"
        sentences.append(
            f"{reading.label}: the {what} is {reading.value:.3g}{unit} where the other swatches give "
            f"{combined.value:.3g}: {why}; it is left out."
        )
    if combined.apart:
        low, high = sorted(combined.apart, key=lambda reading: reading.value)
        slip = slip_of(high.value / low.value, slips)
        of = f"; of the larger, {slip}" if slip else ""
        sentences.append(
            f"{low.label} and {_within(high.label)} disagree: the {what} is {low.value:.3g} and "
            f"{high.value:.3g}{unit}{of}. Measure both again, or braid a third."
        )
    elif combined.uneasy:
        sentences.append(
            f"The swatches differ in the {what} {combined.ratio:.1f} times as much as reading them explains, so its "
            f"give or take is as much wider; measure again those that differ most."
        )
    return sentences


def _within(label: str) -> str:
    return label[:1].lower() + label[1:]
