import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join, resolve } from "node:path";
import type { Font } from "fontkit";
import { describe, expect, it } from "vitest";
import {
  type Doc,
  type DocumentInside,
  type ElementInside,
  type FontInside,
  type GlyphInside,
  openDocument,
  openFont,
  type PageInside,
  pinned,
  type StreamInside,
} from "../../src/typesetting/adapter.js";
import { unpackWoff } from "../../src/typesetting/woff.js";

const require = createRequire(import.meta.url);
const src = resolve(import.meta.dirname, "../../src");

/** The names of an interface, each with the type that the package's own object must give it. */
type Names<Inside> = Readonly<Record<keyof Inside, "boolean" | "function" | "number" | "object" | "string">>;

const names = {
  glyph: { _decode: "function" } satisfies Names<GlyphInside>,
  document: {
    _font: "object",
    page: "object",
    _offset: "number",
    _write: "function",
    endMetadata: "function",
    addContent: "function",
    link: "function",
  } satisfies Names<DocumentInside>,
  page: { fonts: "object", content: "object", write: "function" } satisfies Names<PageInside>,
  stream: { compress: "boolean", data: "object" } satisfies Names<StreamInside>,
  font: {
    id: "string",
    unicode: "object",
    layoutCache: "object",
    ref: "function",
    encode: "function",
  } satisfies Names<FontInside>,
  element: { dictionary: "object" } satisfies Names<ElementInside>,
};

/** What to do, for whoever has installed another version. */
const advice = (what: string) =>
  `${what}\n` +
  "src/typesetting/adapter.ts uses names of pdfkit and fontkit that their documentation does not give. Read each of them in the\n" +
  "new version's source, mend the adapter where one has changed, run this test, tests/publishing/handout and `npm run sample`\n" +
  "(whose PDFs should come out as they were), and then write the new version into `pinned` and, exactly, into package.json.";

const readVersion = (name: string): string =>
  JSON.parse(readFileSync(join(resolve(src, "../node_modules"), name, "package.json"), "utf8")).version;

function sampleFont(): Font {
  const path = require.resolve("@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff");
  return openFont(unpackWoff(readFileSync(path)));
}

function sampleDocument(): Doc {
  const doc = openDocument({ autoFirstPage: false, bufferPages: true, tagged: true, font: "" });
  doc.addPage();
  doc.font(sampleFont() as unknown as PDFKit.Mixins.PDFFontSource, "sample", 10);
  return doc;
}

const insideOf = (doc: Doc): DocumentInside => doc as unknown as DocumentInside;

/** Replaces a function by one that counts how often it is called. */
function counted<Owner extends object>(owner: Owner, name: keyof Owner): () => number {
  let calls = 0;
  const original = owner[name] as (...args: unknown[]) => unknown;
  owner[name] = function (this: unknown, ...args: unknown[]) {
    calls += 1;
    return original.apply(this, args);
  } as Owner[keyof Owner];
  return () => calls;
}

describe("the adapter to pdfkit and fontkit", () => {
  it.each(Object.entries(pinned))("was written against the %s that is installed, %s", (name, version) => {
    expect(readVersion(name), advice(`${name} ${readVersion(name)} is installed.`)).toBe(version);
    const { devDependencies } = JSON.parse(readFileSync(resolve(src, "../package.json"), "utf8"));
    expect(devDependencies[name], advice(`package.json does not pin ${name} exactly.`)).toBe(version);
  });

  it("finds every private name that it uses, of the kind that it takes it for", () => {
    const doc = sampleDocument();
    const font = insideOf(doc)._font;
    const owners: Readonly<Record<keyof typeof names, unknown>> = {
      glyph: sampleFont().glyphForCodePoint(0x41),
      document: doc,
      page: insideOf(doc).page,
      stream: insideOf(doc).page.content,
      font,
      element: doc.struct("P"),
    };
    const changed = Object.entries(names).flatMap(([owner, kinds]) => {
      const found = owners[owner as keyof typeof owners] as Record<string, unknown>;
      return Object.entries(kinds).flatMap(([name, kind]) =>
        typeof found[name] === kind && found[name] !== null ? [] : [`${owner}.${name} is no ${kind}`],
      );
    });
    expect(changed, advice("Private names have changed.")).toEqual([]);
  });

  it("finds that they do what it takes them for", () => {
    const changed: string[] = [];
    const holds = (what: string, held: boolean) => {
      if (!held) changed.push(what);
    };
    const font = sampleFont();
    const glyph = font.glyphForCodePoint(0x41) as unknown as GlyphInside;
    holds("_decode gives a glyph's data", glyph._decode() !== null);

    const doc = sampleDocument();
    const inside = insideOf(doc);
    const operations = counted(inside, "addContent");
    const metadata = counted(inside, "endMetadata");
    const writes = counted(inside, "_write");
    doc.rect(0, 0, 10, 10).fill();
    holds("every operation goes through addContent", operations() >= 2);

    const { _font } = inside;
    holds("an empty glyph is mapped first of all", JSON.stringify(_font.unicode[0]) === "[0]");
    const [codes, positions] = _font.encode("AV");
    holds(
      "encode gives a code of four digits a glyph",
      codes.length === 2 && codes.every((code) => /^[\da-f]{4}$/.test(code)),
    );
    const [first] = positions;
    holds("encode gives widths with kerning and without", first !== undefined && first.xAdvance < first.advanceWidth);
    holds("shaped words are kept in layoutCache", Object.keys(_font.layoutCache).includes("AV"));
    holds("a font maps what it has encoded", _font.unicode.length === 3);

    const before = inside._offset;
    inside.page.fonts[_font.id] ??= _font.ref();
    const element = doc.struct("P");
    doc.addStructure(element);
    (element as unknown as ElementInside).dictionary.data.A = { O: "Layout" };
    element.end();
    doc.end();
    holds("objects are written by _write", writes() > 0 && inside._offset > before);
    holds("metadata is written by endMetadata", metadata() === 1);
    const file = (doc.read() as Buffer).toString("latin1");
    holds("a structure element takes attributes", file.includes("/O /Layout"));
    holds("a page names its fonts", file.includes(`/${_font.id} `));
    holds("a file ends with one cross-reference table", (file.match(/\nxref\n/g) ?? []).length === 1);
    expect(changed, advice("Private names mean something else.")).toEqual([]);
  });

  it("is the only file that imports either of them, or calls what begins with an underscore", () => {
    const files = readdirSync(src, { recursive: true, encoding: "utf8" }).filter(
      (name) => name.endsWith(".ts") && !name.endsWith(".d.ts") && name !== join("typesetting", "adapter.ts"),
    );
    const against = files.filter((name) => {
      const text = readFileSync(join(src, name), "utf8");
      return /^import (?!type ).* from "(pdfkit|fontkit)"/m.test(text) || /\b(doc|font|glyph)\._/.test(text);
    });
    expect(against).toEqual([]);
  });
});
