"""Small designs that several tests of the craft share."""

import pytest

from braidwright.domain.braid import Braid, Move
from braidwright.domain.design import Anchor, CordChoice, Design, Front, PlacedMotif
from braidwright.domain.tray import Tray, TrayBead, TrayStack


@pytest.fixture
def kongoh() -> Braid:
    """Kongoh gumi of eight cords, S. Source: trade-facts, 1.1 [SZ]."""
    return Braid(
        name="kongoh-8",
        english="round braid of eight",
        slots=32,
        start=(32, 1, 8, 9, 16, 17, 24, 25),
        moves=tuple(Move(take=take, put=put) for take, put in ((32, 18), (16, 2), (24, 10), (8, 26))),
        shift=1,
        hand="S",
    )


@pytest.fixture
def two_kinds(kongoh: Braid) -> Design:
    """Eight rows of one bead, with a second kind, a stack and a motif in the tray."""
    return Design(
        title="two kinds",
        braid=kongoh,
        braid_name="kongoh-8",
        cords=CordChoice(kind="tex-210", colours=("#222222",)),
        tray=Tray(
            entries=(
                TrayBead(key="a", bead="round-8/0", colour="#1b6e5a"),
                TrayBead(key="g", bead="teardrop-3.4", colour="#c08a2b"),
                TrayStack(key="k", stack=("a", "a")),
            )
        ),
        rows=("aaaa",) * 8,
        front=Front(deg=0.0),
        motifs=(PlacedMotif(name="dot", lines=("a",), anchors=(Anchor(row=4, stitch=1),)),),
    )
