import type { Move } from "../routine/routine.js";
import { type LoadPart, loadParts } from "../routine/vocabulary.js";

export { type LoadPart, loadParts };

/** How often each part of the body takes weight or impact; a part that never does is absent. */
export type Load = Readonly<Partial<Record<LoadPart, number>>>;

/** What a dancer who stays at the taught level meets, and one who stays at the easiest. */
export interface LevelLoads {
  readonly easiest: Load;
  readonly taught: Load;
}

/** One load and `times` another. */
export function plus(load: Load, other: Load, times = 1): Load {
  return Object.fromEntries(
    loadParts
      .map((part) => [part, (load[part] ?? 0) + (other[part] ?? 0) * times] as const)
      .filter(([, amount]) => amount !== 0),
  );
}

export function plusBoth(loads: LevelLoads, other: LevelLoads, times = 1): LevelLoads {
  return { easiest: plus(loads.easiest, other.easiest, times), taught: plus(loads.taught, other.taught, times) };
}

/** The load of moves danced once: one for each contact that a move lists, one inversion for each move that is one. */
export function loadOf(moves: readonly Move[]): Load {
  const counted = new Map<LoadPart, number>();
  const count = (part: LoadPart) => counted.set(part, (counted.get(part) ?? 0) + 1);
  for (const move of moves) {
    for (const contact of move.contacts) count(contact);
    if (move.risks.includes("inversion")) count("inversions");
  }
  return plus({}, Object.fromEntries(counted));
}
