// Laying beads: each way takes rows and gives new rows; nothing else moves.
import { cellAt, heightOf, keyOf, laneOf, touching, wrapped, type Cell, type Lanes } from "./lanes";

export type Rows = readonly string[];

export function keyAt(rows: Rows, cell: Cell): string {
  return rows[cell.row]?.[cell.stitch] ?? "";
}

/** One key at some cells. */
export function laid(rows: Rows, cells: Iterable<Cell>, key: string): string[] {
  return laidEach(rows, [...cells].map((cell) => ({ cell, key })));
}

/** A key for each cell; what lies beyond the ends is left out. */
export function laidEach(rows: Rows, drops: Iterable<{ readonly cell: Cell; readonly key: string }>): string[] {
  const changed = new Map<number, string[]>();
  for (const { cell, key } of drops) {
    const text = rows[cell.row];
    if (text === undefined || cell.stitch < 0 || cell.stitch >= text.length) continue;
    const letters = changed.get(cell.row) ?? [...text];
    letters[cell.stitch] = key;
    changed.set(cell.row, letters);
  }
  return rows.map((text, row) => changed.get(row)?.join("") ?? text);
}

/** The cells on the straight way from one to another over the surface, the short way round. */
export function between(lanes: Lanes, from: Cell, to: Cell, rows: number): Cell[] {
  const many = lanes.columns.length;
  const start = laneOf(lanes, from);
  const round = wrapped(laneOf(lanes, to) - start + many / 2, many) - many / 2;
  const low = heightOf(lanes, from);
  const along = heightOf(lanes, to) - low;
  const steps = Math.max(1, Math.ceil(2 * Math.max(Math.abs(round), Math.abs(along))));
  const found = new Map<string, Cell>([[keyOf(from), from]]);
  for (let step = 1; step < steps; step += 1) {
    const share = step / steps;
    const cell = cellAt(lanes, start + Math.round(round * share), low + along * share, rows);
    found.set(keyOf(cell), cell);
  }
  found.set(keyOf(to), to);
  return [...found.values()];
}

/** All cells with the same key that hang together with one. */
export function patchOfOneKey(lanes: Lanes, rows: Rows, from: Cell): Cell[] {
  const key = keyAt(rows, from);
  const found = new Map<string, Cell>([[keyOf(from), from]]);
  const waiting = [from];
  for (let cell = waiting.pop(); cell; cell = waiting.pop()) {
    for (const next of touching(lanes, cell, rows.length)) {
      if (!found.has(keyOf(next)) && keyAt(rows, next) === key) {
        found.set(keyOf(next), next);
        waiting.push(next);
      }
    }
  }
  return [...found.values()];
}

/** All cells of one station. */
export function ofLane(lanes: Lanes, lane: number, rows: number): Cell[] {
  const stitches = lanes.columns[lane]?.stitches ?? [];
  return Array.from({ length: rows }, (_, row) => stitches.map((stitch) => ({ row, stitch }))).flat();
}

/** Which cord makes each stitch: rows until every cord is home, stitches; it goes on like that. */
export interface CordTable {
  readonly rows: number;
  readonly width: number;
  readonly cords: Int32Array;
}

export function cordOf(table: CordTable, cell: Cell): number {
  return table.cords[(cell.row % table.rows) * table.width + cell.stitch] ?? 0;
}

/** All cells of one cord. */
export function ofCord(table: CordTable, cord: number, rows: number): Cell[] {
  const found: Cell[] = [];
  for (let row = 0; row < rows; row += 1) {
    for (let stitch = 0; stitch < table.width; stitch += 1) {
      if (cordOf(table, { row, stitch }) === cord) found.push({ row, stitch });
    }
  }
  return found;
}

/** The how-manieth bead of its cord's string a stitch drops, from 1; null for a bare stitch. `beads` counts a drop. */
export function placeOnString(table: CordTable, rows: Rows, cell: Cell, beads: (key: string) => number): number | null {
  if (beads(keyAt(rows, cell)) === 0) return null;
  const cord = cordOf(table, cell);
  let before = 0;
  for (let row = 0; row <= cell.row; row += 1) {
    for (let stitch = 0; stitch < table.width; stitch += 1) {
      if (row === cell.row && stitch === cell.stitch) return before + 1;
      if (cordOf(table, { row, stitch }) === cord) before += beads(keyAt(rows, { row, stitch }));
    }
  }
  return before + 1;
}
