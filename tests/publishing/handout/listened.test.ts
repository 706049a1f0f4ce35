import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { drawHandout, type Variant } from "../../../src/publishing/handout/handout.js";
import { drawPack } from "../../../src/publishing/pack/pack.js";
import { readContent } from "../../../src/reading/read-content.js";
import { mirror } from "../../../src/routine/mirror.js";
import type { Routine } from "../../../src/routine/routine.js";
import { movesIn, sheetSections } from "../../../src/routine/sheet.js";
import { muPdfText, pdfJsText, popplerText } from "../../fixtures/read-structure.js";

/* What a listener hears of a handout: readers that share no code with what wrote it find the words of the source, in order. */

interface Heard {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** What its source says, in the order of the paper. */
  readonly source: readonly string[];
  /** The text of each page by reader. */
  readonly by: Readonly<Record<keyof typeof readers, readonly string[]>>;
}

const readers = { "pdf.js": pdfJsText, MuPDF: muPdfText } as const;
const names = ["pdf.js", "MuPDF"] as const;

const root = resolve(import.meta.dirname, "../../..");
const work = mkdtempSync(join(tmpdir(), "countleaf-listened-"));
afterAll(() => rmSync(work, { recursive: true }));
const { routines, workshops, library } = await readContent(join(root, "content"));
const heard: Heard[] = [];

/** Words and numbers: whatever stands between spaces and punctuation. */
const wordsIn = (text: string): readonly string[] => text.toLowerCase().match(/[\p{L}\p{M}\p{N}]+/gu) ?? [];

function sourceOf(routine: Routine, id: string, variant: Variant): readonly string[] {
  const version = routine.versions.find((one) => one.id === id);
  if (version === undefined) throw new Error(`There is no version ${id}.`);
  const sections = sheetSections(routine).flatMap(({ section: index }) => [
    routine.sections[index]?.name ?? "",
    ...(variant === "card" ? [] : movesIn(version, index).map(({ cue }) => cue.text)),
  ]);
  const { title, choreographer } = routine;
  // Large print begins with the counts, and a card is for who knows whose dance it is.
  if (variant === "sheet") return [title, choreographer, ...sections];
  return [title, ...sections, ...(variant === "card" ? [] : [choreographer])];
}

beforeAll(async () => {
  const handouts: readonly (readonly [slug: string, variant: Variant, mirrored: boolean])[] = [
    ["breakwater-letters", "sheet", false],
    ["fourpenny-gate", "sheet", true],
    ["lock-keepers-waltz", "large", false],
    ["twelve-iron-steps", "sheet", false],
    ["one-umbrella", "card", false],
  ];
  for (const [slug, variant, mirrored] of handouts) {
    const written = routines.find((one) => one.slug === slug);
    if (written === undefined) throw new Error(`The demo library has no ${slug}.`);
    const routine = mirrored ? mirror(written) : written;
    const version = routine.versions.find(({ id }) => id === routine.taught);
    if (version === undefined) throw new Error("A routine has the version that is taught.");
    await hear(slug, await drawHandout(routine, version, library, variant), sourceOf(routine, version.id, variant));
  }
  const workshop = workshops.find(({ slug }) => slug === "open-hour");
  if (workshop === undefined) throw new Error("The demo library has no such workshop.");
  await hear("pack", await drawPack(workshop, library), [library.name, workshop.title]);
});

async function hear(name: string, bytes: Uint8Array, source: readonly string[]): Promise<void> {
  const by = { "pdf.js": await readers["pdf.js"](bytes), MuPDF: await readers.MuPDF(bytes) };
  heard.push({ name, bytes, source, by });
}

/** Every word that an author of the demo library or our catalogue has written. */
function written(): ReadonlySet<string> {
  const files = ["content", "src/wording/en", "src/routine/vocabulary.ts"].flatMap((path) =>
    path.endsWith(".ts")
      ? [path]
      : readdirSync(join(root, path), { recursive: true, encoding: "utf8" }).map((name) => join(path, name)),
  );
  const texts = files
    .filter((path) => /\.(md|yaml|ts)$/.test(path))
    .map((path) => readFileSync(join(root, path), "utf8"));
  return new Set(texts.flatMap(wordsIn));
}

/** The first of the texts whose words do not follow, one right after the other, on those before it. */
function firstMissing(words: readonly string[], texts: readonly string[]): string | undefined {
  let from = 0;
  for (const text of texts) {
    const wanted = wordsIn(text);
    while (from < words.length && !wanted.every((word, index) => words[from + index] === word)) from++;
    if (from >= words.length) return text;
    from += wanted.length;
  }
  return undefined;
}

describe("a handout that is listened to", () => {
  it.each(names)("has the words of its source in order, and none run together: %s", (reader) => {
    const known = written();
    expect(heard).toHaveLength(6);
    for (const { name, by, source } of heard) {
      const words = wordsIn(by[reader].join(""));
      const odd = words.filter((word) => !/^\d+$/.test(word) && !known.has(word));
      expect(odd, name).toEqual([]);
      expect(firstMissing(words, source), name).toBeUndefined();
    }
  });

  it("says the same to either reader, space by space, and to Poppler (handouts) where it is installed", () => {
    for (const [index, { name, bytes, by }] of heard.entries()) {
      const [one, other] = [by["pdf.js"], by.MuPDF];
      for (const [page, text] of one.entries()) {
        // MuPDF does not take an element up again that began on the page before.
        const known = page === 0 ? text : text.slice(-(other[page] ?? "").length);
        expect(other[page], `${name}, page ${page + 1}`).toBe(known);
        expect(text.length - known.length).toBeLessThan(600);
      }
      // Poppler reads a document as a whole: an element that lies on two pages is one.
      const whole = name === "pack" ? undefined : popplerText(bytes, join(work, `${index}.pdf`));
      if (whole !== undefined) expect([...wordsIn(whole)].sort(), name).toEqual([...wordsIn(one.join(""))].sort());
    }
  });
});
