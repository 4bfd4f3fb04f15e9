// The model of the chart against what the craft says (tests/fixtures, written by tools/screen_fixture.py), and its own laws.
import { describe, expect, it } from "vitest";
import type { Column } from "$lib/contract";
import { fromFront } from "$lib/model/front";
import { inkOn, luminance } from "$lib/model/ink";
import { cellAt, heightOf, keyOf, laneOf, lanesOf, neighbour, touching, type Cell } from "$lib/model/lanes";
import { between, cordOf, keyAt, laid, ofCord, ofLane, patchOfOneKey, placeOnString } from "$lib/model/laying";
import { length, typed } from "$lib/model/measures";
import { moveOf } from "$lib/model/moves";
import { cellsOf, laidPatch, marked, mirroredAlong, mirroredRound, motifLines, repeated, taken } from "$lib/model/patch";
import type { Braid } from "$lib/contract";
import cases from "../fixtures/stitches.json";

interface Case {
  braid: string;
  columns: Column[];
  drift_deg: number;
  front_deg: number;
  rows: number;
  from_front: number[][];
  cords: number[][];
}
const all = cases as unknown as Case[];
const every = (one: Case): Cell[] => one.cords.flatMap((row, at) => row.map((_, stitch) => ({ row: at, stitch })));

describe.each(all)("$braid", (one) => {
  const lanes = lanesOf(one.columns);
  const width = one.cords[0]?.length ?? 0;
  const table = { rows: one.rows, width, cords: Int32Array.from(one.cords.flat()) };
  const plain = Array.from({ length: one.rows }, () => "m".repeat(width));

  it("has every stitch as far from the front as the craft says", () => {
    const front = { deg: one.front_deg, arcDeg: 120, driftDeg: one.drift_deg, rows: one.rows };
    for (const cell of every(one)) {
      expect(fromFront(lanes, cell, front)).toBeCloseTo(one.from_front[cell.row]?.[cell.stitch] ?? NaN, 4);
    }
  });

  it("finds each cell again by its lane and height", () => {
    for (const cell of every(one)) {
      expect(keyOf(cellAt(lanes, laneOf(lanes, cell), heightOf(lanes, cell), one.rows))).toBe(keyOf(cell));
    }
  });

  it("goes along a lane and back, and all the way round", () => {
    for (const cell of every(one)) {
      const next = neighbour(lanes, cell, 1, 0, one.rows);
      if (next) expect(neighbour(lanes, next, -1, 0, one.rows)).toEqual(cell);
      let at: Cell | null = { row: 10, stitch: cell.stitch };
      for (let step = 0; step < one.columns.length && at; step += 1) at = neighbour(lanes, at, 0, 1, one.rows);
      expect(at && laneOf(lanes, at)).toBe(laneOf(lanes, cell));
    }
  });

  it("has neighbours that touch back", () => {
    for (const cell of every(one)) {
      for (const next of touching(lanes, cell, one.rows)) {
        expect(touching(lanes, next, one.rows).map(keyOf)).toContain(keyOf(cell));
      }
    }
  });

  it("lays on the cells asked for and on no other", () => {
    const cells = [{ row: 3, stitch: 0 }, { row: 5, stitch: width - 1 }];
    const rows = laid(plain, cells, "g");
    for (const cell of every(one)) {
      expect(keyAt(rows, cell)).toBe(cells.some((each) => keyOf(each) === keyOf(cell)) ? "g" : "m");
    }
  });

  it("leaves no gap on a stroke: each cell touches one before it", () => {
    const cells = between(lanes, { row: 2, stitch: 0 }, { row: 19, stitch: 0 }, one.rows);
    cells.slice(1).forEach((cell, at) => {
      const before = cells.slice(0, at + 1).map(keyOf);
      expect(touching(lanes, cell, one.rows).some((next) => before.includes(keyOf(next)))).toBe(true);
    });
  });

  it("fills to the edge of another bead and no further", () => {
    const ring = laid(plain, [8, 9].flatMap((row) => Array.from({ length: width }, (_, stitch) => ({ row, stitch }))), "g");
    const filled = laid(ring, patchOfOneKey(lanes, ring, { row: 0, stitch: 0 }), "b");
    expect(filled.slice(0, 8).join("")).toBe("b".repeat(8 * width));
    expect(filled.slice(8)).toEqual(ring.slice(8));
  });

  it("knows the stitches of a cord, of a station, and places on a string", () => {
    expect(ofCord(table, 0, one.rows).every((cell) => cordOf(table, cell) === 0)).toBe(true);
    expect(ofLane(lanes, 1, one.rows)).toHaveLength(one.rows * (one.columns[1]?.stitches.length ?? 0));
    const places = ofCord(table, 2, one.rows).map((cell) => placeOnString(table, plain, cell, () => 1));
    expect(places).toEqual(places.map((_, at) => at + 1));
    expect(placeOnString(table, plain, { row: 0, stitch: 0 }, () => 0)).toBeNull();
  });

  it("takes a patch and lays it where it was without a change; mirrored twice it is itself", () => {
    const rows = plain.map((text, row) => [...text].map((_, stitch) => "mgb"[(row * 7 + stitch * 3) % 3]).join(""));
    const part = marked(lanes, { row: 4, stitch: 0 }, { row: 9, stitch: 1 });
    const patch = taken(lanes, rows, part);
    const [first] = cellsOf(lanes, part, one.rows);
    expect(laidPatch(lanes, rows, patch, first as Cell)).toEqual(rows);
    expect(mirroredAlong(mirroredAlong(patch))).toEqual(patch);
    expect(mirroredRound(mirroredRound(patch))).toEqual(patch);
    expect(motifLines(patch)).toHaveLength(part.places);
  });

  it("repeats a patch every so many rows to both ends", () => {
    const rows = laid(plain, [{ row: 10, stitch: 0 }], "g");
    const part = marked(lanes, { row: 10, stitch: 0 }, { row: 10, stitch: 0 });
    const found = repeated(lanes, rows, part, { rows: 5, lanes: 0 });
    const lain = found.flatMap((text, row) => (text.includes("g") ? [row] : []));
    expect(lain).toEqual([0, 5, 10, 15, 20]);
  });
});

describe("measures", () => {
  it("reads and writes lengths in mm and inches", () => {
    expect([length(158.4, "mm"), length(6.94, "mm"), length(25.4, "in")]).toEqual(["158 mm", "6.9 mm", "1 in"]);
    expect([typed("6,3", "mm"), typed("2", "in"), typed("-1", "mm"), typed("x", "mm")]).toEqual([6.3, 50.8, null, null]);
  });

  it("has ink that can be read: at least 3 to 1 on every grey (WCAG 2.2, 1.4.11)", () => {
    for (let grey = 0; grey < 256; grey += 1) {
      const hex = `#${grey.toString(16).padStart(2, "0").repeat(3)}`;
      const [high, low] = [luminance(hex), luminance(inkOn(hex))].sort((one, other) => other - one) as [number, number];
      expect((high + 0.05) / (low + 0.05)).toBeGreaterThan(3);
    }
  });
});

it("turns the move with the pattern: kongoh gumi of eight, second round (trade-facts 1.2)", () => {
  const kinds = [[32, 18], [16, 2], [24, 10], [8, 26]].map(([take, put]) => ({ take, put, kind: "move" }));
  const braid = { moves: kinds, shift: 1, slots: 32 } as unknown as Braid;
  expect([moveOf(braid, 0, 0), moveOf(braid, 1, 0)]).toEqual([{ take: 32, put: 18 }, { take: 1, put: 19 }]);
});
