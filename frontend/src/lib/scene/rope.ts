// The rope as things to draw: one instanced mesh for each kind of bead, a tube for each colour of cord, and the caps.
import {
  BufferAttribute, BufferGeometry, Color, DynamicDrawUsage, Group, InstancedBufferAttribute, InstancedMesh, Mesh,
  MeshBasicMaterial, type Material,
} from "three";
import type { GeometryAnswer, Packed } from "$lib/contract";
import { beadsOf, placeBead, sorted, stitchName, usualReach, type Beads, type Stitch } from "./beads";
import { finishOf, type Finish } from "./finishes";
import { surface, type Shared } from "./materials";
import { Bender, type Pose } from "./posing";
import { merged, rounded, thinned, tube, turned, type Tube } from "./tubes";
import { floats, wholes } from "./unpack";

export interface BeadMesh {
  readonly points: Packed;
  readonly normals: Packed;
  readonly faces: Packed;
}
export interface BeadLook {
  readonly key: string;
  readonly colour: string | null;
  readonly finish: string | null;
}
/** Everything a rope is built from; another one means another rope. */
export interface RopeParts {
  readonly geometry: GeometryAnswer;
  readonly meshes: Readonly<Record<string, BeadMesh>>;
  readonly tray: readonly BeadLook[];
  /** "#rrggbb" of each cord. */
  readonly cordColours: readonly string[];
  /** Whether plain metal caps close the ends. */
  readonly caps: boolean;
}

const CAP_MM = 5;
const CAP_AT = 0.3; // before the first row
// Corners of a cord's ring and how far it turns from ring to ring: among beads, and where cords are all there is to see.
const AMONG_BEADS = [6, 24] as const;
const ALONE = [10, 7] as const;
const CORE_SHARE = 0.55; // of the way from the axis to the holes; the drawings on paper do much the same
const NO_COLOUR = "#9a9080";
const METAL = "#d9d4c8";

interface Body {
  readonly mesh: Mesh<BufferGeometry>;
  readonly rest: Tube;
}
interface Kind {
  readonly mesh: InstancedMesh;
  readonly away: InstancedBufferAttribute;
  readonly lit: InstancedBufferAttribute;
  own: number[];
}

export class Rope {
  readonly group = new Group();
  readonly beads: Beads;
  readonly lengthMm: number;
  /** Half its thickness, mm. */
  readonly reach: number;
  private readonly kinds = new Map<string, Kind>();
  private readonly bodies: Body[] = [];
  private readonly lines: Body[] = [];
  private readonly shared: Shared;
  private drops: ReadonlyMap<string, string> | undefined;
  private lit = new Map<string, number>();
  private pose: Pose = { turnDeg: 0, curvature: 0, middleMm: 0 };

  constructor(parts: RopeParts) {
    this.beads = beadsOf(parts.geometry);
    const curves = parts.geometry.cords.map(floats);
    this.lengthMm = floats(parts.geometry.heights).at(-1) ?? 0;
    this.reach = usualReach(this.beads) || cordReach(curves, parts.geometry.cord_mm);
    this.shared = {
      accent: { value: new Color("#a32c3c") },
      paper: { value: new Color("#ffffff") },
      reach: { value: this.reach },
    };
    this.addKinds(parts);
    this.addCords(parts, curves);
    this.addCore(parts);
    if (parts.caps) this.addCaps();
    this.arrange();
  }

  /** Turns and bends it. Straight ropes only turn as a whole; a bent one is placed bead by bead. */
  setPose(pose: Pose): void {
    const wasBent = this.pose.curvature !== 0;
    this.pose = pose;
    const isBent = pose.curvature !== 0;
    this.group.rotation.x = isBent ? 0 : (pose.turnDeg * Math.PI) / 180;
    if (isBent || wasBent) {
      this.arrange();
      for (const body of [...this.bodies, ...this.lines]) this.bend(body);
    }
  }

  /** Gives some stitches another drop at once: its tray keys, "" for a bare stitch. */
  setDrops(drops: ReadonlyMap<string, string> | undefined): void {
    if (drops === this.drops) return;
    this.drops = drops;
    this.arrange();
  }

  /** Lights stitches, and marks others more quietly. */
  setLit(lit: readonly Stitch[], marks: readonly Stitch[]): void {
    this.lit = new Map(marks.map((each) => [stitchName(each.row, each.stitch), 0.5]));
    for (const each of lit) this.lit.set(stitchName(each.row, each.stitch), 1);
    for (const kind of this.kinds.values()) this.light(kind);
  }

