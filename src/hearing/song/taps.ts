import { type Beats, type FittedBeats, fitBeats, offBeat } from "./line.js";
import { median, robustSpread } from "./numbers.js";
import type { Certainty, JudgedTap, NoFit, TapFit, TempoRange } from "./types.js";

/** Fewer say nothing: with three, one that is astray can't be told from two that are. */
const fewest = 4;
/** Seconds: a day, which no track lasts. */
const longest = 86_400;
/** A part of a count: taps that lie wider about their counts than this follow no beat; taps at random lie at 0.29. */
const widest = 0.17;

/**
 * Lays even counts through taps, in whatever order they are given. Missed and doubled taps, the first ones that come late and one that
 * falls elsewhere do not move it. Its first count is the one that the first tap meant.
 *
 * @param times seconds from the start of the track
 * @example fitTaps([10, 10.5, 11, 11.5]) // 120 counts a minute from 10 s on
 */
export function fitTaps(times: readonly number[]): TapFit | NoFit {
  const taps = times.filter((time) => Math.abs(time) <= longest).sort((a, b) => a - b);
  if (taps.length < fewest) return { why: "too-few" };
  const beats = beatsThrough(taps);
  if (beats === undefined) return { why: "no-beat" };
  const unsteady = rangeOf(taps, beats);
  if (beats.spread > widest * beats.period && unsteady === undefined) return { why: "no-beat" };
  const judged = judge(taps, beats);
  const first = judged[0]?.count ?? 0;
  const counted = judged.map((tap) => ({ ...tap, count: tap.count - first }));
  const on = counted.filter(({ kind }) => kind === "on");
  const countsPerMinute = 60 / beats.period;
  const spread = (2 * countsPerMinute * beats.periodError) / beats.period;
  const firstCountSpread = 2 * Math.hypot(beats.middleError, (first - beats.middle) * beats.periodError);
  return {
    firstCount: beats.start + first * beats.period,
    countsPerMinute,
    spread,
    firstCountSpread,
    certainty: certaintyOf({
      width: beats.spread / beats.period,
      share: on.length / taps.length,
      on: on.length,
      spread: spread / countsPerMinute,
      unsteady,
    }),
    unevenness: robustSpread(on.map(({ off }) => off)),
    ...(unsteady && { unsteady }),
    taps: counted,
    missed: missedIn(counted),
  };
}

/** Even beats near the pace of most taps. */
function beatsThrough(taps: readonly number[]): FittedBeats | undefined {
  const gaps = taps.slice(1).map((tap, index) => tap - (taps[index] ?? tap));
  const usual = median(gaps);
  const about = median(gaps.filter((gap) => Math.abs(gap - usual) < usual / 3));
  // Faster than ten a second is no beat but a key that is held down.
  if (!(about > 0.1)) return undefined;
  // The more gaps, the closer their middle one lies to the beat.
  return fitBeats(settled(taps, about), about, Math.max(0.05, Math.min(0.2, 0.5 / Math.sqrt(gaps.length))));
}

/** A part of a count: a finger that bounces does so sooner. */
const bounce = 0.35;

function isBounce(taps: readonly number[], index: number, period: number): boolean {
  const [tap = 0, before = -Infinity] = [taps[index], taps[index - 1]];
  return tap - before < bounce * period;
}

/** Taps that tell where the beats are: no bounces, and not the first two where there are enough, which follow what was heard. */
function settled(taps: readonly number[], period: number): readonly number[] {
  const single = taps.filter((_, index) => !isBounce(taps, index, period));
  return single.length < stretch ? single : single.slice(2);
}

/** Seconds: closer to its count a tap is never off the beat, however even the others are. */
const closeEnough = 0.04;

/** What each tap is to its count. */
function judge(taps: readonly number[], beats: FittedBeats): readonly JudgedTap[] {
  const reach = Math.min(beats.period / 4, Math.max(closeEnough, 3 * beats.spread));
  const judged = taps.map((at, index): JudgedTap => {
    const off = offBeat(beats, at);
    const count = Math.round((at - beats.start) / beats.period);
    if (isBounce(taps, index, beats.period)) return { at, count, off, kind: "doubled" };
    return { at, count, off, kind: Math.abs(off) <= reach ? "on" : "off" };
  });
  return withLateOnes(judged, beats);
}

