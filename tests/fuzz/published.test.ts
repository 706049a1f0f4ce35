import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { type ConfigData, HtmlValidate } from "html-validate";
import { afterAll, expect, test } from "vitest";
import { WebVTTParser } from "webvtt-parser";
import { outputs } from "../../src/publishing/list.js";
import type { OutFile } from "../../src/publishing/publisher.js";
import type { Library, Routine } from "../../src/routine/routine.js";
import { contextOf } from "../fixtures/context.js";
import { openPdf, readText } from "../fixtures/read-pdf.js";
import { writeSite } from "../fixtures/write-site.js";
import { plainLibrary } from "../fixtures/written.js";
import { long } from "../runs.js";
import { judge } from "./judge.js";
import { mutatedFile } from "./mutate/mutate.js";
import { readSeeds } from "./seeds.js";

/* What passes is published too, strange as it may be; readers that are not ours can read all of it. */

const seed = 20270116;
const out = mkdtempSync(join(tmpdir(), "countleaf-fuzzed-"));
afterAll(() => rmSync(out, { recursive: true }));

const library: Library = { ...plainLibrary, handouts: ["versions", "mirrored", "large", "card"] };

/** The first whole routines among the mutated files that no untouched seed equals. */
function sample(count: number): readonly { readonly number: number; readonly routine: Routine }[] {
  const seeds = readSeeds();
  const whole: { number: number; routine: Routine }[] = [];
  for (let number = 0; whole.length < count; number++) {
    const { routine } = judge(mutatedFile(seeds, seed, number), `fuzz-${number}`);
    // A handout of thousands of pages takes its time and shows nothing new.
    if (routine && routine.counts <= 1000) whole.push({ number, routine });
  }
  return whole;
}

const parsers: Readonly<Record<string, (bytes: Uint8Array) => unknown>> = {
  pdf: async (bytes) => {
    expect((await readText(bytes)).trim()).not.toBe("");
    await openPdf(bytes, async (document) => {
      expect(document.numPages).toBeGreaterThan(0);
      expect(await document.getJSActions()).toBeNull();
    });
  },
  vtt: (bytes) => {
    const { errors } = new WebVTTParser().parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes), "metadata");
    expect(errors).toEqual([]);
  },
  json: (bytes) => JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes)),
  txt: (bytes) => expect(new TextDecoder("utf-8", { fatal: true }).decode(bytes)).not.toMatch(/\bundefined\b|\bNaN\b/),
  mid: (bytes) => expect(new TextDecoder("latin1").decode(bytes.subarray(0, 4))).toBe("MThd"),
};

function write({ path, content }: OutFile): Uint8Array {
  mkdirSync(dirname(join(out, path)), { recursive: true });
  writeFileSync(join(out, path), content);
  return readFileSync(join(out, path));
}

test("mutated routines that are whole make PDFs, captions and pages that other readers read", {
  timeout: 3_600_000,
}, async () => {
  const whole = sample(long ? 500 : 3);
  const faults: string[] = [];
  for (const { number, routine } of whole) {
    try {
      const files: OutFile[] = [];
      for (const { publish, publishAll } of outputs.routines)
        if (publishAll === undefined) files.push(...(await publish(routine, contextOf(library))));
      for (const file of files) await parsers[file.path.split(".").at(-1) ?? ""]?.(write(file));
    } catch (error) {
      faults.push(`file ${number}: ${(error as Error).stack}`);
    }
  }
  const routines = whole.map(({ routine }) => routine);
  await writeSite({ library, routines, workshops: [] }, out);
  const rules: ConfigData["rules"] = {
    ...{ "wcag/h32": "off", "no-trailing-whitespace": "off", "long-title": "off" },
    // See the same in the tests of the pages.
    "prefer-native-element": ["error", { exclude: ["table", "cell"] }],
  };
  const validator = new HtmlValidate({ root: true, extends: ["html-validate:recommended"], rules });
  const pages = (readdirSync(out, { recursive: true }) as string[]).filter((name) => name.endsWith(".html"));
  // The library's, and the one that stands in without a network.
  expect(pages.length).toBe(routines.length + 2);
  for (const page of pages) {
    const { results } = await validator.validateFile(join(out, page));
    for (const { messages } of results)
      for (const { line, message } of messages.slice(0, 2)) faults.push(`${page}:${line} ${message}`);
  }
  expect(faults.slice(0, 10)).toEqual([]);
});
