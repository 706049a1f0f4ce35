import type { Stretch } from "./path.js";
import type { Token } from "./tokens.js";
import { isCueWord } from "./words.js";

/** A count that was called. */
export interface Called {
  /** Counts from the first of the run's first phrase; those of a count-in are negative. */
  readonly position: number;
  readonly at: number;
  readonly token: number;
  /** The phrase before it ended early, so no count is missing before it. */
  readonly afterShort: boolean;
}

/** A stretch that dances: its called counts in order. */
export interface CalledRun {
  readonly from: number;
  /** After the last token. */
  readonly to: number;
  readonly counts: readonly Called[];
  readonly countIn: number;
  /** Seconds a count, as most of its counts follow each other. */
  readonly beat: number;
}

/** The runs among the stretches; those too short to dance are talk with numbers in it. */
export function runsOf(tokens: readonly Token[], stretches: readonly Stretch[], phrase: number): readonly CalledRun[] {
  return stretches.flatMap((stretch) => runOf(tokens, stretch, phrase) ?? []);
}

function runOf(tokens: readonly Token[], { from, to, counts }: Stretch, phrase: number): CalledRun | undefined {
  const lead = leadOf(tokens, counts, phrase) || wholePhraseIn(tokens, counts, phrase);
  const placed = placedOn(tokens, counts, lead, phrase);
  const danced = placed.filter(({ position }) => position >= 0);
  const words = tokens
    .slice(placed[lead]?.token ?? placed.at(-1)?.token, to)
    .filter((token) => !token.count && isCueWord(token.text)).length;
  const few = lead === 0 ? danced.length < Math.max(3, phrase / 2) : danced.length + words < 3;
  return few ? undefined : { from, to, counts: placed, countIn: lead, beat: beatOf(placed) };
}

/** How many numbers stand before the first "one" with nothing called between them. */
function leadOf(tokens: readonly Token[], counts: Stretch["counts"], phrase: number): number {
  const down = counts.findIndex(({ value }, index) => index > 0 && value <= (counts[index - 1]?.value ?? 0));
  // What follows a count-in may be called by words alone.
  const lead = down < 0 && counts.length > 1 && counts[0]?.value !== 1 ? counts.length : down;
  const first = counts[0];
  const last = counts[lead - 1];
  if (!first || !last || first.value === 1 || last.value < phrase - 1) return 0;
  return isCalledBetween(tokens, first.token, last.token) ? 0 : lead;
}

/** A whole phrase of numbers before the first word counts in, where the dance is called by words. */
function wholePhraseIn(tokens: readonly Token[], counts: Stretch["counts"], phrase: number): number {
  const first = counts[0];
  const last = counts[phrase - 1];
  const plain = first && last && counts.slice(0, phrase).every(({ value }, index) => value === index + 1);
  if (!plain || isCalledBetween(tokens, first.token, last.token)) return 0;
  const end = counts[phrase + 2]?.token ?? counts.at(-1)?.token ?? last.token;
  return isCalledBetween(tokens, last.token, end) ? phrase : 0;
}

function isCalledBetween(tokens: readonly Token[], from: number, to: number): boolean {
  return tokens.slice(from, to).some((token) => !token.count && isCueWord(token.text));
}

function placedOn(
  tokens: readonly Token[],
  counts: Stretch["counts"],
  lead: number,
  phrase: number,
): readonly Called[] {
  let position = (counts[0]?.value ?? 1) - 1 - (lead > 0 ? phrase : 0);
  return counts.map(({ token, steps }, index) => {
    const afterShort = index > 0 && steps === 0;
    // The counts that a short phrase lacks are passed over.
    position = afterShort ? phrase * Math.ceil((position + 1) / phrase) : position + steps;
    return { position, at: tokens[token]?.start ?? 0, token, afterShort };
  });
}

function beatOf(counts: readonly Called[]): number {
  const beats = counts.slice(1).flatMap((count, index) => {
    const before = counts[index];
    return before && !count.afterShort ? [(count.at - before.at) / (count.position - before.position)] : [];
  });
  return median(beats) ?? 0.6;
}

/** The middle one of some values. */
export function median(values: readonly number[]): number | undefined {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];
}
