// How each kind of bead is drawn on the chart: its colour, its symbol as paths, and ink that can be read on it.
import type { Glyph, TrayAnswer } from "$lib/contract";
import { inkOn } from "$lib/model/ink";

export interface BeadLook {
  readonly key: string;
  readonly name: string;
  readonly colour: string;
  readonly ink: string;
  readonly isStack: boolean;
  readonly solids: readonly Path2D[];
  readonly strokes: readonly Path2D[];
  readonly stroke: number;
}

export function beadLooks(tray: readonly TrayAnswer[], glyphs: readonly Glyph[]): Map<string, BeadLook> {
  const colours = new Map(tray.map((entry) => [entry.key, entry.colour]));
  return new Map(
    tray.map((entry) => {
      const glyph = glyphs.find((each) => each.name === entry.symbol);
      const colour = entry.colour ?? colours.get(entry.stack.at(-1) ?? "") ?? "#888888";
      return [
        entry.key,
        {
          key: entry.key,
          name: entry.name,
          colour,
          ink: inkOn(colour),
          isStack: entry.stack.length > 0,
          solids: (glyph?.solids ?? []).map((path) => new Path2D(path)),
          strokes: (glyph?.strokes ?? []).map((path) => new Path2D(path)),
          stroke: glyph?.stroke ?? 0.15,
        },
      ];
    }),
  );
}
