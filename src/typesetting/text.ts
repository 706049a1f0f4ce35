import { type FaceRun, faceRuns, printable, unitWidth } from "./faces.js";
import type { Tone } from "./shape.js";
import { remembered, type Style } from "./style.js";

/** Text in one style. */
export interface Span {
  readonly text: string;
  readonly style?: Style;
  readonly tone?: Tone;
  readonly struck?: boolean;
  readonly href?: string;
  /** BCP 47 tag, where it is not in the document's language. */
  readonly lang?: string;
}

/** What one face sets of a line, `x` and `width` in points from the line's start. */
export interface Piece extends FaceRun {
  readonly x: number;
  readonly tone: Tone;
  readonly struck: boolean;
  readonly href?: string;
  readonly lang?: string;
}

/** A line as it stands on paper; sizes and widths in points. Its pieces are worked out only where it is drawn. */
export interface Line {
  readonly size: number;
  readonly width: number;
  /** Whether any of it is an element of its own: a link, or text in another language. */
  readonly parted: boolean;
  /** Whether it ends inside a word that the next line goes on with; otherwise a space ends it (ISO 32000-1, 14.8.2.5). */
  readonly goesOn: boolean;
  readonly pieces: () => readonly Piece[];
}

/** From one base line to the next, in type sizes: the faces' own height, so that lines never touch. */
export const leading = 1.22;
/** The same where much has to go on little paper: so near that an accent on a capital may come close to the line above. */
export const close = 1.13;
/** From the top of a line's box down to its base line, in type sizes. */
export const ascent = 0.94;

/** As much of a word as has one style; its width at a size of 1. */
interface Atom {
  readonly span: Span;
  readonly text: string;
  readonly width: number;
}

/** What must stay on one line, unless it is wider than any line. */
interface Word {
  readonly width: number;
  /** Of the space behind it. */
  readonly space: number;
  /** Of a piece of a broken word, but for the last. */
  readonly goesOn?: boolean;
  readonly atoms: readonly Atom[];
}

/** Sets spans in lines no wider than `width`; a word is only ever broken where it alone is wider than that. */
export function wrap(spans: readonly Span[], size: number, width = Number.POSITIVE_INFINITY): readonly Line[] {
  const room = width / size + 1e-6;
  const lines: Line[] = [];
  let line: Word[] = [];
  let [used, gap] = [0, 0];
  for (const word of fitting(wordsOf(spans), room)) {
    if (used + gap + word.width > room && line.length > 0) {
      lines.push(lineOf(line, used, size));
      line = [];
      used = gap = 0;
    }
    line.push(word);
    used += gap + word.width;
    gap = word.space;
  }
  if (line.length > 0) lines.push(lineOf(line, used, size));
  return lines;
}

function lineOf(words: readonly Word[], width: number, size: number): Line {
  const parted = words.some(({ atoms }) =>
    atoms.some(({ span }) => span.href !== undefined || span.lang !== undefined),
  );
  const goesOn = words.at(-1)?.goesOn ?? false;
  return { size, width: width * size, parted, goesOn, pieces: () => setPieces(words, size) };
}

/** The words, those that no line can hold in pieces. */
function fitting(words: readonly Word[], room: number): readonly Word[] {
  if (words.every(({ width }) => width <= room)) return words;
  return words.flatMap((word) => (word.width <= room ? [word] : broken(word, room)));
}

/** Width of the widest word, in points: no column for these spans may be narrower. */
export function widestWord(spans: readonly Span[], size: number): number {
  return wordsOf(spans).reduce((widest, { width }) => Math.max(widest, width), 0) * size;
}

/** Width of a text on one line, in points. */
export function textWidth(text: string, size: number, style: Style = "regular"): number {
  return wrap([{ text, style }], size)[0]?.width ?? 0;
}

/** A text that fits: whole, or its longest beginning that fits with the "…" that says so. */
export function shortened(text: string, fits: (text: string) => boolean): string {
  if (fits(text)) return text;
  const letters = [...text];
  const cut = (count: number) => `${letters.slice(0, count).join("").trimEnd()}…`;
  let [low, high] = [0, letters.length];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (fits(cut(middle))) low = middle;
    else high = middle;
  }
  return cut(low);
}