  /** The colours of the page that lit beads are ringed in. */
  setColours(accent: string, paper: string): void {
    this.shared.accent.value.set(accent);
    this.shared.paper.value.set(paper);
    for (const line of this.lines) (line.mesh.material as MeshBasicMaterial).color.set(accent);
  }

  /** Draws thin lines along the rope at these directions, degrees clockwise from north. */
  setLines(directions: readonly number[]): void {
    for (const line of this.lines.splice(0)) this.drop(line.mesh);
    const far = Math.max(this.reach, ...this.beads.reaches) + 0.25;
    for (const deg of directions) {
      const turn = (deg * Math.PI) / 180;
      const nodes: [number, number, number][] = [];
      const steps = Math.max(2, Math.ceil(this.lengthMm / 2));
      for (let step = 0; step <= steps; step += 1) {
        nodes.push([(this.lengthMm * step) / steps, far * Math.sin(turn), far * Math.cos(turn)]);
      }
      const material = new MeshBasicMaterial({ color: this.shared.accent.value });
      this.lines.push(this.body(tube(nodes, 0.06, 6), material));
    }
  }

  /** The meshes of beads with the beads in them, in order; for picking. */
  get solids(): { mesh: InstancedMesh; own: readonly number[] }[] {
    return [...this.kinds.values()];
  }

  /** The meshes of cords and caps: what may lie in front of a bead. */
  get others(): Mesh[] {
    return this.bodies.map((body) => body.mesh);
  }

  dispose(): void {
    for (const { mesh } of this.kinds.values()) {
      this.drop(mesh);
      mesh.dispose();
    }
    for (const { mesh } of [...this.bodies, ...this.lines]) this.drop(mesh);
  }

  private drop(mesh: Mesh): void {
    this.group.remove(mesh);
    mesh.geometry.dispose();
    (mesh.material as Material).dispose();
  }

  private addKinds(parts: RopeParts): void {
    for (const look of parts.tray) {
      const shape = parts.meshes[look.key];
      if (!shape) continue;
      const count = Math.max(1, this.beads.count);
      const away = new InstancedBufferAttribute(new Float32Array(4 * count), 4).setUsage(DynamicDrawUsage);
      const lit = new InstancedBufferAttribute(new Float32Array(count), 1).setUsage(DynamicDrawUsage);
      const geometry = geometryOf({
        points: floats(shape.points),
        normals: floats(shape.normals),
        faces: Uint32Array.from(wholes(shape.faces)),
      });
      geometry.setAttribute("aAway", away).setAttribute("aLit", lit);
      const material = surface(look.colour ?? NO_COLOUR, finishOf(look.finish), this.shared);
      const mesh = new InstancedMesh(geometry, material, count);
      mesh.instanceMatrix.setUsage(DynamicDrawUsage);
      mesh.frustumCulled = false;
      this.group.add(mesh);
      this.kinds.set(look.key, { mesh, away, lit, own: [] });
    }
  }

  private addCords(parts: RopeParts, curves: readonly Float32Array[]): void {
    const spare = parts.caps ? CAP_AT + CAP_MM / 2 : Number.POSITIVE_INFINITY;
    const [corners, bendDeg] = this.beads.count > 0 ? AMONG_BEADS : ALONE;
    const byColour = new Map<string, Tube[]>();
    curves.forEach((curve, cord) => {
      const colour = parts.cordColours[cord] ?? NO_COLOUR;
      const nodes = thinned(curve, -spare, this.lengthMm + spare, bendDeg);
      if (nodes.length < 2) return;
      byColour.set(colour, [...(byColour.get(colour) ?? []), tube(nodes, parts.geometry.cord_mm / 2, corners)]);
    });
    for (const [colour, tubes] of byColour) this.addBody(merged(tubes), colour, "cord");
  }

  private addCaps(): void {
    const r = this.reach + 0.35;
    const profile = [[0, r - 1], [0, r - 0.2], [0.15, r], [0.85, r], [1.05, r - 0.25], [1.3, r - 0.1], [CAP_MM - 1.6, r - 0.1],
      [CAP_MM, r - 0.5], [CAP_MM, r - 1.5], [CAP_MM, 0]] as const;
    for (const [at, way] of [[-CAP_AT, -1], [this.lengthMm + CAP_AT, 1]] as const) {
      const outline = rounded(profile).map(([along, out]) => [at + way * along, Math.max(0, out)] as const);
      this.addBody(turned(way > 0 ? outline : outline.toReversed(), 48), METAL, "metal");
    }
  }

