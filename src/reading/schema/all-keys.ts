import type { z } from "zod";
import { rest } from "../place.js";
import { librarySchema } from "./library.js";
import { routineSchema } from "./routine.js";
import { bare } from "./walk.js";
import { workshopSchema } from "./workshop.js";

let found: ReadonlySet<string> | undefined;

/** Every word that is a key somewhere. */
export function allKeys(): ReadonlySet<string> {
  found ??= new Set([librarySchema, routineSchema, workshopSchema].flatMap(keysOf));
  return found;
}

function keysOf(schema: z.ZodType): string[] {
  const { keys = {}, entry, branches = [] } = bare(schema);
  const own = Object.keys(keys).filter((key) => key !== rest);
  return [...own, ...[...Object.values(keys), ...branches, ...(entry ? [entry] : [])].flatMap(keysOf)];
}
