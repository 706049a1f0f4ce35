import { bestWay } from "./best-way.js";
import type { Cue } from "./lay.js";

/** A phrase of a run: what was called on its counts, the first of them 0. */
export interface RunPhrase {
  readonly cues: readonly Cue[];
}

/** A run as it is laid on others. */
export interface Danced {
  readonly start: number;
  readonly phrases: readonly RunPhrase[];
  /** It was said to begin at the beginning. */
  readonly fromTop: boolean;
}

/** A phrase of the routine, as the runs laid on it so far call it: for each stem, how often on which count. */
interface Profile {
  readonly stems: Map<string, Map<number, number>>;
  runs: number;
}

/**
 * Which phrase of the routine each phrase of each run is: the longest run gives the order, the others are laid on it one after the
 * other, and bring in what it lacks.
 *
 * @returns the number of phrases, and a list a run of the phrases that it dances
 */
export function align(
  runs: readonly Danced[],
  phrase: number,
): { readonly size: number; readonly at: readonly (readonly number[])[] } {
  const order = runs
    .map((run, index) => ({ run, index, weight: weightOf(run) }))
    .sort((a, b) => b.weight - a.weight || a.index - b.index);
  const [longest] = order;
  if (!longest) return { size: 0, at: [] };
  let profile = longest.run.phrases.slice(0, periodOf(longest.run, phrase)).map(() => emptyProfile());
  const placed = new Map<number, readonly Profile[]>();
  const first = longest.run.phrases.map((_, index) => profile[index % profile.length] ?? emptyProfile());
  placed.set(longest.index, first);
  learn(first, longest.run);
  for (const { run, index } of order.slice(1)) {
    const rarity = rarityIn(profile);
    const found = lay(run, profile, rarity);
    profile = withNew(profile, found, placesBefore(runs, placed, index, profile));
    const own = found.map((at) => ("is" in at ? at.is : at.fresh));
    placed.set(index, own);
    learn(own, run);
  }
  profile = profile.filter((one, index) => one.runs > 1 || !isStray(profile, index));
  for (let round = 0; round < 2; round++) {
    const rarity = rarityIn(profile);
    const settled = runs.map((run) => lay(run, profile, rarity).map((at) => ("is" in at ? at.is : undefined)));
    for (const one of profile) {
      one.stems.clear();
      one.runs = 0;
    }
    for (const [index, run] of runs.entries()) {
      placed.set(index, settled[index]?.map((one) => one ?? emptyProfile()) ?? []);
      learn(placed.get(index) ?? [], run);
    }
  }
  return {
    size: profile.length,
    at: runs.map((_, index) => (placed.get(index) ?? []).map((one) => profile.indexOf(one))),
  };
}

const emptyProfile = (): Profile => ({ stems: new Map(), runs: 0 });

function weightOf({ phrases }: Danced): number {
  const called = phrases.filter(({ cues }) => cues.length > 0).length;
  return called + phrases.length / 2;
}

function learn(places: readonly Profile[], { phrases }: Danced): void {
  for (const [index, { cues }] of phrases.entries()) {
    const place = places[index];
    if (!place || cues.length === 0) continue;
    place.runs++;
    for (const cue of cues)
      for (const stem of cue.stems) {
        const counts = place.stems.get(stem) ?? new Map<number, number>();
        counts.set(cue.position, (counts.get(cue.position) ?? 0) + 1);
        place.stems.set(stem, counts);
      }
  }
}

/** Stems that stand in few phrases say more. */
function rarityIn(profile: readonly Profile[]): (stem: string) => number {
  const within = new Map<string, number>();
  for (const { stems } of profile) for (const stem of stems.keys()) within.set(stem, (within.get(stem) ?? 0) + 1);
  const all = profile.length + 1;
  return (stem) => {
    const times = within.get(stem);
    return times === undefined ? 0.5 : 0.35 + Math.log(all / times) / Math.log(all + 1);
  };
}

