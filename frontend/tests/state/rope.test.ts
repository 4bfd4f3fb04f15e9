// One open rope against a server made of a list of states: what is shown, what is kept, what undo reaches.
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { StateAnswer } from "$lib/contract";
import { rope } from "$lib/state/rope.svelte";

interface Kept extends StateAnswer {
  text: string;
}

let kept: Kept[] = [];
let refuse: { status: number; body: unknown } | null = null;

function keep(text: string, doing: string, brought_back: string | null = null): Kept {
  const number = kept.length + 1;
  const state = { name: String(number), number, title: "", facts: {}, doing, at: "", brought_back, text };
  kept.push(state);
  return state;
}

function answer(body: unknown, status = 200): Response {
  return new Response(JSON.stringify(body), { status, headers: { "content-type": "application/json" } });
}

function served(path: string, how: RequestInit): Response {
  const wish = how.body ? (JSON.parse(String(how.body)) as Record<string, string>) : {};
  const newest = kept.at(-1) as Kept;
  if (path.endsWith("/save")) {
    if (refuse) return answer(refuse.body, refuse.status);
    if (wish.made_from !== newest.name) return answer({ kind: "stale", sentence: "Changed.", newest: newest.name }, 409);
    return answer(keep(wish.design ?? "", wish.doing ?? ""));
  }
  if (path.endsWith("/bring-back")) {
    const back = kept.find((each) => each.name === wish.state) as Kept;
    return answer(keep(back.text, "brought back", back.name));
  }
  if (path.endsWith("/states")) return answer({ states: kept });
  const named = /states\/(\w+)$/.exec(path);
  const looked = named ? (kept.find((each) => each.name === named[1]) as Kept) : newest;
  if (path.startsWith("/api/library/")) return answer({ state: looked, design: { text: looked.text, geometry: null } });
  if (path === "/api/read") return answer({ text: wish.design, geometry: null });
  return answer({ kind: "request", sentence: "Not asked in this test.", newest: null }, 422);
}

const row = (text: string): string => JSON.stringify({ title: "Lane", rows: [text] });
const shown = (): string | undefined => rope.rows[0];

beforeEach(async () => {
  kept = [];
  refuse = null;
  keep(row("aa"), "begun");
  vi.stubGlobal("fetch", (path: string, how: RequestInit) => Promise.resolve(served(path, how)));
  await rope.open(1);
});

afterEach(async () => {
  await rope.close();
  vi.unstubAllGlobals();
});

async function paint(text: string): Promise<void> {
  rope.change({ title: "Lane", rows: [text] }, "laid");
  await rope.settled();
}

describe("an open rope", () => {
  it("shows a change at once and keeps it", async () => {
    rope.change({ title: "Lane", rows: ["ab"] }, "laid");
    expect(shown()).toBe("ab");
    await rope.settled();
    expect(kept.map((each) => each.text)).toEqual([row("aa"), row("ab")]);
  });

  it("keeps changes made while another is being kept, in their order", async () => {
    for (const text of ["ab", "bb", "ba"]) rope.change({ title: "Lane", rows: [text] }, "laid");
    await rope.settled();
    expect(kept.map((each) => each.text)).toEqual(["aa", "ab", "bb", "ba"].map(row));
  });

  it("goes back to the beginning and forth to the end", async () => {
    await paint("ab");
    await paint("bb");
    await rope.undo();
    expect(shown()).toBe("ab");
    await rope.undo();
    expect(shown()).toBe("aa");
    expect(rope.canUndo).toBe(false);
    await rope.redo();
    await rope.redo();
    expect(shown()).toBe("bb");
    expect(rope.canRedo).toBe(false);
  });

  it("knows after a reload what can be undone and done again", async () => {
    await paint("ab");
    await paint("bb");
    await rope.undo();
    await rope.close();
    await rope.open(1);
    expect(shown()).toBe("ab");
    expect([rope.canUndo, rope.canRedo]).toEqual([true, true]);
    await rope.redo();
    expect(shown()).toBe("bb");
  });

  it("lets what was undone go once something else is laid, and still has it among the states", async () => {
    await paint("ab");
    await rope.undo();
    await paint("cc");
    expect(rope.canRedo).toBe(false);
    expect(kept.some((each) => each.text === row("ab"))).toBe(true);
  });

  it("keeps nothing over what another window changed, and offers both", async () => {
    keep(row("zz"), "elsewhere");
    await paint("ab");
    expect(rope.conflict?.lost.text).toBe(row("ab"));
    expect(kept.at(-1)?.text).toBe(row("zz"));
    await rope.reload();
    expect([shown(), rope.conflict]).toEqual(["zz", null]);
  });
});
