import type { Run } from "./types.js";
import type { Slot } from "./vote.js";

/** Where in the routine a sentence is likely to be: what is being taught at that time. */
export interface Context {
  /** How likely a phrase is spoken of at a time; 0 where nothing speaks for it. */
  readonly weight: (phrase: number, at: number) => number;
  /** The cue that a sentence speaks of, and its phrase. */
  readonly find: (stems: readonly string[], count: number | undefined, at: number) => Place | undefined;
}

export interface Place {
  readonly phrase: number;
  readonly slot: Slot;
}

/** Sentences speak of what the next run brings, or of what the last one danced. */
export function contextOf(runs: readonly Run[], slots: readonly (readonly Slot[])[]): Context {
  const firstDanced = new Map<number, number>();
  for (const [index, run] of runs.entries())
    for (const phrase of run.phrases) if (!firstDanced.has(phrase)) firstDanced.set(phrase, index);
  const weight = (phrase: number, at: number): number => {
    const next = runs.findIndex(({ start }) => start >= at);
    const last = next < 0 ? runs.length - 1 : next - 1;
    const comes = runs[next]?.phrases.includes(phrase) ?? false;
    const fresh = comes && firstDanced.get(phrase) === next;
    // What is new three runs later may be told now, what was never danced yet can't be corrected.
    const later = !comes && (firstDanced.get(phrase) ?? 0) > next && next >= 0 ? -0.8 : 0;
    const was = runs[last]?.phrases.includes(phrase) ?? false;
    const many = Math.max(1, (runs[last]?.phrases.length ?? 1) / 2);
    return Math.max(fresh ? 2 : comes ? 0.6 : 0, was ? 0.8 + 0.7 / many : 0) + later;
  };
  const find = (stems: readonly string[], count: number | undefined, at: number): Place | undefined => {
    let best: Place | undefined;
    let most = 0;
    for (const [phrase, own] of slots.entries())
      for (const slot of own) {
        const rank = stems.findIndex((stem) => isCalled(slot, stem));
        if (rank < 0) continue;
        const off = count === undefined ? 0 : Math.abs(slot.position + 1 - count);
        const near = off < 0.6 ? 1.6 : off <= 1 ? 0.9 : off <= 2 ? 0.2 : -2;
        const score =
          weight(phrase, at) + near - 0.3 * rank + 0.05 * slot.here.length - (slot.here.length === 1 ? 0.5 : 0);
        if (score > most) {
          most = score;
          best = { phrase, slot };
        }
      }
    return best;
  };
  return { weight, find };
}

/** Whether a cue was called by this word. */
export const isCalled = ({ here }: Slot, stem: string): boolean => here.some(({ cue }) => cue.stems.includes(stem));
