// What a finish looks like: for every direction that a surface can face, the light that comes back from it.
//
// The light never moves (a soft window at the upper left, paper below), so the answer for each direction is worked out
// once and kept as a small picture; drawing then costs one look-up, even without a graphics card. The numbers are our
// own, chosen by eye.
import type { Triple } from "./posing";

export type Finish = "opaque" | "transparent" | "silver-lined" | "matte" | "metallic" | "rainbow" | "pearl" | "cord" | "metal";

export const FINISH_SIZE = 96;

const LIGHT: Triple = unit([-0.5, 0.66, 0.68]);
const FAR: Triple = unit([0.55, -0.62, 0.5]); // where light that went in at the upper left comes out again
const WHITE: Triple = [1, 1, 1];

function unit(v: Triple): Triple {
  const size = Math.hypot(...v);
  return [v[0] / size, v[1] / size, v[2] / size];
}
const dot = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const times = (a: Triple, share: number): Triple => [a[0] * share, a[1] * share, a[2] * share];
const plus = (a: Triple, b: Triple): Triple => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const tinted = (a: Triple, b: Triple): Triple => [a[0] * b[0], a[1] * b[1], a[2] * b[2]];
const mixed = (a: Triple, b: Triple, share: number): Triple => plus(times(a, 1 - share), times(b, share));
const power = (a: Triple, exponent: number): Triple => [a[0] ** exponent, a[1] ** exponent, a[2] ** exponent];
const smooth = (from: number, to: number, value: number): number => {
  const share = Math.min(1, Math.max(0, (value - from) / (to - from)));
  return share * share * (3 - 2 * share);
};

