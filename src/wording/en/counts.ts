import type { Move } from "../../routine/routine.js";
import { tellsLength } from "../../routine/tells-length.js";

/** How long a move lasts, where its numbers do not tell: "10 counts". */
function lasts({ on, length }: Pick<Move, "on" | "length">): string | undefined {
  return tellsLength(on) || length.valueOf() <= 1 ? undefined : `${length.toFraction()} counts`;
}

/** Counts as a reader needs them. */
export const counts = {
  /** A span as it is printed, with a dash between its ends: "1–3". */
  span: (on: string): string => on.replace("-", "–"),
  lasts,
  /** The counts of a move, with its length where the numbers do not tell: "5 (10 counts)". */
  of(move: Pick<Move, "on" | "length">): string {
    const length = lasts(move);
    return length === undefined ? move.on : `${move.on} (${length})`;
  },
  /** The same of a count that is known as a number: "5–6", "5 (10 counts)". */
  long: (on: string, length: number): string =>
    tellsLength(on) || length <= 1 ? counts.span(on) : `${counts.span(on)} (${length} counts)`,
  /** What stands where nothing is danced. */
  hold: "hold",
  /** What the dancers improvise. */
  own: "yours",
  ownMove: (cue: string): string => `yours: ${cue}`,
};
