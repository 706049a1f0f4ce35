import { loadedBy } from "../routine/load.js";
import type { Move } from "../routine/routine.js";
import { countedRisks, type LoadPart, loadParts } from "../routine/vocabulary.js";

export { type LoadPart, loadParts };

/** How often each part of the body takes weight or impact, and how often each risk is met; what never is is absent. */
export type Load = Readonly<Partial<Record<LoadPart, number>>>;

/** What a dancer who stays at the taught level meets, and one who stays at the easiest. */
export interface LevelLoads {
  readonly easiest: Load;
  readonly taught: Load;
  /** At the highest level that is offered, where that is above the taught one. */
  readonly offered?: Load;
}

/** What the dancers of each group meet, in the order of the routine's groups; one entry where all dance the same. */
export type GroupLoads = readonly LevelLoads[];

/** One load and `times` another. */
export function plus(load: Load, other: Load, times = 1): Load {
  if (times === 0 || isNothing(other)) return load;
  return Object.fromEntries(
    loadParts
      .map((part) => [part, (load[part] ?? 0) + (other[part] ?? 0) * times] as const)
      .filter(([, amount]) => amount !== 0),
  );
}

/** Of who takes the highest level that is offered. */
export function offeredOf({ taught, offered = taught }: LevelLoads): Load {
  return offered;
}

function isNothing(load: Load): boolean {
  for (const _ in load) return false;
  return true;
}

function plusBoth(loads: LevelLoads, other: LevelLoads | undefined, times = 1): LevelLoads {
  if (other === undefined) return loads;
  return {
    ...{ easiest: plus(loads.easiest, other.easiest, times), taught: plus(loads.taught, other.taught, times) },
    ...((loads.offered || other.offered) && { offered: plus(offeredOf(loads), offeredOf(other), times) }),
  };
}

/** The same, group by group. */
export function plusAll(loads: GroupLoads, others: GroupLoads, times = 1): GroupLoads {
  return loads.map((one, group) => plusBoth(one, others[group], times));
}

/** Part by part the heaviest of some loads. */
export function heaviest(loads: readonly Load[]): Load {
  if (loads.every(isNothing)) return {};
  const most = loadParts.map((part) => [part, Math.max(0, ...loads.map((load) => load[part] ?? 0))] as const);
  return Object.fromEntries(most.filter(([, amount]) => amount !== 0));
}

/** Part by part the least of some loads. */
export function lightest(loads: readonly Load[]): Load {
  if (loads.some(isNothing)) return {};
  const least = loadParts.map((part) => [part, Math.min(...loads.map((load) => load[part] ?? 0))] as const);
  return Object.fromEntries(least.filter(([, amount]) => amount !== 0));
}

/** What a dancer meets at most, whichever group it is. */
export function heaviestOf(loads: GroupLoads): LevelLoads {
  return {
    easiest: heaviest(loads.map(({ easiest }) => easiest)),
    taught: heaviest(loads.map(({ taught }) => taught)),
  };
}

/** The load of moves danced once: one for each part that a move loads, and one for each risk of it that is counted. */
export function loadOf(moves: readonly Move[]): Load {
  const counted = new Map<LoadPart, number>();
  const count = (part: LoadPart) => counted.set(part, (counted.get(part) ?? 0) + 1);
  for (const move of moves) {
    for (const part of loadedBy(move)) count(part);
    if (move.risks.includes("inversion")) count("inversions");
    for (const risk of countedRisks) if (move.risks.includes(risk)) count(risk);
  }
  return plus({}, Object.fromEntries(counted));
}
