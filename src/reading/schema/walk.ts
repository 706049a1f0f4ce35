import type { z } from "zod";
import { type About, notes } from "./values.js";

/* What is under a schema's wrappers and notes is asked in three places: messages, the table of keys, the editors' schema. */

interface Definition {
  readonly type: string;
  readonly innerType?: z.ZodType;
  readonly in?: z.ZodType;
  readonly out?: z.ZodType;
  readonly shape?: Readonly<Record<string, z.ZodType>>;
  readonly element?: z.ZodType;
  readonly valueType?: z.ZodType;
  readonly options?: readonly z.ZodType[];
  readonly entries?: Readonly<Record<string, string>>;
  readonly values?: readonly unknown[];
}

function definition(schema: z.ZodType): Definition {
  return schema._zod.def as unknown as Definition;
}

/** A schema without its wrappers, and all the notes on the way to it, the outer ones first. */
export interface Bare extends About {
  readonly schema: z.ZodType;
  readonly optional: boolean;
  readonly keys?: Readonly<Record<string, z.ZodType>>;
  readonly entry?: z.ZodType;
  readonly branches?: readonly z.ZodType[];
  readonly words?: readonly string[];
}

/** Takes the wrappers (optional, transformed, grouped) off a schema. */
export function bare(schema: z.ZodType): Bare {
  let [about, inner, optional]: [About, z.ZodType, boolean] = [notes(schema), schema, false];
  for (;;) {
    const { type, innerType, in: before, out: after } = definition(inner);
    if (type === "optional") optional = true;
    const next = innerType ?? (before && definition(before).type === "transform" ? after : before);
    if (!next) break;
    inner = next;
    about = { ...notes(inner), ...about };
  }
  const { shape, element, valueType, options, entries, values } = definition(inner);
  const entry = element ?? valueType;
  const words = entries ? Object.values(entries) : values?.map(String);
  return {
    ...about,
    schema: inner,
    optional,
    ...(shape ? { keys: shape } : {}),
    ...(entry ? { entry } : {}),
    ...(options ? { branches: options } : {}),
    ...(words ? { words } : {}),
  };
}

/** The schema of a part, by its path; stops at a choice between several forms, since the path does not say which. */
export function within(schema: z.ZodType, path: readonly PropertyKey[]): z.ZodType {
  let at = schema;
  for (const step of path) {
    const { keys, entry } = bare(at);
    const next = keys ? keys[String(step)] : entry;
    if (!next) break;
    at = next;
  }
  return at;
}
