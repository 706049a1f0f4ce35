import { firstCountsOn } from "./first-counts.js";
import { quantile } from "./numbers.js";
import { type Onsets, onsetsOf } from "./onsets.js";
import { fastest, likenessOf, type Pulse, peaksOf, pulsesIn, slowest, smoothed } from "./pulse.js";
import { beatsAlong, type CurvePoint, coherence, type Row, steadyTempo, tempoCurve } from "./track.js";
import type { FirstCountGuess, NoGuess, Relation, SongGuess, TempoCandidate, TempoRange } from "./types.js";

/** Seconds; in less there is no bar to compare with the next. */
const shortest = 6;

/**
 * What a track might be counted as, by its sound alone: two or three tempos, for each where the routine may begin, and whether one
 * tempo holds throughout. Guesses for an ear to choose from.
 *
 * @param samples one channel of sound, from -1 to 1
 * @param rate samples a second
 */
export function guessSong(samples: Float32Array, rate: number): SongGuess | NoGuess {
  const seconds = samples.length / rate;
  if (!(rate > 0) || seconds < shortest) return { why: "too-short" };
  return guessFrom(onsetsOf(samples, rate), seconds);
}

/** @param seconds length of the track */
function guessFrom(onsets: Onsets, seconds: number): SongGuess | NoGuess {
  if (!onsets.all.some((value) => value > 0)) return { why: "silent" };
  const pulses = pulsesIn(likenessOf(onsets.all, onsets.rate), likenessOf(onsets.low, onsets.rate));
  const chosen = candidatesAmong(pulses);
  const [first] = chosen;
  if (first === undefined) return { why: "no-beat" };
  const row = { rate: onsets.rate, values: onsets.all.map((value, index) => value + 0.5 * (onsets.low[index] ?? 0)) };
  const through = tempoCurve(row, first.countsPerMinute);
  const curve = plainPart(through);
  const unsteady = rangeOf(row, through, curve);
  const usual = middleOf(curve) ?? first.countsPerMinute;
  const exact = unsteady ? usual : steadyTempo(row, usual, 0.006);
  const firstCounts = (countsPerMinute: number) =>
    unsteady ? alongCurve(onsets, row, through, countsPerMinute / exact) : onGrid(onsets, row, countsPerMinute);
  return { tempos: candidatesFrom(chosen, exact, firstCounts), seconds, ...(unsteady && { unsteady }) };
}

/** The tempos to offer, those in a plain ratio to the first as exact as that is. */
function candidatesFrom(
  chosen: readonly Pulse[],
  exact: number,
  firstCounts: (countsPerMinute: number) => readonly FirstCountGuess[],
): readonly TempoCandidate[] {
  const whole = chosen.reduce((sum, { strength }) => sum + strength, 0);
  return chosen.map((pulse) => {
    const relation = relationOf(pulse.countsPerMinute / (chosen[0]?.countsPerMinute ?? 1));
    const ratio = ratios.find(([name]) => name === relation)?.[1];
    const countsPerMinute = ratio === undefined ? pulse.countsPerMinute : exact * ratio;
    return { countsPerMinute, relation, trust: pulse.strength / whole, firstCounts: firstCounts(countsPerMinute) };
  });
}

const ratios: readonly (readonly [Relation, number])[] = [
  ["first", 1],
  ["half", 1 / 2],
  ["double", 2],
  ["third", 1 / 3],
  ["triple", 3],
  ["two-thirds", 2 / 3],
  ["three-halves", 3 / 2],
  ["three-quarters", 3 / 4],
  ["four-thirds", 4 / 3],
];

/** Tempos that lie closer than this, as a part of them, are one that was measured twice. */
const same = 0.03;

function relationOf(ratio: number): Relation {
  return ratios.find(([, exact]) => Math.abs(ratio / exact - 1) < same)?.[0] ?? "other";
}

/** The strongest tempo, the one that is counted half or twice as fast, and another that is nearly as strong. */
function candidatesAmong(pulses: readonly Pulse[]): readonly Pulse[] {
  const peaks = peaksOf(pulses);
  const [first] = peaks;
  if (first === undefined) return [];
  const strongestAt = (tempo: number): Pulse[] => {
    if (tempo < slowest * (1 - same) || tempo > fastest * (1 + same)) return [];
    const close = pulses.filter(({ countsPerMinute }) => Math.abs(countsPerMinute / tempo - 1) < same);
    return close.toSorted((a, b) => b.strength - a.strength).slice(0, 1);
  };
  const octaves = [2, 0.5].flatMap((ratio) =>
    strongestAt(first.countsPerMinute * ratio).map(({ strength }) => ({
      strength,
      countsPerMinute: first.countsPerMinute * ratio,
    })),
  );
  const [octave] = octaves.toSorted((a, b) => b.strength - a.strength);
  const offered = octave ? [first, octave] : [first];
  const unlike = (peak: Pulse) =>
    offered.every((one) => Math.abs(one.countsPerMinute / peak.countsPerMinute - 1) >= same);
  const other = peaks.find((peak) => peak.strength >= 0.5 * first.strength && unlike(peak));
  return other ? [...offered, other] : offered;
}

