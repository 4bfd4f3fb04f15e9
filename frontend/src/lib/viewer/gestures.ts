// What a pointer on the rope means: pointing, painting, turning, moving along, or looking at the worn piece.
import { turnOfDrag } from "$lib/scene/posing";
import type { Picked, Stitch } from "$lib/scene/beads";

export type Phase = "begin" | "move" | "end";

/** What the gestures ask of the rope and tell about it. */
export interface Ground {
  readonly isPainting: () => boolean;
  readonly isWorn: () => boolean;
  readonly pick: (x: number, y: number) => Picked | null;
  readonly pxPerMm: () => number;
  readonly radiusMm: () => number;
  readonly turn: (byDeg: number) => void;
  readonly scroll: (byMm: number) => void;
  readonly orbit: (yaw: number, pitch: number) => void;
  readonly point: (stitch: Stitch | null) => void;
  readonly paint: (stitch: Stitch, phase: Phase) => void;
}

type Doing = "paint" | "turn" | "along" | "undecided" | "orbit";
const DECIDED_PX = 5;
const ORBIT_PER_PX = 0.008;

export class Gestures {
  private readonly down = new Map<number, { x: number; y: number }>();
  private doing: Doing | undefined;
  private from = { x: 0, y: 0 };
  private last: Stitch | null = null;
  private pointed: Stitch | null = null;

  constructor(
    private readonly canvas: HTMLCanvasElement,
    private readonly ground: Ground,
  ) {}

  begin(event: PointerEvent): void {
    if (event.button === 1) return;
    this.down.set(event.pointerId, { x: event.offsetX, y: event.offsetY });
    this.canvas.setPointerCapture(event.pointerId);
    if (this.down.size > 1) {
      this.endPaint();
      this.doing = this.ground.isWorn() ? "orbit" : "undecided";
      return;
    }
    this.from = { x: event.offsetX, y: event.offsetY };
    const isPlain = event.button === 0 && !event.shiftKey;
    const picked = this.ground.isPainting() && isPlain ? this.ground.pick(event.offsetX, event.offsetY) : null;
    if (picked) {
      this.doing = "paint";
      this.last = { row: picked.row, stitch: picked.stitch };
      this.ground.paint(this.last, "begin");
    } else this.doing = this.ground.isWorn() ? "orbit" : "undecided";
  }

  move(event: PointerEvent): void {
    const held = this.down.get(event.pointerId);
    if (!held) return this.point(this.ground.pick(event.offsetX, event.offsetY));
    const [right, down] = [event.offsetX - held.x, event.offsetY - held.y];
    this.down.set(event.pointerId, { x: event.offsetX, y: event.offsetY });
    if (this.doing === "paint") return this.paintTo(event);
    if (this.doing === "undecided") {
      const [far, deep] = [Math.abs(event.offsetX - this.from.x), Math.abs(event.offsetY - this.from.y)];
      if (Math.max(far, deep) < DECIDED_PX) return;
      this.doing = far > deep ? "along" : "turn";
    }
    const share = 1 / this.down.size; // two fingers tell the same thing twice
    if (this.doing === "orbit") this.ground.orbit(right * share * ORBIT_PER_PX, down * share * ORBIT_PER_PX);
    else if (this.doing === "turn") this.ground.turn(turnOfDrag(down * share, this.ground.pxPerMm(), this.ground.radiusMm()));
    else if (this.doing === "along") this.ground.scroll((-right * share) / this.ground.pxPerMm());
  }

  end(event: PointerEvent): void {
    if (!this.down.delete(event.pointerId)) return;
    if (this.down.size === 0) {
      this.endPaint();
      this.doing = undefined;
    }
  }

  leave(): void {
    if (this.down.size === 0) this.point(null);
  }

  private paintTo(event: PointerEvent): void {
    const picked = this.ground.pick(event.offsetX, event.offsetY);
    this.point(picked);
    if (!picked || same(picked, this.last)) return;
    this.last = { row: picked.row, stitch: picked.stitch };
    this.ground.paint(this.last, "move");
  }

  private endPaint(): void {
    if (this.doing === "paint" && this.last) this.ground.paint(this.last, "end");
    this.last = null;
  }

  private point(picked: Stitch | null): void {
    if (same(picked, this.pointed)) return;
    this.pointed = picked && { row: picked.row, stitch: picked.stitch };
    this.ground.point(this.pointed);
  }
}

const same = (one: Stitch | null, other: Stitch | null): boolean =>
  one === other || (one !== null && other !== null && one.row === other.row && one.stitch === other.stitch);
