import { robustSpread } from "./numbers.js";

/** Even beats: beat k falls at `start + k × period`. In seconds. */
export interface Beats {
  readonly start: number;
  readonly period: number;
}

/** Beats laid through moments, with how well they fit. */
export interface FittedBeats extends Beats {
  /** Standard deviation of the moments about their beats, stray ones aside. */
  readonly spread: number;
  /** Standard errors of the period, and of the beat at the middle of the moments, whose number (a mean) is `middle`. */
  readonly periodError: number;
  readonly middleError: number;
  readonly middle: number;
}

/** Seconds; moments that lie closer than this are as good as a clock can tell them. */
const finest = 0.002;

/**
 * Even beats through moments, of which some may be missing, doubled or astray. First the period, near the one given, at which most
 * moments fall at the same point of their beat, whichever beats those are (the periodogram of the moments); then a straight line
 * through moment against number of beat by least squares, weighed anew in each turn with Tukey's biweight (Beaton & Tukey 1974,
 * *from memory*), so that stray ones count for nothing.
 *
 * @param moments seconds, in order
 * @param about a period within `reach` (a part of it) of the right one
 */
export function fitBeats(moments: readonly number[], about: number, reach: number): FittedBeats {
  let beats: Beats = closest(moments, about, reach);
  let fitted = weigh(moments, beats);
  for (let turn = 0; turn < 12; turn++) {
    beats = fitted;
    fitted = weigh(moments, beats);
    if (Math.abs(fitted.period - beats.period) + Math.abs(fitted.start - beats.start) < 1e-7) break;
  }
  return fitted;
}

/** How far a moment lies after its nearest beat, in seconds. */
export function offBeat({ start, period }: Beats, moment: number): number {
  return moment - start - Math.round((moment - start) / period) * period;
}

/** So finely a quarter of an hour is looked through; moments further apart than that need not agree. */
const mostSteps = 10_000;

/** The period at which the moments agree most on where in the beat they fall. */
function closest(moments: readonly number[], about: number, reach: number): Beats {
  const [first = 0, last = 0] = [moments[0], moments.at(-1)];
  const length = Math.max(last - first, about);
  const [slowest, fastest] = [1 / (about * (1 + reach)), 1 / (about * (1 - reach))];
  const step = Math.max(1 / (10 * length), (fastest - slowest) / mostSteps);
  let best = { sum: -1, start: first, period: about };
  for (let frequency = slowest; frequency <= fastest; frequency += step) {
    const [sum, phase] = agreement(moments, frequency, first);
    if (sum > best.sum) best = { sum, start: first + phase / frequency, period: 1 / frequency };
  }
  return best;
}

/** How far moments agree on where in the beat they fall, and where that is, as a part of it. */
function agreement(moments: readonly number[], frequency: number, origin: number): readonly [number, number] {
  let [across, up] = [0, 0];
  for (const moment of moments) {
    const angle = 2 * Math.PI * frequency * (moment - origin);
    across += Math.cos(angle);
    up += Math.sin(angle);
  }
  return [Math.hypot(across, up), Math.atan2(up, across) / (2 * Math.PI)];
}

/** Tukey's constant: 95 % as good as plain least squares where nothing is astray. */
const reachOfWeights = 4.685;

function weigh(moments: readonly number[], beats: Beats): FittedBeats {
  const off = moments.map((moment) => offBeat(beats, moment));
  const spread = Math.max(finest, robustSpread(off));
  const points = moments.map((moment, index) => {
    const part = (off[index] ?? 0) / (reachOfWeights * spread);
    return {
      moment,
      number: Math.round((moment - beats.start) / beats.period),
      weight: Math.abs(part) < 1 ? (1 - part * part) ** 2 : 0,
    };
  });
  const sum = (of: (point: (typeof points)[number]) => number) => points.reduce((total, one) => total + of(one), 0);
  const whole = sum(({ weight }) => weight);
  const middle = sum(({ number, weight }) => weight * number) / whole;
  const mean = sum(({ moment, weight }) => weight * moment) / whole;
  const width = sum(({ number, weight }) => weight * (number - middle) ** 2);
  if (!(width > 0)) return { ...beats, spread, periodError: Infinity, middleError: Infinity, middle: 0 };
  const period = sum(({ moment, number, weight }) => weight * (number - middle) * (moment - mean)) / width;
  const errors = { periodError: spread / Math.sqrt(width), middleError: spread / Math.sqrt(whole) };
  return { start: mean - middle * period, period, spread, middle, ...errors };
}
