import type { WrittenPhrase } from "./written.js";

/**
 * The numbers that a phrase counts, in order. Without `from` and `length` they are 1 to the music's phrase; a pick-up
 * (`from: 7`) counts to the phrase's end; with a length the numbers go round (`from: 12, length: 12` is 12, 1, 2 … 11).
 *
 * @returns an empty list where `from` lies beyond the phrase
 * @example phraseNumbers({ from: 7 }, 8) // [7, 8]
 */
export function phraseNumbers(written: Pick<WrittenPhrase, "from" | "length">, phrase: number): readonly number[] {
  const from = written.from ?? 1;
  const length = written.length ?? phrase - from + 1;
  const round = Math.max(phrase, length);
  if (from > round) return [];
  return Array.from({ length: Math.max(length, 0) }, (_, index) => ((from - 1 + index) % round) + 1);
}