/** How well a phrase of a run fits one of the routine; 0 where it says nothing. */
function likeness({ cues }: RunPhrase, { stems, runs }: Profile, rarity: (stem: string) => number): number {
  if (runs === 0) return 0;
  let sum = 0;
  for (const cue of cues)
    for (const stem of cue.stems) {
      const counts = stems.get(stem);
      const weight = rarity(stem) / cue.stems.length;
      if (!counts) {
        sum -= 0.45 * weight;
        continue;
      }
      let best = 0.1;
      for (const [count, times] of counts) {
        const off = Math.abs(count - cue.position);
        const near = off < 0.25 ? 1 : off <= 0.5 ? 0.8 : off <= 1 ? 0.6 : off <= 2 ? 0.3 : 0.1;
        best = Math.max(best, near * (0.6 + 0.4 * Math.min(1, (2 * times) / runs)));
      }
      sum += weight * best;
    }
  return sum;
}

type Place = { readonly is: Profile } | { readonly fresh: Profile; readonly after: number };

/** The best way for a run through the phrases: one after the other if it can, with phrases left out, danced again, or new. */
function lay(run: Danced, profile: readonly Profile[], rarity: (stem: string) => number): readonly Place[] {
  const best = bestWay(
    run.phrases.map((own) => ({
      isCalled: own.cues.length > 0,
      fits: profile.map((one) => likeness(own, one, rarity)),
    })),
    profile.length,
    run.fromTop,
  );
  return best.flatMap(({ at, fresh }): readonly Place[] => {
    const one = profile[at];
    if (fresh) return [{ fresh: emptyProfile(), after: at }];
    return one ? [{ is: one }] : [];
  });
}

/** Behind which phrase a run belongs that shares none: the furthest that was danced before it. */
function placesBefore(
  runs: readonly Danced[],
  placed: ReadonlyMap<number, readonly Profile[]>,
  index: number,
  profile: readonly Profile[],
): number {
  const start = runs[index]?.start ?? 0;
  let last = -1;
  for (const [other, places] of placed)
    if ((runs[other]?.start ?? 0) < start) for (const one of places) last = Math.max(last, profile.indexOf(one));
  return last;
}

function withNew(profile: readonly Profile[], found: readonly Place[], alone: number): Profile[] {
  const grown = [...profile];
  const anchored = found.some((place) => "is" in place);
  // What stands before the first known phrase goes before it, what stands behind, behind.
  const lead = found.findIndex((place) => "is" in place);
  const known = found[lead];
  let after = anchored && known && "is" in known ? profile.indexOf(known.is) - 1 : alone;
  let shift = 0;
  for (const place of found) {
    if ("is" in place) after = grown.indexOf(place.is);
    else {
      grown.splice(after + 1 + (anchored ? 0 : shift), 0, place.fresh);
      if (anchored) after++;
      else shift++;
    }
  }
  return grown;
}

/** A phrase that one run alone has, among phrases that several have, is a slip of that run. */
function isStray(profile: readonly Profile[], index: number): boolean {
  const around = [profile[index - 1]?.runs ?? 0, profile[index + 1]?.runs ?? 0];
  return Math.min(...around) > 2 || (index === 0 && (around[1] ?? 0) > 3);
}

/** A run that dances the same walls over and over has this many phrases of its own. */
function periodOf({ phrases }: Danced, phrase: number): number {
  for (let period = 2; period <= phrases.length / 2; period++) {
    let same = 0;
    let all = 0;
    for (let index = period; index < phrases.length; index++) {
      const own = phrases[index]?.cues ?? [];
      const before = phrases[index - period]?.cues ?? [];
      all += Math.max(own.length, before.length);
      same += own.filter((cue) =>
        before.some(
          (other) =>
            Math.abs(other.position - cue.position) <= phrase / 8 &&
            other.stems.some((stem) => cue.stems.includes(stem)),
        ),
      ).length;
    }
    if (all > period && same > 0.6 * all) return period;
  }
  return phrases.length;
}
