"""A small shelf and small ropes for tests of size, fit and supplies.

Figures of beads and cords: trade-facts, sections 2 and 3; moves of kongoh gumi: sections 1.1 and 1.2 (S lists).
"""

from dataclasses import dataclass

from braidwright.domain.bead import Bead, Shape
from braidwright.domain.braid import Braid, Move
from braidwright.domain.cord import Cord, EndCap
from braidwright.domain.design import CordChoice, Design, Findings
from braidwright.domain.errors import CatalogueError
from braidwright.domain.swatch import Swatch
from braidwright.domain.tray import Tray, TrayBead, TrayStack


def kongoh(cords: int) -> Braid:
    """Kongoh gumi S of 8, 12, 16 or 24 cords, stated with its smallest repeat."""
    starts = {
        8: (32, 1, 8, 9, 16, 17, 24, 25),
        12: (32, 1, 5, 6, 11, 12, 16, 17, 21, 22, 27, 28),
        16: (32, 1, 4, 5, 8, 9, 12, 13, 16, 17, 20, 21, 24, 25, 28, 29),
        24: (32, 1, 3, 4, 5, 6, 8, 9, 11, 12, 13, 14, 16, 17, 19, 20, 21, 22, 24, 25, 27, 28, 29, 30),
    }
    moves = {
        8: ((32, 18), (16, 2), (24, 10), (8, 26)),
        12: ((16, 2), (32, 18), (11, 29), (27, 13), (5, 23), (21, 7)),
        16: ((16, 2), (32, 18), (12, 30), (28, 14), (8, 26), (24, 10), (4, 22), (20, 6)),
        24: ((16, 2), (32, 18), (13, 31), (29, 15), (11, 29), (27, 13), (8, 26), (24, 10), (5, 23), (21, 7), (3, 21),
             (19, 5)),
    }  # fmt: skip
    return Braid(
        name=f"kongoh-{cords}",
        english="kongoh gumi",
        slots=32,
        start=starts[cords],
        moves=tuple(Move(take=take, put=put) for take, put in moves[cords]),
        shift=1,
        hand="S",
    )


def maru_yotsu() -> Braid:
    """Four-cord maru yotsu, trade-facts 1.3: a braid without a closed form."""
    return Braid(
        name="maru-yotsu-4",
        english="four-strand round",
        slots=32,
        start=(32, 8, 16, 24),
        moves=(
            Move(take=32, put=17),
            Move(take=16, put=32),
            Move(take=17, put=16, kind="re-space"),
            Move(take=8, put=23),
            Move(take=24, put=8),
            Move(take=23, put=24, kind="re-space"),
        ),
        shift=0,
        hand="Z",
    )


def bead(name: str, across: float, long: float, grams: float, shape: Shape = "round", reach: float = 0.0) -> Bead:
    return Bead(
        name=name,
        english=name,
        shape=shape,
        diameter_mm=across,
        length_mm=long,
        hole_mm=across / 3,
        grams=grams,
        reach_mm=reach or across / 2,
    )


BEADS = {
    "round-15/0": bead("round-15/0", 1.5, 1.1, 10 / 2715),
    "round-11/0": bead("round-11/0", 2.1, 1.45, 10 / 1050),
    "round-8/0": bead("round-8/0", 3.0, 2.1, 10 / 347),
    "round-6/0": bead("round-6/0", 4.0, 2.9, 10 / 150),
    "cylinder-11/0": bead("cylinder-11/0", 1.6, 1.3, 0.005, "cylinder"),
    "teardrop-3.4": bead("teardrop-3.4", 3.4, 2.4, 0.042, "teardrop", 3.6),
}
CORDS = {
    "tex-70": Cord(name="tex-70", english="fine cord", diameter_mm=0.32, tex=70.0),
    "tex-210": Cord(name="tex-210", english="bead cord", diameter_mm=0.5, tex=210.0),
    "satin-2": Cord(name="satin-2", english="satin 2 mm", diameter_mm=2.0),
}
CAPS = tuple(
    EndCap(name=f"cap-{inside}", english=f"end cap, {inside} mm inside", inside_mm=inside, adds_mm=5.0)
    for inside in (3, 4, 5, 6, 7, 8, 10)
)


@dataclass(frozen=True, slots=True)
class Drawer:
    """A shelf of a few things."""

    def bead(self, name: str) -> Bead:
        if name not in BEADS:
            raise CatalogueError(f"no bead {name!r}")
        return BEADS[name]

    def cord(self, name: str) -> Cord:
        if name not in CORDS:
            raise CatalogueError(f"no cord {name!r}")
        return CORDS[name]

    def end_cap(self, name: str) -> EndCap:
        for cap in CAPS:
            if cap.name == name:
                return cap
        raise CatalogueError(f"no end cap {name!r}")

    @property
    def end_caps(self) -> tuple[EndCap, ...]:
        return CAPS


SHELF = Drawer()


def rope(
    rows: tuple[str, ...],
    *,
    braid: Braid | None = None,
    beads: dict[str, str] | None = None,
    cords: CordChoice | None = None,
    findings: Findings | None = None,
    swatch: Swatch | None = None,
) -> Design:
    """A design of these rows; "a" is 8/0, "d" a teardrop, "k" a stack of three 8/0, unless told otherwise."""
    kinds = beads or {"a": "round-8/0", "d": "teardrop-3.4"}
    entries = [TrayBead(key=key, bead=kind, colour="#1b6e5a", price=0.1) for key, kind in kinds.items()]
    return Design(
        title="A rope",
        braid=braid or kongoh(8),
        braid_name=None,
        cords=cords or CordChoice(kind="tex-210", colours=("#222222",)),
        tray=Tray(entries=(*entries, TrayStack(key="k", stack=("a", "a", "a")))),
        rows=rows,
        findings=findings,
        swatch=swatch,
    )
