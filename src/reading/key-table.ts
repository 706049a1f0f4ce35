import type * as z from "zod";
import { rest } from "./place.js";
import { librarySchema } from "./schema/library.js";
import { described } from "./schema/presets.js";
import { routineSchema } from "./schema/routine.js";
import { type Unwrapped, unwrap, within } from "./schema/walk.js";
import { workshopSchema } from "./schema/workshop.js";

const inPhrase = ["sections", 0, "counts", 0] as const;

const tables: readonly (readonly [title: string, schema: z.ZodType, path: readonly (string | number)[]])[] = [
  ["A routine", routineSchema, []],
  ["In `music`", routineSchema, ["music"]],
  ["In `video`", routineSchema, ["video"]],
  ["In `start`", routineSchema, ["start"]],
  ["In an entry of `adaptations`", routineSchema, ["adaptations", 0]],
  ["In an entry of `gear`", routineSchema, ["gear", 0]],
  ["In an entry of `groups`", routineSchema, ["groups", 0]],
  ["In an entry of `restarts`", routineSchema, ["restarts", 0]],
  ["In an entry of `sections`", routineSchema, ["sections", 0]],
  ["In a phrase, beside its counts", routineSchema, inPhrase],
  ["In a move", routineSchema, [...inPhrase, rest, "1-4"]],
  ["`library.yaml`", librarySchema, []],
  ["In `teaching` of `library.yaml`", librarySchema, ["teaching"]],
  ["In `points` of `teaching`", librarySchema, ["teaching", "points"]],
  ["In `recording` of `teaching`", librarySchema, ["teaching", "recording"]],
  ["A workshop", workshopSchema, []],
];

/** Every key that an author may write, what it is for and how it is written, as Markdown tables. */
export function keyTable(): string {
  return tables
    .map(([title, schema, path]) => {
      const rows = Object.entries(keysOf(within(schema, path))).filter(([key]) => key !== rest);
      const head = `#### ${title}\n\n| Key | What it is for | Written as |\n| --- | --- | --- |\n`;
      return `${head}${rows.map(([key, inner]) => row(key, unwrap(inner))).join("")}`;
    })
    .join("\n");
}

function keysOf({ keys, branches = [] }: Unwrapped): Readonly<Record<string, z.ZodType>> {
  return keys ?? branches.map((branch) => unwrap(branch).keys).find((found) => found !== undefined) ?? {};
}

function row(key: string, about: Unwrapped): string {
  const example = code(`${key}: ${about.example ?? "…"}`);
  const entries = about.branches?.map((branch) => unwrap(branch).entry).find((found) => found !== undefined);
  const words = (about.choices ?? (entries && unwrap(entries).choices))?.map(code).join(", ");
  const written = about.choices ? (words ?? "") : words ? `${example}, of ${words}` : example;
  const cell = (text: string) => text.replaceAll("|", "\\|");
  return `| ${code(key)}${about.optional ? "" : " (required)"} | ${cell(described(about))} | ${cell(written)} |\n`;
}

function code(text: string): string {
  return `\`${text}\``;
}

const begin = "<!-- keys: made by `npm run schemas` -->\n";
const end = "<!-- end of keys -->";

/** A page with its table of keys brought up to date, between the two comments that mark it; without them as it is. */
export function withKeyTable(page: string): string {
  const [from, to] = [page.indexOf(begin), page.indexOf(end)];
  return from < 0 || to < from ? page : `${page.slice(0, from + begin.length)}\n${keyTable()}\n${page.slice(to)}`;
}
