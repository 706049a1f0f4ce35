import Fraction from "fraction.js";
import { moveEnd } from "../routine/chart.js";
import type { Move } from "../routine/routine.js";
import { loadsOf } from "./dancers.js";
import { asksMore, plain, type RatedMove } from "./difficulty.js";
import { type Chunk, countsTake, type Material, type Passage } from "./material.js";
import { asMarked, isNeverSlowed } from "./never-slowed.js";
import type { ClassSettings } from "./settings.js";
import type { Step } from "./steps.js";

/** At most three new moves of a chunk that are taken slowly on their own: those with a risk, then the dense ones, the densest first. */
export function hardMoves(chunk: Chunk, { points }: ClassSettings): readonly RatedMove[] {
  const isDense = (one: RatedMove) => density(one) >= 1.5 * points.move && one.points > points.move;
  return chunk.moves
    .filter(({ move, known }) => known === "no" && !move.improvised && !isNeverSlowed(move))
    .filter((one) => isRisky(one) || isDense(one))
    .toSorted((a, b) => Number(isRisky(b)) - Number(isRisky(a)) || density(b) - density(a))
    .slice(0, 3);
}

/** The new moves of a chunk that are never slowed: each comes on its own before the first drill at full tempo. */
export function momentMoves(chunk: Chunk): readonly RatedMove[] {
  return chunk.moves.filter(({ move, known }) => known === "no" && !move.improvised && isNeverSlowed(move));
}

/** Something about it is a risk beside the way down to the floor. */
export function isRisky({ move }: RatedMove): boolean {
  return move.risks.some((risk) => asksMore.includes(risk));
}

/** Points for every count; what is shorter than a count is not denser for that. */
function density({ move, points }: RatedMove): number {
  return points / Math.max(1, move.length.valueOf());
}

/** Some moves one by one, each with a count-in of its own. */
export function takenAlone(chunk: Chunk, moves: readonly RatedMove[]): Passage {
  const counts = moves.reduce((sum, { move }) => sum.add(move.length), new Fraction(0));
  const dancers = dancingAlone(chunk, moves);
  return {
    seconds: countsTake(counts, chunk.section),
    uncounted: new Fraction(0),
    countIn: chunk.countIn.mul(moves.length),
    loads: loadsOf(dancers),
    slowLoads: loadsOf(asMarked(dancers)),
  };
}

/** What each group dances where only some moves of a chunk are taken. */
export function dancingAlone({ dancers }: Chunk, hard: readonly RatedMove[]): Chunk["dancers"] {
  return dancers.map(({ taught: all, easiest, offered, ...group }) => {
    const taught = hard.flatMap((one) => asDanced(one, all) ?? []);
    const meanwhile = (moves: readonly Move[]) =>
      moves.filter(({ at }) => taught.some((each) => at.gte(each.at) && at.lt(moveEnd(each))));
    return { ...group, taught, easiest: meanwhile(easiest), ...(offered && { offered: meanwhile(offered) }) };
  });
}

/** Of a detail: the moves that nobody dances whose runs are all in the easiest option. */
export function replacedIn(step: Step, material: Material): readonly RatedMove[] {
  const dancers = step.chunks.flatMap((index) => material.chunks[index]?.dancers ?? []);
  return step.moves.filter((one) =>
    dancers.every(({ taught, easiest }) => {
      const danced = asDanced(one, taught);
      return danced === undefined || easiest.every(({ place }) => place !== danced.place);
    }),
  );
}

/** A move as one group dances it: with the same words, or on the other side; nothing where it does not. */
function asDanced({ move }: RatedMove, moves: readonly Move[]): Move | undefined {
  const called = (text: string) => moves.find(({ cue }) => plain(cue.text) === plain(text));
  return called(move.cue.text) ?? called(move.mirroredCue.text);
}
