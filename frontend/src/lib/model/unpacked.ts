// Arrays of numbers as the server packs them.
import type { Packed } from "$lib/contract";

function bytesOf(packed: Packed): ArrayBuffer {
  const text = atob(packed.base64);
  const bytes = new Uint8Array(text.length);
  for (let at = 0; at < text.length; at += 1) bytes[at] = text.charCodeAt(at);
  return bytes.buffer;
}

export function numbersOf(packed: Packed): Float32Array {
  return new Float32Array(bytesOf(packed));
}

export function wholesOf(packed: Packed): Int32Array {
  return new Int32Array(bytesOf(packed));
}
