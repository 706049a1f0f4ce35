import {
  addFontToPage,
  addOperation,
  type Doc,
  encodeWord,
  type FontInside,
  openPage,
  prepareFont,
  useFont,
} from "../adapter.js";
import type { Mark } from "../print.js";
import type { Shape, Stroke, Tone } from "../shape.js";
import type { Style } from "../style.js";
import { ascent, type Line, type Piece, wrap } from "../text.js";

/**
 * Greys as parts of white, of the printer's own black (DeviceGray: ISO 32000-1, 8.6.4.2), so that no page is counted and paid for
 * as one in colour, and a photocopier and a screen show the same sheet; `soft` has 7 : 1 against white.
 */
const greys: Record<Tone, number> = { ink: 0.067, beat: 0.067, soft: 0.329, line: 0.549, tint: 0.91, paper: 1 };

/** What a document knows already, and need not be told again. */
export interface InkState {
  /** Of each face in use, the words that it has shown, as they are written. */
  readonly fonts: Map<string, Map<string, string>>;
  /** The tone that each page fills with, and the operation that set how it strokes. */
  readonly fills: WeakMap<object, Tone>;
  readonly strokes: WeakMap<object, string>;
}

export const newInk = (): InkState => ({ fonts: new Map(), fills: new WeakMap(), strokes: new WeakMap() });

/** Draws a mark on the page that is open. */
export function drawMark(doc: Doc, mark: Mark, ink: InkState): void {
  if ("line" in mark) drawLine(doc, mark.line, mark.x, mark.y + mark.line.size * ascent, ink);
  else for (const shape of mark.shapes) drawShape(doc, shape, mark, ink);
}

/** @param y where the base line is */
function drawLine(doc: Doc, line: Line, x: number, y: number, ink: InkState): void {
  for (const piece of line.goesOn ? line.pieces() : withSpace(line.pieces())) {
    const font = useFace(doc, piece, line.size, ink);
    fillWith(doc, piece.tone, ink);
    // Who listens or copies gets the real sign (ISO 32000-1, 14.9.4).
    if (piece.actual !== undefined) addOperation(doc, `/Span <</ActualText <${utf16(piece.actual)}>>> BDC`);
    if (piece.lines !== undefined) drawLines(doc, piece.lines, piece, { size: line.size, x: x + piece.x, y }, ink);
    if (/\p{M}/u.test(piece.text)) doc.text(piece.text, x + piece.x, y, { lineBreak: false, baseline: "alphabetic" });
    else showPiece(doc, font, piece, { size: line.size, x: x + piece.x, y }, ink);
    if (piece.actual !== undefined) addOperation(doc, "EMC");
    if (piece.struck) drawStrike(doc, x + piece.x, y - line.size * 0.25, piece, ink);
  }
}

/** The same with a space at the end, outside of what stands for something else. */
function withSpace(pieces: readonly Piece[]): readonly Piece[] {
  const last = pieces.at(-1);
  if (last === undefined) return pieces;
  if (last.actual === undefined) return [...pieces.slice(0, -1), { ...last, text: `${last.text} ` }];
  const { face, tone } = last;
  return [...pieces, { face, tone, text: " ", x: last.x + last.width, width: 0, struck: false }];
}

/** A text as PDF strings have it beyond Latin (ISO 32000-1, 7.9.2.2), in hexadecimal. */
const utf16 = (text: string): string => Buffer.from(`\ufeff${text}`, "utf16le").swap16().toString("hex");

function drawLines(
  doc: Doc,
  lines: NonNullable<Piece["lines"]>,
  { tone }: Piece,
  at: { readonly size: number; readonly x: number; readonly y: number },
  ink: InkState,
): void {
  strokeWith(doc, { tone, width: at.size * 0.08 }, ink);
  addOperation(doc, `${lines.map((points) => pathOf(points, at)).join(" ")} S`);
}

/** Goes along points, with no operation for each as pdfkit does it: a page has hundreds. */
function pathOf(
  points: readonly (readonly [x: number, y: number])[],
  { x, y, size = 1 }: { readonly x: number; readonly y: number; readonly size?: number },
): string {
  return points
    .map(([px, py], index) => `${short(x + px * size)} ${short(y + py * size)} ${index === 0 ? "m" : "l"}`)
    .join(" ");
}

/**
 * Shows text that stands on its base line as a single operation (ISO 32000-1, 9.4): pdfkit's own way takes ten, and most of
 * the time that a sheet takes. The page is upside down by then, so the text matrix turns it back.
 */
function showPiece(
  doc: Doc,
  font: FontInside,
  { text, face }: Piece,
  { size, x, y }: { readonly size: number; readonly x: number; readonly y: number },
  ink: InkState,
): void {
  addFontToPage(doc, font);
  const known = ink.fonts.get(face.key) ?? new Map<string, string>();
  let shown = "";
  // pdfkit shapes a word with the space behind it, and so never kerns over a space.
  for (let from = 0, to = 0; from < text.length; from = to) {
    to = text.indexOf(" ", from) + 1 || text.length;
    const word = text.slice(from, to);
    let written = known.get(word);
    if (written === undefined) {
      written = encodeWord(font, word);
      known.set(word, written);
    }
    shown += written;
  }
  addOperation(doc, `BT /${font.id} ${size} Tf 1 0 0 -1 ${short(x)} ${short(y)} Tm [<${shown}>] TJ ET`);
}

/** A hundredth of a point is finer than any printer, and takes half the digits. */
const short = (value: number): number => Math.round(value * 100) / 100;

function useFace(doc: Doc, { face }: Piece, size: number, ink: InkState): FontInside {
  const font = useFont(doc, face.font, face.key, size);
  if (ink.fonts.has(face.key)) return font;
  ink.fonts.set(face.key, new Map());
  prepareFont(font, shapedIn(face.key));
  return font;
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

function drawStrike(doc: Doc, x: number, y: number, { width, tone }: Piece, ink: InkState): void {
  strokeWith(doc, { tone, width: 0.6 }, ink);
  addOperation(doc, `${short(x)} ${short(y)} m ${short(x + width)} ${short(y)} l S`);
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
  const { fill, stroke } = shape;
  if (fill !== undefined) fillWith(doc, fill, ink);
  if (stroke !== undefined) strokeWith(doc, stroke, ink);
  if (shape.kind === "box")
    doc.rect(short(x + shape.at[0]), short(y + shape.at[1]), short(shape.width), short(shape.height));
  if (shape.kind === "disc") doc.circle(short(x + shape.at[0]), short(y + shape.at[1]), short(shape.radius));
  if (shape.kind === "path") addOperation(doc, `${pathOf(shape.points, { x, y })}${shape.closed === true ? " h" : ""}`);
  addOperation(doc, fill === undefined ? "S" : stroke === undefined ? "f" : "B");
}

function fillWith(doc: Doc, tone: Tone, { fills }: InkState): void {
  const page = openPage(doc);
  if (fills.get(page) === tone) return;
  addOperation(doc, `${greys[tone]} g`);
  fills.set(page, tone);
}

function strokeWith(doc: Doc, { tone, width, dashes }: Stroke, { strokes }: InkState): void {
  const page = openPage(doc);
  const set = `${short(width)} w 1 j [${dashes?.join(" ") ?? ""}] 0 d ${greys[tone]} G`;
  if (strokes.get(page) === set) return;
  addOperation(doc, set);
  strokes.set(page, set);
}
