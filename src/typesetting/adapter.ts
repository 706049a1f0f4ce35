import { deflateSync } from "node:zlib";
import { create, type Font, type Glyph } from "fontkit";
import PDFDocument from "pdfkit";

/*
 * The one file that knows pdfkit and fontkit from within. What is used here of them beyond their documentation may change
 * with any version of theirs, so the versions are pinned in package.json as they stand here, and tests/typesetting holds
 * every name below against the packages that are installed.
 */

/** The versions that the private names below were read in. */
export const pinned = { pdfkit: "0.20.2", fontkit: "2.0.4" } as const;

/** What is used of a fontkit glyph that its documentation does not name. */
export interface GlyphInside {
  /** Takes the glyph's data apart; null for a glyph without contours, as a space is. */
  _decode(): object | null;
}

/** What is used of a pdfkit document that its types do not name. */
export interface DocumentInside {
  readonly _font: FontInside;
  readonly page: PageInside;
  _offset: number;
  _write(data: string | Uint8Array): void;
  endMetadata(): void;
  addContent(operation: string): Doc;
  link(x: number, y: number, width: number, height: number, target: string | number, options: object): Doc;
}

/** What is used of a page. */
export interface PageInside {
  readonly fonts: Record<string, object>;
  readonly content: StreamInside;
  write(bytes: Uint8Array): void;
}

/** What is used of a stream: it is compressed as it ends, unless it says that it is already. */
export interface StreamInside {
  compress: boolean;
  readonly data: Record<string, unknown>;
}

/** What is used of a font within a document. */
export interface FontInside {
  readonly id: string;
  readonly unicode: number[][];
  layoutCache: Record<string, unknown>;
  ref(): object;
  encode(text: string): readonly [codes: readonly string[], positions: readonly Advance[]];
}

/** What is used of a structure element. */
export interface ElementInside {
  readonly dictionary: { readonly data: Record<string, unknown> };
}

/** How far the pen moves, and how far it would without kerning, in thousandths of the type size. */
interface Advance {
  readonly xAdvance: number;
  readonly advanceWidth: number;
}

export type Doc = PDFKit.PDFDocument;

/** How hard is tried to compress: two thirds of the time of zlib's own level, for a hundredth more bytes of a file. */
export const level = 5;

const inside = (doc: Doc): DocumentInside => doc as unknown as DocumentInside;

/**
 * Opens a font file (sfnt). fontkit keeps a glyph as it first met it, and one that came in as a part of another would never
 * know its own letter: so every glyph is met by its letter first. It would take a glyph's data apart whenever a document
 * takes the glyph in: here it does so once.
 */
export function openFont(file: Uint8Array): Font {
  const font = create(file);
  for (const codePoint of font.characterSet) font.glyphForCodePoint(codePoint);
  for (let id = 0; id < font.numGlyphs; id++) decodeOnce(font.getGlyph(id));
  return font;
}

function decodeOnce(glyph: Glyph): void {
  const within = glyph as unknown as GlyphInside;
  const decode = within._decode.bind(glyph);
  let decoded: object | null | undefined;
  within._decode = () => {
    if (decoded === undefined) decoded = decode();
    return decoded;
  };
}

/** Opens a document. pdfkit copies its title and author into XML as they are, so they are escaped before it does. */
export function openDocument(options: PDFKit.PDFDocumentOptions): Doc {
  const doc = new PDFDocument(options);
  const write = inside(doc).endMetadata.bind(doc);
  inside(doc).endMetadata = () => {
    const info = doc.info as Record<string, unknown>;
    for (const [key, value] of Object.entries(info)) if (typeof value === "string") info[key] = escapeXml(value);
    write();
  };
  return doc;
}

function escapeXml(text: string): string {
  return text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;");
}

/**
 * The file as text, a letter a byte, once the document is ended: its pieces are gathered as they are written and do not go
 * through a stream one by one.
 */
export function collectFile(doc: Doc): Promise<string> {
  // Its head went into the stream as it was opened.
  const pieces: string[] = [(doc.read() as Buffer).toString("latin1")];
  inside(doc)._write = (data) => {
    const piece = typeof data === "string" ? `${data}\n` : Buffer.from(data).toString("latin1");
    pieces.push(piece);
    inside(doc)._offset += piece.length;
  };
  return new Promise((resolve, reject) => {
    doc.on("end", () => resolve(pieces.join("")));
    doc.on("error", reject);
    doc.resume();
  });
}

