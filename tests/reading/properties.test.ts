import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, test } from "vitest";
import { emptyLibrary, readLibrary } from "../../src/reading/read-library.js";
import { readRoutine } from "../../src/reading/read-routine.js";
import { readWorkshop } from "../../src/reading/read-workshop.js";
import { formatFindings } from "../../src/reading/report.js";
import { runs } from "../runs.js";
import { sample } from "./sample.js";

const folder = "content/routines";
const texts = [
  sample(),
  sample({
    head: "levels: [1, 2]\nadaptations: [seated]\n",
    move: "{ do: Walk, step: left, options: { 2: Run, seated: Nod } }",
  }),
  ...readdirSync(folder).map((name) => readFileSync(`${folder}/${name}`, "utf8")),
];

/* What slips of the hand, of a paste and of a copied example put into a file. */
const bits = [
  '"',
  "'",
  ":",
  ": ",
  "- ",
  "\t",
  "    ",
  "{",
  "}",
  "[",
  "]",
  ",",
  " #",
  "&a ",
  "*a ",
  "!x ",
  "| ",
  "> ",
  "? ",
  "---\n",
  "...\n",
  "\n",
  "\u00a0",
  "“",
  "–",
  "<<: ",
  "\u0000",
  "\ud800",
  "\ufeff",
  "1-4: ",
  "7-2: ",
  "3&: ",
  "options:\n",
  "%",
  "@",
  "`",
  "\\",
  "same-as: Verse\n",
  "repeat: 3\n",
  "mirrored: yes\n",
  "__proto__: x\n",
  "constructor: x\n",
  "## Verse\n",
  "[a](b:c)",
  "999999999",
];

/** A text with some of its lines and letters changed. */
const mutated = fc
  .record({
    text: fc.constantFrom(...texts),
    changes: fc.array(
      fc.record({
        kind: fc.constantFrom("insert", "delete", "cut", "copy", "swap", "indent"),
        at: fc.double({ min: 0, max: 1, noNaN: true }),
        to: fc.double({ min: 0, max: 1, noNaN: true }),
        bit: fc.constantFrom(...bits),
      }),
      { minLength: 1, maxLength: 5 },
    ),
  })
  .map(({ text, changes }) => changes.reduce(change, text));

function change(text: string, { kind, at, to, bit }: { kind: string; at: number; to: number; bit: string }): string {
  const place = Math.floor(at * text.length);
  if (kind === "insert") return text.slice(0, place) + bit + text.slice(place);
  if (kind === "delete") return text.slice(0, place) + text.slice(place + Math.ceil(to * 5));
  const lines = text.split("\n");
  const [from, other] = [Math.floor(at * (lines.length - 1)), Math.floor(to * (lines.length - 1))];
  const [line = "", second = ""] = [lines[from], lines[other]];
  if (kind === "cut") lines.splice(from, 1);
  else if (kind === "copy") lines.splice(from, 0, second);
  else if (kind === "swap") [lines[from], lines[other]] = [second, line];
  else lines[from] = " ".repeat(Math.floor(to * 12)) + line.trimStart();
  return lines.join("\n");
}

/** What holds of every reading, whatever stands in the file. */
function expectOutcome(text: string): void {
  const { routine, findings } = readRoutine(text, "a", emptyLibrary);
  const hasError = findings.some(({ severity }) => severity === "error");
  expect(routine === undefined).toBe(hasError);
  const lines = text.split(/\r\n?|\n/);
  for (const { line, column, message } of findings) {
    expect(Number.isInteger(line) && line >= 1 && line <= lines.length).toBe(true);
    expect(Number.isInteger(column) && column >= 1).toBe(true);
    expect(message).not.toMatch(/undefined|NaN|\[object|Invalid input|\0/);
  }
  expect(formatFindings(findings, new Map([["content/routines/a.md", text]])).includes("undefined")).toBe(false);
}

test("a changed file is a whole routine, or findings with a place", () => {
  fc.assert(fc.property(mutated, expectOutcome), { numRuns: runs(400), seed: 20_261_002 });
});

test("the same from any text at all", () => {
  const text = fc.oneof(fc.string({ maxLength: 200 }), fc.string({ unit: "binary", maxLength: 200 }));
  const yaml = fc.array(fc.constantFrom(...bits, "title", "music", "tempo", "sections", "counts", "do", "a", "1"), {
    maxLength: 40,
  });
  fc.assert(fc.property(text, (body) => expectOutcome(body)));
  fc.assert(fc.property(text, (body) => expectOutcome(`---\n${body}\n---\n`)));
  fc.assert(
    fc.property(yaml, (parts) => expectOutcome(`---\n${parts.join("")}\n---\n`)),
    { numRuns: runs(400) },
  );
});

test("what was read once is read the same again", () => {
  fc.assert(
    fc.property(mutated, (text) => {
      const read = () => JSON.stringify(readRoutine(text, "a", emptyLibrary).findings);
      expect(read()).toBe(read());
    }),
    { numRuns: runs(40) },
  );
});

test("a library and a workshop of any text", () => {
  const keys = [
    "name: ",
    "url: ",
    "minutes: ",
    "routines: ",
    "level: ",
    "teaching:\n  ",
    "mirror-words: ",
    "title: ",
    "a",
    "1",
    "\n",
  ];
  fc.assert(
    fc.property(fc.array(fc.constantFrom(...bits, ...keys), { maxLength: 30 }), (parts) => {
      const library = readLibrary(parts.join(""));
      expect(library.library === undefined).toBe(library.findings.some(({ severity }) => severity === "error"));
      const { workshop, findings } = readWorkshop(`---\n${parts.join("")}\n---\n`, "w", [], []);
      expect(workshop).toBeUndefined();
      expect(findings.some(({ severity }) => severity === "error")).toBe(true);
    }),
    { numRuns: runs(300) },
  );
});
