import type { Place, Problem, Severity } from "./problem.js";

/** Collects problems; one and the same is kept once, however often the routine dances over it. */
export interface Problems {
  readonly error: (rule: string, place: Place, message: string) => void;
  readonly warning: (rule: string, place: Place, message: string) => void;
  readonly note: (rule: string, place: Place, message: string) => void;
  readonly list: () => readonly Problem[];
  readonly failed: () => boolean;
}

export function collectProblems(): Problems {
  const found = new Map<string, Problem>();
  const add = (severity: Severity) => (rule: string, place: Place, message: string) => {
    const key = `${severity}\n${rule}\n${place}\n${message}`;
    if (!found.has(key)) found.set(key, { severity, rule, place, message });
  };
  return {
    error: add("error"),
    warning: add("warning"),
    note: add("note"),
    list: () => [...found.values()],
    failed: () => [...found.values()].some(({ severity }) => severity === "error"),
  };
}
