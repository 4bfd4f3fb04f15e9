// Draws the part of the chart that is in sight: lanes, the comfort arc, the front line, beads with their symbols.
import { evenAngle, type FrontLine } from "$lib/model/front";
import { keyOf, type Cell, type Lanes } from "$lib/model/lanes";
import type { BeadLook } from "./looks";

export interface Inks {
  readonly ink: string;
  readonly soft: string;
  readonly line: string;
  readonly accent: string;
  readonly paper: string;
  readonly skin: string;
  readonly warn: string;
}

export interface Plan {
  readonly rows: readonly string[];
  readonly lanes: Lanes;
  readonly looks: ReadonlyMap<string, BeadLook>;
  readonly cordColour: (cell: Cell) => string;
  /** Where row 1 begins on the page, pixels from the left. */
  readonly left: number;
  readonly pxPerRow: number;
  readonly laneHigh: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly lean: number;
  readonly front: FrontLine | null;
  readonly lit: ReadonlySet<string>;
  readonly marked: ReadonlySet<string>;
  readonly pressing: ReadonlySet<string>;
}

/** The middle of a cell on the page. */
export function middleOf(plan: Plan, cell: Cell): { x: number; y: number } {
  const place = plan.lanes.places[cell.stitch];
  const lane = place?.lane ?? 0;
  return {
    x: plan.left + (cell.row + (place?.step ?? 0) + half(plan, cell.stitch)) * plan.pxPerRow,
    y: laneTop(plan, lane) + 0.5 * plan.laneHigh,
  };
}

/** Seen from outside with row 1 at the left, clockwise is upward: so are the lanes, and letters read as on the rope. */
export function laneTop(plan: Plan, lane: number): number {
  return plan.top + (plan.lanes.columns.length - 1 - lane) * plan.laneHigh;
}

/** Half the length of a mark, in rows. */
function half(plan: Plan, stitch: number): number {
  const place = plan.lanes.places[stitch];
  return 0.5 / (plan.lanes.columns[place?.lane ?? 0]?.stitches.length ?? 1);
}

/** The cell whose mark is nearest a point of the page, or null beside the chart. */
export function cellUnder(plan: Plan, x: number, y: number): Cell | null {
  const down = Math.floor((y - plan.top) / plan.laneHigh);
  const lane = plan.lanes.columns.length - 1 - down;
  const column = plan.lanes.columns[lane];
  if (!column) return null;
  const shift = plan.lean * (0.5 - ((y - plan.top) / plan.laneHigh - down));
  const along = (x - plan.left) / plan.pxPerRow - shift;
  let best: Cell | null = null;
  let least = Infinity;
  column.stitches.forEach((stitch) => {
    const step = (plan.lanes.places[stitch]?.step ?? 0) + half(plan, stitch);
    const row = Math.round(along - step);
    const away = Math.abs(along - step - row);
    if (row >= 0 && row < plan.rows.length && away < least) [best, least] = [{ row, stitch }, away];
  });
  return least < 1 ? best : null;
}

export function drawChart(pen: CanvasRenderingContext2D, plan: Plan, inks: Inks): void {
  pen.clearRect(0, 0, plan.width, plan.height);
  const first = Math.max(0, Math.floor(-plan.left / plan.pxPerRow) - 2);
  const last = Math.min(plan.rows.length, Math.ceil((plan.width - plan.left) / plan.pxPerRow) + 2);
  if (plan.front) drawSkin(pen, plan, plan.front, inks, first, last);
  drawNumbers(pen, plan, inks, first, last);
  for (let row = first; row < last; row += 1) {
    const text = plan.rows[row] ?? "";
    for (let stitch = 0; stitch < text.length; stitch += 1) drawCell(pen, plan, inks, { row, stitch }, text[stitch] ?? ".");
  }
  if (plan.front) drawFront(pen, plan, plan.front, inks, first, last);
}

