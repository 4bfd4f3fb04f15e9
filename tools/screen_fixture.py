"""Write what the craft says of some stitches, for the tests of the screen: python tools/screen_fixture.py FILE."""

import json
import sys
from dataclasses import asdict, replace
from pathlib import Path

from braidwright.app.designs import open_catalogue
from braidwright.app.sizes import predict
from braidwright.domain.braid import in_hand
from braidwright.domain.chart import columns
from braidwright.domain.design import Front
from braidwright.domain.document import read_design
from braidwright.domain.motif import from_front
from braidwright.domain.walk import stitch_cords

ROOT = Path(__file__).resolve().parent.parent
BRAIDS = (("kongoh-8", "S"), ("kongoh-8", "Z"), ("kongoh-16", "S"), ("maru-yotsu", "Z"), ("tubular-8", "S"))
ROWS = 23


def cases() -> list[dict[str, object]]:
    """For each braid: its columns, and for every stitch its angle from the front and its cord."""
    catalogue = open_catalogue()
    text = (ROOT / "designs" / "hill-gorse.json").read_text(encoding="utf-8")
    base = read_design(text, catalogue.braid).design
    found: list[dict[str, object]] = []
    for name, hand in BRAIDS:
        braid = in_hand(catalogue.braid(name), "Z" if hand == "Z" else "S")
        rows = ("m" * braid.stitches_per_row,) * ROWS
        cords = replace(base.cords, colours=base.cords.colours[:1])
        design = replace(
            base, braid=braid, braid_name=None, rows=rows, motifs=(), front=Front(deg=20.0), cords=cords, swatch=None
        )
        drift = predict(design, catalogue).drift_deg
        found.append(
            {
                "braid": f"{name} {hand}",
                "columns": [asdict(column) for column in columns(braid)],
                "drift_deg": drift,
                "front_deg": 20.0,
                "rows": ROWS,
                "from_front": [
                    [round(from_front(design, drift, row, stitch), 6) for stitch in range(design.width)]
                    for row in range(ROWS)
                ],
                "cords": stitch_cords(braid, ROWS).tolist(),
            }
        )
    return found


def written() -> str:
    """The file."""
    return json.dumps(cases(), separators=(",", ":")) + "\n"


if __name__ == "__main__":
    Path(sys.argv[1]).write_text(written(), encoding="utf-8")
