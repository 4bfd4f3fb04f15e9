// A patch of drops: marked on the chart, taken off it, laid elsewhere, mirrored, repeated.
import { cellAt, heightOf, laneOf, wrapped, type Cell, type Lanes } from "./lanes";
import { keyAt, laidEach, type Rows } from "./laying";

/** Keys of a patch: one text for each lane, one character for each place along it; a space leaves what is there. */
export interface Patch {
  readonly lanes: readonly string[];
  /** Stitches of a lane in one row: a patch fits ropes that have as many. */
  readonly perRow: number;
}

/** A marked part of the chart: lanes from `lane` on (going round), places along them from `place` on. */
export interface Marked {
  readonly lane: number;
  readonly place: number;
  readonly lanes: number;
  readonly places: number;
}

function perRow(lanes: Lanes): number {
  return lanes.columns[0]?.stitches.length ?? 1;
}

function placeOf(lanes: Lanes, cell: Cell): number {
  return cell.row * perRow(lanes) + (lanes.places[cell.stitch]?.at ?? 0);
}

function cellOf(lanes: Lanes, lane: number, place: number): Cell | null {
  const column = lanes.columns[wrapped(lane, lanes.columns.length)];
  const many = perRow(lanes);
  const row = Math.floor(place / many);
  const stitch = column?.stitches[place - row * many];
  return stitch === undefined || row < 0 ? null : { row, stitch };
}

/** The part of the chart between two cells, the short way round. */
export function marked(lanes: Lanes, from: Cell, to: Cell): Marked {
  const many = lanes.columns.length;
  const round = wrapped(laneOf(lanes, to) - laneOf(lanes, from) + Math.floor((many - 1) / 2), many) - Math.floor((many - 1) / 2);
  const [one, other] = [placeOf(lanes, from), placeOf(lanes, to)];
  return {
    lane: wrapped(laneOf(lanes, from) + Math.min(0, round), many),
    place: Math.min(one, other),
    lanes: Math.abs(round) + 1,
    places: Math.abs(other - one) + 1,
  };
}

export function cellsOf(lanes: Lanes, part: Marked, rows: number): Cell[] {
  const found: Cell[] = [];
  for (let lane = 0; lane < part.lanes; lane += 1) {
    for (let place = 0; place < part.places; place += 1) {
      const cell = cellOf(lanes, part.lane + lane, part.place + place);
      if (cell && cell.row < rows) found.push(cell);
    }
  }
  return found;
}

export function taken(lanes: Lanes, rows: Rows, part: Marked): Patch {
  const texts = Array.from({ length: part.lanes }, (_, lane) =>
    Array.from({ length: part.places }, (_, place) => {
      const cell = cellOf(lanes, part.lane + lane, part.place + place);
      return cell ? keyAt(rows, cell) || " " : " ";
    }).join(""),
  );
  return { lanes: texts, perRow: perRow(lanes) };
}

/** The patch laid with its first lane and first place on a cell; what would fall off an end is left out. */
export function laidPatch(lanes: Lanes, rows: Rows, patch: Patch, at: Cell): string[] {
  const [home, first] = [laneOf(lanes, at), placeOf(lanes, at)];
  const drops = patch.lanes.flatMap((text, lane) =>
    [...text].flatMap((key, place) => {
      const cell = cellOf(lanes, home + lane, first + place);
      return key === " " || !cell ? [] : [{ cell, key }];
    }),
  );
  return laidEach(rows, drops);
}

export function mirroredAlong(patch: Patch): Patch {
  return { ...patch, lanes: patch.lanes.map((text) => [...text].reverse().join("")) };
}

export function mirroredRound(patch: Patch): Patch {
  return { ...patch, lanes: [...patch.lanes].reverse() };
}

/** The patch laid over and over from where it was marked to both ends, every so many rows, or round every so many lanes. */
export function repeated(lanes: Lanes, rows: Rows, part: Marked, every: { rows: number; lanes: number }): string[] {
  const patch = taken(lanes, rows, part);
  let found = [...rows];
  const long = rows.length * perRow(lanes);
  const along = every.rows > 0 ? every.rows * perRow(lanes) : 0;
  const round = every.lanes > 0 ? Math.floor(lanes.columns.length / every.lanes) : 1;
  const steps = along > 0 ? Math.ceil(long / along) : 0;
  for (let turn = 0; turn < round; turn += 1) {
    for (let step = -steps; step <= steps; step += 1) {
      const lane = part.lane + turn * every.lanes;
      const first = part.place + step * along;
      const drops = patch.lanes.flatMap((text, at) =>
        [...text].flatMap((key, place) => {
          const cell = cellOf(lanes, lane + at, first + place);
          return key === " " || !cell ? [] : [{ cell, key }];
        }),
      );
      found = laidEach(found, drops);
    }
  }
  return found;
}

/** The patch as lines of a motif: rows, characters clockwise; only for braids with one stitch of a station in a row. */
export function motifLines(patch: Patch): string[] {
  const long = patch.lanes[0]?.length ?? 0;
  return Array.from({ length: long }, (_, place) => patch.lanes.map((text) => text[place] ?? " ").join(""));
}

/** The stitch that a motif of these lines is anchored on when its first lane and row lie on a cell. */
export function motifAnchor(lanes: Lanes, patch: Patch, at: Cell, rows: number): Cell {
  const long = patch.lanes[0]?.length ?? 1;
  const lane = laneOf(lanes, at) + Math.floor((patch.lanes.length - 1) / 2);
  const cell = cellAt(lanes, lane, heightOf(lanes, at), rows);
  return { row: at.row + Math.floor((long - 1) / 2), stitch: cell.stitch };
}
