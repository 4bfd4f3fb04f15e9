// Every text that is asked for is in the catalogue, and no component writes one of its own.
import { describe, expect, it } from "vitest";
import { hasText, t } from "$lib/words/words";

const sources = import.meta.glob<string>("../../src/**/*.{svelte,ts}", { query: "?raw", import: "default", eager: true });
const components = Object.entries(sources).filter(([path]) => path.endsWith(".svelte"));

describe("the catalogue of texts", () => {
  it("has every text that is asked for by its whole name", () => {
    const missing = Object.entries(sources).flatMap(([path, source]) =>
      [...source.matchAll(/\bt\(\s*"([^"]+)"/g)].filter(([, name]) => !hasText(name ?? "")).map(([, name]) => `${path}: ${name}`),
    );
    expect(missing).toEqual([]);
  });

  it("counts in the plural that the language has", () => {
    expect(t("rope-cords", { count: 1 })).toBe("1 cord");
    expect(t("rope-cords", { count: 8 })).toBe("8 cords");
  });

  it.each(components)("%s writes no text, no style and no markup of its own", (_path, source) => {
    const template = source
      .replace(/<script[\s\S]*?<\/script>/g, "")
      .replace(/<style[\s\S]*?<\/style>/g, "")
      .replace(/<!--[\s\S]*?-->/g, "");
    expect(template).not.toMatch(/\sstyle="/);
    expect(template).not.toMatch(/\{@html/);
  });
});
