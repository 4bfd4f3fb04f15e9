// Tubes along curves, such as cords: points and normals of the straight rope, ready to be bent.
import { framed } from "./posing";

export interface Tube {
  readonly points: Float32Array;
  readonly normals: Float32Array;
  readonly faces: Uint32Array;
}

type Vector = [number, number, number];
const LONGEST = 6; // mm: a long straight piece must still bend round a wrist

const minus = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const unit = (a: Vector): Vector => {
  const size = Math.hypot(...a) || 1;
  return [a[0] / size, a[1] / size, a[2] / size];
};
const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** The nodes of a cord as (along, clockwise, outward) at turn 0, between two heights; nearly straight pieces lose theirs.
 *
 * A piece counts as straight until it has turned away by `bendDeg`. */
export function thinned(curve: Float32Array, fromMm: number, toMm: number, bendDeg: number): Vector[] {
  const most = Math.cos((bendDeg * Math.PI) / 180);
  const kept: Vector[] = [];
  let way: Vector | undefined;
  let last: Vector | undefined;
  for (let at = 0; at < curve.length; at += 3) {
    const node = framed(curve[at]!, curve[at + 1]!, curve[at + 2]!, 0) as Vector;
    if (node[0] < fromMm || node[0] > toMm) continue;
    const tail = kept.at(-1);
    if (!tail || !last) kept.push(node);
    else {
      const step = unit(minus(node, last));
      way ??= step;
      if (dot(way, step) < most || Math.hypot(...minus(node, tail)) > LONGEST) {
        if (last !== tail) kept.push(last);
        way = step;
      }
    }
    last = node;
  }
  if (last && last !== kept.at(-1)) kept.push(last);
  return kept;
}

/** A tube round nodes. */
export function tube(nodes: readonly Vector[], radius: number, corners: number): Tube {
  const points = new Float32Array(nodes.length * corners * 3);
  const normals = new Float32Array(points.length);
  const faces: number[] = [];
  let side: Vector = [0, 0, 0];
  nodes.forEach((node, at) => {
    const way = unit(minus(nodes[Math.min(at + 1, nodes.length - 1)]!, nodes[Math.max(at - 1, 0)]!));
    if (at === 0) side = Math.abs(way[1]) < 0.9 ? [0, 1, 0] : [0, 0, 1];
    const lean = dot(side, way);
    side = unit([side[0] - lean * way[0], side[1] - lean * way[1], side[2] - lean * way[2]]);
    const other = cross(way, side);
    for (let corner = 0; corner < corners; corner += 1) {
      const turn = (2 * Math.PI * corner) / corners;
      const to = 3 * (at * corners + corner);
      for (let sense = 0; sense < 3; sense += 1) {
        const normal = Math.cos(turn) * side[sense]! + Math.sin(turn) * other[sense]!;
        normals[to + sense] = normal;
        points[to + sense] = node[sense]! + radius * normal;
      }
      if (at === 0) continue;
      const next = (corner + 1) % corners;
      const [a, b] = [(at - 1) * corners, at * corners];
      faces.push(a + corner, a + next, b + corner, b + corner, a + next, b + next);
    }
  });
  return { points, normals, faces: Uint32Array.from(faces) };
}

/** An outline with its corners rounded off, by cutting every corner twice over. */
export function rounded(outline: readonly (readonly [number, number])[], times = 3): [number, number][] {
  let found = outline.map(([along, out]): [number, number] => [along, out]);
  for (let time = 0; time < times; time += 1) {
    const cut: [number, number][] = [found[0]!];
    for (let at = 1; at < found.length; at += 1) {
      const [from, to] = [found[at - 1]!, found[at]!];
      for (const share of [0.25, 0.75]) cut.push([from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])]);
    }
    found = [...cut, found.at(-1)!];
  }
  return found;
}

/** A body turned about the axis of the rope from an outline of (along, radius). */
export function turned(outline: readonly (readonly [number, number])[], corners: number): Tube {
  const points: number[] = [];
  const normals: number[] = [];
  const faces: number[] = [];
  outline.forEach(([along, radius], at) => {
    const [before, after] = [outline[Math.max(0, at - 1)]!, outline[Math.min(at + 1, outline.length - 1)]!];
    const [on, out] = [after[0] - before[0], after[1] - before[1]];
    const size = Math.hypot(on, out) || 1;
    for (let corner = 0; corner < corners; corner += 1) {
      const turn = (2 * Math.PI * corner) / corners;
      const [c, s] = [Math.cos(turn), Math.sin(turn)];
      points.push(along, radius * c, radius * s);
      normals.push(-out / size, (on / size) * c, (on / size) * s);
      if (at === 0) continue;
      const next = (corner + 1) % corners;
      const [a, b] = [(at - 1) * corners, at * corners];
      faces.push(a + corner, a + next, b + corner, b + corner, a + next, b + next);
    }
  });
  return { points: Float32Array.from(points), normals: Float32Array.from(normals), faces: Uint32Array.from(faces) };
}

/** Several tubes as one. */
export function merged(tubes: readonly Tube[]): Tube {
  const total = tubes.reduce((sum, each) => sum + each.points.length, 0);
  const points = new Float32Array(total);
  const normals = new Float32Array(total);
  const faces = new Uint32Array(tubes.reduce((sum, each) => sum + each.faces.length, 0));
  let [at, face] = [0, 0];
  for (const each of tubes) {
    points.set(each.points, at);
    normals.set(each.normals, at);
    each.faces.forEach((corner, place) => (faces[face + place] = corner + at / 3));
    at += each.points.length;
    face += each.faces.length;
  }
  return { points, normals, faces };
}
