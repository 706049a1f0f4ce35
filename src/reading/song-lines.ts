import { isMap, isScalar, isSeq, type Pair, parseDocument, type Scalar, type YAMLMap } from "yaml";
import { writtenTempo, writtenTime, writtenTimes } from "../routine/written-figures.js";

/** What was found out about a song, as far as it is to stand in a routine's file. */
export interface SongFigures {
  /** Counts a minute. */
  readonly countsPerMinute?: number;
  /** Seconds from the start of the track. */
  readonly firstCount?: number;
  /** By the section's place in the file, from 0. */
  readonly sections?: readonly SectionFigures[];
}

export interface SectionFigures {
  readonly index: number;
  /** Seconds from the start of the track, the first time it is danced, or by the time through, from 1. */
  readonly at?: number | Readonly<Record<number, number>>;
  /** Counts a minute. */
  readonly countsPerMinute?: number;
  /** What is so without a line for it: one that has a line of its own is taken out, and else it is made to say so. */
  readonly needless?: readonly ("at" | "tempo")[];
}

/** A line of the file as it is to be: `before` is absent where it is new, `after` where it is taken out. */
export interface ChangedLine {
  /** From 1, in the file as it is to be; of what is taken out, where it would be. */
  readonly line: number;
  readonly before?: string;
  readonly after?: string;
}

/** The file as it is to be, or the place that could not be found in it. */
export type WithSong =
  | { readonly text: string; readonly lines: readonly ChangedLine[] }
  | { readonly missing: "front-matter" | "music" | "section" };

/** A stretch of the text that something else takes the place of. */
interface Splice {
  readonly from: number;
  readonly to: number;
  readonly text: string;
  /** Whole lines are taken out. */
  readonly out?: true;
}

/**
 * Writes a song's figures into the text of a routine's file. Whatever else stands there stays as it is, to the letter: comments, order,
 * quotes, line ends. A figure that stands there already is replaced where it stands and in the form that it has there (a tempo in beats or
 * bars, a time in quotes); a new one gets a line under the key that it belongs to, indented like that; one that is needless goes with its line.
 *
 * @param text as it lies in the file, its line ends included
 */
export function withSong(text: string, figures: SongFigures): WithSong {
  const opening = /^\ufeff?---[^\r\n]*\r?\n/.exec(text);
  const closing = opening && /^---/m.exec(text.slice(opening[0].length));
  if (!opening || !closing) return { missing: "front-matter" };
  const from = opening[0].length;
  const root = parseDocument(text.slice(from, from + closing.index), {
    schema: "failsafe",
    uniqueKeys: false,
    logLevel: "silent",
  }).contents;
  const file: File = { text, from, eol: opening[0].endsWith("\r\n") ? "\r\n" : "\n" };
  if (!isMap(root)) return { missing: "front-matter" };
  const music = mappingAt(root, "music");
  if (!music) return { missing: "music" };
  const sections = pairOf(root, "sections")?.value;
  const splices: Splice[] = [];
  const { countsPerMinute, firstCount } = figures;
  if (countsPerMinute !== undefined) splices.push(...tempoIn(file, music, countsPerMinute));
  if (firstCount !== undefined) splices.push(setIn(file, music, "first-count", writtenTime(firstCount), "tempo"));
  for (const { index, at, countsPerMinute, needless } of figures.sections ?? []) {
    const section = isSeq(sections) ? sections.items[index] : undefined;
    if (!isMap(section)) return { missing: "section" };
    // In one line where they stand in one: a place in the track before a tempo.
    const out = (key: "at" | "tempo") => (needless?.includes(key) ? lineOut(file, section, key) : undefined);
    if (at !== undefined) splices.push(...(out("at") ?? atIn(file, section, at)));
    if (countsPerMinute !== undefined) splices.push(...(out("tempo") ?? tempoIn(file, section, countsPerMinute)));
  }
  return spliced(text, splices);
}

interface File {
  readonly text: string;
  /** Where the front matter begins in the text. */
  readonly from: number;
  readonly eol: string;
}

/** Written as the file has it: a song's speed in beats or bars stays one, and the figure beside it decides how much of it. */
function tempoIn(file: File, mapping: YAMLMap, countsPerMinute: number): readonly Splice[] {
  const written = mappingAt(mapping, "tempo");
  for (const [speed, each, perCount] of [
    ["beats-per-minute", "beats-per-count", (beats: number) => countsPerMinute * beats],
    ["bars-per-minute", "beats-per-bar", (beats: number) => countsPerMinute / beats],
  ] as const) {
    const beats = written && Number(scalarOf(pairOf(written, each)));
    if (written && beats && pairOf(written, speed))
      return [setIn(file, written, speed, String(Math.round(perCount(beats) * 1000) / 1000), each)];
  }
  return [setIn(file, mapping, "tempo", writtenTempo(countsPerMinute), "name")];
}

/** Places that have a line for each time through keep their lines, and what is remarked on them. */
function atIn(file: File, section: YAMLMap, at: NonNullable<SectionFigures["at"]>): readonly Splice[] {
  const there = mappingAt(section, "at");
  if (!there || there.flow === true) return [setIn(file, section, "at", writtenTimes(at), "name")];
  const keys = there.items.map(({ key }) => String(isScalar(key) ? key.value : key));
  const wanted: Readonly<Record<string, number>> = typeof at === "number" ? { [keys[0] ?? "1"]: at } : at;
  return [
    ...keys
      .filter((through) => wanted[through] === undefined)
      .flatMap((through) => lineOut(file, there, through) ?? []),
    ...Object.entries(wanted).map(([through, seconds]) =>
      setIn(file, there, through, writtenTime(seconds), keys.at(-1) ?? through),
    ),
  ];
}

