import PDFDocument from "pdfkit";
import type { Shape, Tone } from "../drawing/shape.js";
import { compactPdf } from "./compact.js";
import type { Style } from "./faces.js";
import { type Bookmark, type Mark, type Part, type Print, papers, type Target } from "./print.js";
import { ascent, type Line, type Piece, wrap } from "./text.js";

/** Greys, so that a photocopier and a screen show the same sheet; `soft` has 7 : 1 against white. */
const greys: Record<Tone, string> = {
  ink: "#111111",
  soft: "#545454",
  line: "#8c8c8c",
  tint: "#e8e8e8",
  paper: "#ffffff",
};

type Doc = PDFKit.PDFDocument;

/** What the document knows already, and need not be told again. */
interface InkState {
  /** Of each face in use, the words that it has shown, as they are written. */
  readonly fonts: Map<string, Map<string, string>>;
  /** The tone that each page fills with. */
  readonly fills: WeakMap<object, Tone>;
}

/** A font of a document, as pdfkit has it. */
interface DocFont {
  readonly id: string;
  readonly unicode: number[][];
  layoutCache: Record<string, unknown>;
  ref(): object;
  encode(text: string): readonly [codes: readonly string[], positions: readonly Advance[]];
}
/** In thousandths of the type size. */
interface Advance {
  readonly xAdvance: number;
  readonly advanceWidth: number;
}

/** What pdfkit has, but its types do not tell. */
interface Inside {
  readonly _font: DocFont;
  readonly page: { readonly fonts: Record<string, object>; write(bytes: Uint8Array): void };
  _offset: number;
  _write(data: string | Uint8Array): void;
  endMetadata(): void;
  addContent(operation: string): Doc;
  link(x: number, y: number, width: number, height: number, target: string | number, options: object): Doc;
}
interface Dictionary {
  dictionary: { data: Record<string, unknown> };
}

/** Writes a tagged PDF (ISO 32000-1 with the PDF/UA-1 identifier of ISO 14289-1). The same print gives the same bytes. */
export async function writePrint(print: Print): Promise<Uint8Array> {
  const doc = openDocument(print);
  const done = collect(doc);
  for (let page = 0; page < print.pages; page++) doc.addPage({ size: [...papers[print.paper]], margin: 0 });
  const writeContent = gatherContent(doc);
  const ink: InkState = { fonts: new Map(), fills: new WeakMap() };
  for (let page = 0; page < print.pages; page++) {
    const marks = print.decoration.filter((mark) => mark.page === page);
    if (marks.length === 0) continue;
    doc.switchToPage(page);
    doc.markContent("Artifact", { type: "Layout" });
    for (const mark of marks) drawMark(doc, mark, ink);
    doc.endMarkedContent();
  }
  const root = doc.struct("Document");
  doc.addStructure(root);
  for (const part of print.parts) writePart(doc, root, part, ink);
  root.end();
  for (const bookmark of print.bookmarks) addBookmark(doc.outline, bookmark, papers[print.paper][0]);
  writeContent();
  doc.end();
  return done;
}

function openDocument(print: Print): Doc {
  const doc = new PDFDocument({
    autoFirstPage: false,
    bufferPages: true,
    pdfVersion: "1.7",
    tagged: true,
    displayTitle: true,
    lang: print.language,
    font: "",
    info: {
      Title: print.title,
      ...(print.author === undefined ? {} : { Author: print.author }),
      Creator: "countleaf",
      CreationDate: new Date(`${print.date ?? "2000-01-01"}T00:00:00Z`),
    },
  });
  /*
   * pdfkit's own PDF/UA setting would add a CIDSet that leaves out the parts of composed letters, which the standard
   * forbids (ISO 14289-1, 7.21.4.2); the identifier is all that is wanted of it.
   */
  doc.appendXML(
    '<rdf:Description rdf:about="" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/"><pdfuaid:part>1</pdfuaid:part></rdf:Description>',
  );
  escapeMetadata(doc);
  return doc;
}

/** pdfkit copies the document's title and author into XML as they are. */
function escapeMetadata(doc: Doc): void {
  const inside = doc as unknown as Inside;
  const write = inside.endMetadata.bind(doc);
  inside.endMetadata = () => {
    const info = doc.info as Record<string, unknown>;
    for (const [key, value] of Object.entries(info)) if (typeof value === "string") info[key] = escapeXml(value);
    write();
  };
}

/** pdfkit turns every operation into bytes of its own: here a page's are gathered and turned at once, by the function returned. */
function gatherContent(doc: Doc): () => void {
  const inside = doc as unknown as Inside;
  const gathered = new Map<Inside["page"], string[]>();
  inside.addContent = (operation) => {
    const operations = gathered.get(inside.page) ?? [];
    operations.push(operation);
    gathered.set(inside.page, operations);
    return doc;
  };
  return () => {
    for (const [page, operations] of gathered) page.write(Buffer.from(`${operations.join("\n")}\n`, "latin1"));
  };
}