/** How plainly most of the track keeps its tempo. */
function usualStrength(curve: readonly CurvePoint[]): number {
  return quantile(
    curve.map(({ strength }) => strength).toSorted((a, b) => a - b),
    0.6,
  );
}

/** Places of the curve about one that are to keep the tempo plainly too: what they hear overlaps with what it hears. */
const beside = 2;

/** Less likeness than this is none. */
const alike = 0.6;

/** The part of the curve where the track goes on in its own rhythm: no silence, no noise before it. */
function plainPart(curve: readonly CurvePoint[]): readonly CurvePoint[] {
  return curve.filter((_, index) =>
    curve.slice(Math.max(0, index - beside), index + beside + 1).every(({ likeness }) => likeness >= alike),
  );
}

function middleOf(curve: readonly CurvePoint[]): number | undefined {
  return curve.length === 0 ? undefined : quantile(tempos(curve), 0.5);
}

function tempos(curve: readonly CurvePoint[]): readonly number[] {
  return curve.map(({ countsPerMinute }) => countsPerMinute).toSorted((a, b) => a - b);
}

/** A part of the tempo: what a curve of a steady track may stray by. */
const strays = 0.012;
/** A part of the tempo: who changes by so much does it so soon that the rest of the track may still keep one tempo. */
const slowsDown = 0.06;
/** A track that keeps one tempo does so as a whole no less plainly than in each few seconds of it. */
const keeps = 0.95;

/**
 * How far the tempo ranges, where it does.
 *
 * @param through the curve through the whole track
 * @param plain the part of it where a tempo is kept plainly
 */
function rangeOf(row: Row, through: readonly CurvePoint[], plain: readonly CurvePoint[]): TempoRange | undefined {
  const sorted = tempos(plain);
  // A place alone is a slip of the ear, and so are two in more than a minute.
  const slips = sorted.length < 66 ? 1 : 2;
  const [least = 0, most = 0] = [sorted[slips], sorted.at(-1 - slips)];
  const range = { slowest: least, fastest: most };
  if (most <= least * (1 + strays)) return undefined;
  if (most > least * (1 + slowsDown)) return range;
  const whole = coherence(row, steadyTempo(row, quantile(sorted, 0.5), 0.006));
  return whole < keeps * usualStrength(through) ? range : undefined;
}

/** First counts of a steady track, on even beats. */
function onGrid(onsets: Onsets, row: Row, countsPerMinute: number): readonly FirstCountGuess[] {
  const period = 60 / countsPerMinute;
  const length = row.values.length / row.rate;
  const rows = phasesOf(row, period).map((phase) =>
    Array.from(
      { length: Math.max(0, Math.floor((length - phase) / period) + 1) },
      (_, index) => onsets.begins + phase + index * period,
    ),
  );
  return firstCountsOn(onsets, rows);
}

/** Parts of a count into which what begins on all counts is gathered. */
const bins = 48;

/** Parts of a count: peaks that lie closer are one, spread by uneven hands. */
const apart = 0.2;

/** The two places in a count where most begins, in seconds, the likelier one to be counted first. */
function phasesOf(row: Row, period: number): readonly number[] {
  const even = gathered(row, period);
  const distance = (one: number, other: number) => Math.abs(((one - other + 1.5) % 1) - 0.5);
  const places = even.map((value, bin) => ({ value, phase: (bin + 0.5) / bins })).toSorted((a, b) => b.value - a.value);
  const [top = { value: 0, phase: 0 }] = places;
  const isPeak = ({ value, phase }: typeof top) =>
    places.every((other) => other.value <= value || distance(other.phase, phase) > 1.5 / bins);
  const second = places.find((place) => distance(place.phase, top.phase) >= apart && isPeak(place));
  const other = second !== undefined && second.value >= 0.2 * top.value ? second.phase : (top.phase + 0.5) % 1;
  const gap = (other - top.phase + 1) % 1;
  // Swung: what lies a third of a count before the next one is no count.
  const swung = gap < 0.42;
  return (swung ? [other, top.phase] : [top.phase, other]).map((part) => part * period);
}

/** How much begins in each part of a count, over all counts. */
function gathered(row: Row, period: number): readonly number[] {
  const sums = new Float32Array(3 * bins);
  for (const [frame, value] of row.values.entries()) {
    const bin = Math.floor(((frame / row.rate / period) % 1) * bins);
    // Three times round, so that what lies about the seam is smoothed too.
    for (let round = 0; round < 3; round++) sums[round * bins + bin] = (sums[round * bins + bin] ?? 0) + value;
  }
  return [...smoothed(smoothed(sums)).subarray(bins, 2 * bins)];
}

/** First counts of a track whose tempo changes: on the beats that were found in it. */
function alongCurve(onsets: Onsets, row: Row, curve: readonly CurvePoint[], ratio: number): readonly FirstCountGuess[] {
  const beats = beatsAlong(
    row,
    curve.map((point) => ({ ...point, countsPerMinute: point.countsPerMinute * ratio })),
  );
  const between = beats.slice(1).map((beat, index) => (beat + (beats[index] ?? beat)) / 2);
  const [first = 0, second = 0] = beats;
  const rows = [beats, [first - (second - first) / 2, ...between]];
  return firstCountsOn(
    onsets,
    rows.map((one) => one.map((at) => at + onsets.begins)),
  );
}
