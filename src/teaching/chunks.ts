import Fraction from "fraction.js";
import { type ChartPhrase, phraseEnd } from "../routine/chart.js";
import type { Routine } from "../routine/routine.js";
import { type GroupMoves, loadsOf, within } from "./dancers.js";
import type { RatedMove } from "./difficulty.js";
import { type Chunk, countsTake } from "./material.js";
import { asMarked, unslowedIn } from "./never-slowed.js";
import type { TeachingSettings } from "./settings.js";

/** As few chunks as the settings allow, cut between phrases, never within a move. A short phrase (a pick-up, a tag) joins its neighbour. */
export function chunksIn(
  routine: Routine,
  sectionIndex: number,
  charted: readonly ChartPhrase[],
  rated: readonly RatedMove[],
  dancers: readonly GroupMoves[],
  settings: TeachingSettings,
): readonly Chunk[] {
  const section = routine.sections[sectionIndex];
  if (!section) return [];
  const groups: { from: number; to: number; counts: number; length: number; points: number; own: boolean }[] = [];
  const begun = startsOf(dancers);
  for (const { phrase, cells } of charted) {
    const inPhrase = (one: RatedMove) => isWithin(begun(one), phrase.at, phraseEnd(phrase));
    const points = sum(rated.filter(inPhrase).map((move) => move.points));
    const counts = phrase.numbers.length;
    const length = counts < routine.music.phrase ? 0 : counts;
    const group = groups.at(-1);
    const joined = cells[0]?.begins === false;
    const own = isOwn(dancers, phrase.at, phraseEnd(phrase)) ?? groups.at(-1)?.own ?? false;
    const fits =
      group &&
      group.own === own &&
      group.length + length <= settings.chunkCounts &&
      group.points + points <= settings.chunkPoints;
    if (group && (joined || fits)) {
      group.to = phrase.number;
      group.counts += counts;
      group.length += length;
      group.points += points;
      group.own &&= own;
    } else groups.push({ from: phrase.at, to: phrase.number, counts, length, points, own });
  }
  return groups.map(({ from: first, to, counts, points, own }, index) => {
    const from = (groups[index - 1]?.to ?? 0) + 1;
    const moves = rated.filter((one) => isWithin(begun(one), first, first + counts));
    const here = within(dancers, first, first + counts);
    return {
      ...{ routine, section, sectionIndex, phrases: [from, to] as const, counts, moves, dancers: here, points },
      improvised: own,
      seconds: countsTake(counts, section),
      uncounted: new Fraction(0),
      countIn: countsTake(routine.music.countIn, section),
      loads: loadsOf(here),
      slowLoads: loadsOf(asMarked(here)),
      unslowed: unslowedIn(here),
    };
  });
}

/** Whether there is nothing to learn on some counts but what everybody improvises; undefined where nothing begins there. */
function isOwn(dancers: readonly GroupMoves[], from: number, to: number): boolean | undefined {
  const moves = within(dancers, from, to).flatMap(({ taught }) => taught);
  return moves.length === 0 ? undefined : moves.every(({ improvised }) => improvised);
}

/** Where a move stands in the material: of a group in canon, where the first group danced it. */
function startsOf(dancers: readonly GroupMoves[]): (one: RatedMove) => Fraction {
  const later = new Map(dancers.flatMap(({ taught, after }) => taught.map((move) => [move, after] as const)));
  return ({ move }) => move.at.sub(later.get(move) ?? 0);
}

function isWithin(at: Fraction, from: number, to: number): boolean {
  return at.gte(from) && at.lt(to);
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, each) => total + each, 0);
}
