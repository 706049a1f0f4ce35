import type { z } from "zod";
import { explain } from "./explain.js";
import type { TextFinding } from "./finding.js";
import { placeOf } from "./place.js";
import { type Front, readYaml } from "./yaml.js";

/** A front matter held against its schema. */
export interface Checked<T> {
  readonly front: Front;
  /** Absent where anything is wrong. */
  readonly keys?: T;
  readonly findings: readonly TextFinding[];
}

/** Reads YAML and checks it against a schema. */
export function readKeys<S extends z.ZodType>(yaml: string, schema: S): Checked<z.output<S>> {
  const front = readYaml(yaml);
  const result = schema.safeParse(front.value ?? {}, { reportInput: true });
  const complaints = result.success ? [] : result.error.issues.flatMap((issue) => explain(schema, issue));
  const findings = complaints
    .filter(({ path, rule }) => !isSaid(front, path) && !(front.ragged && rule === "missing-key"))
    .map(({ path, part, rule, message }) => ({
      severity: "error" as const,
      rule,
      message,
      ...front.locate(placeOf(path), part),
    }));
  const all = [...front.findings, ...findings];
  const sound = result.success && !all.some(({ severity }) => severity === "error");
  return { front, findings: all, ...(sound ? { keys: result.data } : {}) };
}

/* Of a part that could not be read, and of what lies in it, everything has been said. */
function isSaid(front: Front, path: readonly (string | number)[]): boolean {
  return path.some((_, index) => front.isBroken(placeOf(path.slice(0, index + 1))));
}
