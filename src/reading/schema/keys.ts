import type { z } from "zod";
import { rest } from "../place.js";
import { librarySchema } from "./library.js";
import { routineSchema } from "./routine.js";
import { type Bare, bare } from "./walk.js";
import { workshopSchema } from "./workshop.js";

/* What is asked about a key by its name alone, where a text cannot be read and nobody knows which mapping it stands in. */

/** True of a word that is a key somewhere. */
export function isKey(name: string): boolean {
  return everyKey().has(name);
}

/** True of a key whose value, somewhere, is a text in the author's own words. */
export function isOwnWords(name: string): boolean {
  return everyKey().get(name)?.some(hasOwnWords) === true;
}

/** True of a key whose value may be a list of texts wherever it stands. */
export function isList(name: string): boolean {
  return everyKey().get(name)?.every(mayBeList) === true;
}

let found: ReadonlyMap<string, readonly Bare[]> | undefined;

/** Every key of the three kinds of file, with what it is wherever it stands. */
function everyKey(): ReadonlyMap<string, readonly Bare[]> {
  if (found) return found;
  const all = new Map<string, Bare[]>();
  for (const [name, value] of [librarySchema, routineSchema, workshopSchema].flatMap(keysOf))
    all.set(name, [...(all.get(name) ?? []), value]);
  found = all;
  return all;
}

function keysOf(schema: z.ZodType): (readonly [name: string, value: Bare])[] {
  const { keys = {}, entry, branches = [] } = bare(schema);
  const own = Object.entries(keys).flatMap(([name, value]) => (name === rest ? [] : [[name, bare(value)] as const]));
  return [...own, ...[...Object.values(keys), ...branches, ...(entry ? [entry] : [])].flatMap(keysOf)];
}

/* Of a value in several forms, and of a list's entries, one in own words is enough. */
function hasOwnWords({ ownWords, key, entry, branches = [] }: Bare): boolean {
  const parts = key || !entry ? branches : [entry];
  return ownWords ?? parts.some((part) => hasOwnWords(bare(part)));
}

function mayBeList({ key, entry, branches = [] }: Bare): boolean {
  return entry ? !key && !bare(entry).keys : branches.some((branch) => mayBeList(bare(branch)));
}
