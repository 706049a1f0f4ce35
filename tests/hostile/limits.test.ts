import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, expect, test } from "vitest";
import { handout } from "../../src/publishing/handout/publisher.js";
import type { Finding } from "../../src/reading/finding.js";
import { emptyLibrary } from "../../src/reading/read-library.js";
import { readRoutine } from "../../src/reading/read-routine.js";
import { contextOf } from "../fixtures/context.js";
import { processorSeconds } from "../fixtures/processor.js";
import { long } from "../runs.js";
import { excesses, muches } from "./excess.js";

/* Too much of anything is a finding in words, soon, and in little memory. */

const root = resolve(import.meta.dirname, "../..");
const work = mkdtempSync(join(tmpdir(), "countleaf-limits-"));
afterAll(() => rmSync(work, { recursive: true }));

/** Most seconds of processor time for one file. */
const longest = 2;

function readTimed(text: string) {
  let read: ReturnType<typeof readRoutine> = { findings: [] };
  const seconds = processorSeconds(() => {
    read = readRoutine(text, "x", emptyLibrary);
  });
  return { ...read, seconds };
}

/** The machine may be busy with something else, and a collector runs when it likes: slow is what is slow twice. */
function read(text: string) {
  const first = readTimed(text);
  const seconds = first.seconds < longest ? first.seconds : Math.min(first.seconds, readTimed(text).seconds);
  return { ...first, seconds };
}

function expectPlaces(findings: readonly Finding[], text: string) {
  const lines = text.replace(/^\ufeff/, "").split(/\r\n?|\n/);
  for (const { line, column, message } of findings) {
    expect(lines[line - 1], message).toBeDefined();
    expect(column).toBeLessThanOrEqual((lines[line - 1] ?? "").length + 1);
    // Nobody reads a screenful, and a terminal may choke on it.
    expect(message.length).toBeLessThan(2000);
  }
}

test.each(excesses)("$name: refused in words", ({ text, rule, says }) => {
  const { routine, findings, seconds } = read(text);
  expect(routine).toBeUndefined();
  const errors = findings.filter(({ severity }) => severity === "error");
  expect(errors.slice(0, 5).map((each) => each.rule)).toContain(rule);
  expect(errors.find((each) => each.rule === rule)?.message).toMatch(says);
  expect(findings.length).toBeLessThanOrEqual(201);
  expectPlaces(findings, text);
  expect(seconds).toBeLessThan(longest);
});

test.each(Object.entries(muches))("%s: read to an end", (_, text) => {
  const { routine, findings, seconds } = read(text);
  expect(findings.some(({ severity }) => severity === "error")).toBe(routine === undefined);
  expect(findings.length).toBeLessThanOrEqual(201);
  expectPlaces(findings, text);
  expect(seconds).toBeLessThan(longest);
});

test("a run of hours is printed too, in time that grows with it", { timeout: 120_000 }, async () => {
  const counts = [1, 4].map((part) => (muches["a long run"] ?? "").replace("times: 1000", `times: ${part * 50}`));
  const took: number[] = [];
  for (const text of counts) {
    const { routine } = readRoutine(text, "x", emptyLibrary);
    if (routine === undefined) throw new Error("not whole");
    const before = process.cpuUsage();
    expect((await handout.publish(routine, contextOf(emptyLibrary))).length).toBe(3);
    const { user, system } = process.cpuUsage(before);
    took.push((user + system) / 1e6);
  }
  // Four times the run: about four times the work, not sixteen or sixty-four.
  expect((took[1] ?? 0) / (took[0] ?? 1)).toBeLessThan(10);
});

/** A content folder with these files. */
function contentOf(name: string, files: Readonly<Record<string, string>>): string {
  const content = join(work, name);
  for (const folder of ["routines", "workshops"]) mkdirSync(join(content, folder), { recursive: true });
  writeFileSync(join(content, "library.yaml"), "name: Test room\n");
  for (const [file, text] of Object.entries(files)) writeFileSync(join(content, file), text);
  return content;
}

function check(content: string) {
  const args = ["--max-old-space-size=200", join(root, "dist/cli/main.js"), "check", "--content", content];
  const { status, stdout } = spawnSync(process.execPath, [...args, "--format", "json"], {
    encoding: "utf8",
    maxBuffer: 2 ** 28,
  });
  return { status, findings: JSON.parse(stdout) as Finding[] };
}

test("files over 2 MB are not even opened, whatever they are", () => {
  const content = contentOf("big", { "routines/a.md": "", "workshops/b.md": "" });
  for (const name of ["library.yaml", "routines/a.md", "workshops/b.md"]) truncateSync(join(content, name), 2 ** 33);
  const { status, findings } = check(content);
  expect(status).toBe(1);
  const told = findings.filter(({ rule }) => rule === "too-big");
  expect(
    told.map(({ line, column, message }) => [line, column, message.includes("8192.0 MB, and 2 MB is the most")]),
  ).toEqual([
    [1, 1, true],
    [1, 1, true],
    [1, 1, true],
  ]);
});

/** How many of the files are checked together: memory that grew with them would show with an eighth too. */
const together = long ? "all of them" : "an eighth of them";

test(`${together} together are checked in 200 MB of memory`, { timeout: 180_000 }, () => {
  const every = long ? 1 : 8;
  const bad = excesses.filter((_, index) => index % every === 0);
  const texts = [...bad.map(({ text }) => text), ...Object.values(muches).filter((_, index) => index % every === 0)];
  for (const text of texts) expect(Buffer.byteLength(text)).toBeLessThanOrEqual(2 * 1024 * 1024);
  const { status, findings } = check(
    contentOf("all", Object.fromEntries(texts.map((text, index) => [`routines/f${index}.md`, text]))),
  );
  expect(status).toBe(1);
  const files = new Set(findings.filter(({ severity }) => severity === "error").map(({ file }) => file));
  expect(files.size).toBeGreaterThanOrEqual(bad.length);
});
