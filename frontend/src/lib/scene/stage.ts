// The stage: draws a rope on a canvas when something changed, and tells which bead lies under the pointer.
import { Group, OrthographicCamera, Raycaster, Scene, Vector2, WebGLRenderer } from "three";
import type { Picked, Stitch } from "./beads";
import { pickBead } from "./picking";
import { ringRadius } from "./posing";
import { Rope, type RopeParts } from "./rope";
import { viewOf, type Orbit, type Sight } from "./sight";

/** What is to be seen; each part is given anew when it changes. */
export interface Shown {
  readonly pxPerMm: number;
  readonly scrollMm: number;
  readonly insetPx: number;
  readonly turnDeg: number;
  /** Inner girth of the closed piece, mm; null lies straight. */
  readonly girthMm: number | null;
  readonly drops: ReadonlyMap<string, string> | undefined;
  readonly lit: readonly Stitch[];
  readonly marks: readonly Stitch[];
  readonly lines: readonly number[];
  readonly accent: string;
  readonly paper: string;
}

const BENDING_MS = 650;
const REST_MS = 160;
const START: Orbit = { yaw: -0.35, pitch: 0.72 };

export class Stage {
  private readonly renderer: WebGLRenderer;
  /** Without a graphics card edges are smoothed by drawing twice as fine, and only when all is at rest. */
  private readonly isSlow: boolean;
  private pixelRatio = 1;
  private rest = 0;
  private readonly scene = new Scene();
  private readonly orbitGroup = new Group();
  private readonly camera = new OrthographicCamera();
  private readonly ray = new Raycaster();
  private rope: Rope | undefined;
  /** Ropes of before, thrown away once the next is drawn: until then both share what the browser has compiled. */
  private readonly old: Rope[] = [];
  private shown: Shown | undefined;
  private orbit: Orbit = START;
  private size = { width: 1, height: 1 };
  private asked = 0;
  /** From straight, 0, to worn, 1. */
  private bent = 0;
  private bending: { from: number; to: number; since: number } | undefined;
  private girthMm = 0;
  private sight: Sight | undefined;
  /** How long the last frame took, ms; for tests of speed. */
  lastFrameMs = 0;

  /** Throws when the browser has no WebGL. */
  constructor(
    canvas: HTMLCanvasElement,
    private readonly isMotionReduced: () => boolean,
  ) {
    this.isSlow = isDrawnSlowly();
    this.renderer = new WebGLRenderer({ canvas, antialias: !this.isSlow, alpha: true, powerPreference: "low-power" });
    this.renderer.setClearColor(0, 0);
    this.scene.add(this.orbitGroup);
  }

  get isBent(): boolean {
    return this.bent > 0;
  }

  /** Half the thickness of the rope, mm, and its length. */
  get measures(): { reach: number; lengthMm: number } {
    return { reach: this.rope?.reach ?? 1, lengthMm: this.rope?.lengthMm ?? 0 };
  }

  setRope(parts: RopeParts): void {
    const next = new Rope(parts); // first, so that parts which make no rope leave the old one standing
    if (this.rope) this.old.push(this.rope);
    this.orbitGroup.clear();
    this.rope = next;
    this.sight = undefined;
    this.orbitGroup.add(this.rope.group);
    const shown = this.shown;
    this.shown = undefined;
    if (shown) this.show(shown);
  }

  /** Shows it so from the next frame on. */
  show(shown: Shown): void {
    const before = this.shown;
    this.shown = shown;
    const rope = this.rope;
    if (!rope) return;
    if (shown.drops !== before?.drops) rope.setDrops(shown.drops);
    if (shown.lit !== before?.lit || shown.marks !== before.marks) rope.setLit(shown.lit, shown.marks);
    if (shown.lines.join() !== before?.lines.join()) rope.setLines(shown.lines);
    if (shown.accent !== before?.accent || shown.paper !== before.paper) rope.setColours(shown.accent, shown.paper);
    if (shown.girthMm !== null) this.girthMm = shown.girthMm;
    this.bendTo(shown.girthMm === null ? 0 : 1);
    this.ask();
  }

  setSize(width: number, height: number, pixelRatio: number): void {
    this.size = { width: Math.max(1, width), height: Math.max(1, height) };
    this.pixelRatio = Math.min(pixelRatio, 2);
    this.renderer.setPixelRatio(this.pixelRatio);
    this.renderer.setSize(this.size.width, this.size.height, false);
    this.draw();
  }

  /** Turns the worn piece before the reader, radians. */
  orbitBy(yaw: number, pitch: number): void {
    this.orbit = {
      yaw: this.orbit.yaw + yaw,
      pitch: Math.min(1.5, Math.max(-1.5, this.orbit.pitch + pitch)),
    };
    this.ask();
  }

