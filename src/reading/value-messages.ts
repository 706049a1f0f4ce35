import type * as z from "zod";
import { inQuotes } from "./mistakes/mistake.js";
import { dashes } from "./mistakes/spacing.js";
import { eitherOf, nearest, quoted, suggested } from "./nearest.js";
import { isBlank } from "./normal-text.js";
import { type Path, rest } from "./place.js";
import { type Unwrapped, unwrap } from "./schema/walk.js";

/** What is said of a key that has to be there and is not. */
export function missingKey(path: Path, about: Unwrapped): string {
  return `\`${String(path.at(-1))}\` is missing.${exampleOf(path, about)}`;
}

/** What is said of a value that does not fit: what belongs there, what is there instead, and how to write it. */
export function wrongValue(path: Path, about: Unwrapped, issue: z.core.$ZodIssue): string {
  if (issue.code === "custom" && typeof issue.params?.sentence === "string") return issue.params.sentence;
  const { input } = issue;
  const name = path.findLast((step) => typeof step === "string" && step !== rest);
  const subject =
    name === undefined ? "This file" : typeof path.at(-1) === "number" ? `An entry of \`${name}\`` : `\`${name}\``;
  const choices =
    about.choices ?? about.branches?.map((branch) => unwrap(branch).choices).find((list) => list !== undefined);
  const long = tooLong(input, about);
  if (long !== undefined) return `${subject} ${long}`;
  const near = typeof input === "string" && choices ? (otherName(input, about) ?? nearest(input, choices)) : undefined;
  const advice =
    commaAtEnd(path, input) ??
    (near === undefined
      ? (insteadOf(input, about) ?? hintOf(issue) ?? kindHint(input, about) ?? exampleOf(path, about))
      : ` Did you mean \`${near}\`?`);
  return `${subject} must be ${wantsOf(about, choices, input)}; ${hereIs(input)}.${advice}`;
}

/** What is said of a text that is longer than any may be there. */
function tooLong(input: unknown, { wants = "" }: Unwrapped): string | undefined {
  if (typeof input !== "string" || !/\btext\b/.test(wants)) return undefined;
  const most = Number(/ to (\d+) characters/.exec(wants)?.[1] ?? 1000);
  if (input.length <= most) return undefined;
  const where = most === 1000 ? " What a dancer reads at leisure goes into a `note`, or into the prose below." : "";
  return `has ${input.length} characters, and a text here has ${most} at most: shorten it.${where}`;
}

/** What to do about a value that only a comma at its end keeps from being one. */
function commaAtEnd(path: Path, input: unknown): string | undefined {
  const value = typeof input === "string" ? /^([^,]*[^,\s])\s*,$/.exec(input.trim())?.[1] : undefined;
  if (value === undefined) return undefined;
  const name = path.at(-1);
  const line = typeof name === "string" && name !== rest ? `${name}: ${value}` : value;
  return ` Leave out the comma at the end: ${suggested(line)}.`;
}

/** What to write in place of a word that belongs elsewhere. */
function insteadOf(input: unknown, about: Unwrapped): string | undefined {
  if (typeof input !== "string") return undefined;
  const sentence = Object.entries(about.instead ?? {}).find(([word]) => word === input.trim().toLowerCase())?.[1];
  return sentence === undefined ? undefined : ` ${sentence}`;
}

/** The word for what an author calls by another name. */
function otherName(input: string, about: Unwrapped): string | undefined {
  const name = input
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, "-");
  const names = [about, ...(about.branches ?? []).map(unwrap)].flatMap(({ also = {} }) => Object.entries(also));
  return names.find(([also]) => also === name)?.[1];
}

function wantsOf(about: Unwrapped, choices: readonly string[] | undefined, input: unknown): string {
  if (about.keys || about.key) return about.wants ?? "`key: value` pairs";
  if (about.entry) return about.wants ?? (Array.isArray(input) ? "a list with an entry or more" : "a list");
  const one = about.wants ?? oneOf(about.branches ?? []) ?? (choices && anyOf(choices)) ?? "a text";
  return about.wants === undefined && listAmong(about.branches ?? []) ? `${one}, or a list of such` : one;
}

function anyOf(choices: readonly string[]): string {
  return `${choices.length > 2 ? "one of " : ""}${eitherOf(choices)}`;
}

/** What one entry is, where it may stand in place of a list. */
function oneOf(branches: readonly z.ZodType[]): string | undefined {
  const entry = listAmong(branches);
  return entry && unwrap(entry).wants;
}

