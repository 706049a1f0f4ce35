import type { Place, Problem, Severity } from "./problem.js";

/** Collects problems; one and the same is kept once, however often the routine dances over it. */
export interface Problems {
  readonly error: (rule: string, place: Place, message: string) => void;
  readonly warning: (rule: string, place: Place, message: string) => void;
  readonly note: (rule: string, place: Place, message: string) => void;
  readonly list: () => readonly Problem[];
  readonly failed: () => boolean;
  /** Whether a rule has found something at a place. */
  readonly has: (rule: string, place: Place) => boolean;
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
    has: (rule, place) => [...found.values()].some((one) => one.rule === rule && one.place === place),
    failed: () => [...found.values()].some(({ severity }) => severity === "error"),
  };
}

/** The same collection for one group of several: each message begins with its name, and what is known already is left out. */
export function inGroup(problems: Problems, group: string | undefined): Problems {
  if (group === undefined) return problems;
  const named = (add: Problems["error"]) => (rule: string, place: Place, message: string) => {
    if (!problems.has(rule, place)) add(rule, place, `${group}: ${message}`);
  };
  return { ...problems, error: named(problems.error), warning: named(problems.warning), note: named(problems.note) };
}
