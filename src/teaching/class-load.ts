import { heaviest, type Load, type LoadPart, loadParts, plus } from "./load.js";

/**
 * What the dancers of a class meet: by routine (its slug), group by group. Who is in which group of which routine is not
 * known, so what anybody meets at most is the heaviest group of each.
 */
export type ClassLoad = ReadonlyMap<string, readonly Load[]>;

/** A class's load and so many runs of a routine more. */
export function withRuns(load: ClassLoad, routine: string, run: readonly Load[], times = 1): ClassLoad {
  const before = load.get(routine) ?? [];
  return new Map(load).set(
    routine,
    run.map((one, group) => plus(before[group] ?? {}, one, times)),
  );
}

/** What a dancer of the class meets at most. */
export function mostOf(load: ClassLoad): Load {
  return sumOf([...load.values()]);
}

function sumOf(routines: readonly (readonly Load[])[]): Load {
  return routines.reduce((sum: Load, [first, ...others]) => {
    return first === undefined ? sum : plus(sum, others.length === 0 ? first : heaviest([first, ...others]));
  }, {});
}

/** What the dancers of one routine's groups meet at most, group by group, whatever they dance in the others. */
export function mostIn(load: ClassLoad, routine: string): readonly Load[] {
  const others = sumOf([...load].flatMap(([other, groups]) => (other === routine ? [] : [groups])));
  return (load.get(routine) ?? []).map((one) => plus(one, others));
}

/** The groups of a routine, by their numbers from 0, that load a part most; none where all do alike. */
export function heaviestGroups(groups: readonly Load[], part: LoadPart): readonly number[] {
  const loads = groups.map((load) => load[part] ?? 0);
  const most = Math.max(...loads);
  return loads.every((one) => one === most) ? [] : loads.flatMap((one, group) => (one === most ? [group] : []));
}

/** Whether some groups meet something else than others. */
export function differ(groups: readonly Load[]): boolean {
  return loadParts.some((part) => heaviestGroups(groups, part).length > 0);
}
