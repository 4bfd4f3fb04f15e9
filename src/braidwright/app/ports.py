"""Ports: the small protocols by which use cases reach what they do not own."""

from collections.abc import Callable
from typing import Protocol

from braidwright.domain.bead import Bead
from braidwright.domain.cord import Cord, EndCap
from braidwright.domain.design import Design
from braidwright.domain.geometry import Geometry
from braidwright.domain.materials import Materials
from braidwright.domain.prediction import Prediction

Watch = Callable[[float], bool]  # share of a solve that is done, from 0 when it begins to 1 when it ends -> go on?


class Shelf(Protocol):
    """Where beads, cords and end caps are looked up by name: the catalogue, with the user's own on top."""

    def bead(self, name: str) -> Bead:
        """The bead of this name. Raises CatalogueError when there is none."""

    def cord(self, name: str) -> Cord:
        """The cord of this name. Raises CatalogueError when there is none."""

    def end_cap(self, name: str) -> EndCap:
        """The end cap of this name. Raises CatalogueError when there is none."""

    @property
    def end_caps(self) -> tuple[EndCap, ...]:
        """Every end cap there is to choose from."""


class Predictor(Protocol):
    """Whatever tells the measures and the shape of a braid: a formula, or a solver."""

    def predict(self, design: Design, materials: Materials, drift_deg: float) -> Prediction:
        """The measures of each row, never a guess: what is not known is None, and a note says what to measure.

        Args:
            design: The design; its swatch is left to the caller.
            materials: Its cord and beads.
            drift_deg: Turn of a column per row, degrees clockwise: an input, because twist is soft.
        """

    def shape(self, design: Design, materials: Materials, prediction: Prediction, drift_deg: float) -> Geometry | None:
        """Where every bead and every cord lies, or None while too little is known.

        Args:
            design: The design; its swatch is left to the caller.
            materials: Its cord and beads.
            prediction: What a row measures, corrected by the swatches: the shape must have these measures.
            drift_deg: What `predict` was given.
        """
