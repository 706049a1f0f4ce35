import { type Context, isCalled, type Place } from "./context.js";
import type { CalledRun } from "./runs.js";
import type { Sentence } from "./talk.js";
import { type Tie, tiesOf } from "./ties.js";
import type { Token } from "./tokens.js";
import type { Slot } from "./vote.js";

/** What sentences say of the count of a cue, by the cue, in the order said. */
export type Stated = ReadonlyMap<Slot, readonly (Tie & Place)[]>;

/** Ties sentences to the cues that they speak of. */
export function statedOf(
  sentences: readonly Sentence[],
  context: Context,
  slots: readonly (readonly Slot[])[],
): Stated {
  const called = calledIn(slots);
  const stated = new Map<Slot, (Tie & Place)[]>();
  for (const tie of tiesOf(sentences, (name) => called.has(name))) {
    const place = context.find(tie.stems, tie.from, tie.said.at);
    if (!place || Math.abs(place.slot.position + 1 - tie.from) > 2) continue;
    stated.set(place.slot, [...(stated.get(place.slot) ?? []), { ...tie, ...place }]);
  }
  return stated;
}

/** Stems that are called on some count. */
export const calledIn = (slots: readonly (readonly Slot[])[]): ReadonlySet<string> =>
  new Set(slots.flat().flatMap(({ here }) => here.flatMap(({ cue }) => cue.stems)));

/** The stems of a tie that its cue was called by. */
export const stemsOf = ({ stems, slot }: Tie & Place): readonly string[] =>
  stems.filter((stem) => isCalled(slot, stem));

/** When a run was, and what it danced. */
export function spanOf(tokens: readonly Token[], run: CalledRun | undefined, at: readonly number[]) {
  const start = tokens[run?.from ?? 0]?.start ?? 0;
  const end = tokens[(run?.to ?? 1) - 1]?.end ?? start;
  return { start, end, phrases: at.filter((place) => place >= 0) };
}
