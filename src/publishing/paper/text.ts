import type { Cue } from "../../routine/cue.js";
import type { Tone } from "../drawing/shape.js";
import { type Face, faceRuns, printable, type Style, unitWidth } from "./faces.js";

/** A stretch of text in one style. */
export interface Span {
  readonly text: string;
  readonly style?: Style;
  readonly tone?: Tone;
  readonly struck?: boolean;
  readonly href?: string;
}

/** A stretch of a line in one face, `x` points from the line's start. */
export interface Piece {
  readonly x: number;
  readonly width: number;
  readonly text: string;
  readonly face: Face;
  readonly tone: Tone;
  readonly struck: boolean;
  readonly href?: string;
}

/** A line as it stands on paper; sizes and widths in points. */
export interface Line {
  readonly size: number;
  readonly width: number;
  readonly pieces: readonly Piece[];
}

/** From one base line to the next, in type sizes: the faces' own height, so that lines never touch. */
export const leading = 1.22;
/** From the top of a line's box down to its base line, in type sizes. */
export const ascent = 0.94;

interface Atom extends Omit<Span, "text"> {
  readonly text: string;
  readonly width: number;
}
/** What must stay on one line, unless it is wider than any line. */
type Word = readonly Atom[];

/** Sets spans in lines no wider than `width`; a word is only ever broken where it alone is wider than that. */
export function wrap(spans: readonly Span[], size: number, width = Number.POSITIVE_INFINITY): readonly Line[] {
  const words = wordsOf(spans).flatMap((word) => fitting(word, width / size));
  const lines: Word[][] = [];
  let room = 0;
  for (const word of words) {
    const needed = widthOf(word);
    const line = lines.at(-1);
    const gap = unitWidth(" ", line?.at(-1)?.at(-1)?.style ?? "regular");
    if (line !== undefined && gap + needed <= room + 1e-6) {
      line.push(word);
      room -= gap + needed;
    } else {
      lines.push([word]);
      room = width / size - needed;
    }
  }
  return lines.map((line) => setLine(line, size));
}

/** Width of the widest word, in points: no column for these spans may be narrower. */
export function widestWord(spans: readonly Span[], size: number): number {
  return wordsOf(spans).reduce((widest, word) => Math.max(widest, widthOf(word)), 0) * size;
}

/** Width of a text on one line, in points. */
export function textWidth(text: string, size: number, style: Style = "regular"): number {
  return setLine(wordsOf([{ text, style }]), size).width;
}

/** A cue's stretches, its marks as styles. */
export function cueSpans(cue: Cue): readonly Span[] {
  const edges = new Set([0, cue.text.length, ...cue.marks.flatMap(({ from, to }) => [from, to])]);
  const cuts = [...edges].sort((a, b) => a - b);
  return cuts.slice(1).map((to, index): Span => {
    const from = cuts[index] ?? 0;
    const marks = cue.marks.filter((mark) => mark.from <= from && to <= mark.to);
    const has = (kind: string) => marks.some((mark) => mark.kind === kind);
    const href = marks.find(({ kind }) => kind === "link")?.href;
    const style: Style = has("strong") ? "bold" : has("emphasis") ? "italic" : "regular";
    return {
      text: cue.text.slice(from, to),
      style,
      struck: has("struck"),
      ...(href === undefined ? {} : { href }),
    };
  });
}

function wordsOf(spans: readonly Span[]): readonly Word[] {
  const words: Atom[][] = [];
  let open = false;
  for (const span of spans)
    for (const part of printable(span.text).split(/( +)/)) {
      if (part === "") continue;
      if (part.startsWith(" ")) {
        open = false;
        continue;
      }
      const atom: Atom = { ...span, text: part, width: unitWidth(part, span.style ?? "regular") };
      if (open) words.at(-1)?.push(atom);
      else words.push([atom]);
      open = true;
    }
  return words;
}

const widthOf = (word: Word): number => word.reduce((sum, atom) => sum + atom.width, 0);

/** Breaks a word that no line can hold between letters. */
function fitting(word: Word, width: number): readonly Word[] {
  if (widthOf(word) <= width) return [word];
  const parts: Atom[][] = [[]];
  let room = width;
  for (const atom of word)
    for (const letter of atom.text) {
      const needed = unitWidth(letter, atom.style ?? "regular");
      if (needed > room && (parts.at(-1)?.length ?? 0) > 0) {
        parts.push([]);
        room = width;
      }
      parts.at(-1)?.push({ ...atom, text: letter, width: needed });
      room -= needed;
    }
  return parts.map(joinAtoms);
}

function joinAtoms(atoms: readonly Atom[]): Word {
  const joined: Atom[] = [];
  for (const atom of atoms) {
    const last = joined.at(-1);
    if (last !== undefined && last.style === atom.style && last.href === atom.href && last.struck === atom.struck)
      joined[joined.length - 1] = { ...last, text: last.text + atom.text, width: last.width + atom.width };
    else joined.push(atom);
  }
  return joined;
}

function setLine(words: readonly Word[], size: number): Line {
  const pieces: Piece[] = [];
  let x = 0;
  const add = (face: Face, text: string, width: number, { tone = "ink", struck = false, href }: Omit<Span, "text">) => {
    const last = pieces.at(-1);
    const same = last?.face === face && last.tone === tone && last.struck === struck && last.href === href;
    if (last !== undefined && same)
      pieces[pieces.length - 1] = { ...last, text: last.text + text, width: x + width - last.x };
    else pieces.push({ x, width, text, face, tone, struck, ...(href === undefined ? {} : { href }) });
    x += width;
  };
  words.forEach((word, index) => {
    const before = words[index - 1]?.at(-1);
    if (before !== undefined) {
      const { href, ...plain } = before;
      const style = before.style ?? "regular";
      for (const { face, text } of faceRuns(" ", style))
        add(face, text, unitWidth(" ", style) * size, href === word[0]?.href ? before : plain);
    }
    for (const atom of word)
      for (const { face, text } of faceRuns(atom.text, atom.style ?? "regular"))
        add(face, text, (face.font.layout(text).advanceWidth / face.font.unitsPerEm) * size, atom);
  });
  return { size, width: x, pieces };
}
