import { median } from "../../../src/hearing/song/numbers.js";
import { fitTaps } from "../../../src/hearing/song/taps.js";
import type { Certainty, TapFit, TempoRange } from "../../../src/hearing/song/types.js";
import type { OnCopy } from "./own-copy.js";
import type { Score } from "./score.js";

/** Counts that follow one another evenly. */
export interface EvenRun {
  /** Of the first of them, in seconds at full tempo from the routine's first count. */
  readonly position: number;
  /** Seconds from one to the next. */
  readonly count: number;
  readonly counts: number;
}

/** What taps say of a copy of the song. */
export interface TappedCopy {
  readonly copy: OnCopy;
  /** The first count is right within so many seconds, 19 times in 20. */
  readonly within: number;
  readonly certainty: Certainty;
  /** Counts a minute of the copy. */
  readonly countsPerMinute: number;
  /** Where the copy keeps no one tempo. */
  readonly unsteady?: TempoRange;
  /** Every one of the counts is past: further taps say nothing. */
  readonly complete: boolean;
}

/** Taps that say nothing yet: how many more are needed at least; none where there are enough, which follow no beat. */
export interface TooFew {
  readonly more: number;
}

/** Fewer taps on a count leave the tempo open by several per cent. */
const fewest = 8;

/** The even counts from a section's first on, over the sections after it too, as far as neither tempo changes nor anybody waits. */
export function evenRun({ beats, sections }: Score, section: number): EvenRun | undefined {
  const first = beats.findIndex((beat) => beat.section >= section);
  const beat = beats[first];
  const count = beat && sections[beat.section]?.count;
  if (!beat || !count) return undefined;
  let last = first;
  const isNext = (start: number) => Math.abs(start - (beats[last]?.start ?? 0) - count) < 0.01 * count;
  while (last + 1 < beats.length && isNext(beats[last + 1]?.start ?? 0)) last++;
  return { position: beat.start, count, counts: last - first + 1 };
}

/**
 * Where the routine lies on a copy of the song whose counts were tapped from the first of a run on, every one or every other.
 *
 * @param times places in the copy, in seconds
 * @param isEstimate whether the routine's tempo is one that nobody measured: else a copy that may well run at it does
 */
export function tapped(times: readonly number[], run: EvenRun, isEstimate: boolean): TappedCopy | TooFew {
  const fit = fitTaps(times);
  if ("why" in fit) return { more: Math.max(0, fewest - times.length) };
  const on = fit.taps.filter(({ kind }) => kind === "on");
  if (on.length < fewest) return { more: fewest - on.length };
  const perTap = countsPerTap(fit, run);
  const step = perTap * run.count;
  const stretch = 60 / fit.countsPerMinute / step;
  const isSame = !isEstimate && Math.abs(stretch - 1) < (1.5 * fit.spread) / fit.countsPerMinute;
  const copy = isSame
    ? { first: median(on.map(({ at, count }) => at - count * step)) - run.position, stretch: 1 }
    : { first: fit.firstCount - stretch * run.position, stretch };
  return {
    copy,
    within: isSame ? (2 * fit.unevenness) / Math.sqrt(on.length) : fit.firstCountSpread,
    certainty: fit.certainty,
    countsPerMinute: 60 / (copy.stretch * run.count),
    ...(fit.unsteady && { unsteady: inCounts(fit.unsteady, perTap) }),
    complete: Math.max(...fit.taps.map(({ count }) => count)) * perTap >= run.counts - 1,
  };
}

/** Who taps every other count, or twice on each, means the same song. */
function countsPerTap({ countsPerMinute }: TapFit, { count }: EvenRun): number {
  const ratio = 60 / countsPerMinute / count;
  const far = (perTap: number) => Math.abs(Math.log(ratio / perTap));
  return [1, 2, 0.5].reduce((best, perTap) => (far(perTap) < far(best) ? perTap : best));
}

function inCounts({ slowest, fastest }: TempoRange, perTap: number): TempoRange {
  return { slowest: slowest * perTap, fastest: fastest * perTap };
}