/** A part of a count: who is not in time yet comes after what is heard, and hardly ever so much before it. */
const early = 0.2;

/** Taps from before the hand had found the counts: each meant the count that it heard, however late it came. */
function withLateOnes(taps: readonly JudgedTap[], { start, period }: Beats): readonly JudgedTap[] {
  const found = taps.findIndex(({ kind }, index) => kind === "on" && taps[index + 1]?.kind !== "off");
  const result = [...taps];
  for (let index = found - 1; index >= 0; index--) {
    const [tap, next] = [result[index], result[index + 1]];
    if (tap === undefined || next === undefined || tap.kind !== "off") continue;
    const heard = Math.floor((tap.at - start) / period + early);
    const count = Math.min(heard, next.kind === "doubled" ? next.count : next.count - 1);
    const off = tap.at - start - count * period;
    result[index] = { ...tap, count, off, kind: off > 0 ? "late" : "off" };
  }
  return result;
}

function missedIn(taps: readonly JudgedTap[]): readonly number[] {
  const tapped = new Set(taps.map(({ count }) => count));
  const last = taps.reduce((most, { count }) => Math.max(most, count), 0);
  // Who pauses for a while has missed nothing worth a list.
  const some = Math.min(last, 10_000);
  return Array.from({ length: some }, (_, count) => count).filter((count) => !tapped.has(count));
}

interface Figures {
  /** Of all taps, how many are on a count. */
  readonly share: number;
  readonly on: number;
  /** Of the tempo, as a part of it. */
  readonly spread: number;
  /** How wide the taps lie about their counts, as a part of one. */
  readonly width: number;
  readonly unsteady: TempoRange | undefined;
}

function certaintyOf({ share, on, spread, width, unsteady }: Figures): Certainty {
  // Taps at random lie along some beat or other now and then, but never so close.
  if (unsteady !== undefined || width > 0.75 * widest) return "unsure";
  if (on >= 24 && spread <= 0.006 && share >= 0.75) return "sure";
  return on >= 8 && spread <= 0.02 && share >= 0.6 ? "likely" : "unsure";
}

/** Taps in a stretch that is long enough to tell its tempo; of many taps, a quarter tells it better. */
const stretch = 12;
/** A part of the tempo: less than this nobody dances to. */
const noticeable = 0.015;

/**
 * How far the tempo of the taps ranges, where it does: the stretches are looked at each on its own, and they differ by more than a
 * hand's unevenness explains.
 */
function rangeOf(taps: readonly number[], whole: FittedBeats): TempoRange | undefined {
  const size = Math.max(stretch, Math.floor(taps.length / 4));
  const places = Math.max(0, Math.floor((2 * taps.length) / size) - 1);
  const starts = Array.from({ length: places }, (_, index) => Math.floor((index * size) / 2));
  const fits = starts
    .map((from) => beatsThrough(taps.slice(from, from + size)))
    .filter((fit) => fit !== undefined)
    .filter((fit) => Number.isFinite(fit.periodError) && fit.spread < 0.75 * widest * fit.period);
  // Where many stretches follow no beat, the others do so by chance.
  if (fits.length < 0.75 * starts.length) return undefined;
  const sorted = [...fits].sort((a, b) => a.period - b.period);
  const [fastest, slowest] = [sorted[0], sorted.at(-1)];
  if (fastest === undefined || slowest === undefined) return undefined;
  // A stretch where every other count was tapped is no other tempo.
  if (slowest.period > 1.4 * fastest.period) return undefined;
  const difference = slowest.period - fastest.period;
  const chance = 5 * Math.hypot(errorOf(slowest, whole), errorOf(fastest, whole));
  if (difference < Math.max(noticeable * whole.period, chance)) return undefined;
  return { slowest: 60 / slowest.period, fastest: 60 / fastest.period };
}

/** A few taps may by chance lie closer to a line than the hand is even. */
function errorOf(fit: FittedBeats, whole: FittedBeats): number {
  return fit.periodError * Math.max(1, Math.min(3, Math.min(whole.spread, 0.04) / fit.spread));
}
