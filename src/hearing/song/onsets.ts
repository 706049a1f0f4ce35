import { fourier } from "./fft.js";
import { thinned } from "./thinned.js";
import { type Tones, tonesOf } from "./tones.js";

/** How much begins to sound at each moment, frame by frame. Frame 0 lies at `begins`. */
export interface Onsets {
  /** Seconds from the start of the track. */
  readonly begins: number;
  /** Frames a second. */
  readonly rate: number;
  /** At any pitch; what goes on evenly around it is taken off. */
  readonly all: Float32Array;
  /** Below some 200 Hz: bass and big drums, which dancers count on. */
  readonly low: Float32Array;
  /** How loud it is, from 0. */
  readonly level: Float32Array;
  readonly tones: Tones;
}

/** Samples a second: everything up to 5 kHz tells when something begins. */
const wanted = 11_025;
/** Samples of a frame, a power of two: 46 ms. */
const frame = 512;
/** Samples from one frame to the next: 10 ms. */
const hop = 110;
/** Seconds: on a scale that is nearly logarithmic a sound grows most as it enters its frame, so much before the middle of it. */
const early = 0.012;
/** Frames between the two that are compared. */
const lag = 2;
/** Edges of the bands in Hz: as wide as the ear hears them, roughly a third of an octave and never less than a few lines. */
const edges = [30, 90, 150, 215, 300, 390, 490, 610, 760, 940, 1160, 1440, 1780, 2200, 2720, 3360, 4150, 5200];
const lowBands = 3;

/**
 * The onset envelope of a track: how much each band's loudness, on a scale that is nearly logarithmic, has grown since a moment ago
 * (spectral flux, as in Dixon 2006 and Böck & Widmer 2013, both *from memory*).
 *
 * @param samples one channel
 * @param rate samples a second
 */
export function onsetsOf(samples: Float32Array, rate: number): Onsets {
  const { kept, keptRate } = thinned(samples, rate, wanted);
  const frames = Math.max(0, Math.ceil(kept.length / hop));
  const bands = bandLevels(kept, keptRate, frames);
  const [all, low, level] = [new Float32Array(frames), new Float32Array(frames), new Float32Array(frames)];
  const width = edges.length - 1;
  for (let index = 0; index < frames; index++)
    for (let band = 0; band < width; band++) {
      const now = bands[index * width + band] ?? 0;
      level[index] = (level[index] ?? 0) + now / width;
      // What grows from here to two frames on, grows at the frame between.
      const grown =
        (bands[Math.min(frames - 1, index + lag / 2) * width + band] ?? 0) -
        (bands[Math.max(0, index - lag / 2) * width + band] ?? 0);
      if (grown <= 0) continue;
      all[index] = (all[index] ?? 0) + grown;
      if (band < lowBands) low[index] = (low[index] ?? 0) + grown;
    }
  const perSecond = keptRate / hop;
  const standing = { all: standingOut(all, perSecond), low: standingOut(low, perSecond) };
  return { begins: early, rate: perSecond, ...standing, level, tones: tonesOf(samples, rate) };
}

/** The loudness of each band in each frame: frames lie about their moments. Two frames go through the transform as one. */
function bandLevels(kept: Float32Array, rate: number, frames: number): Float32Array {
  const transform = fourier(frame);
  const window = Float64Array.from(
    { length: frame },
    (_, at) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (at + 0.5)) / frame),
  );
  const lines = edges.map((edge) => Math.min(frame / 2, Math.max(1, Math.round((edge * frame) / rate))));
  const width = edges.length - 1;
  const levels = new Float32Array(frames * width);
  const gain = 0.1 / (Math.sqrt(kept.reduce((sum, value) => sum + value * value, 0) / Math.max(1, kept.length)) || 1);
  const [real, imaginary] = [new Float64Array(frame), new Float64Array(frame)];
  for (let index = 0; index < frames; index += 2) {
    const from = index * hop - frame / 2;
    for (let at = 0; at < frame; at++) {
      const weight = gain * (window[at] ?? 0);
      real[at] = weight * (kept[from + at] ?? 0);
      imaginary[at] = weight * (kept[from + hop + at] ?? 0);
    }
    transform(real, imaginary);
    for (let band = 0; band < width; band++) {
      const [one, two] = powers(
        real,
        imaginary,
        lines[band] ?? 0,
        Math.max((lines[band] ?? 0) + 1, lines[band + 1] ?? 0),
      );
      levels[index * width + band] = loudness(one);
      if (index + 1 < frames) levels[(index + 1) * width + band] = loudness(two);
    }
  }
  return levels;
}

/** The power of lines of the spectrum of two frames that were transformed as one, each frame's own. */
function powers(real: Float64Array, imaginary: Float64Array, from: number, until: number): readonly [number, number] {
  let [one, two] = [0, 0];
  for (let line = from; line < until; line++) {
    const a = real[line] ?? 0;
    const b = imaginary[line] ?? 0;
    const c = real[frame - line] ?? 0;
    const d = imaginary[frame - line] ?? 0;
    one += ((a + c) ** 2 + (b - d) ** 2) / 4;
    two += ((b + d) ** 2 + (a - c) ** 2) / 4;
  }
  return [one, two];
}

/** Nearly logarithmic, so that soft music counts, and 0 for silence, so that its rustling does not. */
function loudness(power: number): number {
  return Math.log1p(20 * Math.sqrt(power));
}

/** What stands out from the seconds around it, in parts of how much usually does there. */
function standingOut(row: Float32Array, rate: number): Float32Array {
  const mean = meanAround(row, Math.round(0.4 * rate));
  const above = row.map((value, index) => Math.max(0, value - (mean[index] ?? 0)));
  const usual = meanAround(above, Math.round(4 * rate));
  const overall = above.reduce((sum, value) => sum + value, 0) / Math.max(1, above.length);
  if (overall === 0) return above;
  return above.map((value, index) => value / ((usual[index] ?? 0) + 0.5 * overall));
}

/** The mean of the values within so many frames on both sides. */
export function meanAround(row: Float32Array, reach: number): Float32Array {
  const sums = new Float64Array(row.length + 1);
  for (let index = 0; index < row.length; index++) sums[index + 1] = (sums[index] ?? 0) + (row[index] ?? 0);
  return row.map((_, index) => {
    const [from, until] = [Math.max(0, index - reach), Math.min(row.length, index + reach + 1)];
    return ((sums[until] ?? 0) - (sums[from] ?? 0)) / (until - from);
  });
}
