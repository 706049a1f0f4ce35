import type { z } from "zod";
import type { Complaint } from "./explain.js";
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
  return schema.safeParse(copy).data;
}

/* A move without its text still has its counts. */
function fill(value: unknown, path: Path): boolean {
  const name = path.at(-1);
  const holder = partOf(value, path.slice(0, -1));
  if (!isMapping(holder) || !["title", "choreographer", "name", "do"].includes(String(name))) return false;
  holder[String(name)] = "…";
  return true;
}

function remove(value: unknown, path: Path): boolean {
  const holder = partOf(value, path.slice(0, -1));
  const step = path.at(-1);
  if (isMapping(holder) && typeof step === "string") return delete holder[step];
  // Without an entry the ones behind it would be taken for it.
  return false;
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
