import { dancersOf } from "../routine/chart.js";
import type { Move, Routine, Version } from "../routine/routine.js";
import { type LearntMove, plain } from "./difficulty.js";
import { type GroupLoads, loadOf } from "./load.js";
import type { Versions } from "./versions.js";

/** What one group dances in a section, or what everybody does where the routine has no groups. */
export interface GroupMoves {
  /** The group's name; absent where all dance the same. */
  readonly group?: string;
  /** How many counts later than the first group it begins. */
  readonly after: number;
  readonly taught: readonly Move[];
  readonly easiest: readonly Move[];
  /** At the highest level that is offered, where that is above the taught one. */
  readonly offered?: readonly Move[];
}

/** What each group dances in each danced section. */
export function movesBySection(
  routine: Routine,
  { taught, easiest, offered }: Versions,
): readonly (readonly GroupMoves[])[] {
  const at = (version: Version) => dancersOf(routine, version).map(({ moves }) => split(routine, moves));
  const [easier, higher] = [at(easiest), offered && at(offered)];
  const own = dancersOf(routine, taught).map(({ group, moves }) => ({ group, bySection: split(routine, moves) }));
  return routine.sections.map(({ canon }, section) =>
    own.map(
      ({ group, bySection }, index): GroupMoves => ({
        ...(group !== undefined && { group }),
        after: canon.find((one) => one.group === group)?.after ?? 0,
        taught: bySection[section] ?? [],
        easiest: easier[index]?.[section] ?? [],
        ...(higher && { offered: higher[index]?.[section] ?? [] }),
      }),
    ),
  );
}

function split({ sections }: Routine, moves: readonly Move[]): readonly (readonly Move[])[] {
  const split: Move[][] = sections.map(() => []);
  for (const move of moves) split[move.section]?.push(move);
  return split;
}

/** The load of dancing some moves once, group by group. */
export function loadsOf(dancers: readonly GroupMoves[]): GroupLoads {
  return dancers.map(({ taught, easiest, offered }) => ({
    ...{ taught: loadOf(taught), easiest: loadOf(easiest) },
    ...(offered && { offered: loadOf(offered) }),
  }));
}

/** What there is to learn: the first group's moves, then what only others dance, each once for all who dance it. */
export function learnt(dancers: readonly GroupMoves[]): readonly LearntMove[] {
  const texts = dancers.map(({ taught }) => new Set(taught.map(({ cue }) => plain(cue.text))));
  return dancers.flatMap(({ taught }, index) =>
    taught.flatMap((move): readonly LearntMove[] => {
      const text = plain(move.cue.text);
      if (texts.slice(0, index).some((earlier) => earlier.has(text))) return [];
      const those = dancers.filter((_, other) => texts[other]?.has(text));
      return [{ move, groups: those.length === dancers.length ? [] : those.flatMap(({ group }) => group ?? []) }];
    }),
  );
}

/** The moves that begin on some counts of the section, of a group in canon so many counts later. */
export function within(dancers: readonly GroupMoves[], from: number, to: number): readonly GroupMoves[] {
  return dancers.map(({ taught, easiest, offered, after, ...group }) => {
    const inside = ({ at }: Move) => at.valueOf() >= from + after && at.valueOf() < to + after;
    return {
      ...{ ...group, after, taught: taught.filter(inside), easiest: easiest.filter(inside) },
      ...(offered && { offered: offered.filter(inside) }),
    };
  });
}
