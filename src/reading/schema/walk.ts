import type * as z from "zod";
import { type About, notes } from "./values.js";

/* What is under a schema's wrappers and notes is asked in three places: messages, the table of keys, the editors' schema. */

interface Definition {
  readonly type: string;
  readonly innerType?: z.ZodType;
  readonly in?: z.ZodType;
  readonly out?: z.ZodType;
  readonly shape?: Readonly<Record<string, z.ZodType>>;
  readonly element?: z.ZodType;
  readonly keyType?: z.ZodType;
  readonly valueType?: z.ZodType;
  readonly options?: readonly z.ZodType[];
  readonly entries?: Readonly<Record<string, string>>;
  readonly values?: readonly unknown[];
  readonly defaultValue?: unknown;
}

function definition(schema: z.core.$ZodType): Definition {
  return schema._zod.def as unknown as Definition;
}

/** A schema without its wrappers, and all the notes on the way to it, the outer ones first. */
export interface Unwrapped extends About {
  /** True of a key that may be left out. */
  readonly optional: boolean;
  /** What stands for the key where it is left out. */
  readonly preset?: unknown;
  readonly keys?: Readonly<Record<string, z.ZodType>>;
  readonly entry?: z.ZodType;
  /** What a key must be, where the keys are not fixed. */
  readonly key?: z.ZodType;
  readonly branches?: readonly z.ZodType[];
  readonly choices?: readonly string[];
}

const leftOut = ["optional", "default", "prefault"];

/** Takes the wrappers (optional, with a default, transformed, grouped) off a schema. */
export function unwrap(schema: z.core.$ZodType): Unwrapped {
  let [about, inner, optional]: [About, z.core.$ZodType, boolean] = [notes(schema), schema, false];
  let preset: unknown;
  for (;;) {
    const { type, innerType, in: before, out: after, defaultValue } = definition(inner);
    optional ||= leftOut.includes(type);
    preset ??= defaultValue;
    const next = innerType ?? (before && definition(before).type === "transform" ? after : before);
    if (!next) break;
    inner = next;
    about = { ...notes(inner), ...about };
  }
  const { shape, element, keyType, valueType, options, entries, values } = definition(inner);
  const entry = element ?? valueType;
  const choices = entries ? Object.values(entries) : values?.map(String);
  return {
    ...about,
    optional,
    ...(preset === undefined ? {} : { preset }),
    ...(shape ? { keys: shape } : {}),
    ...(entry ? { entry } : {}),
    ...(keyType ? { key: keyType } : {}),
    ...(options ? { branches: options } : {}),
    ...(choices ? { choices } : {}),
  };
}

/** The schema of a part, by its path; where a part may have several forms, one that has the next step. */
export function within(schema: z.ZodType, path: readonly PropertyKey[]): Unwrapped {
  const about = unwrap(schema);
  const [step, ...others] = path;
  if (step === undefined) return about;
  const form = about.branches?.find((branch) => stepInto(unwrap(branch), step) !== undefined);
  const next = stepInto(form ? unwrap(form) : about, step);
  return next ? within(next, others) : about;
}

function stepInto({ keys, entry }: Unwrapped, step: PropertyKey): z.ZodType | undefined {
  return keys ? keys[String(step)] : entry;
}
