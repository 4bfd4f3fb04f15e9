"""size: what a design measures, and what that rests on."""

from dataclasses import asdict
from typing import TYPE_CHECKING

from braidwright.cli.command import Command
from braidwright.cli.opening import opened
from braidwright.cli.show import progress, say, say_facts, say_json
from braidwright.cli.tightening import tightening
from braidwright.cli.types import (
    CatalogueFiles,
    DesignFile,
    EaseWord,
    FindingsLength,
    Json,
    Neckline,
    Solve,
    TwistWish,
    Wrist,
)

if TYPE_CHECKING:
    from braidwright.app.designs import Opened
    from braidwright.domain.fit import Fit
    from braidwright.domain.size import Size

BASES = {
    "estimated": "reckoned by a formula; a swatch of yours would correct it",
    "solved": "worked out from the contact of cords and beads; a swatch of yours would correct it",
    "corrected by a swatch": "measured on a swatch of yours, or on several",
    "not predicted yet": "not predicted yet; braid a swatch and enter it in the design",
}

TWISTS = {
    "held": "that of a disk held still",
    "hanging": "that of work that hangs free and may turn",
    "asked": "as the design asks",
    "measured": "measured on a swatch of yours, or on several",
}


def size(  # noqa: PLR0913  (options of a command, one line each)
    design: DesignFile,
    wrist: Wrist = None,
    ease: EaseWord = "comfort",
    neckline: Neckline = None,
    findings: FindingsLength = None,
    solve: Solve = False,
    twist: TwistWish = None,
    json: Json = False,
    catalogue: CatalogueFiles = None,
) -> None:
    """Tell how long, thick and heavy the rope comes out, how its columns turn, and what each figure rests on.

    The length is that of the rows: bare braid before and after them goes into the end caps. Rise is length gained per
    row, drift the turn of a column per row, take-up the cord used per length of braid. Nothing is guessed: where no
    formula holds, the answer says so and asks for a swatch, a short sample you braid, measure and enter in the design.
    With --wrist or --neckline it also tells how many rows would fit. With --solve the braid is tightened in the
    computer instead of reckoned by the formula. With --twist another twist is tried: it is soft, so the range is told.
    """
    from braidwright.app.fitting import LengthWish, check_wish, fit_for
    from braidwright.app.predictors import predictor_for
    from braidwright.app.sizes import size as measure

    read = opened(design, catalogue, twist=twist)
    wish = None
    if wrist is not None or neckline is not None:
        wish = LengthWish(wrist_mm=wrist, neckline=neckline, ease=ease, findings_mm=findings)
        check_wish(wish)
    with progress(is_wanted=not json) as doing, tightening(read, doing, wanted=solve) as watch:
        predictor = predictor_for(solve=solve, watch=watch)
        measured = measure(read.reading.design, read.catalogue, predictor)
        fit = None if wish is None else fit_for(read.reading.design, read.catalogue, wish, predictor)
    if json:
        say_json(_plain(read, measured, fit))
    else:
        _say(read, measured, fit)


def _plain(read: "Opened", measured: "Size", fit: "Fit | None") -> dict[str, object]:
    from braidwright.app.sizes import end_cap_of, worn_by_whom

    design = read.reading.design
    cap = end_cap_of(design, read.catalogue, measured)
    worn = worn_by_whom(design, measured, cap)
    return {
        **asdict(measured),
        "rows": len(design.rows),
        "end_cap": None if cap is None else cap.name,
        "worn_by": None if worn is None else asdict(worn),
        "fit": None if fit is None else asdict(fit),
    }


