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
    """The design with the word on it, kept among its motifs; the same word elsewhere gets a number."""
    motif = lettered.motif
    if motif is None or motif in design.motifs:
        return design.with_rows(lettered.rows)
    taken = {other.name for other in design.motifs}
    names = (motif.name, *(f"{motif.name} ({number})" for number in range(2, len(taken) + 3)))
    named = replace(motif, name=next(name for name in names if name not in taken))
    return replace(design, rows=lettered.rows, motifs=(*design.motifs, named))
