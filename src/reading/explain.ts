import type * as z from "zod";
import { eitherOf, nearest, quoted } from "./nearest.js";
import { type Path, rest } from "./place.js";
import { type Unwrapped, unwrap, within } from "./schema/walk.js";
import { missingKey, wrongValue } from "./value-messages.js";

/** A complaint about one part of a front matter. */
export interface Complaint {
  readonly path: Path;
  /** What to point at. */
  readonly part: "key" | "value";
  readonly rule: "missing-key" | "unknown-key" | "value";
  readonly message: string;
  /** Of an unknown key: the one that was probably meant. */
  readonly meant?: string;
}

type Issue = z.core.$ZodIssue;

/* No more keys of one mapping are looked at than anybody would read about. */
const mostKeys = 300;

/** Turns what the schema found into complaints that an author understands. */
export function explain(schema: z.ZodType, issue: Issue, before: Path = []): Complaint[] {
  const path = [...before, ...issue.path] as Path;
  const about = within(schema, issue.path);
  if (issue.code === "unrecognized_keys") return explainKeys(about, issue, path);
  if (issue.code === "invalid_key") return [badKey(within(schema, issue.path.slice(0, -1)), issue, path)];
  if (issue.input === undefined && issue.code !== "custom") {
    return [{ path, part: "key", rule: "missing-key", message: missingKey(path, about) }];
  }
  const form = issue.code === "invalid_union" ? meantForm(about, issue) : undefined;
  if (form && !form.simple) return form.issues.flatMap((each) => explain(form.schema, each, path));
  // Of a simple value all its forms are named, with the reason why the nearest does not fit.
  return [{ path, part: "value", rule: "value", message: wrongValue(path, about, form?.issues[0] ?? issue) }];
}

/* Of several forms that a value can have, the author meant the one that complains least. */
function meantForm(about: Unwrapped, issue: z.core.$ZodIssueInvalidUnion) {
  const forms = (about.branches ?? []).map((schema, index) => ({ schema, issues: issue.errors[index] ?? [] }));
  const [best] = forms.filter(({ issues }) => !isOtherKind(issues)).sort((a, b) => cost(a.issues) - cost(b.issues));
  if (!best) return undefined;
  const { keys, entry, branches } = unwrap(best.schema);
  return { ...best, simple: !keys && !entry && !branches };
}

/* True where a text stands for a list, a list for keys and values, and so on. */
function isOtherKind(issues: readonly Issue[]): boolean {
  return issues.some(
    (issue) =>
      issue.path.length === 0 &&
      (issue.code === "invalid_type" || (issue.code === "invalid_union" && issue.errors.every(isOtherKind))),
  );
}

function cost(issues: readonly Issue[]): number {
  return issues.reduce((sum, issue) => sum + (issue.code === "unrecognized_keys" ? issue.keys.length * 2 : 1), 0);
}

function explainKeys(about: Unwrapped, issue: z.core.$ZodIssueUnrecognizedKeys, path: Path): Complaint[] {
  const keys = nearestForm(about, Object.keys(issue.input ?? {}));
  const words = about.key ? (unwrap(about.key).choices ?? []) : [];
  const names = [...Object.keys(keys).filter((name) => name !== rest), ...words];
  return issue.keys.slice(0, mostKeys).map((key) => unknownKey(key, names, path, rest in keys));
}

/* Where several forms have keys: those that share most with the keys that are there. */
function nearestForm(about: Unwrapped, given: readonly string[]): NonNullable<Unwrapped["keys"]> {
  const forms = ({ keys, branches = [] }: Unwrapped): NonNullable<Unwrapped["keys"]>[] =>
    keys ? [keys] : branches.flatMap((branch) => forms(unwrap(branch)));
  const shared = (keys: object) => given.filter((key) => Object.hasOwn(keys, key)).length;
  const all = forms(about);
  return all.reduce((best, keys) => (shared(keys) > shared(best) ? keys : best), all.at(-1) ?? {});
}

function unknownKey(key: string, names: readonly string[], path: Path, counts: boolean): Complaint {
  const near = nearest(key, names);
  return {
    path: [...path, key],
    part: "key",
    rule: "unknown-key",
    message: `${quoted(key)} is not a key here${near === undefined ? hintFor(key, names, counts) : `; did you mean \`${near}\`?`}`,
    ...(near === undefined ? {} : { meant: near }),
  };
}

function hintFor(key: string, names: readonly string[], counts: boolean): string {
  if (/^-\s*\d/.test(key)) return ": put a space after the dash.";
  if (/^["'“”„‘’]/.test(key)) return ": write it without these quotes.";
  if (key === "options" && names.includes("do")) return ": an option has no options of its own.";
  if (/^\d/.test(key) && !counts && names.includes("do"))
    return ": it is a count, so start it in the same column as the other counts.";
  const known = names.length > 0 ? `. The keys here are ${eitherOf(names, "and")}` : "";
  return counts ? `${known}. Counts begin with a number, as in \`1-4\`.` : `${known}.`;
}

function badKey({ key }: Unwrapped, issue: z.core.$ZodIssueInvalidKey, path: Path): Complaint {
  const name = String(path.at(-1));
  const [inner] = issue.issues;
  const wants = key ? unwrap(key).wants : undefined;
  const hint = inner?.code === "custom" && typeof inner.params?.hint === "string" ? ` ${inner.params.hint}` : "";
  const message = `${quoted(name)} can't be a key here: it must be ${wants ?? "another word"}.${hint}`;
  return { path, part: "key", rule: "value", message };
}
