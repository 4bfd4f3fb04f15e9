// Packed numbers come out as they went in.
import { describe, expect, it } from "vitest";
import { floats, wholes } from "$lib/scene/unpack";
import { packedFloats, packedWholes } from "./helping";

describe("packed numbers", () => {
  it("come out as they went in", () => {
    expect([...floats(packedFloats([2, 2], [1, -2.5, 0, 1e6]))]).toEqual([1, -2.5, 0, 1e6]);
    expect([...wholes(packedWholes([3], [7, -1, 2 ** 31 - 1]))]).toEqual([7, -1, 2 ** 31 - 1]);
  });

  it("are little-endian: 1.0 is 00 00 80 3f (IEEE 754)", () => {
    expect([...floats({ shape: [1], kind: "f4", base64: "AACAPw==" })]).toEqual([1]);
  });

  it("are refused when bytes are missing or of another kind", () => {
    expect(() => floats({ shape: [2], kind: "f4", base64: "AACAPw==" })).toThrow(RangeError);
    expect(() => floats(packedWholes([1], [1]))).toThrow(TypeError);
    expect(() => wholes(packedFloats([1], [1]))).toThrow(TypeError);
  });

  it("may be none at all", () => {
    expect(floats(packedFloats([0, 3], [])).length).toBe(0);
  });
});
