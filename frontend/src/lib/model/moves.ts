// Which move of the working makes a stitch: the slots it goes from and to, once the pattern has turned.
import type { Braid } from "$lib/contract";

export interface MadeBy {
  readonly take: number;
  readonly put: number;
}

/** The slot reached by going clockwise, slots counted from 1. */
export function turned(slot: number, by: number, slots: number): number {
  return ((((slot - 1 + by) % slots) + slots) % slots) + 1;
}

/** The move that makes a stitch; row and stitch count from 0. */
export function moveOf(braid: Braid, row: number, stitch: number): MadeBy | null {
  const move = braid.moves.filter((each) => each.kind === "move")[stitch];
  if (!move) return null;
  const by = braid.shift * row;
  return { take: turned(move.take, by, braid.slots), put: turned(move.put, by, braid.slots) };
}
