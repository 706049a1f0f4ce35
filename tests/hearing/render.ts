import type { Kind, Taught, Utterance } from "./recording.js";

/** A word with its times in seconds. */
export interface TimedWord {
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

/** Words of one line, never empty. */
interface Line {
  readonly words: readonly TimedWord[];
  readonly start: number;
  readonly end: number;
}

/** Longest that a word lasts: what follows it is silence. */
const longestWord = 0.9;
/** Letters of a line; captions are set to fit a screen, and break where the sense would not. */
const widths = [38, 42, 34, 40, 36, 32];
/** Seconds of silence that begin a new line. */
const silence = 1.5;

/** Captions of the recording's kind, as a file holds them. */
export function render(recording: Taught, kind: Kind = recording.captions): string {
  const lines = linesOf(wordsOf(recording.said));
  switch (kind) {
    case "vtt-lines":
      return `WEBVTT - captions\nKind: captions\nLanguage: en\n\n${lines.map(plainCue).join("\n")}`;
    case "vtt-words":
      return `WEBVTT\nKind: captions\nLanguage: en\n\n${rolling(lines)}`;
    case "srt":
      return pairs(lines).map(subRip).join("\n");
    case "text":
      return lines.map((line) => `[${minutes(line.start)}] ${wording(line)}\n`).join("");
  }
}

/** The words of what was said, in the order of their times. */
export function wordsOf(said: readonly Utterance[]): readonly TimedWord[] {
  return said.flatMap(([start, end, text]) => {
    const words = text.split(/\s+/).map((word) => {
      const [letters = "", at] = word.split("@");
      return { letters, at: at === undefined ? undefined : Number(at) };
    });
    return timed(words, start, end);
  });
}

interface Unplaced {
  readonly letters: string;
  readonly at: number | undefined;
}

/** Spreads the words between those that know their time, by their letters. */
function timed(words: readonly Unplaced[], start: number, end: number): readonly TimedWord[] {
  const found: TimedWord[] = [];
  let first = 0;
  let from = words[0]?.at ?? start;
  while (first < words.length) {
    let next = first + 1;
    while (next < words.length && words[next]?.at === undefined) next++;
    const until = words[next]?.at ?? Math.max(end, from);
    const group = words.slice(first, next);
    const letters = group.reduce((sum, word) => sum + word.letters.length + 1, 0);
    let at = from;
    for (const word of group) {
      const took = ((until - from) * (word.letters.length + 1)) / letters;
      found.push({ text: word.letters, start: at, end: at + Math.min(took, longestWord) });
      at += took;
    }
    first = next;
    from = until;
  }
  return found;
}

function linesOf(words: readonly TimedWord[]): readonly Line[] {
  const lines: TimedWord[][] = [];
  let line: TimedWord[] = [];
  for (const word of words) {
    const last = line.at(-1);
    const wide = line.reduce((sum, other) => sum + other.text.length + 1, 0) + word.text.length;
    if (last && (wide > (widths[lines.length % widths.length] ?? 40) || word.start - last.end > silence)) {
      lines.push(line);
      line = [];
    }
    line.push(word);
  }
  if (line.length > 0) lines.push(line);
  return lines.map((held) => ({ words: held, start: held[0]?.start ?? 0, end: held.at(-1)?.end ?? 0 }));
}

const wording = (line: Line) => line.words.map((word) => word.text).join(" ");

const plainCue = (line: Line) => `${clock(line.start)} --> ${clock(line.end)}\n${wording(line)}\n`;

/** Each line comes twice: while it is said, word by word under the line before it, and for a moment when it has been said. */
function rolling(lines: readonly Line[]): string {
  const settings = " align:start position:0%";
  return lines
    .map((line, index) => {
      const before = lines[index - 1];
      const above = before && line.start - before.end < silence ? wording(before) : " ";
      const [first, ...rest] = line.words;
      const spoken = `${first?.text ?? ""}${rest.map((word) => `<${clock(word.start)}><c> ${word.text}</c>`).join("")}`;
      const still = line.end - 0.01;
      return [
        `${clock(line.start)} --> ${clock(still)}${settings}\n${above}\n${spoken}\n`,
        `${clock(still)} --> ${clock(line.end)}${settings}\n${wording(line)}\n \n`,
      ].join("\n");
    })
    .join("\n");
}

/** Two lines on the screen at a time, where no silence parts them. */
function pairs(lines: readonly Line[]): readonly (readonly Line[])[] {
  const found: Line[][] = [];
  for (const line of lines) {
    const last = found.at(-1);
    const previous = last?.at(-1);
    if (last && previous && last.length < 2 && line.start - previous.end < silence) last.push(line);
    else found.push([line]);
  }
  return found;
}

function subRip(held: readonly Line[], index: number): string {
  const start = clock(held[0]?.start ?? 0).replace(".", ",");
  const end = clock(held.at(-1)?.end ?? 0).replace(".", ",");
  return `${index + 1}\n${start} --> ${end}\n${held.map(wording).join("\n")}\n`;
}

const two = (value: number) => String(value).padStart(2, "0");

/** "00:01:02.345" */
function clock(seconds: number): string {
  const all = Math.round(seconds * 1000);
  const whole = Math.floor(all / 1000);
  const fraction = String(all % 1000).padStart(3, "0");
  return `${two(Math.floor(whole / 3600))}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}.${fraction}`;
}

/** "1:02" */
const minutes = (seconds: number) => `${Math.floor(seconds / 60)}:${two(Math.floor(seconds) % 60)}`;
