// From a rope in space to places before the reader: lying straight, or bent round a wrist. Numbers only, no drawing.
//
// Before the reader x runs to the right, y up and z toward the reader. Of the straight rope, x is along it, y clockwise
// round it (seen from its last end) and z outward where it faces the reader; the server's drawings do the same.

export type Triple = readonly [number, number, number];

/** How the rope lies: how far it is turned about its own axis, and how strongly it is bent. */
export interface Pose {
  /** The direction that faces the reader, degrees clockwise from north. */
  readonly turnDeg: number;
  /** One through the radius of the ring that the axis of the rope lies on, 1/mm; 0 is straight. */
  readonly curvature: number;
  /** The place along the rope that stays where it is, mm. */
  readonly middleMm: number;
}

const STRAIGHT = 1e-7;

/** East, north and up along the rope, as along it, clockwise round it and outward at the direction turned to. */
export function framed(east: number, north: number, along: number, turnDeg: number): Triple {
  const turn = (turnDeg * Math.PI) / 180;
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  return [along, c * east - s * north, s * east + c * north];
}

/** Where a point of the straight rope (along, clockwise, outward) lies, and how its directions turn there. */
export class Bender {
  private readonly radius: number;

  constructor(readonly pose: Pose) {
    this.radius = Math.abs(pose.curvature) < STRAIGHT ? Number.POSITIVE_INFINITY : 1 / pose.curvature;
  }

  get isStraight(): boolean {
    return this.radius === Number.POSITIVE_INFINITY;
  }

  /** A point: the front runs round the outside of the ring, whose middle lies behind the middle of the rope. */
  point(along: number, up: number, outward: number): Triple {
    if (this.isStraight) return [along, up, outward];
    const angle = (along - this.pose.middleMm) / this.radius;
    const away = this.radius + outward;
    return [this.pose.middleMm + away * Math.sin(angle), up, away * Math.cos(angle) - this.radius];
  }

  /** A direction at a place along the rope. */
  direction(at: number, along: number, up: number, outward: number): Triple {
    if (this.isStraight) return [along, up, outward];
    const angle = (at - this.pose.middleMm) / this.radius;
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    return [c * along + s * outward, up, -s * along + c * outward];
  }
}

/** The radius of the ring on which the axis lies of a rope that goes round a girth, mm; never so small that the ends overlap. */
export function ringRadius(girthMm: number, diameterMm: number, lengthMm: number): number {
  return Math.max(girthMm / (2 * Math.PI) + diameterMm / 2, lengthMm / (2 * Math.PI), 1);
}

/** Which way a drag turns the rope: the surface in front stays under the pointer; down is onward clockwise. */
export function turnOfDrag(downPx: number, pxPerMm: number, radiusMm: number): number {
  return (downPx / pxPerMm / Math.max(radiusMm, 0.1)) * (180 / Math.PI);
}

/** An angle from 0 to before 360. */
export function wrapped(deg: number): number {
  return ((deg % 360) + 360) % 360;
}

/** Where a place along the rope shows, px from the left edge, while it lies straight. */
export function screenX(alongMm: number, scrollMm: number, pxPerMm: number, insetPx: number): number {
  return insetPx + (alongMm - scrollMm) * pxPerMm;
}
