import Fraction from "fraction.js";
import type { Feel } from "./vocabulary.js";

/** A place within a phrase: a count's number, and how far past it (0 up to, not including, 1). */
export interface Point {
  readonly count: number;
  readonly part: Fraction;
}

/** From a point to a point, both ends included. */
export interface Span {
  readonly first: Point;
  readonly last: Point;
  /** As it is written: "1-3", "3&". */
  readonly text: string;
}

export type ParsedSpans = { readonly spans: readonly Span[] } | { readonly wrong: string };

const parts: Record<Feel, Readonly<Record<string, Fraction>>> = {
  straight: { "": new Fraction(0), e: new Fraction(1, 4), "&": new Fraction(1, 2), a: new Fraction(3, 4) },
  triplet: { "": new Fraction(0), "&": new Fraction(1, 3), a: new Fraction(2, 3) },
};

/**
 * Reads counts as a teacher writes them: `3`, `3&`, `1-3`, `7-2`, or several with commas, `1,3,5`.
 *
 * @returns one span for each part between commas, or what is wrong with the text and what to write instead
 * @example parseSpans("1-3", "straight") // one span from 1 to 3
 */
export function parseSpans(text: string, feel: Feel): ParsedSpans {
  const spans: Span[] = [];
  const [, before] = /^(.*\d[e&a]?)\s*,\s*$/.exec(text) ?? [];
  if (before !== undefined) return { wrong: `\`${text}\` ends with a comma; leave it out: \`${before}\`` };
  for (const piece of text.split(",")) {
    const parsed = parseSpan(piece.trim(), feel);
    if (typeof parsed === "string") return { wrong: parsed };
    spans.push(parsed);
  }
  return { spans };
}

function parseSpan(text: string, feel: Feel): Span | string {
  const ends = text.split("-").map((end) => end.trim());
  if (ends.length > 2) return `\`${text}\` has more than one hyphen; write a first and a last count, such as \`1-3\``;
  const points: Point[] = [];
  for (const end of ends) {
    const point = parsePoint(end, feel);
    if (typeof point === "string") return point;
    points.push(point);
  }
  const [first, last = first] = points;
  if (first === undefined || last === undefined) return "a count is missing here";
  if (first.count === last.count && last.part.lt(first.part))
    return `\`${text}\` ends before it starts, within one count; write the earlier part first`;
  return { first, last, text: spanText({ first, last }, feel) };
}

function parsePoint(text: string, feel: Feel): Point | string {
  const match = /^(\d{1,6})([e&a]?)$/.exec(text);
  if (match === null) {
    if (/[–—−]/.test(text)) return `\`${text}\` has a long dash; type a plain hyphen, such as \`1-3\``;
    if (text === "") return "a count is missing here; write a number, such as `1-3`";
    const [, whole, part = ""] = /^(\d{1,6}) *(&|e|a|and)$/i.exec(text) ?? [];
    if (whole !== undefined) return `\`${text}\` is written \`${whole}${part.toLowerCase().replace("and", "&")}\``;
    return `\`${text}\` is not a count; write a number such as \`3\`, a part of a count such as \`3&\`, or a run such as \`1-3\``;
  }
  const part = parts[feel][match[2] ?? ""];
  if (part === undefined)
    return `\`${text}\` divides a count in four, but the feel here is triplet; write \`${match[1]}&\` (one third) or \`${match[1]}a\` (two thirds)`;
  return { count: Number(match[1]), part };
}

/**
 * Writes a span as an author would.
 *
 * @example spanText({ first: { count: 3, part: new Fraction(1, 2) }, last: { count: 4, part: new Fraction(0) } }, "straight") // "3&-4"
 */
export function spanText(span: Pick<Span, "first" | "last">, feel: Feel): string {
  const [first, last] = [pointText(span.first, feel), pointText(span.last, feel)];
  return first === last ? first : `${first}-${last}`;
}

/** @example pointText({ count: 3, part: new Fraction(1, 2) }, "straight") // "3&" */
export function pointText(point: Point, feel: Feel): string {
  const letter = Object.entries(parts[feel]).find(([, part]) => part.equals(point.part))?.[0];
  return `${point.count}${letter ?? ""}`;
}

/** The point at a position in counts from the routine's first, to the nearest part of a count that the feel has a name for. */
export function nearestPoint(
  { at, numbers }: { readonly at: number; readonly numbers: readonly number[] },
  position: Fraction,
  feel: Feel,
): Point {
  const whole = position.sub(at).floor();
  const past = position.sub(at).sub(whole);
  const distance = (part: Fraction) => past.sub(part).abs();
  const part = Object.values(parts[feel]).reduce((best, one) => (distance(one).lt(distance(best)) ? one : best));
  return { count: numbers[whole.valueOf()] ?? 0, part };
}
