import { smoothed } from "./pulse.js";

/** Frames a second, with how much begins in each. */
export interface Row {
  readonly rate: number;
  readonly values: Float32Array;
}

/** Seconds from one place of the curve to the next. */
const step = 1;
/** How far the tempo may lie from the whole track's, below and above, in steps of the curve. */
const [below, above] = [170, 100];
/** The curve is so fine, as a part of the tempo. */
const fineness = 0.003;
/** What it costs to change by a step of the curve from one second to the next; by four, twice that: who slows down does so in earnest. */
const unwilling = 0.01;

/** The tempo at a moment of a row. */
interface TempoAt {
  /** Seconds from its start. */
  readonly at: number;
  readonly countsPerMinute: number;
}

/** A place of the curve. */
export interface CurvePoint extends TempoAt {
  /** How plainly the track keeps that tempo there; next to nothing in silence and noise. */
  readonly strength: number;
  /** How much its rhythm is that of the whole track, up to 1. */
  readonly likeness: number;
}

/** What comes and goes from a little less often than counts do, to about four times as often, tells a tempo from another, in counts. */
const [seldom, often] = [0.8, 4.4];

/**
 * The tempo at each second, near the one given. How strongly the onsets about a moment come and go, by how often (a tempogram), is laid
 * on a scale of octaves: there another tempo moves a rhythm and leaves its shape. So each second is moved until it looks the most like
 * the track as a whole, and the way through these moves is taken that gains the most without leaping (Viterbi 1967, *from memory*).
 */
export function tempoCurve(row: Row, countsPerMinute: number): readonly CurvePoint[] {
  const shape = Math.round(Math.log(often / seldom) / fineness);
  const tempos = Array.from(
    { length: below + shape + above },
    (_, index) => countsPerMinute * Math.exp((index - below) * fineness),
  );
  const width = Math.min(10, Math.max(4.5, (8 * 60) / countsPerMinute));
  const places = Math.max(1, Math.floor(row.values.length / row.rate / step));
  const parts = Array.from({ length: places }, (_, index) => partAt(row, (index + 0.5) * step, width));
  const spectra = parts.map((part) =>
    spectrumOf(
      part,
      tempos.map((tempo) => (seldom * tempo) / 60 / row.rate),
    ),
  );
  // Twice, as the track as a whole is the clearer once its seconds are moved.
  let way: readonly number[] = spectra.map(() => below);
  let alike: readonly Float64Array[] = [];
  for (let turn = 0; turn < 2; turn++) {
    const whole = Float64Array.from({ length: shape }, (_, at) =>
      spectra.reduce((sum, one, index) => sum + (one[(way[index] ?? 0) + at] ?? 0), 0),
    );
    alike = spectra.map((spectrum) => similarities(spectrum, whole));
    way = bestWay(alike, below + above + 1);
  }
  const strengthOf = (index: number, tempo: number) => comesAndGoes(parts[index] ?? noPart, tempo / 60 / row.rate);
  const scale = scaleOf(
    way.map((state) => tempos[state] ?? countsPerMinute),
    strengthOf,
  );
  return way.map((state, index) => {
    const tempo = scale * (tempos[state] ?? countsPerMinute);
    const likeness = alike[index]?.[state] ?? 0;
    return { at: (index + 0.5) * step, countsPerMinute: tempo, strength: strengthOf(index, tempo), likeness };
  });
}

/** Moves tell how tempos lie to each other alone: by how much all of them are to be faster, so that counts fall on the most that begins. */
function scaleOf(way: readonly number[], strengthOf: (index: number, tempo: number) => number): number {
  const scales = Array.from({ length: 41 }, (_, index) => Math.exp((index - 20) * fineness));
  const sums = scales.map((scale) => way.reduce((sum, tempo, index) => sum + strengthOf(index, scale * tempo), 0));
  return scales[sums.indexOf(Math.max(...sums))] ?? 1;
}

