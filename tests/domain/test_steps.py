"""The working written out, replayed on a disk that knows nothing of walks: what falls must be the rows."""

from hypothesis import given

from braidwright.domain.chart import columns
from braidwright.domain.design import CordChoice, Design
from braidwright.domain.steps import steps_of
from braidwright.domain.strings import strings_of
from braidwright.domain.tray import Tray
from known_braids import MARU_YOTSU, kongoh
from strategies import designs, trays


@given(designs())
def test_replayed_steps_use_up_every_string_and_let_the_rows_fall(design: Design) -> None:
    held = {slot: slot for slot in design.braid.start}
    left = {string.slot: list(string.beads(design.tray)) for string in strings_of(design)}
    keys: list[str] = []
    for count, step in enumerate(steps_of(design), 1):
        assert step.number == count
        assert held.pop(step.take) == step.cord
        assert step.put not in held
        held[step.put] = step.cord
        for bead in step.drop:
            assert left[step.cord].pop(0) == bead
        if step.kind == "move":
            keys.append(step.key)
            assert (step.row - 1) * design.width + (step.stitch or 0) == len(keys)
        else:
            assert (step.key, step.drop, step.stitch, step.station, step.column) == ("", (), None, None, None)
    assert "".join(keys) == "".join(design.rows)
    assert not any(left.values())


@given(designs())
def test_every_step_names_its_column_of_the_chart(design: Design) -> None:
    every = columns(design.braid)
    for step in steps_of(design):
        if step.stitch is not None and step.column is not None:
            column = every[step.column - 1]
            assert step.station == column.name
            assert step.stitch - 1 in column.stitches


def working(tray: Tray, rows: tuple[str, ...]) -> Design:
    """Kongoh gumi of eight with one bead."""
    return Design(
        title="steps",
        braid=kongoh(8, 8, "S", first=32),
        braid_name=None,
        cords=CordChoice(kind="tex-210", colours=("#000000",)),
        tray=tray,
        rows=rows,
    )


@given(trays())
def test_the_first_round_of_s_is_the_published_one(tray: Tray) -> None:
    """Trade-facts, section 1.1, the S list [SZ].

    The order inside a pair makes no difference (check value 36: common practice, no source).
    """
    steps = list(steps_of(working(tray, (tray.keys[0] * 4,) * 2)))
    pairs = [{(step.take, step.put) for step in steps[at : at + 2]} for at in (0, 2, 4, 6)]
    assert pairs == [
        {(16, 2), (32, 18)},
        {(8, 26), (24, 10)},
        {(1, 19), (17, 3)},
        {(25, 11), (9, 27)},
    ]
    assert sorted(step.cord for step in steps) == [1, 8, 9, 16, 17, 24, 25, 32]


@given(trays())
def test_re_spaces_are_steps_without_a_drop(tray: Tray) -> None:
    """Trade-facts, section 1.3: maru yotsu has four moves and two tidyings."""
    key = tray.keys[0]
    design = Design(
        title="steps",
        braid=MARU_YOTSU,
        braid_name=None,
        cords=CordChoice(kind="tex-210", colours=("#000000",)),
        tray=tray,
        rows=(key * 4,),
    )
    steps = list(steps_of(design))
    assert [step.kind for step in steps] == ["move", "move", "re-space", "move", "move", "re-space"]
    assert [step.stitch for step in steps] == [1, 2, None, 3, 4, None]
