// The chart as lanes: one for each station, cells along it in working order, closed to a ring round the rope.
import type { Column } from "$lib/contract";

/** One stitch; row and stitch count from 0. */
export interface Cell {
  readonly row: number;
  readonly stitch: number;
}

export interface Place {
  readonly lane: number;
  /** Which of the lane's stitches in the row. */
  readonly at: number;
  /** How far up the row it lies, 0 to under 1. */
  readonly step: number;
}

export interface Lanes {
  readonly columns: readonly Column[];
  /** By stitch of the row. */
  readonly places: readonly Place[];
}

export function lanesOf(columns: readonly Column[]): Lanes {
  const places: Place[] = [];
  columns.forEach((column, lane) => {
    column.stitches.forEach((stitch, at) => {
      places[stitch] = { lane, at, step: column.steps[at] ?? 0 };
    });
  });
  return { columns, places };
}

export const keyOf = (cell: Cell): string => `${cell.row},${cell.stitch}`;

export function sameCell(one: Cell | null, other: Cell | null): boolean {
  return one === other || (one !== null && other !== null && one.row === other.row && one.stitch === other.stitch);
}

/** How high a cell lies, in rows above row 1. */
export function heightOf(lanes: Lanes, cell: Cell): number {
  return cell.row + (lanes.places[cell.stitch]?.step ?? 0);
}

export function laneOf(lanes: Lanes, cell: Cell): number {
  return lanes.places[cell.stitch]?.lane ?? 0;
}

/** The cell of a lane nearest a height in rows; lanes go round. */
export function cellAt(lanes: Lanes, lane: number, height: number, rows: number): Cell {
  const column = lanes.columns[wrapped(lane, lanes.columns.length)] as Column;
  let best: Cell = { row: 0, stitch: column.stitches[0] ?? 0 };
  let least = Infinity;
  column.stitches.forEach((stitch, at) => {
    const step = column.steps[at] ?? 0;
    const row = Math.min(rows - 1, Math.max(0, Math.round(height - step)));
    const away = Math.abs(row + step - height);
    if (away < least - 1e-9) [best, least] = [{ row, stitch }, away];
  });
  return best;
}

/** The next cell along a lane, or across to the next one; null beyond the ends. */
export function neighbour(lanes: Lanes, cell: Cell, along: number, round: number, rows: number): Cell | null {
  const place = lanes.places[cell.stitch];
  if (!place) return null;
  if (round !== 0) return cellAt(lanes, place.lane + round, heightOf(lanes, cell), rows);
  const column = lanes.columns[place.lane] as Column;
  const many = column.stitches.length;
  const next = cell.row * many + place.at + along;
  const row = Math.floor(next / many);
  const stitch = column.stitches[next - row * many];
  return row < 0 || row >= rows || stitch === undefined ? null : { row, stitch };
}

/** Cells whose marks touch on the surface: along the lane, and the nearest of the lanes beside it. */
export function touching(lanes: Lanes, cell: Cell, rows: number): Cell[] {
  const found: Cell[] = [];
  for (const along of [-1, 1]) {
    const next = neighbour(lanes, cell, along, 0, rows);
    if (next) found.push(next);
  }
  const height = heightOf(lanes, cell);
  const many = lanes.columns.length;
  for (const round of many > 2 ? [-1, 1] : [1]) {
    const lane = laneOf(lanes, cell) + round;
    const column = lanes.columns[wrapped(lane, many)] as Column;
    column.stitches.forEach((stitch, at) => {
      const step = column.steps[at] ?? 0;
      for (let row = Math.floor(height - step - 0.6); row <= Math.ceil(height - step + 0.6); row += 1) {
        if (row >= 0 && row < rows && Math.abs(row + step - height) < 0.6) found.push({ row, stitch });
      }
    });
  }
  return found;
}

export function wrapped(value: number, many: number): number {
  return ((value % many) + many) % many;
}
