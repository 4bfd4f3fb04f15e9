"""chart: the surface of the rope cut open and laid flat: columns by station, rows by repeat, half-steps kept."""

from dataclasses import dataclass
from functools import lru_cache

from braidwright.domain.braid import Braid, Move

WINDS_4 = ("N", "E", "S", "W")
WINDS_8 = ("N", "NE", "E", "SE", "S", "SW", "W", "NW")
WINDS_16 = (
    "N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """Where one stitch of the repeat lies.

    Attributes:
        stitch: Index of the stitch in the row, from 0, in working order.
        slot: The slot its cord is lifted from in the first repeat.
        name: Compass name, such as "N" or "ENE".
        column: Index of its column, from 0, clockwise from north.
        step: How far up its row it lies, 0 to under 1: moves that cross nothing of each other share a step.
        angle_deg: Where its column stands round the rope at row 1, degrees clockwise from north.
    """

    stitch: int
    slot: int
    name: str
    column: int
    step: float
    angle_deg: float


@lru_cache(maxsize=256)
def stations(braid: Braid) -> tuple[Station, ...]:
    """The station of every stitch of a repeat, in working order."""
    moves = braid.stitch_moves
    slots = [move.take for move in moves]
    columns = sorted(set(slots), key=lambda slot: _from_north(braid.angle(slot)))
    names = dict(zip(columns, station_names(tuple(braid.angle(slot) for slot in columns), tuple(columns)), strict=True))
    levels = step_levels(braid)
    height = max(levels) + 1
    return tuple(
        Station(
            stitch=index,
            slot=move.take,
            name=names[move.take],
            column=columns.index(move.take),
            step=level / height,
            angle_deg=braid.angle(move.take) % 360.0,
        )
        for index, (move, level) in enumerate(zip(moves, levels, strict=True))
    )


def _from_north(angle: float) -> float:
    """Order clockwise with the slot just left of north first, so that a north station opens the chart."""
    return (angle + 22.5) % 360.0


def station_names(angles: tuple[float, ...], slots: tuple[int, ...]) -> tuple[str, ...]:
    """Compass names, as coarse a rose as keeps them apart; with the slot number where even sixteen winds do not."""
    for rose in (WINDS_4, WINDS_8, WINDS_16):
        names = tuple(rose[round(angle / (360.0 / len(rose))) % len(rose)] for angle in angles)
        if len(set(names)) == len(names):
            return names
    return tuple(f"{name} {slot}" for name, slot in zip(names, slots, strict=True))


def step_levels(braid: Braid) -> tuple[int, ...]:
    """The half-step of each stitch of a repeat: consecutive stitches that do not disturb each other share one.

    Two moves are side by side when their chords do not cross and neither needs the slot of the other, like the two
    of one pair in kongoh gumi, which a stand worker makes with both hands at once.
    """
    levels: list[int] = []
    group: list[Move] = []
    level = 0
    for move in braid.moves:
        if not move.is_stitch:
            continue
        if group and not all(_side_by_side(move, other) for other in group):
            level, group = level + 1, []
        group.append(move)
        levels.append(level)
    return tuple(levels)


def _side_by_side(one: Move, other: Move) -> bool:
    ends = {one.take, one.put}
    if ends & {other.take, other.put}:
        return False
    low, high = sorted(ends)
    return (low < other.take < high) == (low < other.put < high)


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column of the chart.

    Attributes:
        name: Compass name of its station.
        slot: The slot of its station in the first repeat.
        angle_deg: Where it stands at row 1, degrees clockwise from north.
        stitches: Indices of the stitches of a row that lie in it (one, for most braids), in working order.
        steps: How far up the row each of them lies, 0 to under 1.
    """

    name: str
    slot: int
    angle_deg: float
    stitches: tuple[int, ...]
    steps: tuple[float, ...]


@lru_cache(maxsize=256)
def columns(braid: Braid) -> tuple[Column, ...]:
    """The columns of the chart, clockwise from north."""
    found: dict[int, list[Station]] = {}
    for station in stations(braid):
        found.setdefault(station.column, []).append(station)
    return tuple(
        Column(
            name=members[0].name,
            slot=members[0].slot,
            angle_deg=members[0].angle_deg,
            stitches=tuple(station.stitch for station in members),
            steps=tuple(station.step for station in members),
        )
        for _, members in sorted(found.items())
    )


def column_texts(braid: Braid, rows: tuple[str, ...]) -> tuple[str, ...]:
    """The chart column by column: each text reads one column from row 1 on."""
    return tuple("".join(text[index] for text in rows for index in column.stitches) for column in columns(braid))


def rows_from_columns(braid: Braid, texts: tuple[str, ...]) -> tuple[str, ...]:
    """The way back from `column_texts`."""
    width = braid.stitches_per_row
    count = len(texts[0]) // len(columns(braid)[0].stitches)
    grid = [[""] * width for _ in range(count)]
    for column, text in zip(columns(braid), texts, strict=True):
        for row in range(count):
            for place, index in enumerate(column.stitches):
                grid[row][index] = text[row * len(column.stitches) + place]
    return tuple("".join(cells) for cells in grid)


def surface_angle(braid: Braid, stitch: int, row: float, drift_deg: float) -> float:
    """Where a stitch lies round the rope, degrees clockwise from north, 0 to under 360.

    Args:
        braid: The braid.
        stitch: Index of the stitch in its row, from 0.
        row: Rows above row 1 (row 1 is 0); use a row counted from the middle to hold the middle still.
        drift_deg: Turn of a column per row, degrees clockwise.

    Source: physics.md, 6: a column turns steadily with the height, so a stitch half a step up has turned half as far.
    """
    station = stations(braid)[stitch]
    return (even_angle(braid, stitch) + drift_deg * (row + station.step)) % 360.0


def even_angle(braid: Braid, stitch: int) -> float:
    """Where a column settles round the rope: in the finished braid the columns share the circle evenly.

    On the disk the slots leave gaps of uneven width (12 cords on 32 slots); the rope evens them out.
    """
    every = columns(braid)
    column = stations(braid)[stitch].column
    return (every[0].angle_deg + 360.0 * column / len(every)) % 360.0
