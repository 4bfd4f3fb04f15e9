// The only place that asks the server: JSON in, JSON out, refusals as errors with their sentence.
import type { Problem } from "$lib/contract";

/** Why the server refused, in one sentence for the maker. */
export class ProblemError extends Error {
  readonly kind: string;
  readonly newest: string | null;

  constructor(problem: Problem) {
    super(problem.sentence);
    this.name = "ProblemError";
    this.kind = problem.kind;
    this.newest = problem.newest ?? null;
  }

  get sentence(): string {
    return this.message;
  }
}

/** What is said when there is no answer at all; the words are the catalogue's, handed in once at the start. */
export const silence = { sentence: "" };

/** The address of something that a link or a picture shows. */
export function address(path: string): string {
  return `/api${path}`;
}

export function get<T>(path: string, signal?: AbortSignal): Promise<T> {
  return asked<T>(path, { method: "GET", signal: signal ?? null });
}

export function post<T>(path: string, body?: unknown, signal?: AbortSignal): Promise<T> {
  const sent = body === undefined ? {} : { body: JSON.stringify(body), headers: { "content-type": "application/json" } };
  return asked<T>(path, { method: "POST", signal: signal ?? null, ...sent });
}

export function remove<T>(path: string): Promise<T> {
  return asked<T>(path, { method: "DELETE" });
}

/** Send a file as it is. */
export function upload<T>(path: string, file: Blob): Promise<T> {
  return asked<T>(path, { method: "POST", body: file, headers: { "content-type": "application/octet-stream" } });
}

async function asked<T>(path: string, how: RequestInit): Promise<T> {
  let response: Response;
  try {
    response = await fetch(address(path), how);
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") throw error;
    throw new ProblemError({ kind: "silence", sentence: silence.sentence, newest: null });
  }
  if (response.ok) return (response.status === 204 ? undefined : await response.json()) as T;
  throw new ProblemError(await problemOf(response));
}

async function problemOf(response: Response): Promise<Problem> {
  try {
    const told = (await response.json()) as Partial<Problem>;
    if (typeof told.sentence === "string") {
      return { kind: told.kind ?? "request", sentence: told.sentence, newest: told.newest ?? null };
    }
  } catch {
    // an answer that is no JSON is told below
  }
  return { kind: "silence", sentence: silence.sentence, newest: null };
}

/** Whether an error only says that a question was taken back. */
export function isTakenBack(error: unknown): boolean {
  return error instanceof DOMException && error.name === "AbortError";
}
