// Every text of the screen comes from here: one catalogue a language, one file an area, in the open format of Project Fluent.
import { FluentBundle, FluentResource, type FluentVariable } from "@fluent/bundle";

const english = import.meta.glob<string>("./en/*.ftl", { query: "?raw", import: "default", eager: true });

const bundle = new FluentBundle("en", { useIsolating: false });
for (const source of Object.values(english)) {
  const mistakes = bundle.addResource(new FluentResource(source));
  if (mistakes.length > 0) throw mistakes[0];
}

/** The language of the texts, for the page to say. */
export const language = "en";

/** A text of the catalogue, by its name, with what is to be put in. */
export function t(name: string, put?: Record<string, FluentVariable>): string {
  const message = bundle.getMessage(name);
  if (!message?.value) return name;
  return bundle.formatPattern(message.value, put ?? null, []);
}

/** The names of all texts, for the test that each text asked for is there. */
export function hasText(name: string): boolean {
  return bundle.getMessage(name)?.value != null;
}
