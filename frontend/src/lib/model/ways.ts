// The ways of laying beads.
export const WAYS = ["lay", "line", "fill", "cord", "station", "pick", "patch"] as const;
export type Way = (typeof WAYS)[number];