function escapeXml(text: string): string {
  return text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;");
}

/** The file, once the document is ended. Its parts are gathered as text, a letter a byte, and do not go through a stream one by one. */
function collect(doc: Doc): Promise<Uint8Array> {
  const inside = doc as unknown as Inside;
  // Its head went into the stream as it was opened.
  const parts: string[] = [(doc.read() as Buffer).toString("latin1")];
  inside._write = (data) => {
    const part = typeof data === "string" ? `${data}\n` : Buffer.from(data).toString("latin1");
    parts.push(part);
    inside._offset += part.length;
  };
  return new Promise((resolve, reject) => {
    doc.on("end", () => resolve(compactPdf(parts.join(""))));
    doc.on("error", reject);
    doc.resume();
  });
}

function writePart(doc: Doc, parent: PDFKit.PDFStructureElement, part: Part, ink: InkState): void {
  const element = doc.struct(part.tag, {
    ...(part.alt === undefined ? {} : { alt: part.alt }),
    ...(part.box === undefined ? {} : { bbox: [...part.box], placement: "Block" }),
  });
  addTableAttributes(element, part);
  parent.add(element);
  for (const run of runsOf(part)) {
    const [first] = run;
    if (first === undefined) continue;
    if ("tag" in first) {
      writePart(doc, element, first, ink);
      continue;
    }
    doc.switchToPage(first.page);
    element.add(doc.markStructureContent(part.tag));
    for (const mark of run) if (!("tag" in mark)) drawMark(doc, mark, ink);
    doc.endMarkedContent();
    if (part.target !== undefined) addLink(doc, element, first, part.target, part.alt ?? "");
  }
  element.end();
}

/** A part's content, marks that follow each other on a page together; a link's apart, since each has a place to click. */
function runsOf({ content, target }: Part): readonly (readonly (Part | Mark)[])[] {
  const runs: (Part | Mark)[][] = [];
  for (const inner of content) {
    const run = runs.at(-1);
    const last = run?.at(-1);
    const joins = last !== undefined && !("tag" in last) && !("tag" in inner) && last.page === inner.page;
    if (joins && target === undefined) run?.push(inner);
    else runs.push([inner]);
  }
  return runs;
}

function addTableAttributes(element: PDFKit.PDFStructureElement, { scope, columns, rows }: Part): void {
  if (scope === undefined && columns === undefined && rows === undefined) return;
  (element as unknown as Dictionary).dictionary.data.A = {
    O: "Table",
    ...(scope === undefined ? {} : { Scope: scope }),
    ...(columns === undefined ? {} : { ColSpan: columns }),
    ...(rows === undefined ? {} : { RowSpan: rows }),
  };
}

function addLink(doc: Doc, element: PDFKit.PDFStructureElement, mark: Mark, target: Target, alt: string): void {
  const [width, height] = "line" in mark ? [mark.line.width, mark.line.size * 1.2] : sizeOf(mark.shapes);
  (doc as unknown as Inside).link(mark.x, mark.y, width, height, "href" in target ? target.href : target.page, {
    structParent: element,
    Contents: new String(alt),
  });
}

function sizeOf(shapes: readonly Shape[]): readonly [width: number, height: number] {
  const corners = shapes.flatMap((shape) =>
    shape.kind === "box" ? [[shape.at[0] + shape.width, shape.at[1] + shape.height] as const] : [],
  );
  return [Math.max(...corners.map(([x]) => x)), Math.max(...corners.map(([, y]) => y))];
}

function addBookmark(parent: PDFKit.PDFOutline, bookmark: Bookmark, width: number): void {
  // pdfkit measures `left` from the right edge.
  const options = { pageNumber: bookmark.page, top: bookmark.y, left: width, expanded: true };
  const item = parent.addItem(bookmark.title, options);
  for (const under of bookmark.under) addBookmark(item, under, width);
}

function drawMark(doc: Doc, mark: Mark, ink: InkState): void {
  if ("line" in mark) drawLine(doc, mark.line, mark.x, mark.y + mark.line.size * ascent, ink);
  else for (const shape of mark.shapes) drawShape(doc, shape, mark, ink);
}

/** @param y where the base line is */
function drawLine(doc: Doc, line: Line, x: number, y: number, ink: InkState): void {
  for (const piece of line.pieces()) {
    const font = useFace(doc, piece, line.size, ink);
    fillWith(doc, piece.tone, ink);
    if (/\p{M}/u.test(piece.text)) doc.text(piece.text, x + piece.x, y, { lineBreak: false, baseline: "alphabetic" });
    else showPiece(doc, font, piece, { size: line.size, x: x + piece.x, y }, ink);
    if (piece.struck) drawStrike(doc, x + piece.x, y - line.size * 0.25, piece.width, greys[piece.tone]);
  }
}

