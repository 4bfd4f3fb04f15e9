// What the tests of the rope share: packing numbers as the server does, and a rope of three beads with round numbers.
import type { GeometryAnswer, Packed } from "$lib/contract";

const text = (bytes: ArrayBuffer): string => btoa(String.fromCharCode(...new Uint8Array(bytes)));

export const packedFloats = (shape: number[], values: number[]): Packed => ({
  shape, kind: "f4", base64: text(new Float32Array(values).buffer),
});
export const packedWholes = (shape: number[], values: number[]): Packed => ({
  shape, kind: "i4", base64: text(new Int32Array(values).buffer),
});

/** Beads at north, east and south, 2 mm out, 10 mm apart; holes along the rope, reaching outward. */
export function threeBeads(): GeometryAnswer {
  return {
    keys: "aab",
    stitches: packedWholes([3, 3], [0, 0, 0, 1, 1, 0, 1, 1, 1]),
    bead_cords: packedWholes([3], [0, 0, 0]),
    centres: packedFloats([3, 3], [0, 2, 0, 2, 0, 10, 0, -2, 20]),
    holes: packedFloats([3, 3], [0, 0, 1, 0, 0, 1, 0, 0, 1]),
    outward: packedFloats([3, 3], [0, 1, 0, 1, 0, 0, 0, -1, 0]),
    cords: [packedFloats([3, 3], [0, 1, -5, 0, 1, 10, 0, 1, 25])],
    cord_mm: 0.5,
    heights: packedFloats([3], [0, 10, 20]),
    reaches: packedFloats([3], [3, 3, 4]),
    basis: "estimated",
  };
}

/** One triangle that a line of sight along z meets at the origin, as the solid of a bead. */
export const flatBead = () => ({
  points: packedFloats([3, 3], [-1, -1, 0, 1, -1, 0, 0, 2, 0]),
  normals: packedFloats([3, 3], [0, 0, 1, 0, 0, 1, 0, 0, 1]),
  faces: packedWholes([1, 3], [0, 1, 2]),
});
