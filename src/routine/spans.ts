import Fraction from "fraction.js";
import type { Feel } from "./vocabulary.js";

/** What follows a count's number for a part of it; how far past the count that is, the feel says. */
export type PartName = "" | "e" | "&" | "a";

/** A place within a phrase: a count's number, and a part of it. */
export interface Point {
  readonly count: number;
  readonly part: PartName;
}

/** From a point to a point, both ends included. */
export interface Span {
  readonly first: Point;
  readonly last: Point;
  /** Every point that it names, in order: of `7&8` 7, 7& and 8. */
  readonly points: readonly Point[];
  /** True where it is written as it is called, `7&8`, each point by its name. */
  readonly called: boolean;
  /** As it is written: "1-3", "3&", "7&8". */
  readonly text: string;
}

export type ParsedSpans = { readonly spans: readonly Span[] } | { readonly wrong: string };

/** The order in which they are called. */
const partNames: readonly PartName[] = ["", "e", "&", "a"];

const parts: Record<Feel, Readonly<Partial<Record<PartName, Fraction>>>> = {
  straight: { "": new Fraction(0), e: new Fraction(1, 4), "&": new Fraction(1, 2), a: new Fraction(3, 4) },
  triplet: { "": new Fraction(0), "&": new Fraction(1, 3), a: new Fraction(2, 3) },
  swing: { "": new Fraction(0), "&": new Fraction(2, 3) },
};

/** How far past its count a part lies (0 up to, not including, 1); nothing where the feel has no such part. */
export function partOfCount(part: PartName, feel: Feel): Fraction | undefined {
  return parts[feel][part];
}

/** The parts of a count that a feel has names for, the count itself left out, in order. */
export function divisions(feel: Feel): readonly Fraction[] {
  return Object.values(parts[feel]).filter((part) => part.compare(0) > 0);
}

/**
 * Reads counts as a teacher writes them: `3`, `3&`, `1-3`, `7-2`, as they are called, `7&8`, or several with commas, `1,3,5`.
 *
 * @returns one span for each part between commas, or what is wrong with the text and what to write instead
 * @example parseSpans("1-3") // one span from 1 to 3
 */
export function parseSpans(text: string): ParsedSpans {
  const spans: Span[] = [];
  const [, before] = /^(.*\d[e&a]?)\s*,\s*$/.exec(text) ?? [];
  if (before !== undefined) return { wrong: `\`${text}\` ends with a comma; leave it out: \`${before}\`` };
  for (const piece of text.split(",")) {
    const parsed = parseSpan(piece.trim());
    if (typeof parsed === "string") return { wrong: parsed };
    spans.push(parsed);
  }
  return { spans };
}

function parseSpan(text: string): Span | string {
  const called = calledPoints(text);
  if (called !== undefined) return calledSpan(text, called);
  const ends = text.split("-").map((end) => end.trim());
  if (ends.length > 2) return `\`${text}\` has more than one hyphen; write a first and a last count, such as \`1-3\``;
  const points: Point[] = [];
  for (const end of ends) {
    const point = parsePoint(end);
    if (typeof point === "string") return point;
    points.push(point);
  }
  const [first, last = first] = points;
  if (first === undefined || last === undefined) return "a count is missing here";
  if (first.count === last.count && order(last) < order(first))
    return `\`${text}\` ends before it starts, within one count; write the earlier part first`;
  return { first, last, points, called: false, text: spanText({ first, last }) };
}

const order = ({ part }: Point): number => partNames.indexOf(part);

/** The points of counts that are written as they are called, `1e&a2`; nothing where the text is no such row of two or more. */
function calledPoints(text: string): readonly Point[] | undefined {
  if (!/^\d{1,6}(?:[e&a]+\d{1,6}|[e&a]{2})[\de&a]*$/.test(text)) return undefined;
  return [...text.matchAll(/(\d+)([e&a]*)/g)].flatMap(([, number, letters = ""]) =>
    ["", ...letters].map((part): Point => ({ count: Number(number), part: part as PartName })),
  );
}