/**
 * Shows text that stands on its base line as a single operation (ISO 32000-1, 9.4): pdfkit's own way takes ten, and most of
 * the time that a sheet takes. The page is upside down by then, so the text matrix turns it back.
 */
function showPiece(
  doc: Doc,
  font: DocFont,
  { text, face }: Piece,
  { size, x, y }: { readonly size: number; readonly x: number; readonly y: number },
  ink: InkState,
): void {
  const { page } = doc as unknown as Inside;
  page.fonts[font.id] ??= font.ref();
  const known = ink.fonts.get(face.key) ?? new Map<string, string>();
  let shown = "";
  // pdfkit shapes a word with the space behind it, and so never kerns over a space.
  for (let from = 0, to = 0; from < text.length; from = to) {
    to = text.indexOf(" ", from) + 1 || text.length;
    const word = text.slice(from, to);
    let written = known.get(word);
    if (written === undefined) {
      written = wordShown(font, word);
      known.set(word, written);
    }
    shown += written;
  }
  doc.addContent(`BT /${font.id} ${size} Tf 1 0 0 -1 ${short(x)} ${short(y)} Tm [<${shown}>] TJ ET`);
}

/** A word's codes in hexadecimal, kerns between them. */
function wordShown(font: DocFont, word: string): string {
  const [codes, positions] = font.encode(word);
  return codes
    .map((code, index) => {
      const { xAdvance = 0, advanceWidth = 0 } = positions[index] ?? {};
      const kern = Math.round(advanceWidth - xAdvance);
      return kern === 0 ? code : `${code}> ${kern} <`;
    })
    .join("");
}

/** A hundredth of a point is finer than any printer, and takes half the digits. */
const short = (value: number): number => Math.round(value * 100) / 100;

function useFace(doc: Doc, { face }: Piece, size: number, ink: InkState): DocFont {
  doc.font(face.font as unknown as PDFKit.Mixins.PDFFontSource, face.key, size);
  const { _font } = doc as unknown as Inside;
  if (ink.fonts.has(face.key)) return _font;
  ink.fonts.set(face.key, new Map());
  // pdfkit maps the empty glyph to U+0000, which PDF/UA forbids (ISO 14289-1, 7.21.7).
  _font.unicode[0] = [0xfffd];
  _font.layoutCache = shapedIn(face.key);
  return _font;
}

/** Words as pdfkit shaped them, by face: what one document has shaped, the next need not. */
const shaped = new Map<string, Record<string, unknown>>();
let borrowed = 0;

function shapedIn(face: string): Record<string, unknown> {
  // Now and then all is forgotten, or a large library would fill the memory with words.
  borrowed += 1;
  if (borrowed % 2000 === 0) shaped.clear();
  const words = shaped.get(face) ?? (Object.create(null) as Record<string, unknown>);
  shaped.set(face, words);
  return words;
}

function drawStrike(doc: Doc, x: number, y: number, width: number, colour: string): void {
  doc
    .moveTo(x, y)
    .lineTo(x + width, y)
    .lineWidth(0.6)
    .strokeColor(colour)
    .stroke();
}

function drawShape(doc: Doc, shape: Shape, { x, y }: { x: number; y: number }, ink: InkState): void {
  if (shape.kind === "text") {
    const style: Style = shape.bold === true ? "bold" : "regular";
    const [line] = wrap([{ text: shape.text, style, tone: shape.tone }], shape.size);
    if (line === undefined) return;
    const shift = { start: 0, middle: line.width / 2, end: line.width }[shape.anchor];
    drawLine(doc, line, x + shape.at[0] - shift, y + shape.at[1], ink);
    return;
  }
  if (shape.kind === "box")
    doc.rect(short(x + shape.at[0]), short(y + shape.at[1]), short(shape.width), short(shape.height));
  if (shape.kind === "disc") doc.circle(short(x + shape.at[0]), short(y + shape.at[1]), short(shape.radius));
  if (shape.kind === "path") {
    shape.points.forEach(([px, py], index) => {
      if (index === 0) doc.moveTo(short(x + px), short(y + py));
      else doc.lineTo(short(x + px), short(y + py));
    });
    if (shape.closed === true) doc.closePath();
  }
  paintShape(doc, shape, ink);
}

function fillWith(doc: Doc, tone: Tone, { fills }: InkState): void {
  const { page } = doc as unknown as Inside;
  if (fills.get(page) !== tone) doc.fillColor(greys[tone]);
  fills.set(page, tone);
}

function paintShape(doc: Doc, { fill, stroke }: Exclude<Shape, { kind: "text" }>, ink: InkState): void {
  if (fill !== undefined) fillWith(doc, fill, ink);
  if (stroke !== undefined) {
    doc.lineWidth(stroke.width).strokeColor(greys[stroke.tone]).lineJoin("round");
  }
  if (fill !== undefined && stroke !== undefined) doc.fillAndStroke();
  else if (fill !== undefined) doc.fill();
  else if (stroke !== undefined) doc.stroke();
}
