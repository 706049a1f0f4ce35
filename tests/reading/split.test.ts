import matter from "gray-matter";
import { afterEach, expect, test, vi } from "vitest";
import { split } from "../../src/reading/split.js";

const rule = (text: string) => split(text).findings[0]?.rule;

afterEach(() => vi.restoreAllMocks());

test("front matter, prose and their lines", () => {
  expect(split("---\na: 1\nb: 2\n---\nProse\n").halves).toEqual({ yaml: "\na: 1\nb: 2", body: "Prose\n", bodyLine: 5 });
  expect(split("---  \na: 1\n---  \nProse\n").halves).toMatchObject({ body: "Prose\n", bodyLine: 4 });
  expect(split("---yaml\na: 1\n---").halves).toEqual({ yaml: "\na: 1", body: "", bodyLine: 4 });
  expect(split("---\n---\n---\n").halves).toEqual({ yaml: "", body: "---\n", bodyLine: 3 });
});

test.each([
  "js",
  "javascript",
  "JS",
  "coffee",
  "coffeescript",
  "cson",
  "json",
  "toml",
  "constructor",
  "__proto__",
  "toString",
  " js ",
])("front matter in %s is a finding, and nothing runs", (language) => {
  (globalThis as Record<string, unknown>).ran = false;
  expect(rule(`---${language}\n(globalThis.ran = true, {})\n---\n`)).toBe("front-matter-kind");
  expect((globalThis as Record<string, unknown>).ran).toBe(false);
});

test.each([
  ["", "no-front-matter"],
  ["Prose", "no-front-matter"],
  ["\n---\na: 1\n---\n", "no-front-matter"],
  ["----\na: 1\n----\n", "no-front-matter"],
  ["---\na: 1\n", "no-front-matter-end"],
  ["---\na: 1\n--- b\n", "no-front-matter-end"],
  ["---\na: 1\n----\n", "no-front-matter-end"],
  [`---\na: 1\n${"\n".repeat(5000)}---\n`, "too-much"],
])("what is no file with front matter: %j", (text, expected) => expect(rule(text)).toBe(expected));

test("a text that failed once is read the same again: no cache remembers it", () => {
  const text = "---\na: [1\n---\nProse\n";
  expect(split(text)).toEqual(split(text));
  expect(Object.keys((matter as unknown as { cache: object }).cache)).toEqual([]);
});
