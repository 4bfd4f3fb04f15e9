// Which side a stitch lies on: the angle from the front line, and whether that is in the comfort arc.
// The same reckoning as domain/chart.py (even_angle, surface_angle) and domain/motif.py (from_front).
import { heightOf, laneOf, type Cell, type Lanes } from "./lanes";

export interface FrontLine {
  readonly deg: number;
  readonly arcDeg: number;
  /** Turn of a column for each row, degrees clockwise. */
  readonly driftDeg: number;
  readonly rows: number;
}

/** Where a lane stands round the rope at row 1; in the finished rope lanes share the circle evenly. */
export function evenAngle(lanes: Lanes, lane: number): number {
  return (lanes.columns[0]?.angle_deg ?? 0) + (360 * lane) / lanes.columns.length;
}

/** Degrees from the front line, -180 to under 180, clockwise positive. */
export function fromFront(lanes: Lanes, cell: Cell, front: FrontLine): number {
  return fromFrontAt(lanes, laneOf(lanes, cell), heightOf(lanes, cell), front);
}

export function fromFrontAt(lanes: Lanes, lane: number, height: number, front: FrontLine): number {
  const angle = evenAngle(lanes, lane) + front.driftDeg * (height - (front.rows - 1) / 2);
  const away = (angle - front.deg + 180) % 360;
  return (away < 0 ? away + 360 : away) - 180;
}

export function isAgainstSkin(deg: number, front: FrontLine): boolean {
  return 180 - Math.abs(deg) <= front.arcDeg / 2;
}