function drawSkin(pen: CanvasRenderingContext2D, plan: Plan, front: FrontLine, inks: Inks, first: number, last: number): void {
  pen.fillStyle = inks.skin;
  plan.lanes.columns.forEach((_, lane) => {
    const begin = evenAngle(plan.lanes, lane) - front.deg - (front.driftDeg * (front.rows - 1)) / 2;
    // a mark's middle lies half a mark beyond the height of its stitch
    const beyond = half(plan, plan.lanes.columns[lane]?.stitches[0] ?? 0);
    for (let row = first; row < last; row += 0.5) {
      const away = Math.abs(((((begin + front.driftDeg * (row + 0.25 - beyond)) % 360) + 540) % 360) - 180);
      if (180 - away > front.arcDeg / 2) continue;
      pen.fillRect(plan.left + row * plan.pxPerRow, laneTop(plan, lane), plan.pxPerRow / 2 + 0.6, plan.laneHigh);
    }
  });
}

function drawFront(pen: CanvasRenderingContext2D, plan: Plan, front: FrontLine, inks: Inks, first: number, last: number): void {
  const many = plan.lanes.columns.length;
  pen.fillStyle = inks.accent;
  for (let row = first; row < last; row += 1) {
    const turned = front.driftDeg * (row + 0.5 - half(plan, 0) - (front.rows - 1) / 2);
    const lane = ((front.deg - turned - evenAngle(plan.lanes, 0)) / 360) * many;
    const at = (((lane + 0.5) % many) + many) % many;
    const y = plan.top + (many - at) * plan.laneHigh;
    pen.beginPath();
    pen.arc(plan.left + (row + 0.5) * plan.pxPerRow, y, Math.min(1.6, plan.pxPerRow / 6), 0, 7);
    pen.fill();
  }
}

function drawNumbers(pen: CanvasRenderingContext2D, plan: Plan, inks: Inks, first: number, last: number): void {
  const every = [1, 5, 10, 20, 50, 100].find((step) => step * plan.pxPerRow >= 44) ?? 200;
  pen.fillStyle = inks.soft;
  pen.font = "13px sans-serif";
  pen.textAlign = "center";
  pen.textBaseline = "alphabetic";
  for (let row = first; row < last; row += 1) {
    if (row === 0 || (row + 1) % every === 0) {
      pen.fillText(String(row + 1), plan.left + (row + 0.5) * plan.pxPerRow, plan.top - 6);
    }
  }
}

function drawCell(pen: CanvasRenderingContext2D, plan: Plan, inks: Inks, cell: Cell, key: string): void {
  const { x, y } = middleOf(plan, cell);
  const long = Math.max(1, 2 * half(plan, cell.stitch) * plan.pxPerRow - Math.min(2, plan.pxPerRow / 6));
  const high = plan.laneHigh - Math.max(2, plan.laneHigh / 7);
  const slant = plan.lean * plan.pxPerRow;
  const look = plan.looks.get(key);
  pen.save();
  pen.transform(1, 0, -slant / plan.laneHigh, 1, x, y);
  pen.beginPath();
  pen.roundRect(-long / 2, -high / 2, long, high, Math.min(long, high) * 0.42);
  if (look) {
    pen.fillStyle = look.colour;
    pen.fill();
  } else {
    pen.fillStyle = inks.paper;
    pen.fill();
    pen.fillStyle = plan.cordColour(cell);
    pen.fillRect(-long / 2, -high / 8, long, high / 4);
  }
  pen.lineWidth = 1;
  pen.strokeStyle = inks.line;
  pen.stroke();
  const name = keyOf(cell);
  if (plan.pressing.has(name)) ring(pen, inks.warn, 2, [3, 2]);
  if (plan.marked.has(name)) ring(pen, inks.accent, 2, []);
  if (plan.lit.has(name)) {
    ring(pen, inks.paper, 5, []);
    ring(pen, inks.accent, 3, []);
  }
  pen.restore();
  if (look && long >= 9) drawSymbol(pen, look, x, y, Math.min(long * 0.72, high * 0.5, 16));
}

function ring(pen: CanvasRenderingContext2D, colour: string, wide: number, dashes: number[]): void {
  pen.setLineDash(dashes);
  pen.lineWidth = wide;
  pen.strokeStyle = colour;
  pen.stroke();
  pen.setLineDash([]);
}

function drawSymbol(pen: CanvasRenderingContext2D, look: BeadLook, x: number, y: number, size: number): void {
  pen.save();
  pen.translate(x, y);
  pen.scale(size, size);
  pen.fillStyle = pen.strokeStyle = look.ink;
  pen.lineWidth = look.stroke;
  for (const path of look.solids) pen.fill(path);
  for (const path of look.strokes) pen.stroke(path);
  pen.restore();
}
