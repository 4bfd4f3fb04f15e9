// From what is asked for to where the camera stands. Numbers only.
import type { Pose } from "./posing";

export interface Orbit {
  /** Round the upright axis of the worn piece, radians. */
  readonly yaw: number;
  /** How far it is seen from above, radians. */
  readonly pitch: number;
}

export interface Sight {
  readonly pose: Pose;
  /** How far its outermost bead reaches, mm. */
  readonly far: number;
  /** Of the ring that it will be bent on, mm. */
  readonly radius: number;
  readonly bent: number;
  readonly lengthMm: number;
  readonly orbit: Orbit;
  readonly width: number;
  readonly height: number;
  readonly pxPerMm: number;
  readonly scrollMm: number;
  readonly insetPx: number;
}

export interface View {
  readonly pxPerMm: number;
  /** The place along the rope in the middle of the canvas, mm. */
  readonly centreX: number;
  /** The depth of the middle of the bent piece, mm: it turns about this. */
  readonly pivotZ: number;
  readonly yaw: number;
  readonly pitch: number;
}

const MARGIN_PX = 16;

/** Straight, the scale is exactly what was asked for; worn, the whole piece fits on the canvas. */
export function viewOf(sight: Sight): View {
  const { pose, bent, orbit } = sight;
  const straightX = sight.scrollMm + (sight.width / 2 - sight.insetPx) / sight.pxPerMm;
  const fit = fittingScale(sight);
  return {
    pxPerMm: sight.pxPerMm ** (1 - bent) * fit ** bent,
    centreX: (1 - bent) * straightX + bent * pose.middleMm,
    pivotZ: pose.curvature < 1e-7 ? 0 : -(1 - Math.cos(Math.min(Math.PI, (sight.lengthMm * pose.curvature) / 2))) / pose.curvature / 2,
    yaw: bent * orbit.yaw,
    pitch: bent * orbit.pitch,
  };
}

function fittingScale(sight: Sight): number {
  const wide = 2 * (sight.radius + sight.far);
  const tilt = Math.abs(sight.orbit.pitch);
  const high = 2 * ((sight.radius + sight.far) * Math.sin(tilt) + sight.far * Math.cos(tilt));
  const room = (px: number): number => Math.max(8, px - 2 * MARGIN_PX);
  return Math.min(room(sight.width) / wide, room(sight.height) / high);
}
