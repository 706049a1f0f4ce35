import { moveEnd } from "../routine/chart.js";
import type { Move } from "../routine/routine.js";
import { neverSlowed, type Risk } from "../routine/vocabulary.js";
import type { GroupMoves } from "./dancers.js";
import { learnt } from "./dancers.js";

/** A move that is danced at full tempo or not at all, and what is danced in its place below that. */
export interface UnslowedMove {
  readonly move: Move;
  /** The groups that dance it, where not all do. */
  readonly groups: readonly string[];
  /** The version whose option it is, where it is not the class's own. */
  readonly version?: string;
  /** Why it is not slowed. */
  readonly risks: readonly Risk[];
  /** The easier option; empty where there is none that may be slowed: then the way in and the way out. */
  readonly instead: readonly Move[];
}

export function isNeverSlowed({ risks, hold }: Move): boolean {
  return !hold && risks.some((risk) => neverSlowed.includes(risk));
}

/** What each group dances below full tempo: whatever is never slowed gives way to its easier option, or is left out. */
export function asMarked(dancers: readonly GroupMoves[]): readonly GroupMoves[] {
  return dancers.map((group) => ({
    ...group,
    taught: marked(group.taught, group.easiest),
    easiest: group.easiest.filter((move) => !isNeverSlowed(move)),
    ...(group.offered && { offered: marked(group.offered, group.taught) }),
  }));
}

function marked(moves: readonly Move[], easier: readonly Move[]): readonly Move[] {
  return [...new Set(moves.flatMap((move) => (isNeverSlowed(move) ? easierThan(move, easier) : [move])))];
}

/** The moves among these that are never slowed, each once for all who dance it. */
export function unslowedIn(dancers: readonly GroupMoves[]): readonly UnslowedMove[] {
  return learnt(dancers).flatMap(({ move, groups }): readonly UnslowedMove[] => {
    if (!isNeverSlowed(move)) return [];
    const whose = dancers.find(({ taught }) => taught.includes(move));
    const risks = move.risks.filter((risk) => neverSlowed.includes(risk));
    return [{ move, groups, risks, instead: whose === undefined ? [] : easierThan(move, whose.easiest) }];
  });
}

/** The same of what the dancers of other versions are offered: below full tempo they dance as the class does. */
export function unslowedOptions(options: readonly Offered[], dancers: readonly GroupMoves[]): readonly UnslowedMove[] {
  return options.flatMap(({ versions: [version], groups, moves }) =>
    moves.filter(isNeverSlowed).map((move) => {
      const own = dancers.find(({ group }) => groups.length === 0 || groups.some((one) => one === group));
      const [asTaught, easiest] = [easierThan(move, own?.taught ?? []), easierThan(move, own?.easiest ?? [])];
      return {
        ...{ move, groups, risks: move.risks.filter((risk) => neverSlowed.includes(risk)) },
        ...(version !== undefined && { version }),
        instead: asTaught.length > 0 ? asTaught : easiest,
      };
    }),
  );
}

/** What the dancers of some versions dance in place of the class's moves. */
interface Offered {
  readonly versions: readonly string[];
  readonly groups: readonly string[];
  readonly moves: readonly Move[];
}

function easierThan(move: Move, easier: readonly Move[]): readonly Move[] {
  return easier.filter(
    (other) =>
      other.at.gte(move.at) && other.at.lt(moveEnd(move)) && other.place !== move.place && !isNeverSlowed(other),
  );
}
