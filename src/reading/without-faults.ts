import type * as z from "zod";
import { type Complaint, explain } from "./explain.js";
import { type Path, rest } from "./place.js";
import { within } from "./schema/walk.js";

/**
 * Takes everything out of a front matter that was complained of, so that what is left can be looked at too. Nothing where
 * too much is wrong for that.
 */
export function withoutFaults<S extends z.ZodType>(
  schema: S,
  value: unknown,
  complaints: readonly Complaint[],
): z.output<S> | undefined {
  const copy = structuredClone(value);
  const fill = (path: Path) => fillIn(copy, path, within(schema, path).standIn);
  for (const { path, rule } of complaints)
    if (rule === "missing-key" ? !fill(path) : !remove(copy, written(path))) return undefined;
  const again = schema.safeParse(copy, { reportInput: true });
  if (again.success) return again.data;
  // What was taken out may have had to be there.
  const gaps = again.error.issues.flatMap((issue) => explain(schema, issue));
  const filled = gaps.every(({ path, rule }) => rule === "missing-key" && fill(path));
  return filled ? schema.safeParse(copy).data : undefined;
}

/* A move without its text still has its counts. */
function fillIn(value: unknown, path: Path, standIn: string | undefined): boolean {
  const holder = partOf(value, written(path.slice(0, -1)));
  if (!isMapping(holder) || standIn === undefined) return false;
  holder[String(path.at(-1))] = standIn;
  return true;
}

/** A path as it stands in the file. */
function written(path: Path): Path {
  return path.filter((step) => step !== rest);
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
