// One rope that is open: its design, what the server found out about it, its history; the only thing that changes it.
import { get, isTakenBack, post, ProblemError, remove } from "$lib/api/client";
import type { DesignAnswer, EntryAnswer, HistoryAnswer, LookAnswer, SolveAnswer, StateAnswer } from "$lib/contract";
import { t } from "$lib/words/words";
import { studio } from "./studio.svelte";

/** A design file as JSON; fields that this program does not know are kept as they are. */
export interface DesignDocument {
  title: string;
  rows: string[];
  [field: string]: unknown;
}

/** Where the shape on show comes from. */
export type Shape = "estimate" | "solving" | "solved" | "unsolved";

interface Change {
  readonly text: string;
  readonly doing: string;
}

const SOLVE_AFTER_MS = 700;
const LOOK_EVERY_MS = 300;
const KEPT_ANSWERS = 60;
const RETRY_MS = 1_500;

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

class Rope {
  id = $state<number | null>(null);
  text = $state.raw("");
  document = $state.raw<DesignDocument | null>(null);
  /** Rows while a stroke is being drawn; the design's own otherwise. */
  draft = $state.raw<readonly string[] | null>(null);
  answer = $state.raw<DesignAnswer | null>(null);
  states = $state.raw<readonly StateAnswer[]>([]);
  shape = $state<Shape>("estimate");
  share = $state(0);
  shapeSentences = $state.raw<readonly string[]>([]);
  isSaving = $state(false);
  /** Nobody answers: what was changed waits here, and is tried again. */
  isCut = $state(false);
  /** Set when another window changed the design too: nothing is kept until the maker has chosen. */
  conflict = $state.raw<{ readonly newest: string; readonly lost: Change } | null>(null);

  readonly rows = $derived<readonly string[]>(this.draft ?? this.document?.rows ?? []);
  /** Names of the states that undo goes through, and where in them we are. */
  stack = $state.raw<readonly string[]>([]);
  at = $state(-1);
  readonly canUndo = $derived(this.at > 0 && !this.conflict);
  readonly canRedo = $derived(this.at >= 0 && this.at < this.stack.length - 1 && !this.conflict);

  #head = "";
  #wanted: number | null = null;
  #queue: Change[] = [];
  #working: Promise<void> | null = null;
  #reading: AbortController | null = null;
  #solve: number | null = null;
  #solveTimer: ReturnType<typeof setTimeout> | undefined;
  #answers = new Map<string, DesignAnswer>();

