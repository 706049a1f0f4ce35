import fc from "fast-check";
import { expect, test } from "vitest";
import { closeDirections, normalText } from "../../src/reading/normal-text.js";
import { emptyLibrary, readLibrary } from "../../src/reading/read-library.js";
import { readRoutine } from "../../src/reading/read-routine.js";
import { slugOf } from "../../src/reading/slug.js";
import { runs } from "../runs.js";
import { found, sample, told } from "./sample.js";

const apart = (text: string) => text.normalize("NFD");
const read = (text: string) => readRoutine(text, "sample", emptyLibrary);

test("names are one however their letters are stored: keys, references, levels, groups, sections, headings", () => {
  const text = [
    "---\ntitle: A\nchoreographer: B\nmusic: { tempo: 92 }\ngroups: [Un, Deux é]\nlevels: [facile, très]\ntaught: facile",
    `sections:\n  - name: Café\n    canon: { ${apart("Deux é")}: 4 }\n    counts:\n      - 1-8: { do: Walk, options: { ${apart("très")}: Run } }`,
    `  - { name: Encore, same-as: ${apart("Café")} }\n---\n## ${apart("Café")}\n\nNote\n`,
  ].join("\n");
  const { routine, findings } = read(text);
  expect(findings.filter(({ severity }) => severity === "error")).toEqual([]);
  expect(routine?.prose.notes.map(({ section }) => section)).toEqual(["Café"]);
  expect(routine?.levels).toEqual(["facile", "très"]);
});

test("two names that differ in that alone are one, and an error", () => {
  expect(found(sample({ head: `levels: [é, ${apart("é")}]\n` }))).toEqual(["6:13 version-names"]);
  expect(found(sample({ head: `groups: [é, ${apart("é")}]\n` }))).toEqual(["6:13 value"]);
  expect(found(sample({ head: "groups: [A, { name: A, facing: back }, B]\n" }))).toEqual(["6:13 value"]);
  const options = sample({ head: "levels: [1, é]\n", move: `{ do: Walk, options: { é: A, ${apart("é")}: B } }` });
  expect(found(options).map((one) => one.split(" ")[1])).toEqual(["key-twice"]);
});

test.each([
  ["왈츠", "왈츠"],
  [apart("왈츠"), "왈츠"],
  ["हिन्दी नृत्य", "हिन्दी-नृत्य"],
  ["ภาษาไทย", "ภาษาไทย"],
  ["Русский ёж", "русский-ёж"],
  ["がぎ", "がぎ"],
  ["Tango für zwei!", "tango-für-zwei"],
  ["1\ufe0f\u20e3 step", "1-step"],
  ["\u0301a", "a"],
  ["\u3164", ""],
  [`${"a".repeat(79)} b`, "a".repeat(79)],
  [`${"a".repeat(79)}𝄞𐐨`, "a".repeat(79)],
  ["字".repeat(100), "字".repeat(80)],
])("a title %s makes the address %s", (title, slug) => expect(slugOf(title)).toBe(slug.normalize("NFC")));

test("an address is its own address, and short enough for a file's name", () => {
  const title = fc
    .array(fc.string({ unit: "binary", maxLength: 6 }), { maxLength: 40 })
    .map((parts) => parts.join(" "));
  fc.assert(
    fc.property(title, (text) => {
      const slug = slugOf(text);
      expect(slugOf(slug)).toBe(slug);
      expect(slug.normalize("NFC")).toBe(slug);
      expect(Buffer.byteLength(slug)).toBeLessThan(250);
    }),
    { numRuns: runs(500) },
  );
});

test("marks of direction are closed at the end of what they stand in", () => {
  expect(closeDirections("a \u202eb")).toBe("a \u202eb\u202c");
  expect(closeDirections("\u2067a \u202ab\u2066c\u2069")).toBe("\u2067a \u202ab\u2066c\u2069\u202c\u2069");
  expect(closeDirections("\u2067a\u202ab\u2069 c")).toBe("\u2067a\u202ab\u2069 c");
  expect(closeDirections("\u2067a\nb\u2069\n\n\u202ec  \nd")).toBe("\u2067a\nb\u2069\n\n\u202ec\u202c  \nd");
  const { routine } = read(
    sample({ move: "A \u202eB", body: "One \u2066two\n\nThree\n" }).replace("title: A", "title: A\u202d"),
  );
  expect([routine?.title, routine?.prose.introduction]).toEqual(["A\u202d\u202c", "One \u2066two\u2069\n\nThree"]);
  fc.assert(
    fc.property(
      fc.array(fc.constantFrom("a", "\n", "\n\n", " ", "\u202a", "\u202e", "\u202c", "\u2067", "\u2069")),
      (parts) => {
        const text = normalText(parts.join(""));
        expect(normalText(text)).toBe(text);
      },
    ),
    { numRuns: runs(500) },
  );
});

test.each(["\u200b", "\u00ad\u200e \u2060", "\u3164", "\u202e", "\u00a0", "\u2800"])(
  "a title of nothing that is seen is empty",
  (title) => {
    const text = sample().replace("title: A", `title: "${title}"`);
    expect(found(text)).toEqual(["2:8 value"]);
    expect(told(text)[0]).toContain("here is an empty text");
  },
);

test("control characters in prose are refused where they stand, as in the front matter", () => {
  expect(found(sample({ body: "One\nTwo \u0007three\u0007\n\n## A\u0000\n" }))).toEqual([
    "13:5 unprintable",
    "15:5 unprintable",
  ]);
  expect(found(sample({ body: "One\ttwo\n" }))).toEqual([]);
});

test("a sign of the prose that no sheet can print is found where it stands", () => {
  expect(found(sample({ body: "One\n\nTwo 왈 three\n" })).filter((one) => one.endsWith("no-glyph"))).toEqual([
    "14:5 no-glyph",
  ]);
});

test.each(["?a=b", "/a?b", "#top", "/a/#"])("a library is not published at an address that ends in %s", (end) => {
  const { findings } = readLibrary(`name: A\nurl: https://e.example${end}\n`);
  expect(findings.map(({ line, column, rule }) => `${line}:${column} ${rule}`)).toEqual(["2:6 value"]);
});
