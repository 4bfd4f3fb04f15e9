// Finishes look like what they are called: where they are bright, and that their colour is theirs.
import { describe, expect, it } from "vitest";
import { finishOf, finishPicture, lightFrom, linear, type Finish } from "$lib/scene/finishes";

const sum = (light: readonly number[]): number => light.reduce((total, value) => total + value, 0);
const side = (x: number, y: number): [number, number, number] => [x, y, Math.sqrt(1 - x * x - y * y)];
const UPPER_LEFT = side(-0.5, 0.6);
const LOWER_RIGHT = side(0.5, -0.6);

describe("finishes", () => {
  it("read colours as linear light (IEC 61966-2-1)", () => {
    expect(linear("#ffffff")).toEqual([1, 1, 1]);
    expect(linear("#808080")[0]).toBeCloseTo(0.21586, 4);
  });

  it("are lit from the upper left, but clear glass glows where the light comes out", () => {
    for (const finish of ["opaque", "matte", "pearl", "cord"] satisfies Finish[]) {
      expect(sum(lightFrom("#806040", finish, UPPER_LEFT))).toBeGreaterThan(1.3 * sum(lightFrom("#806040", finish, LOWER_RIGHT)));
    }
    expect(sum(lightFrom("#d99a1c", "transparent", LOWER_RIGHT))).toBeGreaterThan(sum(lightFrom("#d99a1c", "transparent", side(-0.7, 0.1))));
  });

  it("have a gleam, except the dull ones", () => {
    const gleam = (finish: Finish): number => sum(lightFrom("#202020", finish, side(-0.27, 0.36)));
    for (const finish of ["opaque", "transparent", "metallic", "rainbow"] satisfies Finish[]) {
      expect(gleam(finish)).toBeGreaterThan(4 * gleam("matte"));
    }
  });

  it("keep the hue of the bead in the middle of it", () => {
    for (const finish of ["opaque", "matte", "transparent", "silver-lined", "metallic"] satisfies Finish[]) {
      const [red, green, blue] = lightFrom("#c02020", finish, side(0.2, -0.2));
      expect(red).toBeGreaterThan(1.5 * green);
      expect(red).toBeGreaterThan(1.5 * blue);
    }
  });

  it("are drawn without a hole, and unknown names are opaque", () => {
    const picture = finishPicture("#336699", "rainbow", 8);
    expect(picture.length).toBe(256);
    expect(picture.filter((_, at) => at % 4 === 3).every((value) => value === 255)).toBe(true);
    expect([finishOf(null), finishOf("pearl"), finishOf("glittery")]).toEqual(["opaque", "pearl", "opaque"]);
  });
});
