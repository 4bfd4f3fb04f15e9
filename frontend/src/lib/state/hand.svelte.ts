// What the maker holds: the way of laying, the bead in hand, what is pointed at and marked; strokes become changes.
import type { Cell, Lanes } from "$lib/model/lanes";
import { keyOf, laneOf, lanesOf } from "$lib/model/lanes";
import {
  between, cordOf, keyAt, laid, ofCord, ofLane, patchOfOneKey, placeOnString, type CordTable,
} from "$lib/model/laying";
import {
  cellsOf, laidPatch, marked, mirroredAlong, mirroredRound, motifAnchor, motifLines, repeated, taken,
  type Marked, type Patch,
} from "$lib/model/patch";
import type { Way } from "$lib/model/ways";
import { moveOf } from "$lib/model/moves";
import { wholesOf } from "$lib/model/unpacked";
import { t } from "$lib/words/words";
import { rope } from "./rope.svelte";
import { studio } from "./studio.svelte";

class Hand {
  way = $state<Way>("lay");
  key = $state("");
  pointed = $state.raw<Cell | null>(null);
  part = $state.raw<Marked | null>(null);
  held = $state.raw<Patch | null>(null);

  readonly lanes = $derived<Lanes | null>(rope.answer ? lanesOf(rope.answer.columns) : null);
  readonly cords = $derived<CordTable | null>(tableOf(rope.answer?.cord_of));
  readonly tray = $derived(rope.answer?.tray ?? []);
  /** The bead in hand, or the first of the tray when that is gone. */
  readonly inHand = $derived(
    this.key === "." || this.tray.some((entry) => entry.key === this.key) ? this.key : (this.tray[0]?.key ?? "."),
  );
  readonly marked = $derived<readonly Cell[]>(
    this.part && this.lanes ? cellsOf(this.lanes, this.part, rope.rows.length) : [],
  );
  readonly lit = $derived<readonly Cell[]>(this.pointed ? [this.pointed] : []);
  readonly bead = $derived(this.#beadOf(this.pointed));

  #from: Cell | null = null;
  #last: Cell | null = null;
  #before: readonly string[] = [];

  begin(cell: Cell): void {
    const lanes = this.lanes;
    if (!lanes || !rope.document || rope.conflict) return;
    this.#from = this.#last = cell;
    this.#before = rope.document.rows;
    const key = this.inHand;
    if (this.way === "pick") this.key = keyAt(rope.rows, cell) || this.key;
    else if (this.way === "fill") rope.draft = laid(this.#before, patchOfOneKey(lanes, this.#before, cell), key);
    else if (this.way === "cord" && this.cords) {
      rope.draft = laid(this.#before, ofCord(this.cords, cordOf(this.cords, cell), this.#before.length), key);
    } else if (this.way === "station") {
      rope.draft = laid(this.#before, ofLane(lanes, laneOf(lanes, cell), this.#before.length), key);
    } else if (this.way === "patch") this.part = marked(lanes, cell, cell);
    else rope.draft = laid(this.#before, [cell], key);
  }

  move(cell: Cell): void {
    const [lanes, from, last] = [this.lanes, this.#from, this.#last];
    if (!lanes || !from || !last) return;
    const many = this.#before.length;
    if (this.way === "lay") rope.draft = laid(rope.draft ?? this.#before, between(lanes, last, cell, many), this.inHand);
    else if (this.way === "line") rope.draft = laid(this.#before, between(lanes, from, cell, many), this.inHand);
    else if (this.way === "patch") this.part = marked(lanes, from, cell);
    this.#last = cell;
  }

  end(): void {
    const draft = rope.draft;
    this.#from = this.#last = null;
    if (draft) this.#take(draft, t(`did-${this.way}`, { name: this.nameOf(this.inHand) }));
  }

  /** One press without a stroke. */
  press(cell: Cell): void {
    this.begin(cell);
    this.end();
  }

  mark(from: Cell, to: Cell): void {
    if (this.lanes) this.part = marked(this.lanes, from, to);
  }

  copy(): void {
    if (this.lanes && this.part) this.held = taken(this.lanes, rope.rows, this.part);
  }

  /** Take the patch in hand and leave the commonest bead where it was: with laying it elsewhere, this moves it. */
  takeUp(): void {
    this.copy();
    this.#take(laid(rope.rows, this.marked, this.#ground()), t("did-patch"));
  }

  lay(at: Cell): void {
    if (this.lanes && this.held) this.#take(laidPatch(this.lanes, rope.rows, this.held, at), t("did-patch"));
  }

  mirrorAlong(): void {
    if (this.held) this.held = mirroredAlong(this.held);
  }

  mirrorRound(): void {
    if (this.held) this.held = mirroredRound(this.held);
  }

  repeat(rows: number, lanes: number): void {
    if (this.lanes && this.part) this.#take(repeated(this.lanes, rope.rows, this.part, { rows, lanes }), t("did-patch"));
  }

  /** Keep the marked patch as a motif of the design, at the place where it is. */
  keepMotif(name: string): Promise<boolean> | null {
    const first = this.marked[0];
    if (!this.lanes || !this.part || !first) return null;
    if (this.lanes.columns.some((column) => column.stitches.length > 1)) {
      studio.say(t("patch-no-motif"));
      return null;
    }
    const patch = taken(this.lanes, rope.rows, this.part);
    const at = motifAnchor(this.lanes, patch, first, rope.rows.length);
    const wish = { name, lines: motifLines(patch), at: [{ row: at.row + 1, stitch: at.stitch + 1 }] };
    return rope.edit("/edit/motif", wish, t("did-motif"));
  }

  nameOf(key: string): string {
    return this.tray.find((entry) => entry.key === key)?.name ?? t("rope-bare");
  }

  #take(rows: readonly string[], doing: string): void {
    const document = rope.document;
    rope.draft = null;
    if (!document || rows.every((text, row) => text === document.rows[row])) return;
    rope.change({ ...document, rows: [...rows] }, doing);
  }

  #ground(): string {
    const counts = new Map<string, number>();
    for (const key of rope.rows.join("")) counts.set(key, (counts.get(key) ?? 0) + 1);
    return [...counts].sort(([, one], [, other]) => other - one)[0]?.[0] ?? ".";
  }

  #beadOf(cell: Cell | null) {
    const { answer } = rope;
    if (!cell || !answer || !this.lanes || !this.cords) return null;
    const key = keyAt(rope.rows, cell);
    const move = moveOf(answer.braid, cell.row, cell.stitch);
    const beads = (each: string): number => {
      const entry = this.tray.find((one) => one.key === each);
      return entry ? Math.max(1, entry.stack.length) : 0;
    };
    return {
      name: this.nameOf(key),
      row: cell.row + 1,
      station: this.lanes.columns[laneOf(this.lanes, cell)]?.name ?? "",
      slot: answer.braid.start[cordOf(this.cords, cell)] ?? 0,
      place: placeOnString(this.cords, rope.rows, cell, beads),
      take: move?.take ?? 0,
      put: move?.put ?? 0,
      presses: answer.pressing.some((each) => keyOf(each) === keyOf(cell)),
    };
  }
}

function tableOf(packed: Parameters<typeof wholesOf>[0] | undefined): CordTable | null {
  if (!packed) return null;
  const [rows = 1, width = 1] = packed.shape as number[];
  return { rows, width, cords: wholesOf(packed) };
}

export const hand = new Hand();