/**
 * pdfkit turns every operation into bytes of its own: here those of the pages that are added from now on are gathered, and turned
 * and compressed at once, by `write`. What has been drawn up to then is drawn `again` so far down, without what it says to those
 * who listen.
 */
export function gatherContent(doc: Doc): { readonly write: () => void; readonly again: (down: number) => void } {
  const gathered = new Map<PageInside, string[]>();
  inside(doc).addContent = (operation) => {
    const { page } = inside(doc);
    const operations = gathered.get(page) ?? [];
    operations.push(operation);
    gathered.set(page, operations);
    return doc;
  };
  return {
    write: () => {
      for (const [page, operations] of gathered) {
        page.content.compress = false;
        page.content.data.Filter = "FlateDecode";
        page.write(deflateSync(Buffer.from(`${operations.join("\n")}\n`, "latin1"), { level }));
      }
    },
    again: (down) => {
      for (const operations of gathered.values()) {
        const [turned = "", ...drawn] = operations;
        const seen = drawn.filter((operation) => !operation.endsWith("BDC") && operation !== "EMC");
        const moved = [1, 0, 0, 1, 0, down, "cm"].join(" ");
        const copy = ["/Artifact <</Type /Layout>> BDC", "q", moved, ...seen, "Q", "EMC"];
        // What readers pass over stands first: MuPDF takes what follows an element for a part of it.
        operations.splice(0, 1, turned, ...copy);
      }
    },
  };
}

/** Adds an operation (ISO 32000-1, 8.2) to the page that is open. */
export function addOperation(doc: Doc, operation: string): void {
  inside(doc).addContent(operation);
}

/** The page that is open, as a key. */
export function openPage(doc: Doc): object {
  return inside(doc).page;
}

/** Sets what follows in a font, which the document knows by a key from then on. */
export function useFont(doc: Doc, font: Font, key: string, size: number): FontInside {
  doc.font(font as unknown as PDFKit.Mixins.PDFFontSource, key, size);
  return inside(doc)._font;
}

/**
 * Makes a font ready that is new to a document.
 *
 * @param shaped words that pdfkit has shaped in it for other documents, and takes new ones
 */
export function prepareFont(font: FontInside, shaped: Record<string, unknown>): void {
  // pdfkit maps the empty glyph to U+0000, which PDF/UA forbids (ISO 14289-1, 7.21.7).
  font.unicode[0] = [0xfffd];
  font.layoutCache = shaped;
}

/** Names a font among the resources of the page that is open, as any that an operation uses must be. */
export function addFontToPage(doc: Doc, font: FontInside): void {
  const { page } = inside(doc);
  page.fonts[font.id] ??= font.ref();
}

/** A word's codes in a document's font, in hexadecimal, with kerns between them: the inside of a TJ operation's array. */
export function encodeWord(font: FontInside, word: string): string {
  const [codes, positions] = font.encode(word);
  return codes
    .map((code, index) => {
      const { xAdvance = 0, advanceWidth = 0 } = positions[index] ?? {};
      const kern = Math.round(advanceWidth - xAdvance);
      return kern === 0 ? code : `${code}> ${kern} <`;
    })
    .join("");
}

/** Gives a structure element attributes of its own (ISO 32000-1, 14.7.5), which pdfkit has no call for. */
export function setAttributes(
  element: PDFKit.PDFStructureElement,
  attributes: Readonly<Record<string, unknown>>,
): void {
  (element as unknown as ElementInside).dictionary.data.A = attributes;
}

/**
 * Puts a link over a rectangle of the page that is open, as part of a structure element.
 *
 * @param target an address, or the number of a page
 * @param alt what it says to who can't see it
 */
export function addLink(
  doc: Doc,
  element: PDFKit.PDFStructureElement,
  [x, y, width, height]: readonly [x: number, y: number, width: number, height: number],
  target: string | number,
  alt: string,
): void {
  // A String object is what pdfkit writes as text rather than as a name.
  inside(doc).link(x, y, width, height, target, { structParent: element, Contents: new String(alt) });
}
