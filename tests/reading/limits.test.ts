import { expect, test } from "vitest";
import { emptyLibrary } from "../../src/reading/read-library.js";
import { readRoutine } from "../../src/reading/read-routine.js";
import { sample } from "./sample.js";

/* Texts as long as they may be, each made to be slow for some part of the reader. All together they take seconds; a part that
 * looks at them more than once for each of their letters would take minutes, and the test would run out of time. */
const size = 240_000;
const fill = (unit: string, length = size) => unit.repeat(Math.floor(length / unit.length));
const numbered = (line: (index: number) => string, count: number) =>
  Array.from({ length: count }, (_, index) => line(index)).join("");

const inFront = (yaml: string) => sample({ head: yaml });

test.each<[string, string, string]>([
  ["keys that do not exist", inFront(numbered((index) => `k${index}: x\n`, 40_000)), "unknown-key"],
  ["more entries than a dance has", inFront(numbered((index) => `k${index}: x\n`, 60_000)), "too-much"],
  ["keys without a value", inFront(numbered((index) => `k${index}:\n`, 40_000)), "no-value"],
  ["one key again and again", inFront(fill("date: 2026-10-02\n")), "key-twice"],
  [
    "moves with two faults each",
    sample({ counts: fill("      - 1-8: { do: Walk, hieght: lying, turn: x }\n") }),
    "unknown-key",
  ],
  ["phrases beyond any run", sample({ counts: fill("      - 1-8: Walk\n", 200_000) }), "too-long"],
  ["lists in lists", inFront(`style: ${fill("[", size / 2)}${fill("]", size / 2)}\n`), "too-much"],
  ["mappings in mappings", inFront(`style: ${fill("{a: ")}\n`), "too-much"],
  ["dashes on a line", inFront(`style:\n  ${fill("- ")}\n`), "too-much"],
  ["colons on a line", inFront(`style: ${fill(": ")}\n`), "too-much"],
  ["quotes on a line", inFront(`style: "${fill("'\"")}\n`), "yaml"],
  ["spaces on a line", inFront(`style${fill(" ")}x\n`), "no-colon"],
  ["anchors", inFront(numbered((index) => `k${index}: &a x\n`, 30_000)), "special-start"],
  ["aliases", inFront(`style: [&a x, ${fill("*a, ", 100_000)}]\n`), "special-start"],
  ["tabs", inFront(fill("\tx: y\n")), "tab"],
  ["empty lines", inFront(fill("\n")), "too-much"],
  ["documents", inFront(fill("...\n")), "yaml"],
  ["front matter without end", inFront(fill("# x\n", 600_000)), "too-much"],
  ["prose without end", sample({ body: fill("word \n\n") }), "too-much"],
  ["links that are left out", sample({ body: fill("[a](javascript:b)\n\n", 190_000) }), "link"],
  ["headings", sample({ body: fill("## Vers\n\nx\n\n", 190_000) }), "heading"],
  ["a paragraph without end", sample({ body: fill("a_b", 20_000) }), "too-much"],
  ["quotations in quotations", sample({ body: `${fill("> ", 5000)}x` }), "too-much"],
])("%s", (_, text, rule) => {
  const { findings, routine } = readRoutine(text, "a", emptyLibrary);
  expect(findings.map((finding) => finding.rule)).toContain(rule);
  expect(findings.length).toBeLessThanOrEqual(201);
  if (rule !== "link" && rule !== "heading") expect(routine).toBeUndefined();
});

test.each(["repeat: 1001", "repeat: 99999999999999999999"])("%s is beyond reason, and says what is not", (line) => {
  const text = sample({ counts: `      - 1-8: Walk\n    ${line}\n` });
  const { findings } = readRoutine(text, "a", emptyLibrary);
  expect(findings.find(({ severity }) => severity === "error")?.message).toMatch(/from 1 to 1000/);
});

test("a run of more than fifty thousand counts", () => {
  const text = sample({ head: "times: 1000\n", counts: "      - 1-8: Walk\n    repeat: 1000\n" });
  expect(readRoutine(text, "a", emptyLibrary).findings.map(({ rule }) => rule)).toContain("too-long");
});
