/** How strongly a row repeats itself at each distance, in frames, up to a longest one. */
export interface Likeness {
  /** Frames a second. */
  readonly rate: number;
  readonly values: Float64Array;
}

/** Seconds of a stretch in which the tempo hardly changes, and from one to the next. */
const [stretch, step] = [10, 5];
/** Seconds: four of the slowest counts. */
const longest = 5.2;

/** The likeness of a row to itself some time later, of each stretch on its own, so that a tempo that drifts does not blur it. */
export function likenessOf(row: Float32Array, rate: number): Likeness {
  const [size, lags] = [Math.round(stretch * rate), Math.round(longest * rate)];
  const values = new Float64Array(lags + 1);
  for (let from = 0; from === 0 || from + size <= row.length; from += Math.round(step * rate)) {
    const part = smoothed(row.subarray(from, from + size));
    const mean = part.reduce((sum, value) => sum + value, 0) / part.length;
    const centred = part.map((value) => value - mean);
    const power = likenessAt(centred, 0);
    if (power > 0)
      for (let lag = 0; lag <= lags; lag++) values[lag] = (values[lag] ?? 0) + likenessAt(centred, lag) / power;
  }
  const whole = values[0] || 1;
  return { rate, values: values.map((value) => value / whole) };
}

function likenessAt(row: Float32Array, lag: number): number {
  let sum = 0;
  for (let index = lag; index < row.length; index++) sum += (row[index] ?? 0) * (row[index - lag] ?? 0);
  // As if each distance had as many pairs.
  return row.length > lag ? (sum * row.length) / (row.length - lag) : 0;
}

/** What a hand plays a little early or late lies together again. */
export function smoothed(row: Float32Array): Float32Array {
  return row.map((value, index) => {
    const near = (row[index - 1] ?? 0) + (row[index + 1] ?? 0);
    const far = (row[index - 2] ?? 0) + (row[index + 2] ?? 0);
    return 0.4 * value + 0.2 * near + 0.1 * far;
  });
}

/** The likeness at a distance in seconds, between frames as a straight line has it. */
function at({ values, rate }: Likeness, seconds: number): number {
  const place = seconds * rate;
  const frame = Math.floor(place);
  const part = place - frame;
  return (values[frame] ?? 0) * (1 - part) + (values[frame + 1] ?? 0) * part;
}

/** Counts a minute of a pulse, with how much speaks for it. */
export interface Pulse {
  readonly countsPerMinute: number;
  readonly strength: number;
}

/** Counts a minute that dancers count in; beyond, a song is counted half or twice as fast. */
export const [slowest, fastest] = [50, 200];

/** Every tempo, a third of a per cent apart, with how much the track repeats itself one to four counts later, a bar of four most of all. */
export function pulsesIn(all: Likeness, low: Likeness): readonly Pulse[] {
  const steps = Math.ceil(Math.log(fastest / slowest) / Math.log(1.0033));
  return Array.from({ length: steps + 1 }, (_, index) => {
    const countsPerMinute = slowest * 1.0033 ** index;
    const period = 60 / countsPerMinute;
    const of = (likeness: Likeness) =>
      at(likeness, period) + at(likeness, 2 * period) + 0.5 * at(likeness, 3 * period) + 1.5 * at(likeness, 4 * period);
    return { countsPerMinute, strength: Math.max(0, of(all) + 0.5 * of(low)) * usual(countsPerMinute) };
  });
}

/** Middling tempos are the more usual: a bell about 105 counts a minute on a scale of octaves (*common practice, no source*). */
function usual(countsPerMinute: number): number {
  return Math.exp(-0.5 * (Math.log2(countsPerMinute / 105) / 0.9) ** 2);
}

/** Those that stand out from the ones beside them, the strongest first. */
export function peaksOf(pulses: readonly Pulse[]): readonly Pulse[] {
  const peaks = pulses.filter(({ strength }, index) => {
    const beside = [-2, -1, 1, 2].map((step) => pulses[index + step]?.strength ?? 0);
    return strength > 0 && beside.every((other) => other <= strength);
  });
  return peaks.toSorted((a, b) => b.strength - a.strength);
}
