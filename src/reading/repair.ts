import type { z } from "zod";
import { type Complaint, explain } from "./explain.js";
import { type Path, rest } from "./place.js";

/**
 * Takes everything out of a front matter that was complained of, so that what is left can be looked at too. Nothing where
 * too much is wrong for that.
 */
export function repair<S extends z.ZodType>(
  schema: S,
  value: unknown,
  complaints: readonly Complaint[],
): z.output<S> | undefined {
  const copy = structuredClone(value);
  for (const { path, rule } of complaints) {
    const steps = path.filter((step) => step !== rest);
    if (rule === "missing-key" ? !fill(copy, steps) : !remove(copy, steps)) return undefined;
  }
  const again = schema.safeParse(copy, { reportInput: true });
  if (again.success) return again.data;
  // What was taken out may have had to be there.
  const gaps = again.error.issues.flatMap((issue) => explain(schema, issue));
  const filled = gaps.every(
    ({ path, rule }) =>
      rule === "missing-key" &&
      fill(
        copy,
        path.filter((step) => step !== rest),
      ),
  );
  return filled ? schema.safeParse(copy).data : undefined;
}

/* A move without its text still has its counts. */
function fill(value: unknown, path: Path): boolean {
  const name = path.at(-1);
  const holder = partOf(value, path.slice(0, -1));
  if (!isMapping(holder) || !["title", "choreographer", "name", "do", "tempo", "minutes"].includes(String(name)))
    return false;
  holder[String(name)] = ["tempo", "minutes"].includes(String(name)) ? "60" : "…";
  return true;
}

/* Without an entry of a list the ones behind it would be taken for it: so the whole list goes, but a phrase stays, empty. */
function remove(value: unknown, path: Path): boolean {
  const list = path.slice(0, -1);
  const step = path.at(-1);
  const holder = partOf(value, list);
  if (isMapping(holder) && typeof step === "string") return delete holder[step];
  if (!Array.isArray(holder) || typeof step !== "number" || list.at(-1) === "sections") return false;
  if (list.at(-1) !== "counts") return remove(value, list);
  holder[step] = {};
  return true;
}

function partOf(value: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (part, step) => (isMapping(part) || Array.isArray(part) ? (part as Record<string, unknown>)[step] : undefined),
    value,
  );
}

function isMapping(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
