import type * as z from "zod";
import { rest } from "../place.js";
import { type Unwrapped, unwrap } from "./walk.js";

/** What is known of a key by its name alone, where a text cannot be read and nobody knows which mapping it stands in. */
export interface KeyNames {
  /** True of a word that is a key somewhere. */
  readonly isKey: (name: string) => boolean;
  /** True of a key whose value, somewhere, is a text in the author's own words. */
  readonly isOwnWords: (name: string) => boolean;
  /** True of a key whose value may be a list of texts wherever it stands. */
  readonly isList: (name: string) => boolean;
}

const known = new WeakMap<z.ZodType, KeyNames>();

/** The names of all keys in a kind of file. */
export function keyNames(schema: z.ZodType): KeyNames {
  const names = known.get(schema) ?? namesIn(schema);
  known.set(schema, names);
  return names;
}

function namesIn(schema: z.ZodType): KeyNames {
  const values = new Map<string, Unwrapped[]>();
  for (const [name, value] of keysOf(schema)) values.set(name, [...(values.get(name) ?? []), value]);
  const namesOf = (isMeant: (values: readonly Unwrapped[]) => boolean) =>
    new Set([...values].flatMap(([name, all]) => (isMeant(all) ? [name] : [])));
  const ownWords = namesOf((all) => all.some(hasOwnWords));
  const lists = namesOf((all) => all.every(mayBeList));
  return {
    isKey: (name) => values.has(name),
    isOwnWords: (name) => ownWords.has(name),
    isList: (name) => lists.has(name),
  };
}

function keysOf(schema: z.ZodType): (readonly [name: string, value: Unwrapped])[] {
  const { keys = {}, entry, branches = [] } = unwrap(schema);
  const own = Object.entries(keys).flatMap(([name, value]) => (name === rest ? [] : [[name, unwrap(value)] as const]));
  return [...own, ...[...Object.values(keys), ...branches, ...(entry ? [entry] : [])].flatMap(keysOf)];
}

/* Of a value in several forms, and of a list's entries, one in own words is enough. */
function hasOwnWords({ ownWords, key, entry, branches = [] }: Unwrapped): boolean {
  const parts = key || !entry ? branches : [entry];
  return ownWords ?? parts.some((part) => hasOwnWords(unwrap(part)));
}

function mayBeList({ key, entry, branches = [] }: Unwrapped): boolean {
  return entry ? !key && !unwrap(entry).keys : branches.some((branch) => mayBeList(unwrap(branch)));
}