function calledSpan(text: string, points: readonly Point[]): Span | string {
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return "a count is missing here";
  let turns = 0;
  for (const [index, point] of points.entries()) {
    const before = points[index - 1];
    if (before === undefined) continue;
    if (point.count === before.count && order(point) > order(before)) continue;
    if (point.count === before.count + 1) continue;
    if (point.count === before.count)
      return `\`${text}\` names the parts of count ${point.count} out of order; they go \`${point.count}e&a\``;
    if (point.count > before.count)
      return `\`${text}\` leaves out the counts between ${before.count} and ${point.count}; call each of them, or write \`${before.count}-${point.count}\` for a move that lasts over them`;
    turns++;
  }
  if (turns > 1) return `\`${text}\` runs over more than one phrase; write a move for each`;
  return { first, last, points, called: true, text };
}

function parsePoint(text: string): Point | string {
  const match = /^(\d{1,6})([e&a]?)$/.exec(text);
  return match === null
    ? (otherSpelling(text) ??
        `\`${text}\` is not a count; write a number such as \`3\`, a part of a count such as \`3&\`, or a run such as \`1-3\``)
    : { count: Number(match[1]), part: match[2] as PartName };
}

/** How counts are written here that somebody wrote another way. */
function otherSpelling(text: string): string | undefined {
  if (text === "") return "a count is missing here; write a number, such as `1-3`";
  if (/[–—−]/.test(text)) return `\`${text}\` has a long dash; type a plain hyphen, such as \`1-3\``;
  const meant = text
    .toLowerCase()
    .replace(/\b(?:and|an|n|et|und|y)\b|\+|＆/g, "&")
    .replace(/(\d)(?:and|n)(?=\d|$)/g, "$1&")
    .replace(/\b(?:ee|ie)\b/g, "e")
    .replace(/\b(?:ah|uh|da)\b/g, "a");
  const row = meant.replace(/[\s./·]+/g, "");
  const single = /^(\d{1,6})([e&a]?)$/.exec(row);
  if (single !== null && !/\d[\s./·]+\d/.test(meant)) return `\`${text}\` is written \`${row}\``;
  if (calledPoints(row) !== undefined && !/\d[\s./·]+\d/.test(meant)) {
    const each = /^\d+&\d+$/.test(row) ? `, or \`${row.replace("&", ",")}\` for a move on each of the two` : "";
    return `\`${text}\` is written without spaces, as it is called: \`${row}\`${each}`;
  }
  const numbers = /^\d{1,6}(?:[\s./·+&]+\d{1,6})+$/.test(text.trim()) ? (text.match(/\d+/g) ?? []) : [];
  const [half] = /^\d{1,6}(?=\.50?$)/.exec(text.trim()) ?? [];
  const between = half === undefined ? "" : `, or \`${half}&\` for one that begins half a count after ${half}`;
  if (numbers.length > 1)
    return `\`${text}\` could be one move or several; write \`${numbers[0]}-${numbers.at(-1)}\` for one that lasts over them, or \`${numbers.join(",")}\` for one on each${between}`;
  return undefined;
}

/**
 * Why a point's part is none in a feel, and what to write instead.
 *
 * @returns nothing where the feel has it
 */
export function wrongPart({ count, part }: Point, feel: Feel): string | undefined {
  if (partOfCount(part, feel) !== undefined) return undefined;
  if (feel === "swing")
    return `\`${count}${part}\` is no count in swing, which divides a count once; write \`${count}&\` (two thirds past it), or give the phrase \`feel: triplet\` or \`feel: straight\``;
  return `\`${count}${part}\` divides a count in four, but the feel here is triplet; write \`${count}&\` (one third) or \`${count}a\` (two thirds)`;
}

/**
 * Writes a span as an author would.
 *
 * @example spanText({ first: { count: 3, part: "&" }, last: { count: 4, part: "" } }) // "3&-4"
 */
export function spanText(span: Pick<Span, "first" | "last">): string {
  const [first, last] = [pointText(span.first), pointText(span.last)];
  return first === last ? first : `${first}-${last}`;
}

/** @example pointText({ count: 3, part: "&" }) // "3&" */
export function pointText({ count, part }: Point): string {
  return `${count}${part}`;
}

/** The point at a position in counts from the routine's first, to the nearest part of a count that the feel has a name for. */
export function nearestPoint(
  { at, numbers, feel }: { readonly at: number; readonly numbers: readonly number[]; readonly feel: Feel },
  position: Fraction,
): Point {
  const whole = position.sub(at).floor();
  const past = position.sub(at).sub(whole);
  const distance = (part: PartName) => past.sub(parts[feel][part] ?? 2).abs();
  const part = partNames.reduce((best, one) => (distance(one).lt(distance(best)) ? one : best));
  return { count: numbers[whole.valueOf()] ?? 0, part };
}