function listAmong(branches: readonly z.ZodType[]): z.ZodType | undefined {
  return branches.map(listIn).find((entry) => entry !== undefined);
}

function hereIs(input: unknown): string {
  if (typeof input === "string") return isBlank(input) ? "here is an empty text" : `here is ${quoted(input)}`;
  if (Array.isArray(input)) return input.length === 0 ? "here is an empty list" : "here is a list";
  return Object.keys(input ?? {}).length === 0 ? "here are empty braces" : "here are `key: value` pairs";
}

function hintOf(issue: z.core.$ZodIssue): string | undefined {
  if (issue.code !== "custom") return undefined;
  const hint: unknown = issue.params ? issue.params.hint : issue.message;
  return typeof hint === "string" ? ` ${hint}` : undefined;
}

/* Where one kind of thing stands for another, a slip of the pen is the likely cause. */
function kindHint(input: unknown, about: Unwrapped): string | undefined {
  const isText = !about.keys && !about.entry;
  if (typeof input === "string") {
    const [, key, value] = /^([a-z][a-z-]*|\d[\w&,-]*):(\S.*)$/.exec(input) ?? [];
    return key === undefined || isText ? undefined : ` Put a space after the colon: ${suggested(`${key}: ${value}`)}.`;
  }
  if (Array.isArray(input) || typeof input !== "object" || input === null) return undefined;
  const [[key, value] = ["", undefined], ...others] = Object.entries(input);
  if (about.entry && key.startsWith("-"))
    return ` Put a space after the dash: ${suggested(`- ${lineOf(key.slice(1), value)}`)}. ${dashes}`;
  if (about.entry) return ` Begin each entry with a dash and a space: ${entryLines(input, about.entry)}`;
  if (!isText || others.length > 0 || typeof value !== "string") return undefined;
  return ` If the colon belongs to the text, put the text in quotes: ${suggested(inQuotes(`${key}: ${value}`))}.`;
}

const lineOf = (key: string, value: unknown) => `${key}: ${typeof value === "string" ? value : "…"}`;

/**
 * How pairs are written that should be the entries of a list. Entries have their names under a key; a name that stands in the
 * place of a key, and is no count, goes there. Where the dashes are missing, those of a list within an entry often are as well.
 */
function entryLines(pairs: object, entry: z.ZodType): string {
  const [[key, value] = ["", undefined]] = inCounts(Object.entries(pairs));
  const { keys, branches = [] } = unwrap(entry);
  const shape = keys ?? branches.map((branch) => unwrap(branch).keys).find((each) => each !== undefined) ?? {};
  const known = new Map(Object.entries(shape));
  const [name] = known.keys();
  const within = Object.entries(pairs).flatMap(([inner, list]) => {
    const items = listIn(known.get(inner));
    const isPairs = typeof list === "object" && list !== null && !Array.isArray(list);
    return items && isPairs ? [` The same goes for \`${inner}\`: ${entryLines(list, items)}`] : [];
  });
  if (name === undefined || known.has(key) || /^\d/.test(key))
    return `${suggested(`- ${lineOf(key, value)}`)}. Its other lines start under \`${key}\`, without a dash.${within[0] ?? ""}`;
  const [lists] = Array.isArray(value) ? [...known].flatMap(([inner, schema]) => (listIn(schema) ? [inner] : [])) : [];
  const below = lists === undefined ? "" : `; the list below it goes under \`${lists}:\``;
  return `${suggested(`- ${name}: ${key}`)}. Its other lines start under \`${name}\`, without a dash${below}.`;
}

/** An object has its whole numbers first, wherever they were written; counts are written in the order of the dance. */
function inCounts<Value>(entries: readonly (readonly [string, Value])[]): readonly (readonly [string, Value])[] {
  if (!entries.every(([key]) => /^\d/.test(key))) return entries;
  return entries.toSorted(([a], [b]) => Number.parseFloat(a) - Number.parseFloat(b));
}

/** The schema of a list's entries; none where it is no list. */
function listIn(schema: z.ZodType | undefined): z.ZodType | undefined {
  const about: Partial<Unwrapped> = schema ? unwrap(schema) : {};
  return about.key ? undefined : about.entry;
}

function exampleOf(path: Path, about: Unwrapped): string {
  const example = about.example ?? about.choices?.[0];
  if (example === undefined) return "";
  const name = path.findLast((step) => step !== rest);
  return ` Write for example \`${typeof name === "string" ? `${name}: ` : ""}${example}\`.`;
}
