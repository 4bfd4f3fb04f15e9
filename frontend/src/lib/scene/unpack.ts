// From packed numbers, as the server sends them, to typed arrays.
import type { Packed } from "$lib/contract";

function bytes(packed: Packed): ArrayBuffer {
  const text = atob(packed.base64);
  const found = new Uint8Array(text.length);
  for (let at = 0; at < text.length; at += 1) found[at] = text.charCodeAt(at);
  const wanted = 4 * packed.shape.reduce((product, extent) => product * extent, 1);
  if (found.length !== wanted) throw new RangeError(`${found.length} bytes came where ${wanted} belong`);
  return littleEndian(found);
}

// Every machine with a browser today is little-endian, but the format says what it is, so it is read as it says.
function littleEndian(found: Uint8Array<ArrayBuffer>): ArrayBuffer {
  if (new Uint8Array(new Uint32Array([1]).buffer)[0] === 1) return found.buffer;
  for (let at = 0; at < found.length; at += 4) found.subarray(at, at + 4).reverse();
  return found.buffer;
}

/** Numbers of 32-bit floating point, row by row. */
export function floats(packed: Packed): Float32Array<ArrayBuffer> {
  if (packed.kind !== "f4") throw new TypeError(`${packed.kind} came where f4 belongs`);
  return new Float32Array(bytes(packed));
}

/** Whole numbers, row by row. */
export function wholes(packed: Packed): Int32Array<ArrayBuffer> {
  if (packed.kind !== "i4") throw new TypeError(`${packed.kind} came where i4 belongs`);
  return new Int32Array(bytes(packed));
}
