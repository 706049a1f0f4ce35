import type { z } from "zod";
import { eitherOf, nearest, quoted } from "./nearest.js";
import { type Path, rest } from "./place.js";
import { type Bare, bare, within } from "./schema/walk.js";

/** A complaint about one part of a front matter. */
export interface Complaint {
  readonly path: Path;
  /** What to point at. */
  readonly part: "key" | "value";
  readonly rule: string;
  readonly message: string;
}

type Issue = z.core.$ZodIssue;

/** Turns what the schema found into complaints that an author understands. */
export function explain(schema: z.ZodType, issue: Issue, before: Path = []): Complaint[] {
  const path = [...before, ...issue.path] as Path;
  const about = bare(within(schema, issue.path));
  if (issue.code === "invalid_union") return explainChoice(about, issue, path);
  if (issue.code === "unrecognized_keys") {
    const names = Object.keys(about.keys ?? {}).filter((name) => name !== rest);
    return issue.keys.map((key) => unknownKey(key, names, path, about.keys ? rest in about.keys : false));
  }
  if (issue.code === "invalid_key") return [badKey(about, issue, path)];
  if (issue.input === undefined && issue.code === "invalid_type") {
    return [{ path, part: "key", rule: "missing-key", message: missing(path, about) }];
  }
  return [{ path, part: "value", rule: "value", message: misfit(path, about, issue) }];
}

/* Of several forms that a value can have, the author meant the one that complains least. */
function explainChoice(about: Bare, issue: z.core.$ZodIssueInvalidUnion, path: Path): Complaint[] {
  const forms = issue.errors.map((issues, index) => ({ issues, schema: about.branches?.[index] }));
  const fitting = forms.filter(
    ({ issues }) => !issues.some(({ code, path: at }) => code === "invalid_type" && at.length === 0),
  );
  const cost = (issues: readonly Issue[]): number =>
    issues.reduce((sum, each) => sum + (each.code === "unrecognized_keys" ? each.keys.length * 2 : 1), 0);
  const meant = [...fitting].sort((a, b) => cost(a.issues) - cost(b.issues))[0];
  if (!meant?.schema) return [{ path, part: "value", rule: "value", message: misfit(path, about, issue) }];
  const bareWords = forms.every(({ schema }) => !schema || !bare(schema).keys);
  if (
    bareWords &&
    meant.issues.every(({ code }) => code === "custom" || code === "invalid_value") &&
    about.wants !== undefined
  ) {
    return [{ path, part: "value", rule: "value", message: misfit(path, about, meant.issues[0] ?? issue) }];
  }
  const { schema } = meant;
  return meant.issues.flatMap((each) => explain(schema, each, path));
}

function unknownKey(key: string, names: readonly string[], path: Path, counts: boolean): Complaint {
  const near = nearest(key, names);
  const complaint = (hint: string) => ({
    path: [...path, key],
    part: "key" as const,
    rule: "unknown-key",
    message: `${quoted(key)} is not a key here${hint}`,
  });
  if (near !== undefined) return complaint(`; did you mean \`${near}\`?`);
  if (/^-\s*\d/.test(key)) return complaint(": put a space after the dash.");
  if (key === "options") return complaint(": an option has no options of its own.");
  const known = `. The keys here are ${eitherOf(names, "and")}`;
  return complaint(
    counts
      ? `${names.length > 0 ? known : ". Counts begin with a number"}; counts begin with a number.`.replace(
          "number; counts begin with a number",
          "number",
        )
      : `${known}.`,
  );
}

function badKey(about: Bare, issue: z.core.$ZodIssueInvalidKey, path: Path): Complaint {
  const [inner] = issue.issues;
  const hint = inner?.code === "custom" ? inner.message : "";
  const keyType = (about.schema._zod.def as unknown as { keyType?: z.ZodType }).keyType;
  const wants = keyType ? bare(keyType).wants : undefined;
  const message = `${quoted(String(path.at(-1)))} can't be a key here: it must be ${wants ?? "another word"}.${hint ? ` ${hint}` : ""}`;
  return { path, part: "key", rule: "value", message };
}

function missing(path: Path, about: Bare): string {
  const name = String(path.at(-1));
  return `\`${name}\` is missing.${exampleOf(path, about)}`;
}

function exampleOf(path: Path, about: Bare): string {
  const example = about.example ?? about.words?.[0];
  if (example === undefined) return "";
  const name = path.findLast((step) => step !== rest);
  const isKey = typeof name === "string" && !(about.keys && /^name: /.test(example));
  return ` Write for example \`${isKey ? `${name}: ` : ""}${example}\`.`;
}

function misfit(path: Path, about: Bare, issue: Issue): string {
  const input = issue.input;
  const name = path.findLast((step) => typeof step === "string" && step !== rest);
  const subject =
    name === undefined ? "This file" : typeof path.at(-1) === "number" ? `An entry of \`${name}\`` : `\`${name}\``;
  const words = about.words ?? about.branches?.map((branch) => bare(branch).words).find((list) => list !== undefined);
  const wants =
    about.wants ??
    (words
      ? `one of ${eitherOf(words)}`
      : about.keys
        ? "a mapping of keys and values"
        : about.entry
          ? "a list"
          : "a text");
  const here =
    typeof input === "string"
      ? input === ""
        ? "here is an empty text"
        : `here is ${quoted(input)}`
      : `here is ${Array.isArray(input) ? "a list" : "a mapping"}`;
  const hint = issue.code === "custom" ? issue.message : "";
  const near = typeof input === "string" && words ? nearest(input, words) : undefined;
  const advice =
    near !== undefined
      ? ` Did you mean \`${near}\`?`
      : hint
        ? ` ${hint}`
        : words && !about.wants
          ? ""
          : exampleOf(path, about);
  return `${subject} must be ${wants}; ${here}.${advice}`;
}
