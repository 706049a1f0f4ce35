import { type Point, parseSpans, partOfCount, spanText } from "../routine/spans.js";
import type { DraftMove, Trust } from "./types.js";

/** The moves of a phrase that can stand in a file beside each other, by their counts, and those that can't. */
export interface PlacedMoves {
  readonly placed: readonly DraftMove[];
  readonly left: readonly DraftMove[];
}

const trusted: readonly Trust[] = ["sure", "likely", "once"];

/**
 * Which moves of a phrase stand in a file: none that was heard once only, none outside the phrase's counts, and of two that meet
 * the one that is more to be believed.
 *
 * @param counts in the phrase
 */
export function placeMoves(moves: readonly DraftMove[], counts: number): PlacedMoves {
  const placed: Extent[] = [];
  const left: DraftMove[] = [];
  const believed = [...moves].sort((a, b) => trusted.indexOf(a.trust) - trusted.indexOf(b.trust) || b.runs - a.runs);
  for (const move of believed) {
    const extent = move.trust === "once" ? undefined : extentOf(move, counts);
    if (extent === undefined || placed.some((other) => meet(extent, other))) left.push(move);
    else placed.push(extent);
  }
  return { placed: placed.sort((a, b) => a.from - b.from).map(({ move }) => move), left };
}

interface Extent {
  readonly move: DraftMove;
  readonly from: number;
  /** Where its last point begins. */
  readonly last: number;
}

function extentOf(move: DraftMove, counts: number): Extent | undefined {
  const parsed = parseSpans(move.on);
  if ("wrong" in parsed || parsed.spans.length !== 1) return undefined;
  const [span] = parsed.spans;
  if (span === undefined) return undefined;
  const [from, last] = [position(span.first), position(span.last)];
  if (span.points.some(({ count }) => count < 1 || count > counts) || last < from) return undefined;
  return { move: { ...move, on: span.called ? span.text : spanText(span) }, from, last };
}

/** Counts from the phrase's first, from 0. */
function position({ count, part }: Point): number {
  return count - 1 + (partOfCount(part, "straight")?.valueOf() ?? 0);
}

/** As the reader of files has it: a later one trims an earlier one within the earlier one's last count, and any other meeting is none. */
function meet(a: Extent, b: Extent): boolean {
  const [early, late] = a.from <= b.from ? [a, b] : [b, a];
  if (late.from >= Math.floor(early.last) + 1) return false;
  return !(late.from > early.last && Math.floor(late.from) === Math.floor(early.last));
}
