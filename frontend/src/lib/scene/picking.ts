// Which bead lies under the pointer: the first surface that the line of sight meets, with every triangle asked.
import type { Raycaster } from "three";
import type { Picked } from "./beads";
import type { Rope } from "./rope";

/** The bead that a line of sight meets first, or null where it meets none or a cord before it. */
export function pickBead(ray: Raycaster, rope: Rope): Picked | null {
  let nearest = Number.POSITIVE_INFINITY;
  let found: number | undefined;
  for (const { mesh, own } of rope.solids) {
    if (!mesh.visible) continue;
    for (const hit of ray.intersectObject(mesh, false)) {
      if (hit.distance < nearest && hit.instanceId !== undefined) {
        nearest = hit.distance;
        found = own[hit.instanceId];
      }
    }
  }
  if (found === undefined || ray.intersectObjects(rope.others, false).some((hit) => hit.distance < nearest)) return null;
  const { stitches } = rope.beads;
  return { bead: found, row: stitches[3 * found]!, stitch: stitches[3 * found + 1]! };
}
