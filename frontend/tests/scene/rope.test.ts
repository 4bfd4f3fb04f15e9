// Beads where they belong, in the right meshes, found again under the pointer; against hand-worked values.
import { OrthographicCamera, Raycaster, Vector2, type InstancedMesh } from "three";
import { describe, expect, it } from "vitest";
import { beadsOf, ownAxes, placeBead, sorted, usualReach } from "$lib/scene/beads";
import { pickBead } from "$lib/scene/picking";
import { Bender } from "$lib/scene/posing";
import { Rope } from "$lib/scene/rope";
import { thinned, tube } from "$lib/scene/tubes";
import { flatBead, threeBeads } from "./helping";

const near = (found: ArrayLike<number>, wanted: readonly number[]): void => {
  wanted.forEach((value, at) => expect(found[at]).toBeCloseTo(value, 5));
};
const rope = (): Rope =>
  new Rope({
    geometry: threeBeads(),
    meshes: { a: flatBead(), b: flatBead(), c: flatBead() },
    tray: ["a", "b", "c"].map((key) => ({ key, colour: "#336699", finish: "opaque" })),
    cordColours: ["#222222"],
    caps: false,
  });
const counts = (it: Rope): number[] => it.solids.map(({ own }) => own.length);
const look = (it: Rope, along: number, up: number): ReturnType<typeof pickBead> => {
  const camera = new OrthographicCamera(-10, 10, 10, -10, 0, 200);
  camera.position.set(along, up, 100);
  it.group.updateMatrixWorld();
  camera.updateMatrixWorld();
  const ray = new Raycaster();
  ray.setFromCamera(new Vector2(0, 0), camera);
  return pickBead(ray, it);
};

describe("the beads", () => {
  const beads = beadsOf(threeBeads());

  it("lie along, clockwise and outward", () => {
    near(beads.centres, [0, 0, 2, 10, 2, 0, 20, 0, -2]);
    expect(usualReach(beads)).toBe(3);
  });

  it("have their reach, third axis and hole as the columns of the matrix", () => {
    const matrix = new Float32Array(16);
    placeBead(beads, 0, new Bender({ turnDeg: 0, curvature: 0, middleMm: 0 }), false, matrix, 0);
    // Reaches toward the reader; hole to the right; hole x reach = right x toward = down.
    near(matrix, [0, 0, 1, 0, 0, -1, 0, 0, 1, 0, 0, 0, 0, 0, 2, 1]);
  });

  it("turn and bend: east at the front, a quarter round the ring", () => {
    const matrix = new Float32Array(16);
    const bender = new Bender({ turnDeg: 90, curvature: Math.PI / 2 / 10, middleMm: 0 });
    const away = placeBead(beads, 1, bender, true, matrix, 0);
    const radius = 10 / (Math.PI / 2);
    near(matrix.subarray(12), [radius + 2, 0, -radius, 1]);
    near(matrix.subarray(8), [0, 0, -1]);
    near(away, [2, 0, 0]);
  });

  it("make what reaches out square to the hole, and find a way where it does not", () => {
    near(ownAxes([0, 0, 1], [1, 0, 1])[0], [1, 0, 0]);
    near(ownAxes([0, 0, 1], [0, 0, 1])[0], [0, 1, 0]);
  });

  it("are sorted by key, with the drops laid since then: another bead, a bare stitch, a shorter stack", () => {
    expect([...sorted(beads, undefined)]).toEqual([["a", [0, 1]], ["b", [2]]]);
    expect([...sorted(beads, new Map([["0,0", "c"]]))]).toEqual([["c", [0]], ["a", [1]], ["b", [2]]]);
    expect([...sorted(beads, new Map([["0,0", ""], ["1,1", "c"]]))]).toEqual([["c", [1]]]);
  });
});

