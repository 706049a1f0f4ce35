import type { Move } from "../routine/routine.js";
import { heights, type Risk, risks } from "../routine/vocabulary.js";
import type { TeachingSettings } from "./settings.js";

/** A move as a class meets it. */
export interface RatedMove {
  readonly move: Move;
  /** Whether the class has danced it before: not at all, on the other side only, or just so. */
  readonly known: "no" | "other-side" | "yes";
  readonly points: number;
  /** The groups that dance it, where not all do. */
  readonly groups: readonly string[];
}

/** A move that a class learns, and the groups that dance it, where not all do. */
export interface LearntMove {
  readonly move: Move;
  readonly groups: readonly string[];
}

/**
 * How hard moves are to learn, in points, in the order in which a class meets them. A plain new move is one point; a turn,
 * a way down, a start between two counts and a risk add to it; a move that is known, or known on its other side, costs a
 * share. A rule of thumb of our own, no measured quantity.
 */
export function rateMoves(
  moves: readonly LearntMove[],
  points: TeachingSettings["points"],
  met: ReadonlySet<string>,
): { readonly rated: readonly RatedMove[]; readonly met: ReadonlySet<string> } {
  const seen = new Set(met);
  const rated = moves.map(({ move, groups }): RatedMove => {
    const text = plain(move.cue.text);
    const known = move.hold || seen.has(text) ? "yes" : seen.has(plain(move.mirroredCue.text)) ? "other-side" : "no";
    seen.add(text);
    const share = { no: 1, "other-side": points.otherSide, yes: points.repeat }[known];
    return { move, known, points: share * whole(move, points), groups };
  });
  return { rated, met: seen };
}

/* The others are ways down, which count already, and what the whole routine wears or leans on. */
const countedOtherwise: readonly Risk[] = ["floor-drop", "kneework", "heels"];
export const asksMore: readonly Risk[] = risks.filter((risk) => !countedOtherwise.includes(risk));

function whole(move: Move, points: TeachingSettings["points"]): number {
  let sum = points.move;
  if (move.turn !== 0) sum += points.turn;
  if (goesDown(move)) sum += points.drop;
  if (move.at.d !== 1n) sum += points.partCount;
  if (move.risks.some((risk) => asksMore.includes(risk))) sum += points.risk;
  return sum;
}

/** Heights are listed from standing down, upside down last. */
function goesDown(move: Move): boolean {
  const from = heights.indexOf(move.before.height);
  return [move.after.height, move.through].some((height) => height && heights.indexOf(height) > from);
}

export function plain(text: string): string {
  return text.trim().toLowerCase();
}
