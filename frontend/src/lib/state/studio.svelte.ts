// What the whole studio shares: where we are, the catalogue, units, theme, and what is said.
import { get, ProblemError } from "$lib/api/client";
import type { CatalogueAnswer } from "$lib/contract";

export type Units = "mm" | "in";
export type Theme = "system" | "light" | "dark";
export interface Notice {
  readonly sentence: string;
  readonly action?: { readonly label: string; readonly run: () => void };
  readonly isFault?: boolean;
}

const NOTICE_MS = 12_000;

class Studio {
  hash = $state(location.hash || "#/");
  catalogue = $state.raw<CatalogueAnswer | null>(null);
  notice = $state.raw<Notice | null>(null);
  units = $state<Units>(kept("units") === "in" ? "in" : "mm");
  theme = $state<Theme>(themeOf(kept("theme")));
  #clearing: ReturnType<typeof setTimeout> | undefined;

  constructor() {
    addEventListener("hashchange", () => {
      this.hash = location.hash || "#/";
    });
    this.#show(this.theme);
  }

  /** Go to another page of the studio. */
  go(hash: string): void {
    location.hash = hash;
  }

  /** Say something, aloud for a screen reader and in sight; with an action it stays until it is answered or replaced. */
  say(sentence: string, action?: Notice["action"]): void {
    this.#tell({ sentence, ...(action ? { action } : {}) });
  }

  /** Say what went wrong; nothing when the error is no sentence of ours is lost, since it is logged. */
  fault(error: unknown): void {
    if (error instanceof ProblemError) this.#tell({ sentence: error.sentence, isFault: true });
    else throw error;
  }

  hush(): void {
    clearTimeout(this.#clearing);
    this.notice = null;
  }

  setUnits(units: Units): void {
    this.units = units;
    keep("units", units);
  }

  setTheme(theme: Theme): void {
    this.theme = theme;
    keep("theme", theme);
    this.#show(theme);
  }

  async loadCatalogue(): Promise<void> {
    this.catalogue ??= await get<CatalogueAnswer>("/catalogue");
  }

  #tell(notice: Notice): void {
    clearTimeout(this.#clearing);
    this.notice = notice;
    if (!notice.action && !notice.isFault) {
      this.#clearing = setTimeout(() => {
        if (this.notice === notice) this.notice = null;
      }, NOTICE_MS);
    }
  }

  #show(theme: Theme): void {
    if (theme === "system") delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = theme;
  }
}

function kept(name: string): string | null {
  try {
    return localStorage.getItem(`braidwright-${name}`);
  } catch {
    return null; // a browser may refuse to keep anything; then every visit begins as the first one
  }
}

function keep(name: string, value: string): void {
  try {
    localStorage.setItem(`braidwright-${name}`, value);
  } catch {
    // see above
  }
}

function themeOf(text: string | null): Theme {
  return text === "light" || text === "dark" ? text : "system";
}

export const studio = new Studio();