def _say(read: "Opened", measured: "Size", fit: "Fit | None") -> None:
    from braidwright.domain.units import give_or_take, print_length

    say(f"{read.reading.design.title}: {len(read.reading.design.rows)} rows")
    rows = "" if measured.turn_rows is None else f", once round in {measured.turn_rows:.0f} rows"
    say_facts(
        (
            *_measures(measured),
            ("Drift", f"{_way(measured.drift_deg)}{rows}{give_or_take(_turn_error(measured), unit=' rows')}"),
            ("Twist", TWISTS[measured.twist]),
            ("Core", f"{measured.core_mm:g} mm thick" if measured.core_mm else None),
            ("Take-up", _take_up(measured)),
            ("Weight", None if measured.weight_g is None else f"{measured.weight_g:.1f} g"),
            (
                "Bare ends",
                f"{print_length(measured.lead_in_mm)} before and {print_length(measured.lead_out_mm)} after the rows",
            ),
            ("Ends", _cap(read, measured)),
            ("As a bracelet", _worn(read, measured)),
            ("Rests on", BASES[measured.basis]),
        )
    )
    for sentence in measured.warnings:
        say(f"Look: {sentence}")
    for sentence in measured.notes:
        say(f"Know: {sentence}")
    if fit is not None:
        _say_fit(len(read.reading.design.rows), fit)


def _measures(measured: "Size") -> tuple[tuple[str, str | None], ...]:
    from braidwright.domain.units import give_or_take, print_both

    length, across, rise = "not predicted yet", "not predicted yet", None
    if measured.length_mm is not None:
        length = print_both(measured.length_mm) + give_or_take(measured.length_error_mm)
    if measured.diameter_mm is not None:
        across = f"{measured.diameter_mm:.1f} mm{give_or_take(measured.diameter_error_mm, 1)}"
    if measured.rise_mm is not None:
        rise = f"{measured.rise_mm:.2f} mm a row{give_or_take(measured.rise_error_mm, 2)}"
    return (("Length", length), ("Diameter", across), ("Rise", rise))


def _turn_error(measured: "Size") -> float | None:
    """How many rows a full turn may be off."""
    if measured.turn_rows is None or measured.drift_error_deg is None:
        return None
    return measured.turn_rows * measured.drift_error_deg / abs(measured.drift_deg)


def _take_up(measured: "Size") -> str | None:
    from braidwright.domain.units import give_or_take

    if measured.take_up is None:
        return None
    unsure = give_or_take(measured.take_up_error, 2, "")
    return f"{measured.take_up:.2f} times the length of the rows{unsure}"


def _way(drift_deg: float) -> str:
    if drift_deg == 0.0:
        return "none"
    return f"{abs(drift_deg):.1f} degrees a row, {'clockwise' if drift_deg > 0 else 'anticlockwise'} seen from above"


def _cap(read: "Opened", measured: "Size") -> str | None:
    from braidwright.app.sizes import end_cap_of

    cap = end_cap_of(read.reading.design, read.catalogue, measured)
    return None if cap is None else cap.english


def _worn(read: "Opened", measured: "Size") -> str | None:
    from braidwright.app.sizes import end_cap_of, worn_by_whom
    from braidwright.domain.units import print_length

    design = read.reading.design
    worn = worn_by_whom(design, measured, end_cap_of(design, read.catalogue, measured))
    if worn is None:
        return None
    return f"loose on a wrist of {print_length(worn.smallest_mm)}, tight on one of {print_length(worn.largest_mm)}"


def _say_fit(rows: int, fit: "Fit") -> None:
    from braidwright.domain.units import print_both, print_length

    more = fit.rows - rows
    change = "as it is" if more == 0 else f"{more} more than it has" if more > 0 else f"{-more} fewer than it has"
    say(
        f"To fit: {fit.rows} rows ({change}), {print_both(fit.rows_mm)} of rope, "
        f"{print_length(fit.findings_mm)} of caps and clasp, {print_both(fit.finished_mm)} in all."
    )
    for sentence in fit.notes:
        say(f"Know: {sentence}")


COMMAND = Command(
    run=size,
    panel="Look",
    examples=("braidwright size my-rope.json", "braidwright size my-rope.json --wrist '6 1/2 in' --ease snug"),
)