/** "#rrggbb" as linear light. */
export function linear(colour: string): Triple {
  const part = (from: number): number => {
    const value = Number.parseInt(colour.slice(from, from + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  return [part(1), part(3), part(5)];
}

function byteOf(light: number): number {
  const kept = light < 0.8 ? light : 0.8 + 0.2 * (1 - Math.exp(-(light - 0.8) / 0.2)); // bright light flattens softly
  const value = kept <= 0.0031308 ? kept * 12.92 : 1.055 * kept ** (1 / 2.4) - 0.055;
  return Math.round(255 * Math.min(1, Math.max(0, value)));
}

/** A direction, with what every finish asks about it. */
interface Facing {
  readonly normal: Triple;
  /** Light on a dull surface, 0 to 1. */
  readonly dull: number;
  /** The mirror image of the reader's eye. */
  readonly mirror: Triple;
  /** How much a smooth surface mirrors here. */
  readonly glance: number;
}

function facing(normal: Triple): Facing {
  const mirror: Triple = [2 * normal[2] * normal[0], 2 * normal[2] * normal[1], 2 * normal[2] * normal[2] - 1];
  const lit = Math.max(0, (dot(normal, LIGHT) + 0.25) / 1.25);
  return { normal, mirror, dull: 0.24 + 0.1 * normal[1] + 0.86 * lit, glance: 0.04 + 0.5 * (1 - normal[2]) ** 4 };
}

/** The window and the room, as a mirror shows them. */
function room(mirror: Triple, soft: number): number {
  const window = smooth(0.93 - 0.25 * soft, 0.985, dot(mirror, LIGHT));
  return 0.25 + 0.3 * smooth(-0.5, 0.9, mirror[1]) + (2.6 - 1.6 * soft) * window;
}

const gleam = (at: Facing, strength: number, soft = 0): number =>
  strength * (smooth(0.9 - 0.3 * soft, 0.99, dot(at.mirror, LIGHT)) * (1 - 0.45 * soft)) + at.glance * 0.4 * (0.5 + 0.5 * at.normal[1]);

/** Colours of a thin film: they run round the circle as the surface turns away. */
function film(normal: Triple, turns: number): Triple {
  const way = 2 * Math.PI * (turns * (1 - normal[2]) + 0.12 * (normal[0] - normal[1]));
  return [0.55 + 0.45 * Math.cos(way), 0.55 + 0.45 * Math.cos(way - 2.1), 0.55 + 0.45 * Math.cos(way - 4.2)];
}

function glass(colour: Triple, at: Facing, glow: number): Triple {
  const deep = power(mixed(colour, WHITE, 0.03), 1.25);
  const through = smooth(-0.25, 1, dot(at.normal, FAR));
  const thin = 0.55 + 0.45 * smooth(0, 0.75, at.normal[2]);
  return plus(times(mixed(deep, colour, through), thin * (0.42 + 0.2 * at.dull + glow * through)), times(WHITE, gleam(at, 0.95)));
}

const FINISHES: Record<Finish, (colour: Triple, at: Facing) => Triple> = {
  opaque: (colour, at) => plus(times(colour, at.dull), times(WHITE, gleam(at, 0.75) + 0.018 * room(at.mirror, 1))),
  matte: (colour, at) => times(mixed(colour, WHITE, 0.035), 0.2 + 0.84 * at.dull),
  transparent: (colour, at) => glass(colour, at, 0.95),
  "silver-lined": (colour, at) => {
    const lining = smooth(0.5, 0.97, at.normal[2]) * (0.35 + 0.65 * smooth(-0.6, 0.8, dot(at.mirror, LIGHT)));
    const streak = smooth(0.72, 0.9, at.normal[2]) * smooth(0.1, 0.55, dot(at.normal, LIGHT));
    return plus(times(glass(power(colour, 1.15), at, 0.5), 0.8), plus(times(colour, 0.25 * lining), times(mixed(colour, WHITE, 0.45), 0.3 * streak)));
  },
  metallic: (colour, at) => plus(times(colour, 0.16 * at.dull), tinted(mixed(colour, WHITE, 0.12), times(WHITE, 1.05 * room(at.mirror, 0.35)))),
  rainbow: (colour, at) => {
    const sheen = 0.25 + 0.75 * room(at.mirror, 0.8);
    return plus(times(colour, 0.8 * at.dull), plus(times(film(at.normal, 1.3), 0.26 * sheen), times(WHITE, gleam(at, 0.6))));
  },
  pearl: (colour, at) => {
    const body = times(colour, 0.14 + 0.8 * at.dull);
    const lustre = times(mixed(film(at.normal, 0.8), WHITE, 0.6), 0.14 * (1 - at.normal[2]) + 0.16 * smooth(0.2, 1, dot(at.mirror, LIGHT)));
    return plus(body, plus(lustre, times(WHITE, gleam(at, 0.35, 0.7))));
  },
  cord: (colour, at) => plus(times(colour, 0.12 + 0.85 * at.dull), times(mixed(colour, WHITE, 0.3), 0.16 * (1 - at.normal[2]) ** 2)),
  metal: (colour, at) => times(colour, 0.04 + 0.62 * room(at.mirror, 0.9) + 0.22 * at.dull),
};

/** The finish that a tray entry names; what has none is opaque. */
export function finishOf(name: string | null | undefined): Finish {
  return name != null && name in FINISHES ? (name as Finish) : "opaque";
}

/** The light that comes back from a surface facing a way, linear. */
export function lightFrom(colour: string, finish: Finish, normal: Triple): Triple {
  return FINISHES[finish](linear(colour), facing(normal));
}

// A rope is built anew at every answer of the server, mostly in the same colours.
const drawn = new Map<string, Uint8Array<ArrayBuffer>>();
const MOST_DRAWN = 64;

/** The picture of a finish: sRGB bytes, from the lowest line up, the direction to the reader in the middle. */
export function finishPicture(colour: string, finish: Finish, size = FINISH_SIZE): Uint8Array<ArrayBuffer> {
  const name = `${colour} ${finish} ${size}`;
  const known = drawn.get(name);
  if (known) return known;
  if (drawn.size >= MOST_DRAWN) drawn.clear();
  const found = new Uint8Array(4 * size * size);
  const [tint, draw] = [linear(colour), FINISHES[finish]];
  for (let line = 0; line < size; line += 1) {
    for (let place = 0; place < size; place += 1) {
      let [x, y] = [((place + 0.5) / size) * 2 - 1, ((line + 0.5) / size) * 2 - 1];
      const away = Math.hypot(x, y);
      if (away > 0.998) [x, y] = [(0.998 * x) / away, (0.998 * y) / away];
      const light = draw(tint, facing([x, y, Math.sqrt(1 - x * x - y * y)]));
      found.set([byteOf(light[0]), byteOf(light[1]), byteOf(light[2]), 255], 4 * (line * size + place));
    }
  }
  drawn.set(name, found);
  return found;
}
