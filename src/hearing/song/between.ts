import type { FirstCountGuess, TempoCandidate } from "./types.js";

/** Whether a first count falls between the counts that the likeliest one of its tempo begins: the off-beats may be what is counted. */
export function fallsBetween({ at }: FirstCountGuess, { countsPerMinute, firstCounts }: TempoCandidate): boolean {
  const counts = ((at - (firstCounts[0]?.at ?? at)) * countsPerMinute) / 60;
  return Math.abs(counts - Math.round(counts)) > 0.25;
}