describe("the rope", () => {
  it("moves a bead to another mesh at once, and back", () => {
    const it = rope();
    expect(counts(it)).toEqual([2, 1, 0]);
    it.setDrops(new Map([["0,0", "c"]]));
    expect(counts(it)).toEqual([1, 1, 1]);
    it.setDrops(undefined);
    expect(counts(it)).toEqual([2, 1, 0]);
  });

  it("lights a stitch and marks another, and keeps them lit in another mesh", () => {
    const it = rope();
    it.setLit([{ row: 0, stitch: 0 }], [{ row: 1, stitch: 1 }]);
    const lit = (mesh: InstancedMesh): number[] => [...mesh.geometry.getAttribute("aLit").array].slice(0, mesh.count);
    expect(it.solids.map(({ mesh }) => lit(mesh))).toEqual([[1, 0.5], [0.5], []]);
    it.setDrops(new Map([["0,0", "c"]]));
    expect(lit(it.solids[2]!.mesh)).toEqual([1]);
  });

  it("is found under the pointer, and nothing is found where no bead is", () => {
    const it = rope();
    // Bent so that the first bead lies a quarter round the ring, its flat solid facing the reader.
    it.setPose({ turnDeg: 0, curvature: Math.PI / 2 / 10, middleMm: 10 });
    const left = 10 - (10 / (Math.PI / 2) + 2);
    expect(look(it, left, 0)).toEqual({ bead: 0, row: 0, stitch: 0 });
    expect(look(it, left, 0.9)).toEqual({ bead: 0, row: 0, stitch: 0 });
    expect(look(it, left, 1.2)).toBeNull(); // its lower edge in its own measures, 1 mm from its middle
    it.setDrops(new Map([["0,0", ""]]));
    expect(look(it, left, 0)).toBeNull();
  });

  it("turns as a whole while straight", () => {
    const it = rope();
    it.setPose({ turnDeg: 90, curvature: 0, middleMm: 10 });
    expect(it.group.rotation.x).toBeCloseTo(Math.PI / 2, 9);
    it.setPose({ turnDeg: 90, curvature: 0.05, middleMm: 10 });
    expect(it.group.rotation.x).toBe(0);
  });

  it("has nothing left when it is thrown away", () => {
    const it = rope();
    it.setLines([0, 90]);
    it.dispose();
    expect(it.group.children).toEqual([]);
  });
});

describe("cords", () => {
  const curve = new Float32Array([0, 1, 0, 0, 1, 1, 0, 1, 2, 1, 1, 3]);

  it("lose the nodes of straight pieces and what lies beyond the ends", () => {
    expect(thinned(curve, 0, 3, 20)).toEqual([[0, 0, 1], [2, 0, 1], [3, 1, 1]]);
    expect(thinned(curve, 0.5, 2, 20)).toEqual([[1, 0, 1], [2, 0, 1]]);
  });

  it("are round: every point lies a radius away, its normal outward", () => {
    const made = tube([[0, 0, 0], [5, 0, 0]], 0.5, 6);
    for (let at = 0; at < made.points.length; at += 3) {
      expect(Math.hypot(made.points[at + 1]!, made.points[at + 2]!)).toBeCloseTo(0.5, 6);
      expect(made.points[at + 1]! * made.normals[at + 1]! + made.points[at + 2]! * made.normals[at + 2]!).toBeCloseTo(0.5, 6);
    }
  });

  it("show their outside: triangles run counter-clockwise seen from without", () => {
    const { points, normals, faces } = tube([[0, 0, 0], [5, 0, 0]], 0.5, 6);
    const at = (index: number): number[] => [...points.subarray(3 * index, 3 * index + 3)];
    const [a, b, c] = [at(faces[0]!), at(faces[1]!), at(faces[2]!)];
    const [u, v] = [b!.map((value, sense) => value - a![sense]!), c!.map((value, sense) => value - a![sense]!)];
    const out = [u[1]! * v[2]! - u[2]! * v[1]!, u[2]! * v[0]! - u[0]! * v[2]!, u[0]! * v[1]! - u[1]! * v[0]!];
    expect(out.reduce((sum, value, sense) => sum + value * normals[3 * faces[0]! + sense]!, 0)).toBeGreaterThan(0);
  });
});
