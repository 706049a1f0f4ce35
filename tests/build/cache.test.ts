import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { type Cache, readCache, writeCache } from "../../src/build/cache.js";

const work = mkdtempSync(join(tmpdir(), "countleaf-cache-"));
const file = join(work, "cache.json");
afterAll(() => rmSync(work, { recursive: true, force: true }));

const nothing: Cache = { reads: {}, made: {} };
const cache: Cache = {
  last: { source: "s", report: "", routines: 1, workshops: 0, unready: { drafts: [], workshops: [], doubts: 0 } },
  reads: { kerb: { key: "k", read: { findings: [] } } },
  made: { "": { key: "k", files: { "index.html": "d" }, counts: { page: 1 } } },
};

it("comes back as it was written, for the same tool", () => {
  expect(readCache(file, "tool")).toEqual(nothing);
  writeCache(file, "tool", cache);
  expect(readCache(file, "tool")).toEqual(cache);
  expect(readCache(file, "another tool")).toEqual(nothing);
});

it("is no memory where it is not as it was written", () => {
  writeCache(file, "tool", cache);
  const text = readFileSync(file, "utf8");
  const whole = JSON.parse(text);
  const without = (...keys: readonly string[]) =>
    Object.fromEntries(Object.entries(whole).filter(([key]) => !keys.includes(key)));
  const others: readonly unknown[] = [
    without("reads"),
    without("made"),
    without("last"),
    without("digest"),
    without("digest", "reads", "made"),
    { ...whole, made: null },
    { ...whole, made: { "": { key: "k" } } },
    { ...whole, made: { "": { key: "k", files: { "../../index.html": "d" }, counts: {} } } },
    { ...whole, reads: { kerb: { key: "k" } } },
    { ...whole, last: { source: "s" } },
    { tool: "tool" },
    [whole],
    null,
    "tool",
    7,
  ];
  for (const other of [
    ...others.map((value) => JSON.stringify(value)),
    "",
    "{",
    text.slice(0, -2),
    `${text} `,
    `\ufeff${text}`,
  ]) {
    writeFileSync(file, other);
    expect(readCache(file, "tool"), other).toEqual(nothing);
  }
  rmSync(file);
  mkdirSync(file);
  expect(readCache(file, "tool")).toEqual(nothing);
  expect(() => writeCache(file, "tool", cache)).not.toThrow();
});
