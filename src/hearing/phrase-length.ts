import type { Token } from "./tokens.js";

/** Longest phrase that is counted. */
const longest = 12;

/**
 * Counts in a phrase, as they are called: the number that most often comes right before a "one" that goes on counting. Eight where
 * nothing tells.
 */
export function phraseLength(tokens: readonly Token[]): number {
  const votes = new Map<number, number>();
  let called: { value: number; at: number }[] = [];
  for (const token of tokens) {
    if (token.count?.price !== 0) continue;
    const { value } = token.count;
    const before = called.at(-1);
    const follows = before && token.start - before.at < 8;
    if (follows && value === before.value + 1) called.push({ value, at: token.start });
    else {
      const end = before?.value ?? 0;
      // A number called within a row of three at least, then one or two of the next phrase.
      if (follows && value <= 3 && value <= end && called.length > 2 && end >= 3 && end <= longest)
        votes.set(end, (votes.get(end) ?? 0) + (value === 1 ? 2 : 1));
      called = [{ value, at: token.start }];
    }
  }
  const highest = highestOften(tokens);
  const best = [...votes].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0]?.[0];
  return whole(best ?? highest ?? 8);
}

/** Where the last count is never called ("five, six, seven"), it is held. */
const whole = (counted: number) => (counted === 7 || counted === 11 ? counted + 1 : counted);

/** Where counts are hardly called in a row: the highest that is called often. */
function highestOften(tokens: readonly Token[]): number | undefined {
  const times = new Map<number, number>();
  for (const { count } of tokens) if (count?.price === 0) times.set(count.value, (times.get(count.value) ?? 0) + 1);
  const most = Math.max(0, ...times.values());
  return [...times]
    .filter(([value, number]) => value >= 4 && number > most / 4 && number > 1)
    .map(([value]) => value)
    .sort((a, b) => b - a)[0];
}