/** A key's value in place of the one that it has, or the key and its value on a line under another key. */
function setIn(file: File, mapping: YAMLMap, key: string, value: string, under: string): Splice {
  const { text, from } = file;
  const range = rangeIn(file, pairOf(mapping, key)?.value);
  if (range) {
    const [start, end] = range;
    const quote = /^["']/.exec(text.slice(start, end))?.[0];
    const inQuotes = quote !== undefined && !value.startsWith("{");
    return { from: start, to: end, text: inQuotes ? `${quote}${value}${quote}` : value };
  }
  const neighbour = pairOf(mapping, under) ?? mapping.items[0];
  const [keyAt = from] = rangeIn(file, neighbour?.key) ?? [];
  const [, after = keyAt] = rangeIn(file, neighbour?.value) ?? rangeIn(file, neighbour?.key) ?? [];
  if (mapping.flow === true) return { from: after, to: after, text: `, ${key}: ${value}` };
  const lineEnd = endOfLine(text, after);
  const indent = " ".repeat(keyAt - startOfLine(text, keyAt));
  // Of files whose lines end in two ways, each line keeps its own.
  const eol = /^\r?\n/.exec(text.slice(lineEnd))?.[0] ?? file.eol;
  return { from: lineEnd, to: lineEnd, text: `${eol}${indent}${key}: ${value}` };
}

/** A key's whole line, if there is one; a comment on it stays. `undefined` where something else stands on it. */
function lineOut(file: File, mapping: YAMLMap, key: string): readonly Splice[] | undefined {
  const { text } = file;
  const pair = pairOf(mapping, key);
  if (!pair) return [];
  const [at] = rangeIn(file, pair.key) ?? [];
  const [, end] = rangeIn(file, pair.value) ?? [];
  if (at === undefined || end === undefined || mapping.flow === true) return undefined;
  const [from, lineEnd] = [startOfLine(text, at), endOfLine(text, end)];
  // Who wrote a remark in the middle of it meant something by that.
  if (text.slice(from, at).trim() !== "" || text.slice(at, end).includes("#")) return undefined;
  const remark = text.slice(end, lineEnd).indexOf("#");
  if (remark >= 0) return [{ from: at, to: end + remark, text: "" }];
  const [eol = ""] = /^\r?\n/.exec(text.slice(lineEnd)) ?? [];
  return [{ from, to: lineEnd + eol.length, text: "", out: true }];
}

function pairOf(mapping: YAMLMap, key: string): Pair | undefined {
  return mapping.items.find((pair) => isScalar(pair.key) && (pair.key as Scalar).value === key);
}

function mappingAt(mapping: YAMLMap, key: string): YAMLMap | undefined {
  const value = pairOf(mapping, key)?.value;
  return isMap(value) ? value : undefined;
}

function scalarOf(pair: Pair | undefined): unknown {
  return isScalar(pair?.value) ? pair.value.value : undefined;
}

/** Where a key or a value stands in the text. */
function rangeIn({ text, from }: File, node: unknown): readonly [number, number] | undefined {
  const { range } = (node ?? {}) as { readonly range?: readonly [number, number, number] | null };
  // A key without a value has an empty one.
  if (!range || range[1] <= range[0]) return undefined;
  // What stands on lines of its own goes on to the beginning of the next line; that is another's.
  return [from + range[0], from + text.slice(from, from + range[1]).trimEnd().length];
}

function startOfLine(text: string, at: number): number {
  return text.lastIndexOf("\n", at - 1) + 1;
}

function endOfLine(text: string, at: number): number {
  const found = /\r?\n/.exec(text.slice(at));
  return found ? at + found.index : text.length;
}

function spliced(text: string, splices: readonly Splice[]): WithSong {
  const lineAt = (at: number) => text.slice(0, at).split("\n").length;
  const between = (first: number, last: number) =>
    text
      .split(/\r?\n/)
      .slice(first - 1, last)
      .join("\n");
  const lines: Omit<ChangedLine, "after">[] = [];
  const taken: ChangedLine[] = [];
  let [made, read, added] = ["", 0, 0];
  // What is put in at one place stays in the order in which it was asked for.
  for (const splice of splices.toSorted((a, b) => a.from - b.from)) {
    made += text.slice(read, splice.from) + splice.text;
    read = splice.to;
    const [first, last] = [lineAt(splice.from), lineAt(splice.to)];
    const isNew = /^\r?\n/.test(splice.text);
    if (isNew) added++;
    const line = first + added;
    if (splice.out) taken.push({ line, before: between(first, last - 1) });
    else if (!lines.some((one) => one.line === line))
      lines.push(isNew ? { line } : { line, before: between(first, last) });
    added -= last - first;
  }
  made += text.slice(read);
  const now = made.split(/\r?\n/);
  const changed = lines.map((one): ChangedLine => ({ ...one, after: now[one.line - 1] ?? "" }));
  const different = changed.filter(({ before, after }) => before !== after);
  return { text: made, lines: [...different, ...taken].toSorted((a, b) => a.line - b.line) };
}
