// The colours of the page that the drawing of the rope needs, and a watch on when they change.

const fallback = { accent: "#a32c3c", paper: "#faf6ee" };

/** The accent and the paper of the page as it looks now. */
export function pageColours(): { accent: string; paper: string } {
  const style = getComputedStyle(document.documentElement);
  const read = (name: string, otherwise: string): string => style.getPropertyValue(name).trim() || otherwise;
  return { accent: read("--accent", fallback.accent), paper: read("--paper", fallback.paper) };
}

/** Calls back when the page turns light or dark; hands back how to stop. */
export function watchColours(changed: () => void): () => void {
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const watch = new MutationObserver(changed);
  dark.addEventListener("change", changed);
  watch.observe(document.documentElement, { attributeFilter: ["data-theme"] });
  return () => {
    dark.removeEventListener("change", changed);
    watch.disconnect();
  };
}
