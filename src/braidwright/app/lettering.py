"""Lettering: a word in beads on the chart of a design, as a preview that is taken or left."""

from dataclasses import replace

from braidwright.app.ports import Predictor, Shelf
from braidwright.app.sizes import QUICK, predict
from braidwright.domain.design import Design
from braidwright.domain.lettering import Lettered, Word, letter


def preview_word(design: Design, shelf: Shelf, word: Word, predictor: Predictor = QUICK) -> Lettered:
    """A word laid on a design: rows to look at; the design stays as it is until `take_word`.

    Raises:
        RequestError: A letter that is not drawn, a bead the tray lacks, no room.
        CatalogueError: A bead or cord the shelf does not know.
    """
    return letter(design, predict(design, shelf, predictor).drift_deg, word)


def take_word(design: Design, lettered: Lettered) -> Design:
    """The design with the word on it, kept among its motifs."""
    if lettered.motif is None:
        return design.with_rows(lettered.rows)
    named = lettered.motif.name
    others = tuple(motif for motif in design.motifs if motif.name != named)
    return replace(design, rows=lettered.rows, motifs=(*others, lettered.motif))