/** A word that is being put together. */
interface OpenWord extends Word {
  width: number;
  space: number;
  readonly atoms: Atom[];
}

const wordsKnown = new WeakMap<readonly Span[], readonly Word[]>();

/** Spans as words; spans that come again (a cue, tried in several sizes) are taken apart once. */
function wordsOf(spans: readonly Span[]): readonly Word[] {
  const known = wordsKnown.get(spans);
  if (known !== undefined) return known;
  const words: OpenWord[] = [];
  let open: OpenWord | undefined;
  for (const span of spans) {
    const style = span.style ?? "regular";
    const space = unitWidth(" ", style);
    for (const { text, width } of measuredWords(span.text, style)) {
      if (text === " ") open = undefined;
      else if (open === undefined) {
        open = { width, space, atoms: [{ span, text, width }] };
        words.push(open);
      } else {
        open.atoms.push({ span, text, width });
        open.width += width;
        open.space = space;
      }
    }
  }
  wordsKnown.set(spans, words);
  return words;
}

interface Measured {
  readonly text: string;
  readonly width: number;
}

/** A text's words and the spaces between them, each with its width at a size of 1. */
const measuredWords = remembered((text, style): readonly Measured[] =>
  printable(text)
    .split(/( +)/)
    .filter((word) => word !== "")
    .map((word) => (word.startsWith(" ") ? { text: " ", width: 0 } : { text: word, width: unitWidth(word, style) })),
);

const styleOf = ({ span }: Atom): Style => span.style ?? "regular";

/** A letter with the marks that combine with it. */
const letters = /\P{M}\p{M}*|\p{M}+/gu;

/** Breaks a word that no line can hold between letters. */
function broken(word: Word, room: number): readonly Word[] {
  const pieces: OpenWord[] = [];
  for (const { span, text } of word.atoms)
    for (const letter of text.match(letters) ?? []) {
      const style = span.style ?? "regular";
      const width = unitWidth(letter, style);
      let piece = pieces.at(-1);
      if (piece === undefined || piece.width + width > room) {
        piece = { width: 0, space: 0, atoms: [] };
        pieces.push(piece);
      }
      piece.atoms.push({ span, text: letter, width });
      piece.width += width;
      piece.space = unitWidth(" ", style);
    }
  return pieces.map((piece, index) => ({ ...piece, goesOn: index < pieces.length - 1 }));
}

function setPieces(words: readonly Word[], size: number): readonly Piece[] {
  const pieces: { -readonly [key in keyof Piece]: Piece[key] }[] = [];
  let x = 0;
  const add = (run: FaceRun, { tone = "ink", struck = false, href, lang }: Omit<Span, "text">) => {
    const width = run.width * size;
    const last = pieces.at(-1);
    const plain = last?.actual === undefined && run.actual === undefined;
    const same = plain && last?.face === run.face && last.tone === tone && last.struck === struck && last.href === href;
    if (last !== undefined && same && last.lang === lang) {
      last.text += run.text;
      last.width += width;
    } else if (run.actual === undefined && href === undefined && lang === undefined) {
      // Nearly all are plain, and spreading takes its time.
      pieces.push({ x, width, text: run.text, face: run.face, tone, struck });
    } else {
      const own = { ...(href === undefined ? {} : { href }), ...(lang === undefined ? {} : { lang }) };
      pieces.push({ ...run, x, width, tone, struck, ...own });
    }
    x += width;
  };
  words.forEach(({ atoms }, index) => {
    const before = words[index - 1]?.atoms.at(-1);
    if (before !== undefined) {
      const { href, ...plain } = before.span;
      const inside = href !== undefined && href === atoms[0]?.span.href;
      for (const run of faceRuns(" ", styleOf(before))) add(run, inside ? before.span : plain);
    }
    for (const atom of atoms) for (const run of faceRuns(atom.text, styleOf(atom))) add(run, atom.span);
  });
  return pieces;
}
