// Where the rope lies before the reader, against values worked out by hand from domain/geometry.py and drawings/posing.py.
import { describe, expect, it } from "vitest";
import { Bender, framed, ringRadius, screenX, turnOfDrag, wrapped } from "$lib/scene/posing";
import { viewOf, type Sight } from "$lib/scene/sight";

const near = (found: readonly number[], wanted: readonly number[]): void => {
  found.forEach((value, at) => expect(value).toBeCloseTo(wanted[at]!, 5));
};

describe("the frame of the straight rope", () => {
  it("has north toward the reader and east up at turn 0, the axis to the right", () => {
    near(framed(0, 3, 7, 0), [7, 0, 3]);
    near(framed(3, 0, 7, 0), [7, 3, 0]);
  });

  it("brings the direction turned to toward the reader: east at 90, south at 180", () => {
    near(framed(3, 0, 7, 90), [7, 0, 3]);
    near(framed(0, -3, 7, 180), [7, 0, 3]);
    near(framed(0, 3, 7, 90), [7, -3, 0]); // north has gone down
  });

  it("keeps lengths and has no mirror in it", () => {
    const [a, b, c] = [framed(1, 0, 0, 33), framed(0, 1, 0, 33), framed(0, 0, 1, 33)];
    const det =
      a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
    expect(det).toBeCloseTo(1, 10);
  });
});

describe("bending", () => {
  const bender = new Bender({ turnDeg: 0, curvature: 1 / 20, middleMm: 50 });
  const quarter = (Math.PI / 2) * 20;

  it("leaves the middle where it is", () => {
    near(bender.point(50, 1, 3), [50, 1, 3]);
    near(bender.direction(50, 1, 2, 3), [1, 2, 3]);
  });

  it("puts a quarter of the ring on at its right side, the front outward", () => {
    near(bender.point(50 + quarter, 1, 3), [50 + 23, 1, -20]);
    near(bender.direction(50 + quarter, 0, 0, 1), [1, 0, 0]);
    near(bender.direction(50 + quarter, 1, 0, 0), [0, 0, -1]);
  });

  it("puts half a ring on at its back", () => {
    near(bender.point(50 + 2 * quarter, 0, 3), [50, 0, -43]);
  });

  it("keeps the axis as long as it was", () => {
    let length = 0;
    for (let at = 0; at < 1000; at += 1) {
      const [a, b] = [bender.point(at / 10, 0, 0), bender.point((at + 1) / 10, 0, 0)];
      length += Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
    }
    expect(length).toBeCloseTo(100, 3);
  });

  it("with no curvature changes nothing", () => {
    near(new Bender({ turnDeg: 9, curvature: 0, middleMm: 5 }).point(1, 2, 3), [1, 2, 3]);
  });

  it("takes the ring from the inner girth and half the thickness, and never overlaps the ends", () => {
    expect(ringRadius(2 * Math.PI * 25, 6, 100)).toBeCloseTo(28, 9);
    expect(ringRadius(10, 6, 2 * Math.PI * 40)).toBeCloseTo(40, 9);
  });
});

describe("on the screen", () => {
  const sight: Sight = {
    pose: { turnDeg: 0, curvature: 0, middleMm: 75 }, far: 4, radius: 28, bent: 0, lengthMm: 150,
    orbit: { yaw: 0.3, pitch: 0.7 }, width: 1000, height: 150, pxPerMm: 8, scrollMm: 20, insetPx: 40,
  };

  it("has exactly so many pixels to the millimetre, the place scrolled to at the inset", () => {
    const view = viewOf(sight);
    expect(view.pxPerMm).toBe(8);
    expect((sight.scrollMm - view.centreX) * view.pxPerMm + sight.width / 2).toBeCloseTo(40, 9);
    expect(screenX(20, 20, 8, 40)).toBe(40);
    expect(screenX(30, 20, 8, 40)).toBe(120);
    expect([view.yaw, view.pitch, view.pivotZ]).toEqual([0, 0, 0]);
  });

  it("worn, fits all of it on the canvas", () => {
    const view = viewOf({ ...sight, bent: 1, pose: { ...sight.pose, curvature: 1 / 28 } });
    expect(view.centreX).toBe(75);
    expect(2 * 32 * view.pxPerMm).toBeLessThan(1000);
    expect(2 * (32 * Math.sin(0.7) + 4 * Math.cos(0.7)) * view.pxPerMm).toBeCloseTo(150 - 32, 6);
  });

  it("keeps the surface under the pointer: a drag of one radius turns one radian", () => {
    expect(turnOfDrag(24, 8, 3)).toBeCloseTo(180 / Math.PI, 9);
    expect(wrapped(-5)).toBe(355);
    expect(wrapped(725)).toBe(5);
  });
});