/** How strongly a row comes and goes, in times a frame: every other one is worked out, and what lies between is the mean of both sides. */
function spectrumOf(part: Float64Array, often: readonly number[]): Float64Array {
  const spectrum = Float64Array.from(often, (perFrame, index) => (index % 2 === 0 ? swing(part, perFrame) : 0));
  for (let index = 1; index < spectrum.length; index += 2)
    spectrum[index] = ((spectrum[index - 1] ?? 0) + (spectrum[index + 1] ?? spectrum[index - 1] ?? 0)) / 2;
  return spectrum;
}

/** How much a spectrum looks like a shorter one (the correlation), at each place where that may lie in it. */
function similarities(spectrum: Float64Array, shape: Float64Array): Float64Array {
  const size = shape.length;
  const mean = shape.reduce((sum, value) => sum + value, 0) / size;
  const centred = shape.map((value) => value - mean);
  const power = centred.reduce((sum, value) => sum + value * value, 0);
  let [sum, squares] = [0, 0];
  const moves = new Float64Array(spectrum.length - size + 1);
  for (let end = 0; end < spectrum.length; end++) {
    const [enters, leaves] = [spectrum[end] ?? 0, spectrum[end - size] ?? 0];
    sum += enters - leaves;
    squares += enters * enters - leaves * leaves;
    const move = end - size + 1;
    if (move < 0) continue;
    let products = 0;
    for (let index = 0; index < size; index++) products += (spectrum[move + index] ?? 0) * (centred[index] ?? 0);
    const spread = squares - (sum * sum) / size;
    moves[move] = spread > 0 && power > 0 ? products / Math.sqrt(spread * power) : 0;
  }
  return moves;
}

/**
 * The one tempo near the given at which the onsets of the whole track come and go the most, and twice and four times as often: the
 * longer the track, the finer.
 *
 * @param reach a part of the tempo
 */
export function steadyTempo(row: Row, countsPerMinute: number, reach: number): number {
  const step = 60 / (12 * (row.values.length / row.rate));
  const steps = Math.ceil((reach * countsPerMinute) / step);
  const centred = aboutMean(row);
  const strengths = Array.from({ length: 2 * steps + 1 }, (_, index) =>
    comesAndGoes(centred, (countsPerMinute + (index - steps) * step) / 60 / row.rate),
  );
  const best = strengths.indexOf(Math.max(...strengths));
  return countsPerMinute + (topNear(strengths, best) - steps) * step;
}

/** How plainly the whole track keeps one tempo, as the strength of a place of the curve says it of a few seconds. */
export function coherence(row: Row, countsPerMinute: number): number {
  const centred = aboutMean(row);
  const power = row.values.reduce((sum, value) => sum + value * value, 0);
  return power === 0 ? 0 : comesAndGoes(centred, countsPerMinute / 60 / row.rate) / Math.sqrt(power * centred.length);
}

function aboutMean({ values }: Row): Float64Array {
  const mean = values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
  return Float64Array.from(values, (value) => value - mean);
}

const noPart = new Float64Array(0);

/** The onsets within a stretch about a moment, fading out to both sides; as if all stretches held as much. */
function partAt(row: Row, at: number, width: number): Float64Array {
  const from = Math.max(0, Math.round((at - width / 2) * row.rate));
  const until = Math.min(row.values.length, Math.round((at + width / 2) * row.rate));
  const length = Math.max(0, until - from);
  const bell = (index: number) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (index + 0.5)) / length);
  const part = Float64Array.from({ length }, (_, index) => bell(index) * (row.values[from + index] ?? 0));
  const mean = part.reduce((sum, value) => sum + value, 0) / Math.max(1, length);
  const power = Math.sqrt(length * part.reduce((sum, value) => sum + value * value, 0)) || 1;
  return part.map((value, index) => (value - 2 * mean * bell(index)) / power);
}

/** How strongly a row comes and goes so often, and twice and four times so. */
function comesAndGoes(row: Float64Array, perFrame: number): number {
  return swing(row, perFrame) + swing(row, 2 * perFrame) + 0.5 * swing(row, 4 * perFrame);
}

