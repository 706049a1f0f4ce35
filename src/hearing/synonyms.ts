import type { RunPhrase } from "./align.js";

/** Pairs of cues that are two words for one thing, each as "a|b" with its stems in the order of the alphabet. */
export type Synonyms = ReadonlySet<string>;

/** A phrase of one run. */
interface Called extends RunPhrase {
  readonly run: number;
}

const pairOf = (a: string, b: string) => (a < b ? `${a}|${b}` : `${b}|${a}`);

export const areSynonyms = (a: string, b: string, synonyms: Synonyms): boolean => synonyms.has(pairOf(a, b));

/**
 * Words that stand for each other: on the same count of the same phrase in different runs, at least twice, and never both in one
 * phrase of one run.
 */
export function synonymsOf(phrases: readonly (readonly Called[])[]): Synonyms {
  const together = new Set<string>();
  const times = new Map<string, number>();
  for (const calls of phrases) {
    const counts = new Map<number, Map<string, number>>();
    for (const { cues } of calls) {
      const names = [...new Set(cues.map(({ stems }) => stems.join(" ")))];
      for (const [index, a] of names.entries()) for (const b of names.slice(index + 1)) together.add(pairOf(a, b));
      for (const { position, stems } of cues) {
        const here = counts.get(position) ?? new Map<string, number>();
        here.set(stems.join(" "), (here.get(stems.join(" ")) ?? 0) + 1);
        counts.set(position, here);
      }
    }
    for (const here of counts.values()) addPairs(times, here);
  }
  return new Set([...times].filter(([pair, count]) => count > 1 && !together.has(pair)).map(([pair]) => pair));
}

function addPairs(times: Map<string, number>, here: ReadonlyMap<string, number>): void {
  const names = [...here];
  for (const [index, [a, often]] of names.entries())
    for (const [b, other] of names.slice(index + 1)) {
      const pair = pairOf(a, b);
      times.set(pair, (times.get(pair) ?? 0) + Math.min(often, other));
    }
}

/** For each word that has synonyms, the one that stands for all of them. */
export function oneNameOf(synonyms: Synonyms): ReadonlyMap<string, string> {
  const names = new Map<string, string>();
  for (const pair of [...synonyms].sort()) {
    const [a = "", b = ""] = pair.split("|");
    names.set(b, names.get(a) ?? a);
  }
  return names;
}
