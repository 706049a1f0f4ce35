import type { Wording } from "../../wording/wording.js";
import type { PlanEntry } from "../plan-entries.js";

/**
 * The same activities in a row less, or undefined where no two can share one: of those that follow each other and are of one
 * kind, the two that take the least time, rather two of one section.
 */
export function joined(entries: readonly PlanEntry[], wording: Wording): readonly PlanEntry[] | undefined {
  const pairs = entries.flatMap((entry, index) => {
    const before = entries[index - 1];
    if (before === undefined || before.kind !== entry.kind || before.routine !== entry.routine) return [];
    const isSection = entry.section !== undefined && entry.section === before.section;
    return [
      { index, cost: before.minutes + entry.minutes + (isSection ? 0 : 1000), one: asOne(before, entry, wording) },
    ];
  });
  const [first, ...others] = pairs;
  if (first === undefined) return undefined;
  const { index, one } = others.reduce((least, pair) => (pair.cost < least.cost ? pair : least), first);
  return [...entries.slice(0, index - 1), one, ...entries.slice(index + 1)];
}

/** Two activities as one: when the first begins, all that is done in both and all that they take care of. */
function asOne(first: PlanEntry, other: PlanEntry, { planSide }: Wording): PlanEntry {
  const both = (of: (entry: PlanEntry) => readonly string[]) => [...new Set([...of(first), ...of(other)])];
  return {
    ...first,
    minutes: first.minutes + other.minutes,
    name: planSide.together(first.name, other.short),
    short: planSide.together(first.short, other.short),
    how: both(({ how }) => how),
    cautions: both(({ cautions }) => cautions),
  };
}
