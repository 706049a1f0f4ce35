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

/**
 * Every tempo, a third of a per cent apart. For it speaks how much the track repeats itself some counts later, a bar of four or of three
 * most of all; but that it does at half the tempo too. So it weighs as much how strongly the track comes and goes with the counts
 * themselves, where half of that is faint (spectrum and likeness together, as in Peeters, Template-Based Estimation of Time-Varying
 * Tempo, EURASIP Journal on Advances in Signal Processing 2007, 67215).
 */
export function pulsesIn(all: Likeness, low: Likeness): readonly Pulse[] {
  const steps = Math.ceil(Math.log(fastest / slowest) / Math.log(1.0033));
  return Array.from({ length: steps + 1 }, (_, index) => {
    const countsPerMinute = slowest * 1.0033 ** index;
    const later = (counts: number) => {
      const seconds = (60 / countsPerMinute) * counts;
      return at(all, seconds) + 0.5 * at(low, seconds);
    };
    const bars = later(1) + later(2) + 3 * Math.max(later(3), later(4));
    const heard = comesAndGoes(all, countsPerMinute / 60) + 0.5 * comesAndGoes(all, countsPerMinute / 30);
    const counts = Math.sqrt(Math.max(0, at(all, 60 / countsPerMinute)) * heard);
    return { countsPerMinute, strength: Math.max(0, bars) * counts * usual(countsPerMinute) };
  });
}

/** How strongly a row comes and goes so often a second: its spectrum, which is that of its likeness (Wiener 1930, *from memory*). */
function comesAndGoes({ values, rate }: Likeness, often: number): number {
  const power = values.reduce((sum, value, lag) => {
    const fading = 0.5 + 0.5 * Math.cos((Math.PI * lag) / values.length);
    return sum + (lag === 0 ? 1 : 2) * value * fading * Math.cos((2 * Math.PI * often * lag) / rate);
  }, 0);
  return Math.sqrt(Math.max(0, power));
}

/**
 * The pulse that people fall in with the most comes some 120 times a minute (McKinney & Moelants, Ambiguity in Tempo Perception, Music
 * Perception 24, 2006, page 155); a bell about it, an octave wide (*common practice, no source*).
 */
function usual(countsPerMinute: number): number {
  return Math.exp(-0.5 * Math.log2(countsPerMinute / 120) ** 2);
}

/** Those that stand out from the ones beside them, the strongest first. */
export function peaksOf(pulses: readonly Pulse[]): readonly Pulse[] {
  const peaks = pulses.filter(({ strength }, index) => {
    const beside = [-2, -1, 1, 2].map((step) => pulses[index + step]?.strength ?? 0);
    return strength > 0 && beside.every((other) => other <= strength);
  });
  return peaks.toSorted((a, b) => b.strength - a.strength);
}
