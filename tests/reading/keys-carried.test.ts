import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";

/* A key is declared in its schema, and `tsc` fails until it is carried over: in a copy each mapping gains one more. */

const root = resolve(import.meta.dirname, "../..");

/** A mapping, its schema's file, the text after which it gains a key, and the file that has to carry the key over. */
const mappings = [
  ["move", "schema/move.ts", "const moveKeys = {", "write-move.ts"],
  ["move and not its options", "schema/move.ts", "const plainMapping = moveMapping.extend({", "write-move.ts"],
  ["phrase", "schema/move.ts", "gatherRest(isCounts),\n    z.strictObject({", "write-section.ts"],
  ["stance", "schema/move.ts", "export const stanceKeys = {", "write-routine.ts"],
  ["start", "schema/routine.ts", "z.strictObject({ ...stanceKeys,", "write-routine.ts"],
  ["section", "schema/routine.ts", "const section = z\n  .strictObject({", "write-section.ts"],
  [
    "tempo in beats",
    "schema/tempo.ts",
    'key(number(0, 64, " beats"), "how many of its beats make one count", "2"),',
    "schema/tempo.ts",
  ],
  ["music", "schema/routine.ts", "const music = z.strictObject({", "write-routine.ts"],
  ["video", "schema/routine.ts", "const video = z.strictObject({", "write-routine.ts"],
  ["adaptation", "schema/routine.ts", "const adaptationMapping = z.strictObject({", "write-routine.ts"],
  ["gear", "schema/routine.ts", "const gearMapping = z.strictObject({", "write-routine.ts"],
  ["group", "schema/routine.ts", "const groupMapping = z.strictObject({", "write-routine.ts"],
  ["restart", "schema/routine.ts", "const restart = z\n  .strictObject({", "write-routine.ts"],
  ["routine", "schema/routine.ts", "export const routineSchema = z.strictObject({", "write-routine.ts"],
  ["library", "schema/library.ts", "export const librarySchema = z.strictObject({", "read-library.ts"],
  ["teaching", "schema/teaching.ts", "export const teachingSchema = z.strictObject({", "write-teaching.ts"],
  ["points", "schema/teaching.ts", "points: key(\n    z.strictObject({", "write-teaching.ts"],
  ["recording", "schema/teaching.ts", "recording: key(\n    z.strictObject({", "write-teaching.ts"],
  ["workshop", "schema/workshop.ts", "export const workshopSchema = z.strictObject({", "read-workshop.ts"],
] as const;

const keyOf = (mapping: string) => `added-to-${mapping.replaceAll(" ", "-")}`;

let scratch = "";
let said = "";

beforeAll(() => {
  scratch = mkdtempSync(join(tmpdir(), "countleaf-keys-"));
  for (const room of ["routine", "reading"])
    cpSync(join(root, "src", room), join(scratch, "src", room), { recursive: true });
  for (const file of ["package.json", "tsconfig.json"]) cpSync(join(root, file), join(scratch, file));
  symlinkSync(join(root, "node_modules"), join(scratch, "node_modules"));
  for (const [mapping, file, start] of mappings) {
    const path = join(scratch, "src/reading", file);
    const text = readFileSync(path, "utf8");
    expect(text.split(start), start).toHaveLength(2);
    writeFileSync(path, text.replace(start, `${start} "${keyOf(mapping)}": z.string().optional(),`));
  }
  said = tscIn(scratch);
});

afterAll(() => rmSync(scratch, { recursive: true, force: true }));

function tscIn(folder: string): string {
  try {
    return execFileSync(join(root, "node_modules/.bin/tsc"), ["--noEmit", "-p", folder, "--pretty", "false"], {
      encoding: "utf8",
      cwd: folder,
    });
  } catch (error) {
    return (error as { readonly stdout: string }).stdout;
  }
}

test.each(mappings)('a key of "%s" that is carried no further fails tsc', (mapping, _file, _start, writer) => {
  const errors = said.split(/\n(?=\S)/);
  const about = errors.filter((error) => error.includes(keyOf(mapping)));
  expect(about.join("\n")).toContain(`src/reading/${writer}(`);
});

test("nothing else does", () => {
  const keys = mappings.map(([mapping]) => keyOf(mapping));
  const others = said.split(/\n(?=\S)/).filter((error) => error !== "" && !keys.some((key) => error.includes(key)));
  expect(others).toEqual([]);
});
