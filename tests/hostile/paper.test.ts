import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { WebVTTParser } from "webvtt-parser";
import { outputs } from "../../src/publishing/list.js";
import type { OutFile, Publisher } from "../../src/publishing/publisher.js";
import { type Content, readContent } from "../../src/reading/read-content.js";
import { contextOf } from "../fixtures/context.js";
import {
  type PdfDictionary,
  type PdfFile,
  type PdfObject,
  type PdfText,
  readObjects,
} from "../fixtures/pdf-objects.js";
import { openPdf } from "../fixtures/read-pdf.js";
import { long } from "../runs.js";
import { writeHostile } from "./content.js";
import { allPatterns } from "./patterns.js";

/* On paper no text of a file becomes an action, and a reader sees where a link leads before following it. */

/** Patterns that lead somewhere or mean something to a PDF, and links that may stay. */
const texts = [
  ...allPatterns.filter((pattern) => /^!?\[|^<https|^www|\/JavaScript|\/URI/.test(pattern)),
  "[the song](https://example.org/a/long/way?to=it&more=of&the=same#part) and [mail](mailto:ines@saltmarsh.example)",
  "[**bold** and *soft*](https://example.org/marks) [there](../there/) <https://example.org/auto>",
];
const work = mkdtempSync(join(tmpdir(), "countleaf-paper-"));
afterAll(() => rmSync(work, { recursive: true }));

/** As many as a text of one line can hold. */
function shortened(patterns: readonly string[]): readonly string[] {
  return patterns.filter((_, index) => patterns.slice(0, index + 1).join(" ").length < 900);
}

/** Outputs but for the pages, which link to what the others have made. */
function beforePages<Subject>(all: readonly Publisher<Subject>[]): readonly Publisher<Subject>[] {
  return all.filter(({ publishAll }) => publishAll === undefined);
}

let content: Content;
let files: readonly OutFile[];

beforeAll(async () => {
  const three = [0, 1, 2].map((part) => texts.filter((_, index) => index % 3 === part));
  writeHostile(work, texts.slice(-2), three.map(shortened));
  content = await readContent(work);
  expect(content.findings.filter(({ severity }) => severity === "error")).toEqual([]);
  const { routines, workshops, library } = content;
  const context = contextOf(library);
  const made = [
    ...routines.map((routine) => beforePages(outputs.routines).map(({ publish }) => publish(routine, context))),
    ...workshops.map((workshop) => beforePages(outputs.workshops).map(({ publish }) => publish(workshop, context))),
  ];
  files = (await Promise.all(made.flat())).flat();
});

/* Actions and what carries them (ISO 32000-1, 12.6 and 7.11.4), but for links and their ways. */
const deed =
  /^\/(AA|JS|JavaScript|Launch|AcroForm|XFA|EmbeddedFiles?|EF|RichMedia|Movie|Sound|Rendition|GoToR|GoToE|SubmitForm)$/;

/** What a file could do when it is opened or clicked, beside following a harmless link. */
function deeds({ objects }: PdfFile): readonly string[] {
  const found: string[] = [];
  const walk = (object: PdfObject): void => {
    if (Array.isArray(object)) for (const each of object) walk(each);
    if (typeof object === "string" && deed.test(object)) found.push(object);
    if (object === null || typeof object !== "object" || "text" in object || "ref" in object) return;
    for (const [key, value] of Object.entries(object as PdfDictionary)) {
      if (deed.test(key)) found.push(key);
      if (key === "/URI" && !/^(https?:\/\/|mailto:)/.test((value as PdfText).text)) found.push(JSON.stringify(value));
      walk(value);
    }
  };
  for (const object of objects.values()) walk(object);
  return found;
}

/** Of the versions that are not taught, groups and large print say what the taught one's say. */
const pdfs = () => files.filter(({ path }) => path.endsWith(".pdf") && (long || !/handout-(2|seated)-/.test(path)));
const bare = (text: string) => text.replace(/\s+/g, "");

test("there are links to look at", () => {
  expect(content.routines.length).toBe(3);
  expect(pdfs().length).toBeGreaterThan(12);
});

test("no PDF holds an action but the following of a link to the web, a mail address or a page of its own", async () => {
  let links = 0;
  for (const { path, content: bytes } of pdfs()) {
    expect(deeds(readObjects(bytes as Uint8Array)), path).toEqual([]);
    await openPdf(bytes as Uint8Array, async (document) => {
      expect([await document.getJSActions(), await document.getOpenAction(), await document.getAttachments()]).toEqual([
        null,
        null,
        null,
      ]);
      const pages = await Promise.all(
        Array.from({ length: document.numPages }, (_, index) => document.getPage(index + 1)),
      );
      const texts = await Promise.all(pages.map((page) => page.getTextContent()));
      const textOf = ({ items }: (typeof texts)[number]) =>
        bare(items.map((item) => ("str" in item ? item.str : "")).join(""));
      const text = texts.map(textOf).join("");
      for (const [index, page] of pages.entries()) {
        const number = index + 1;
        for (const annotation of await page.getAnnotations()) {
          expect(annotation.subtype, path).toBe("Link");
          expect(annotation.actions ?? null, path).toBeNull();
          if (annotation.dest) continue;
          links++;
          const address = String(annotation.unsafeUrl ?? annotation.url);
          expect(address, path).toMatch(/^(https?:\/\/|mailto:)/);
          // Which version and side a sheet's code opens stands in words on the sheet, and its address beside the credit.
          const [shown = ""] = address.replace(/^(https?:\/\/|mailto:)/, "").split("?version=");
          expect(
            text.includes(bare(shown)) || text.includes(bare(decodeURI(shown))),
            `${path} page ${number}: ${address}`,
          ).toBe(true);
        }
      }
    });
  }
  expect(links).toBeGreaterThan(50);
});

test("what is no PDF says it as text too, and every file lies where it belongs", () => {
  for (const { path, content: text } of files) {
    expect(path).toMatch(/^(routines\/p\d|workshops\/all)\/[\w-]+\.(pdf|vtt|mid|txt|json|svg|png)$/);
    if (path.endsWith(".svg"))
      expect(text).not.toMatch(/<(script|foreignObject|a|image|use|set|animate)\b|<[^>]*\s(on\w+|href|src)=/i);
    if (path.endsWith(".vtt")) expect(new WebVTTParser().parse(String(text), "metadata").errors, path).toEqual([]);
  }
});
