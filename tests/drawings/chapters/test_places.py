"""places: the row check agrees with the working, step by step."""

import pytest
from hypothesis import given, settings

from braidwright.domain.design import Design
from braidwright.domain.steps import steps_of
from braidwright.drawings.chapters.places import beads_left, check_rows, row_check
from packs import EVERY, pattern
from strategies import designs


def left_by_working(design: Design) -> list[list[int]]:
    """Beads still to fall from each cord after each row, counted from the last step back."""
    cords = list(design.braid.start)
    left = [[0] * len(cords) for _ in range(len(design.rows) + 1)]
    for step in steps_of(design):
        for row in range(step.row):
            left[row][cords.index(step.cord)] += len(step.drop)
    return left


@settings(max_examples=30)
@given(design=designs(rows=(1, 12)))
def test_beads_left_are_those_that_still_fall(design: Design) -> None:
    assert beads_left(design).tolist() == left_by_working(design)


@pytest.mark.parametrize("name", EVERY)
def test_the_cord_hangs_where_the_table_says(name: str) -> None:
    made = pattern(name)
    for part in made.hands:
        design = part.design
        grid = row_check(made, part)
        column = next(n for n, head in enumerate(grid.head) if head.startswith("The cord that began"))
        first = design.braid.start[0]
        where = {0: first}
        for step in steps_of(design):
            where[step.row] = step.put if step.cord == first else where.get(step.row, where[step.row - 1])
        for cells in grid.rows:
            assert cells[column] == f"slot {where[int(str(cells[0]))]}"


@settings(max_examples=30)
@given(design=designs(rows=(1, 200)))
def test_there_are_few_checks_and_the_last_row_is_one(design: Design) -> None:
    rows = check_rows(design)
    assert list(rows) == sorted(set(rows))
    assert rows[-1] == len(design.rows)
    assert len(rows) <= 11