/** How strongly a row comes and goes, in times a frame. */
function swing(row: Float64Array, perFrame: number): number {
  const [cos, sin] = [Math.cos(2 * Math.PI * perFrame), Math.sin(2 * Math.PI * perFrame)];
  let [across, up, x, y] = [0, 0, 1, 0];
  for (let index = 0; index < row.length; index++) {
    const value = row[index] ?? 0;
    across += value * x;
    up += value * y;
    const turned = x * cos - y * sin;
    y = x * sin + y * cos;
    x = turned;
  }
  return Math.hypot(across, up);
}

/** Steps of the curve's fineness that the tempo may change by in a second. */
const mostSteps = 30;

function bestWay(strengths: readonly Float64Array[], states: number): readonly number[] {
  let gains = new Float64Array(states);
  const origins: Int32Array[] = [];
  for (const here of strengths) {
    const [next, from] = [new Float64Array(states), new Int32Array(states)];
    for (let state = 0; state < states; state++) {
      let best = -Infinity;
      for (let other = Math.max(0, state - mostSteps); other <= Math.min(states - 1, state + mostSteps); other++) {
        const gain = (gains[other] ?? 0) - unwilling * Math.sqrt(Math.abs(state - other));
        if (gain <= best) continue;
        best = gain;
        from[state] = other;
      }
      next[state] = best + (here[state] ?? 0);
    }
    gains = next;
    origins.push(from);
  }
  let state = gains.indexOf(gains.reduce((most, gain) => Math.max(most, gain), -Infinity));
  const way: number[] = [];
  for (const from of origins.toReversed()) {
    way.push(state);
    state = from[state] ?? state;
  }
  return way.toReversed();
}

/** How much a beat loses that comes too early or late, by the square of how much so. */
const strictness = 60;

/**
 * The beats of a track: of all rows of moments that keep the tempo of the curve well enough, the one on which the most begins, found by
 * dynamic programming (Ellis 2007, *from memory*).
 *
 * @returns seconds, in order
 */
export function beatsAlong(row: Row, curve: readonly TempoAt[]): readonly number[] {
  const values = smoothed(row.values);
  const [gains, before] = [new Float64Array(values.length), new Int32Array(values.length).fill(-1)];
  for (let frame = 0; frame < values.length; frame++) {
    const period = (60 / tempoAt(curve, frame / row.rate)) * row.rate;
    let best = 0;
    for (let gap = Math.round(0.7 * period); gap <= Math.round(1.4 * period) && gap <= frame; gap++) {
      const gain = (gains[frame - gap] ?? 0) - strictness * Math.log(gap / period) ** 2;
      if (gain <= best) continue;
      best = gain;
      before[frame] = frame - gap;
    }
    gains[frame] = best + (values[frame] ?? 0);
  }
  const beats: number[] = [];
  for (let frame = bestEnd(gains, row.rate); frame >= 0; frame = before[frame] ?? -1)
    beats.push(topNear(values, frame) / row.rate);
  return beats.toReversed();
}

/** The frame, of the last seconds, at which a row of beats that ends there has gained the most. */
function bestEnd(gains: Float64Array, rate: number): number {
  let best = gains.length - 1;
  for (let frame = Math.max(0, gains.length - Math.round(1.5 * rate)); frame < gains.length; frame++)
    if ((gains[frame] ?? 0) > (gains[best] ?? 0)) best = frame;
  return best;
}

/** The top of a peak, between its places where a parabola through three of them has it. */
function topNear(values: ArrayLike<number>, place: number): number {
  const [before, here, after] = [values[place - 1] ?? 0, values[place] ?? 0, values[place + 1] ?? 0];
  const bend = before - 2 * here + after;
  return bend < 0 && here >= before && here >= after ? place + (0.5 * (before - after)) / bend : place;
}

/** The tempo at a moment. */
export function tempoAt(curve: readonly TempoAt[], at: number): number {
  const index = Math.max(0, Math.min(curve.length - 1, Math.floor(at / step)));
  return curve[index]?.countsPerMinute ?? 100;
}