  /** The bead under a place on the canvas, px from its top left corner. */
  pick(x: number, y: number): Picked | null {
    if (!this.rope) return null;
    this.arrange(performance.now());
    this.scene.updateMatrixWorld();
    this.camera.updateMatrixWorld();
    const at = new Vector2((x / this.size.width) * 2 - 1, 1 - (y / this.size.height) * 2);
    this.ray.setFromCamera(at, this.camera);
    return pickBead(this.ray, this.rope);
  }

  /** Draws now; the scene asks for it by itself. */
  draw(): void {
    const begun = performance.now();
    const isMoving = this.arrange(begun);
    if (this.isSlow) this.refineLater();
    if (this.rope) this.renderer.render(this.scene, this.camera);
    for (const rope of this.old.splice(0)) rope.dispose();
    this.lastFrameMs = performance.now() - begun;
    if (isMoving) this.ask();
  }

  private refineLater(): void {
    clearTimeout(this.rest);
    if (this.renderer.getPixelRatio() !== this.pixelRatio) this.renderer.setPixelRatio(this.pixelRatio);
    this.rest = window.setTimeout(() => {
      if (!this.rope) return;
      this.renderer.setPixelRatio(Math.max(2, this.pixelRatio));
      this.renderer.render(this.scene, this.camera);
    }, REST_MS);
  }

  dispose(): void {
    cancelAnimationFrame(this.asked);
    clearTimeout(this.rest);
    for (const rope of this.old.splice(0)) rope.dispose();
    this.rope?.dispose();
    this.rope = undefined;
    this.renderer.dispose();
  }

  private ask(): void {
    if (this.asked !== 0) return;
    this.asked = requestAnimationFrame(() => {
      this.asked = 0;
      this.draw();
    });
  }

  private bendTo(to: number): void {
    const aim = this.bending?.to ?? this.bent;
    if (aim === to) return;
    if (this.isMotionReduced()) {
      this.bending = undefined;
      this.bent = to;
    } else this.bending = { from: this.bent, to, since: performance.now() };
  }

  /** Puts rope and camera where they belong; true while something still moves. */
  private arrange(now: number): boolean {
    if (this.bending) {
      const share = Math.min(1, Math.max(0, (now - this.bending.since) / BENDING_MS));
      const eased = share * share * (3 - 2 * share);
      this.bent = this.bending.from + (this.bending.to - this.bending.from) * eased;
      if (share === 1) this.bending = undefined;
    }
    const { rope, shown } = this;
    if (!rope || !shown) return false;
    const far = Math.max(rope.reach, ...rope.beads.reaches);
    const radius = ringRadius(this.girthMm, 2 * rope.reach, rope.lengthMm + 1);
    const pose = { turnDeg: shown.turnDeg, curvature: this.bent / radius, middleMm: rope.lengthMm / 2 };
    const sight = { pose, far, radius, bent: this.bent, lengthMm: rope.lengthMm, orbit: this.orbit, ...this.size,
      pxPerMm: shown.pxPerMm, scrollMm: shown.scrollMm, insetPx: shown.insetPx };
    const last = this.sight?.pose;
    if (!last || last.turnDeg !== pose.turnDeg || last.curvature !== pose.curvature) rope.setPose(pose);
    this.sight = sight;
    this.place(sight, rope);
    return this.bending !== undefined;
  }

  private place(sight: Sight, rope: Rope): void {
    const view = viewOf(sight);
    this.orbitGroup.position.set(sight.pose.middleMm, 0, view.pivotZ);
    this.orbitGroup.rotation.set(view.pitch, view.yaw, 0, "XYZ");
    rope.group.position.set(-sight.pose.middleMm, 0, -view.pivotZ);
    const { camera } = this;
    camera.left = -sight.width / 2 / view.pxPerMm;
    camera.right = -camera.left;
    camera.top = sight.height / 2 / view.pxPerMm;
    camera.bottom = -camera.top;
    const deep = sight.lengthMm + 4 * sight.far + 10;
    camera.position.set(view.centreX, 0, deep);
    camera.near = 0;
    camera.far = 2 * deep;
    camera.updateProjectionMatrix();
  }
}

/** Whether the browser draws without a graphics card; it says so only when asked for a context. */
function isDrawnSlowly(): boolean {
  const context = document.createElement("canvas").getContext("webgl2", { failIfMajorPerformanceCaveat: true });
  if (!context) return true;
  const told = context.getExtension("WEBGL_debug_renderer_info");
  const name = String(context.getParameter(told ? told.UNMASKED_RENDERER_WEBGL : context.RENDERER));
  context.getExtension("WEBGL_lose_context")?.loseContext();
  return /swiftshader|llvmpipe|software|basic render/i.test(name);
}
