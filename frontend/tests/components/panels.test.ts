// The panels: what they show and what they call, with the keyboard's own events.
import { cleanup, fireEvent, render, screen } from "@testing-library/svelte";
import { afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import type { Size, TrayAnswer } from "$lib/contract";
import Chart from "$lib/components/Chart/Chart.svelte";
import Facts from "$lib/components/Facts/Facts.svelte";
import Remarks from "$lib/components/Remarks/Remarks.svelte";
import Tools from "$lib/components/Tools/Tools.svelte";
import Tray from "$lib/components/Tray/Tray.svelte";
import { lanesOf } from "$lib/model/lanes";
import type { Column } from "$lib/contract";
import cases from "../fixtures/stitches.json";

const entry = (key: string, name: string): TrayAnswer => ({
  key, name, symbol: "dot", bead: "round-8/0", colour: "#1f6b58", finish: null, stack: [],
});
const tray = [entry("m", "Moss"), entry("g", "<b>Gorse</b>")];

beforeAll(() => {
  vi.stubGlobal("matchMedia", () => ({ matches: false, addEventListener: () => {}, removeEventListener: () => {} }));
  HTMLCanvasElement.prototype.getContext = (() => null) as never; // jsdom draws nothing
});
afterEach(cleanup);

describe("the tray", () => {
  it("is a group of choices; names with markup are text", async () => {
    const onhand = vi.fn();
    render(Tray, { tray, glyphs: [], counts: new Map([["m", 12]]), inHand: "m", onhand, onedit: vi.fn(), onadd: vi.fn() });
    expect(screen.getAllByRole("radio")).toHaveLength(3);
    expect(screen.getByText("<b>Gorse</b>")).toBeTruthy();
    await fireEvent.click(screen.getAllByRole("radio")[1] as HTMLElement);
    expect(onhand).toHaveBeenCalledWith("g");
  });
});

describe("the ways", () => {
  it("say which is chosen, and cannot go back where there is nothing", async () => {
    const onway = vi.fn();
    const onundo = vi.fn();
    render(Tools, { way: "lay", canUndo: false, canRedo: true, onway, onundo, onredo: vi.fn() });
    expect(screen.getByRole("button", { name: "Lay" }).getAttribute("aria-pressed")).toBe("true");
    expect((screen.getByRole("button", { name: "Undo" }) as HTMLButtonElement).disabled).toBe(true);
    await fireEvent.click(screen.getByRole("button", { name: "Fill" }));
    expect(onway).toHaveBeenCalledWith("fill");
  });
});

describe("the facts", () => {
  const size = {
    length_mm: 158.2, diameter_mm: 6.9, across_accents_mm: 6.9, rise_mm: 2.33, drift_deg: -11.25, turn_rows: 32,
    turn_mm: 74, weight_g: 8.5, basis: "solved", twist: "held", length_error_mm: 4,
  } as unknown as Size;

  it("tell each figure with what it rests on, in either unit", () => {
    const { unmount } = render(Facts, { size, supplies: null, endCap: null, worn: null, units: "mm", rows: 68 });
    expect(screen.getByText("158 mm")).toBeTruthy();
    expect(screen.getByText("solved, give or take 4 mm")).toBeTruthy();
    expect(screen.queryByText(/across the accents/)).toBeNull();
    unmount();
    render(Facts, { size, supplies: null, endCap: null, worn: null, units: "in", rows: 68 });
    expect(screen.getByText("6.23 in")).toBeTruthy();
  });

  it("say so when nothing is known", () => {
    render(Facts, { size: null, supplies: null, endCap: null, worn: null, units: "mm", rows: 1 });
    expect(screen.getByText(/Nothing can be measured/)).toBeTruthy();
  });
});

describe("the remarks", () => {
  it("offer to show the beads against the skin", async () => {
    const onshow = vi.fn();
    render(Remarks, { faults: [], warnings: [{ about: "comfort", sentence: "Two lie on the skin." }], notes: [], onshow });
    await fireEvent.click(screen.getByRole("button", { name: "Show them" }));
    expect(onshow).toHaveBeenCalledOnce();
  });
});

describe("the chart", () => {
  const columns = (cases as unknown as { columns: Column[] }[])[0]?.columns ?? [];

  it("is a grid that is told whole and goes by arrow keys", async () => {
    const [onlay, onmark] = [vi.fn(), vi.fn()];
    render(Chart, {
      rows: Array.from({ length: 40 }, () => "mmmm"), lanes: lanesOf(columns), tray, glyphs: [], hand: "S",
      cordColour: () => "#000000", left: 0, pxPerRow: 10, width: 400, onlay, onmark,
    });
    const grid = screen.getByRole("grid");
    expect([grid.getAttribute("aria-rowcount"), grid.getAttribute("aria-colcount")]).toEqual(["4", "40"]);
    const at = (): string => document.activeElement?.getAttribute("aria-label") ?? "";
    (grid.querySelector('[tabindex="0"]') as HTMLElement).focus();
    expect(at()).toBe("row 1, north, Moss");
    for (const key of ["ArrowRight", "ArrowRight", "ArrowUp", "PageDown"]) await fireEvent.keyDown(grid, { key });
    expect(at()).toBe("row 13, east, Moss");
    await fireEvent.keyDown(grid, { key: "Enter" });
    expect(onlay).toHaveBeenCalledWith({ row: 12, stitch: 3 });
    await fireEvent.keyDown(grid, { key: "ArrowRight", shiftKey: true });
    expect(onmark).toHaveBeenCalledWith({ row: 12, stitch: 3 }, { row: 13, stitch: 3 });
    await fireEvent.keyDown(grid, { key: "End" });
    expect(at()).toBe("row 40, east, Moss");
    expect(grid.querySelectorAll('[tabindex="0"]')).toHaveLength(1);
  });
});