  /** Open a rope of the library; what was open before is kept already. */
  async open(id: number): Promise<void> {
    this.#wanted = id;
    if (this.id === id) return;
    await this.close();
    if (this.#wanted !== id) return; // another one was asked for meanwhile
    this.id = id;
    await this.reload();
  }

  /** Show the newest state of the library. */
  async reload(): Promise<void> {
    const id = this.id;
    if (id === null) return;
    const [looked, history] = await Promise.all([
      get<LookAnswer>(`/library/${id}`),
      get<HistoryAnswer>(`/library/${id}/states`),
    ]);
    if (this.id !== id) return;
    this.conflict = null;
    this.#queue = [];
    this.states = history.states;
    this.#head = looked.state.name;
    this.#replay();
    this.#show(looked.design.text);
    this.#take(looked.design);
    this.#remember(looked.state.name, looked.design);
  }

  /** Finish what is being kept, and let go of the rope. */
  async close(): Promise<void> {
    await this.settled();
    this.#stopSolve();
    this.#reading?.abort();
    this.id = null;
    this.answer = this.document = this.draft = this.conflict = null;
    this.states = this.stack = [];
    this.at = -1;
  }

  /** Wait until everything that was changed is kept. */
  async settled(): Promise<void> {
    while (this.#working) await this.#working;
  }

  /** Change the design: it is shown at once, kept, and worked out anew. */
  change(document: DesignDocument, doing: string): void {
    this.changeText(JSON.stringify(document), doing);
  }

  /** The same with the text that the server made of a change. */
  changeText(text: string, doing: string, answer?: DesignAnswer): void {
    if (this.conflict || this.id === null) return;
    this.draft = null;
    this.#show(text);
    if (answer) this.#take(answer);
    else void this.#read(text);
    this.#queue.push({ text, doing });
    this.#work();
  }

  /** Ask the server for a change of the design as it is now, and take it. */
  async edit(path: string, wish: Record<string, unknown>, doing: string): Promise<boolean> {
    const before = this.text;
    try {
      const answer = await post<DesignAnswer>(path, { ...wish, design: before });
      if (this.text !== before) {
        // what was asked was about another design
        studio.say(t("rope-changed-meanwhile"));
        return false;
      }
      this.changeText(answer.text, doing, answer);
      return true;
    } catch (error) {
      studio.fault(error);
      return false;
    }
  }

  undo(): Promise<void> {
    return this.#travel(-1);
  }

  redo(): Promise<void> {
    return this.#travel(1);
  }

  /** Make an earlier state the newest one. */
  async bringBack(name: string): Promise<void> {
    await this.settled();
    if (this.id === null) return;
    try {
      const state = await post<StateAnswer>(`/library/${this.id}/bring-back`, { made_from: this.#head, state: name });
      this.#kept(state);
      const answer = this.#answers.get(name) ?? (await get<LookAnswer>(`/library/${this.id}/states/${name}`)).design;
      this.#remember(name, answer);
      this.#show(answer.text);
      this.#take(answer);
    } catch (error) {
      this.#refused(error, { text: this.text, doing: "" });
    }
  }

  /** After a conflict: keep what was changed here as a rope of its own, and show what the other window made. */
  async keepAsCopy(): Promise<EntryAnswer | null> {
    const conflict = this.conflict;
    if (!conflict) return null;
    try {
      const entry = await post<EntryAnswer>("/library", { design: conflict.lost.text });
      await this.reload();
      return entry;
    } catch (error) {
      studio.fault(error);
      return null;
    }
  }

  async #travel(by: number): Promise<void> {
    await this.settled();
    const name = this.stack[this.at + by];
    if (name !== undefined && !this.conflict) await this.bringBack(name);
  }

  #show(text: string): void {
    this.text = text;
    this.document = JSON.parse(text) as DesignDocument;
    this.draft = null;
  }

  #work(): void {
    this.#working ??= this.#save().finally(() => {
      this.#working = null;
      this.isSaving = false;
    });
  }

  async #save(): Promise<void> {
    this.isSaving = true;
    for (let change = this.#queue[0]; change; change = this.#queue[0]) {
      try {
        const wish = { made_from: this.#head, design: change.text, doing: change.doing };
        const state = await post<StateAnswer>(`/library/${this.id}/save`, wish);
        this.#kept(state);
        this.#queue.shift();
        this.isCut = false;
      } catch (error) {
        if (error instanceof ProblemError && error.kind === "silence") {
          if (!this.isCut) studio.fault(error);
          this.isCut = true;
          await pause(RETRY_MS);
          continue;
        }
        const lost = this.#queue[this.#queue.length - 1] ?? change;
        this.#queue = [];
        this.#refused(error, lost);
      }
    }
  }

  #kept(state: StateAnswer): void {
    this.#head = state.name;
    if (!this.states.some((each) => each.name === state.name)) this.states = [...this.states, state];
    this.#replay();
  }

  /** Where undo stands follows from the states alone, so that it outlives the window. */
  #replay(): void {
    let stack: string[] = [];
    let at = -1;
    for (const state of this.states) {
      const back = state.brought_back === null ? -1 : stack.indexOf(state.brought_back);
      if (back >= 0) at = back;
      else {
        stack = [...stack.slice(0, at + 1), state.name];
        at = stack.length - 1;
      }
    }
    this.stack = stack;
    this.at = at;
  }

  #refused(error: unknown, lost: Change): void {
    if (error instanceof ProblemError && error.kind === "stale") {
      this.conflict = { newest: error.newest ?? "", lost };
    } else {
      // what was refused must not stay in sight as if it were kept
      void this.reload().catch((problem: unknown) => studio.fault(problem));
    }
    studio.fault(error);
  }

  #remember(name: string, answer: DesignAnswer): void {
    this.#answers.delete(name);
    this.#answers.set(name, answer);
    if (this.#answers.size > KEPT_ANSWERS) this.#answers.delete(this.#answers.keys().next().value ?? "");
  }

  async #read(text: string): Promise<void> {
    this.#reading?.abort();
    const asking = new AbortController();
    this.#reading = asking;
    try {
      const answer = await post<DesignAnswer>("/read", { design: text }, asking.signal);
      if (this.text === text) this.#take(answer);
    } catch (error) {
      if (!isTakenBack(error)) studio.fault(error);
    }
  }

  #take(answer: DesignAnswer): void {
    this.answer = answer;
    this.shape = "estimate";
    this.shapeSentences = [];
    this.#stopSolve();
    this.#solveTimer = setTimeout(() => void this.#askSolve(this.text), SOLVE_AFTER_MS);
  }

  async #askSolve(text: string): Promise<void> {
    try {
      let told = await post<SolveAnswer>("/solves", { design: text });
      this.#solve = told.solve;
      this.shape = "solving";
      while (this.#solve === told.solve && (told.stage === "waiting" || told.stage === "solving")) {
        this.share = told.share;
        await pause(LOOK_EVERY_MS);
        told = await get<SolveAnswer>(`/solves/${told.solve}`);
      }
      if (this.#solve === told.solve && this.text === text) this.#solved(told);
    } catch (error) {
      if (error instanceof ProblemError) {
        this.shape = "unsolved";
        this.shapeSentences = [error.sentence];
      } else throw error;
    }
  }

  #solved(told: SolveAnswer): void {
    this.#solve = null;
    this.shapeSentences = told.sentences;
    this.shape = told.design?.geometry?.basis === "solved" ? "solved" : "unsolved";
    if (told.design) this.answer = told.design;
  }

  #stopSolve(): void {
    clearTimeout(this.#solveTimer);
    if (this.#solve !== null) void remove(`/solves/${this.#solve}`).catch(() => undefined);
    this.#solve = null;
  }
}

export const rope = new Rope();
