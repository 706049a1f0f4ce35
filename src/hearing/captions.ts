import { plainText } from "./plain-text.js";
import type { NotHeard, Recording, Word } from "./types.js";

/** Most characters of a file: an hour of captions that time each word has a twentieth of it. */
const mostCharacters = 20 * 1024 * 1024;
/** Seconds; nobody teaches longer in one go. */
const longest = 10 * 60 * 60;
/** More than can be said in that time by somebody who also dances. */
const mostWords = 100_000;

/** A piece of text of a caption file, with its times in seconds. */
interface Piece {
  readonly start: number;
  /** Where the file says none, where the next begins. */
  readonly end?: number;
  readonly lines: readonly string[];
  /** From 1. */
  readonly line: number;
}

/**
 * Reads captions: WebVTT (W3C, plain or with times inside a cue), SubRip, or lines that begin with a time in brackets
 * ("[1:03] …"). Headers, styles and settings are passed over, whether or not a strict reader would take them. A text without any
 * times has no captions ("no-captions").
 *
 * @example readCaptions("[0:05] five six seven eight\n[0:08] step").words // five at 5 s, …
 */
export function readCaptions(text: string): Recording | NotHeard {
  const fault = (why: NotHeard["why"], line = 1, column = 1): NotHeard => ({ why, line, column });
  if (text.length > mostCharacters) return fault("too-big");
  const zero = text.indexOf("\0");
  if (zero >= 0) return { why: "binary", ...placeIn(text, zero) };
  if (!/\S/.test(text)) return fault("empty");
  const lines = text.replace(/^\uFEFF/, "").split(/\r\n?|\n/);
  const pieces = piecesOf(lines);
  if (pieces.length === 0) return fault("no-captions");
  for (const [index, piece] of pieces.entries()) {
    const before = pieces[index - 1];
    if ((before && piece.start < before.start - 1) || (piece.end ?? piece.start) < piece.start)
      return fault("backwards", piece.line);
    if ((piece.end ?? piece.start) > longest) return fault("too-long", piece.line);
  }
  const words = wordsOf(pieces);
  if (words.length === 0) return fault("empty");
  if (words.length > mostWords) return fault("too-long", pieces.at(-1)?.line);
  const exact = words.filter((word) => word.exact).length;
  return {
    timing: exact * 2 > words.length ? "words" : "lines",
    words: words.map(({ exact: _, ...word }) => word),
    length: words.reduce((end, word) => Math.max(end, word.end), 0),
  };
}

/** The line and column of a place in a text, from 1. */
export function placeIn(text: string, at: number): { readonly line: number; readonly column: number } {
  const lines = text.slice(0, at).split(/\r\n?|\n/);
  return { line: lines.length, column: (lines.at(-1)?.length ?? 0) + 1 };
}

const clock = "(?:(\\d{1,3}):)?(\\d{1,3}):(\\d{1,2})(?:[.,](\\d{1,6}))?";
const timing = new RegExp(`^\\s*${clock}\\s*-{1,2}>\\s*${clock}`);
const headed = new RegExp(`^\\s*[[(]${clock}[\\])]\\s*[-–:]?\\s*(.*)$`);

function secondsOf([hours = "0", minutes = "0", seconds = "0", part = "0"]: readonly (string | undefined)[]): number {
  return Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds) + Number(`0.${part}`);
}

function piecesOf(lines: readonly string[]): readonly Piece[] {
  const pieces: { start: number; end?: number; lines: string[]; line: number }[] = [];
  let open = false;
  for (const [index, line] of lines.entries()) {
    const timed = timing.exec(line);
    const head = timed ? null : headed.exec(line);
    const last = pieces.at(-1);
    if (timed) {
      // SubRip numbers its cues, and a file may lack the empty line before the number.
      if (open && last && /^\s*\d+\s*$/.test(last.lines.at(-1) ?? "")) last.lines.pop();
      pieces.push({
        start: secondsOf(timed.slice(1, 5)),
        end: secondsOf(timed.slice(5, 9)),
        lines: [],
        line: index + 1,
      });
      open = true;
    } else if (head) {
      pieces.push({ start: secondsOf(head.slice(1, 5)), lines: [head[5] ?? ""], line: index + 1 });
      open = true;
    } else if (line === "") {
      // Lines with a time at their head may have paragraphs; cues end here.
      if (last?.end !== undefined) open = false;
    } else if (open) last?.lines.push(line);
  }
  return pieces;
}

type TimedWord = Word & { readonly exact: boolean };

function wordsOf(pieces: readonly Piece[]): readonly TimedWord[] {
  const words: TimedWord[] = [];
  let shown: readonly string[] = [];
  for (const [index, { start, end, lines }] of pieces.entries()) {
    const until = end ?? pieces[index + 1]?.start ?? start + 0.4 * lines.join(" ").split(/\s+/).length;
    const plain = lines.map((line) => plainText(line));
    // A rolling caption shows the line before once more.
    const fresh = lines.filter((line, at) => plain[at] !== "" && (isTimed(line) || !shown.includes(plain[at] ?? "")));
    shown = plain;
    const room = fresh.reduce((sum, line) => sum + plainText(line).length + 1, 0);
    let from = start;
    for (const line of fresh) {
      const to = isTimed(line) ? until : from + ((until - start) * (plainText(line).length + 1)) / room;
      for (const word of wordsOfLine(line, from, to)) words.push(word);
      if (!isTimed(line)) from = to;
    }
  }
  return inOrder(words);
}

const inner = /<(\d{1,3}:)?\d{1,3}:\d{1,2}[.,]\d{1,6}>/;
const isTimed = (line: string) => inner.test(line);

/** The words of a line: each stretch between two times of its own spread over the time that it has. */
function wordsOfLine(line: string, start: number, end: number): readonly TimedWord[] {
  const parts = line.split(/<((?:\d{1,3}:)?\d{1,3}:\d{1,2}[.,]\d{1,6})>/);
  const exact = parts.length > 1;
  const stretches = parts.flatMap((text, index) =>
    index % 2 === 1
      ? []
      : [
          {
            text: plainText(text),
            from:
              index === 0 ? start : secondsOf(new RegExp(`^${clock}$`).exec(parts[index - 1] ?? "")?.slice(1) ?? []),
          },
        ],
  );
  const spoken = stretches.filter(({ text }) => text !== "");
  return spoken.flatMap(({ text, from }, index) => {
    const to = Math.max(from, spoken[index + 1]?.from ?? end);
    return spread(text, from, to, index === 0).map((word) => ({ ...word, exact }));
  });
}

/** Words one after the other, each as long as it has letters. */
export function spread(text: string, start: number, end: number, begins = true): readonly Word[] {
  const tokens = text.split(/\s+/).filter((token) => token !== "");
  const letters = tokens.reduce((sum, token) => sum + token.length + 1, 0);
  let at = start;
  return tokens.map((token, index) => {
    const to = at + ((end - start) * (token.length + 1)) / letters;
    const before = tokens[index - 1];
    const word = {
      text: token,
      start: at,
      end: to,
      begins: before === undefined ? begins : /[.!?…]["”']?$/.test(before),
    };
    at = to;
    return word;
  });
}

/** No word begins before the one before it: captions may overlap by a moment. */
function inOrder(words: readonly TimedWord[]): readonly TimedWord[] {
  let at = 0;
  return words.map((word) => {
    const start = Math.max(at, word.start);
    at = start;
    return { ...word, start, end: Math.max(start, word.end) };
  });
}
