// The beads of a rope as numbers: where each lies, which way it looks, which stitch it belongs to.
import type { GeometryAnswer } from "$lib/contract";
import { Bender, framed, type Pose, type Triple } from "./posing";
import { floats, wholes } from "./unpack";

/** A stitch of the chart, both from 0. */
export interface Stitch {
  readonly row: number;
  readonly stitch: number;
}

/** A bead under the pointer. */
export interface Picked extends Stitch {
  readonly bead: number;
}

/** The name of a stitch in maps. */
export const stitchName = (row: number, stitch: number): string => `${row},${stitch}`;

export interface Beads {
  readonly count: number;
  readonly keys: readonly string[];
  readonly stitches: Int32Array;
  readonly reaches: Float32Array;
  /** Along, clockwise, outward of each centre at turn 0. */
  readonly centres: Float32Array;
  /** The three own axes of each bead at turn 0: where it reaches out, the third, its hole. */
  readonly axes: Float32Array;
}

const cross = (a: Triple, b: Triple): Triple => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const dot = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** A right-handed set of axes with the hole last; what reaches out is made square to the hole. */
export function ownAxes(hole: Triple, outward: Triple): readonly [Triple, Triple, Triple] {
  const lean = dot(hole, outward);
  let out: Triple = [outward[0] - lean * hole[0], outward[1] - lean * hole[1], outward[2] - lean * hole[2]];
  if (Math.hypot(...out) < 1e-6) out = cross(hole, Math.abs(hole[0]) < 0.9 ? [1, 0, 0] : [0, 1, 0]);
  const size = Math.hypot(...out);
  const first: Triple = [out[0] / size, out[1] / size, out[2] / size];
  return [first, cross(hole, first), hole];
}

function triple(array: Float32Array, at: number): Triple {
  return framed(array[3 * at]!, array[3 * at + 1]!, array[3 * at + 2]!, 0);
}

/** The beads of an answer. */
export function beadsOf(geometry: GeometryAnswer): Beads {
  const keys = Array.from(geometry.keys);
  const [places, holes, outs] = [floats(geometry.centres), floats(geometry.holes), floats(geometry.outward)];
  const centres = new Float32Array(3 * keys.length);
  const axes = new Float32Array(9 * keys.length);
  for (let at = 0; at < keys.length; at += 1) {
    centres.set(triple(places, at), 3 * at);
    axes.set(ownAxes(triple(holes, at), triple(outs, at)).flat(), 9 * at);
  }
  return {
    count: keys.length,
    keys,
    stitches: wholes(geometry.stitches),
    reaches: floats(geometry.reaches),
    centres,
    axes,
  };
}

/** Which beads lie on the rope, by tray key, when some stitches have been given another drop ("" is a bare stitch). */
export function sorted(beads: Beads, drops: ReadonlyMap<string, string> | undefined): Map<string, number[]> {
  const found = new Map<string, number[]>();
  for (let at = 0; at < beads.count; at += 1) {
    const [row, stitch, place] = [beads.stitches[3 * at]!, beads.stitches[3 * at + 1]!, beads.stitches[3 * at + 2]!];
    const drop = drops?.get(stitchName(row, stitch));
    const key = drop === undefined ? beads.keys[at]! : Array.from(drop)[place];
    if (key === undefined) continue;
    const own = found.get(key);
    if (own) own.push(at);
    else found.set(key, [at]);
  }
  return found;
}

/** The matrix of one bead in a pose, column by column, and the way from the axis of the rope to it. */
export function placeBead(beads: Beads, at: number, bender: Bender, turned: boolean, matrix: Float32Array, to: number): Triple {
  const turn = turned ? bender.pose.turnDeg : 0;
  const own = (array: Float32Array, from: number): Triple => {
    // At turn 0, clockwise is east and outward is north.
    return framed(array[from + 1]!, array[from + 2]!, array[from]!, turn);
  };
  const centre = own(beads.centres, 3 * at);
  for (let axis = 0; axis < 3; axis += 1) {
    const way = own(beads.axes, 9 * at + 3 * axis);
    matrix.set(bender.direction(centre[0], ...way), to + 4 * axis);
    matrix[to + 4 * axis + 3] = 0;
  }
  matrix.set(bender.point(...centre), to + 12);
  matrix[to + 15] = 1;
  return bender.direction(centre[0], 0, centre[1], centre[2]);
}

/** How far out most beads reach, mm: half the thickness of the rope. */
export function usualReach(beads: Beads): number {
  if (beads.count === 0) return 0;
  const inOrder = Float32Array.from(beads.reaches).sort();
  return inOrder[Math.floor(inOrder.length / 2)]!;
}

export type { Pose };