  /** What shows between the beads is dark, not the page: in a rope there is always a cord behind. */
  private addCore(parts: RopeParts): void {
    if (this.beads.count === 0) return;
    const away = Float32Array.from({ length: this.beads.count }, (_, at) =>
      Math.hypot(this.beads.centres[3 * at + 1]!, this.beads.centres[3 * at + 2]!),
    ).sort();
    const radius = CORE_SHARE * away[Math.floor(away.length / 2)]!;
    const steps = Math.max(2, Math.ceil(this.lengthMm / 2));
    const nodes = Array.from({ length: steps + 1 }, (_, step): [number, number, number] => [(this.lengthMm * step) / steps, 0, 0]);
    const tint = new Color(parts.cordColours[0] ?? NO_COLOUR).multiplyScalar(0.3);
    this.addBody(tube(nodes, radius, 16), `#${tint.getHexString()}`, "cord");
  }

  private addBody(rest: Tube, colour: string, finish: Finish): void {
    this.bodies.push(this.body(rest, surface(colour, finish, this.shared)));
  }

  private body(rest: Tube, material: Material): Body {
    const mesh = new Mesh(geometryOf({ ...rest, points: rest.points.slice(), normals: rest.normals.slice() }), material);
    mesh.geometry.setAttribute("aDepth", new BufferAttribute(depths(rest.points), 1));
    mesh.frustumCulled = false;
    this.group.add(mesh);
    const body = { mesh, rest };
    if (this.pose.curvature !== 0) this.bend(body);
    return body;
  }

  private arrange(): void {
    const bender = new Bender(this.pose);
    const own = sorted(this.beads, this.drops);
    for (const [key, kind] of this.kinds) {
      kind.own = own.get(key) ?? [];
      const matrices = kind.mesh.instanceMatrix.array as Float32Array;
      kind.own.forEach((bead, slot) => {
        const way = placeBead(this.beads, bead, bender, !bender.isStraight, matrices, 16 * slot);
        const size = Math.hypot(...way) || 1;
        kind.away.setXYZW(slot, way[0] / size, way[1] / size, way[2] / size, size);
      });
      kind.mesh.count = kind.own.length;
      kind.mesh.visible = kind.own.length > 0;
      kind.mesh.instanceMatrix.needsUpdate = true;
      kind.away.needsUpdate = true;
      kind.mesh.boundingSphere = null;
      this.light(kind);
    }
  }

  private light(kind: Kind): void {
    kind.own.forEach((bead, slot) => {
      const name = stitchName(this.beads.stitches[3 * bead]!, this.beads.stitches[3 * bead + 1]!);
      kind.lit.setX(slot, this.lit.get(name) ?? 0);
    });
    kind.lit.needsUpdate = true;
  }

  private bend(body: Body): void {
    const bender = new Bender(this.pose);
    const turn = bender.isStraight ? 0 : (this.pose.turnDeg * Math.PI) / 180;
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    const [points, normals] = ["position", "normal"].map((name) => body.mesh.geometry.getAttribute(name) as BufferAttribute);
    const { points: p, normals: n } = body.rest;
    for (let at = 0; at < p.length; at += 3) {
      const along = p[at]!;
      points!.setXYZ(at / 3, ...bender.point(along, c * p[at + 1]! - s * p[at + 2]!, s * p[at + 1]! + c * p[at + 2]!));
      normals!.setXYZ(
        at / 3, ...bender.direction(along, n[at]!, c * n[at + 1]! - s * n[at + 2]!, s * n[at + 1]! + c * n[at + 2]!),
      );
    }
    points!.needsUpdate = true;
    normals!.needsUpdate = true;
    body.mesh.geometry.boundingSphere = null;
  }
}

function geometryOf(rest: Tube): BufferGeometry {
  return new BufferGeometry()
    .setAttribute("position", new BufferAttribute(rest.points, 3))
    .setAttribute("normal", new BufferAttribute(rest.normals, 3))
    .setIndex(new BufferAttribute(rest.faces, 1));
}

/** How far each point lies from the axis of the straight rope. */
function depths(points: Float32Array): Float32Array {
  return Float32Array.from({ length: points.length / 3 }, (_, at) => Math.hypot(points[3 * at + 1]!, points[3 * at + 2]!));
}

function cordReach(curves: readonly Float32Array[], cordMm: number): number {
  let far = 0;
  for (const curve of curves) {
    for (let at = 0; at < curve.length; at += 3) far = Math.max(far, Math.hypot(curve[at]!, curve[at + 1]!));
  }
  return far + cordMm / 2;
}
